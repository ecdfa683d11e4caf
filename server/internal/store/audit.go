package store

import (
	"context"
	"crypto/sha256"
	"encoding/binary"
	"encoding/hex"
	"encoding/json"
	"strconv"
	"strings"

	"gorm.io/gorm"
)

// noHash stands before the first entry of a chain.
var noHash = strings.Repeat("0", 2*sha256.Size)

type auditRow struct {
	YardID   string `gorm:"primaryKey"`
	N        int64  `gorm:"primaryKey;autoIncrement:false"`
	At       int64
	TokenID  string
	Role     string
	Name     string
	Action   string
	Key      string
	Changes  []byte
	Previous string
	Hash     string
}

func (auditRow) TableName() string { return "audit" }

func (r auditRow) record() (AuditEntry, error) {
	entry := AuditEntry{N: r.N, At: instant(r.At), TokenID: r.TokenID, Role: r.Role, Name: r.Name, Action: r.Action,
		Key: r.Key, Previous: r.Previous, Hash: r.Hash}
	if err := json.Unmarshal(r.Changes, &entry.Changes); err != nil {
		return AuditEntry{}, &CorruptError{Table: "audit", ID: strconv.FormatInt(r.N, 10), Reason: "the changes cannot be read"}
	}
	return entry, nil
}

// chain is the hash over everything the entry says and the hash before it.
func (r auditRow) chain() string {
	return chainHash(r.YardID, strconv.FormatInt(r.N, 10), strconv.FormatInt(r.At, 10), r.TokenID, r.Role, r.Name,
		r.Action, r.Key, string(r.Changes), r.Previous)
}

// chainHash is the SHA-256 of texts, each behind its length so that no two lists
// of texts read alike.
func chainHash(texts ...string) string {
	sum := sha256.New()
	for _, text := range texts {
		var length [8]byte
		binary.BigEndian.PutUint64(length[:], uint64(len(text)))
		sum.Write(length[:])
		sum.Write([]byte(text))
	}
	return hex.EncodeToString(sum.Sum(nil))
}

// appendAudit adds the entry of this write and moves the head of the chain, which
// stands in the yard's row: an entry cut off the end is missed too.
func (t *Tx) appendAudit(request Request, yard yardRow) error {
	changes := t.changes
	if changes == nil {
		changes = []Change{}
	}
	body, err := json.Marshal(changes)
	if err != nil {
		return err
	}
	row := auditRow{YardID: yard.ID, N: yard.AuditN + 1, At: t.tick(), TokenID: request.Actor.TokenID, Role: request.Actor.Role,
		Name: request.Actor.Name, Action: request.Action, Key: request.Key, Changes: body, Previous: yard.AuditHash}
	row.Hash = row.chain()
	if err := t.db.Create(&row).Error; err != nil {
		return err
	}
	return t.db.Exec("UPDATE yards SET last_at = ?, audit_n = ?, audit_hash = ? WHERE id = ?", t.last, row.N, row.Hash, yard.ID).Error
}

// Audit lists the entries after number after, at most limit of them (see [Page]).
func (r Reader) Audit(ctx context.Context, after int64, limit int) ([]AuditEntry, error) {
	rows, err := r.auditRows(ctx, after, Page{Limit: limit}.size())
	if err != nil {
		return nil, err
	}
	entries := make([]AuditEntry, 0, len(rows))
	for _, row := range rows {
		entry, err := row.record()
		if err != nil {
			return nil, err
		}
		entries = append(entries, entry)
	}
	return entries, nil
}

func (r Reader) auditRows(ctx context.Context, after int64, limit int) ([]auditRow, error) {
	var rows []auditRow
	err := r.do(ctx, func(db *gorm.DB) error {
		return db.Where("yard_id = ? AND n > ?", r.yard, after).Order("n").Limit(limit).Find(&rows).Error
	})
	return rows, err
}

// auditStride is how many entries are read at once while verifying.
const auditStride = 500

// VerifyAudit walks the yard's audit from the first entry to the head that the
// yard's row names and returns an [AuditError] at the first entry that was edited,
// taken out, put in or moved. It shows tampering by someone who cannot recompute
// the whole chain and the yard's row; whoever can is only found by a head noted
// outside the database. It returns the number and the hash of the last entry.
func (r Reader) VerifyAudit(ctx context.Context) (int64, string, error) {
	var yard yardRow
	err := r.do(ctx, func(db *gorm.DB) error { return db.Where("id = ?", r.yard).Take(&yard).Error })
	if missing(err) {
		return 0, "", &NotFoundError{Kind: "yard", ID: r.yard}
	}
	if err != nil {
		return 0, "", err
	}
	n, previous := int64(0), noHash
	for n < yard.AuditN {
		rows, err := r.auditRows(ctx, n, auditStride)
		if err != nil {
			return 0, "", err
		}
		if len(rows) == 0 {
			return 0, "", &AuditError{N: n + 1, Reason: "the entry is missing"}
		}
		for _, row := range rows {
			if n == yard.AuditN {
				break // written since the yard's row was read
			}
			switch {
			case row.N != n+1:
				return 0, "", &AuditError{N: n + 1, Reason: "the entry is missing"}
			case row.Previous != previous:
				return 0, "", &AuditError{N: row.N, Reason: "the entry does not follow the one before"}
			case row.Hash != row.chain():
				return 0, "", &AuditError{N: row.N, Reason: "the entry was changed after it was written"}
			}
			n, previous = row.N, row.Hash
		}
	}
	if previous != yard.AuditHash {
		return 0, "", &AuditError{N: n, Reason: "the last entry is not the one the yard's row names"}
	}
	return n, previous, nil
}
