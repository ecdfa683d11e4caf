package store

import (
	"crypto/sha256"
	"encoding/hex"
	"strconv"
	"time"
)

// Rows are what gorm reads and writes; they stay inside this package. Each turns
// into its record by a method that looks once more at what the database gave.

type yardRow struct {
	ID        string `gorm:"primaryKey"`
	Name      string
	Invented  bool
	CreatedAt int64 `gorm:"autoCreateTime:false"`
	LastAt    int64
	AuditN    int64
	AuditHash string
}

func (yardRow) TableName() string { return "yards" }

func (r yardRow) record() (Yard, error) {
	return Yard{ID: r.ID, Name: r.Name, Invented: r.Invented, CreatedAt: instant(r.CreatedAt)}, nil
}

type jobRow struct {
	YardID     string `gorm:"primaryKey"`
	ID         string `gorm:"primaryKey"`
	N          int64
	Boat       string
	Owner      string
	Notation   string
	Currency   string
	OpenedDate string
	Body       []byte
	CreatedAt  int64 `gorm:"autoCreateTime:false"`
	ChangedAt  int64
}

func (jobRow) TableName() string { return "jobs" }

func (r jobRow) record() (Job, error) {
	if _, err := time.Parse(time.DateOnly, r.OpenedDate); err != nil && r.OpenedDate != "" {
		return Job{}, &CorruptError{Table: "jobs", ID: r.ID, Reason: "opened_date is no calendar date"}
	}
	return Job{ID: r.ID, N: r.N, Boat: r.Boat, Owner: r.Owner, Notation: r.Notation, Currency: r.Currency,
		OpenedDate: r.OpenedDate, Body: bytesOf(r.Body), CreatedAt: instant(r.CreatedAt), ChangedAt: instant(r.ChangedAt)}, nil
}

func (r jobRow) stamp() (int64, string) { return r.CreatedAt, r.ID }

type optionRow struct {
	YardID    string `gorm:"primaryKey"`
	ID        string `gorm:"primaryKey"`
	JobID     string
	N         int64
	Name      string
	Body      []byte
	CreatedAt int64 `gorm:"autoCreateTime:false"`
	ChangedAt int64
}

func (optionRow) TableName() string { return "options" }

func (r optionRow) record() (Option, error) {
	return Option{ID: r.ID, JobID: r.JobID, N: r.N, Name: r.Name, Body: bytesOf(r.Body),
		CreatedAt: instant(r.CreatedAt), ChangedAt: instant(r.ChangedAt)}, nil
}

func (r optionRow) stamp() (int64, string) { return r.CreatedAt, r.ID }

type documentRow struct {
	YardID    string `gorm:"primaryKey"`
	Kind      string `gorm:"primaryKey"`
	ID        string `gorm:"primaryKey"`
	N         int64  `gorm:"primaryKey;autoIncrement:false"`
	Schema    int64
	Body      []byte
	Hash      string
	CreatedAt int64 `gorm:"autoCreateTime:false"`
}

func (documentRow) TableName() string { return "documents" }

func (r documentRow) record() (Document, error) {
	if HashOf(r.Body) != r.Hash {
		return Document{}, &CorruptError{Table: "documents", ID: r.Kind + " " + r.ID + " version " + strconv.FormatInt(r.N, 10),
			Reason: "the body does not match its hash"}
	}
	return Document{Kind: r.Kind, ID: r.ID, N: r.N, Schema: r.Schema, Body: bytesOf(r.Body), Hash: r.Hash, CreatedAt: instant(r.CreatedAt)}, nil
}

func (r documentRow) stamp() (int64, string) { return r.CreatedAt, r.ID }

type quoteRow struct {
	YardID    string `gorm:"primaryKey"`
	ID        string `gorm:"primaryKey"`
	JobID     string
	Number    *string
	CreatedAt int64 `gorm:"autoCreateTime:false"`
}

func (quoteRow) TableName() string { return "quotes" }

func (r quoteRow) record() (Quote, error) {
	return Quote{ID: r.ID, JobID: r.JobID, Number: textOf(r.Number), CreatedAt: instant(r.CreatedAt)}, nil
}

func (r quoteRow) stamp() (int64, string) { return r.CreatedAt, r.ID }

type revisionRow struct {
	YardID    string `gorm:"primaryKey"`
	QuoteID   string `gorm:"primaryKey"`
	N         int64  `gorm:"primaryKey;autoIncrement:false"`
	Edit      int64
	Body      []byte
	CreatedAt int64 `gorm:"autoCreateTime:false"`
	ChangedAt int64
	Number    *string
	Snapshot  []byte
	Hash      *string
	PDF       []byte  `gorm:"column:pdf"`
	PDFHash   *string `gorm:"column:pdf_hash"`
	IssuedAt  *int64
}

func (revisionRow) TableName() string { return "quote_revisions" }

func (r revisionRow) record() (Revision, error) {
	return Revision{QuoteID: r.QuoteID, N: r.N, Edit: r.Edit, Body: bytesOf(r.Body), CreatedAt: instant(r.CreatedAt), ChangedAt: instant(r.ChangedAt),
		IssuedAt: instantOf(r.IssuedAt), Number: textOf(r.Number), Hash: textOf(r.Hash), PDFHash: textOf(r.PDFHash)}, nil
}

func (r revisionRow) frozen() (Frozen, error) {
	id := r.QuoteID + " revision " + strconv.FormatInt(r.N, 10)
	if HashOf(r.Snapshot) != textOf(r.Hash) {
		return Frozen{}, &CorruptError{Table: "quote_revisions", ID: id, Reason: "the snapshot does not match its hash"}
	}
	if HashOf(r.PDF) != textOf(r.PDFHash) {
		return Frozen{}, &CorruptError{Table: "quote_revisions", ID: id, Reason: "the PDF does not match its hash"}
	}
	return Frozen{Snapshot: r.Snapshot, Hash: *r.Hash, PDF: r.PDF, PDFHash: *r.PDFHash}, nil
}

type totalRow struct {
	YardID     string `gorm:"primaryKey"`
	QuoteID    string `gorm:"primaryKey"`
	Revision   int64  `gorm:"primaryKey;autoIncrement:false"`
	OptionID   string `gorm:"primaryKey"`
	Currency   string
	NetMinor   int64
	TaxMinor   int64
	TotalMinor int64
}

func (totalRow) TableName() string { return "quote_totals" }

func (r totalRow) record() (Total, error) {
	return Total{OptionID: r.OptionID, Currency: r.Currency, NetMinor: r.NetMinor, TaxMinor: r.TaxMinor, TotalMinor: r.TotalMinor}, nil
}

type eventRow struct {
	YardID    string `gorm:"primaryKey"`
	ID        string `gorm:"primaryKey"`
	QuoteID   string
	Revision  int64
	Kind      string
	OptionID  *string
	TokenID   string
	Name      string
	Body      []byte
	CreatedAt int64 `gorm:"autoCreateTime:false"`
}

func (eventRow) TableName() string { return "quote_events" }

func (r eventRow) record() (QuoteEvent, error) {
	return QuoteEvent{ID: r.ID, QuoteID: r.QuoteID, Revision: r.Revision, Kind: r.Kind, OptionID: textOf(r.OptionID),
		TokenID: r.TokenID, Name: r.Name, Body: bytesOf(r.Body), CreatedAt: instant(r.CreatedAt)}, nil
}

func (r eventRow) stamp() (int64, string) { return r.CreatedAt, r.ID }

type tokenRow struct {
	YardID    string `gorm:"primaryKey"`
	ID        string `gorm:"primaryKey"`
	Name      string
	Role      string
	JobID     *string
	Hash      string
	CreatedAt int64 `gorm:"autoCreateTime:false"`
	ExpiresAt *int64
	RevokedAt *int64
}

func (tokenRow) TableName() string { return "tokens" }

func (r tokenRow) record() (Token, error) {
	if (r.Role == "owner") != (r.JobID != nil) {
		return Token{}, &CorruptError{Table: "tokens", ID: r.ID, Reason: "an owner's token is bound to one job, and no other is"}
	}
	return Token{ID: r.ID, YardID: r.YardID, Name: r.Name, Role: r.Role, JobID: textOf(r.JobID), Hash: r.Hash,
		CreatedAt: instant(r.CreatedAt), ExpiresAt: instantOf(r.ExpiresAt), RevokedAt: instantOf(r.RevokedAt)}, nil
}

func (r tokenRow) stamp() (int64, string) { return r.CreatedAt, r.ID }

type keyRow struct {
	YardID      string `gorm:"primaryKey"`
	TokenID     string `gorm:"primaryKey"`
	Key         string `gorm:"primaryKey"`
	RequestHash string
	Status      int
	ETag        string `gorm:"column:etag"`
	Location    string
	ContentType string
	Body        []byte
	CreatedAt   int64 `gorm:"autoCreateTime:false"`
}

func (keyRow) TableName() string { return "idempotency_keys" }

func (r keyRow) answer() Answer {
	return Answer{Status: r.Status, ETag: r.ETag, Location: r.Location, ContentType: r.ContentType, Body: bytesOf(r.Body)}
}

// HashOf is the SHA-256 of content in hexadecimal, as every hash here is written.
func HashOf(content []byte) string {
	sum := sha256.Sum256(content)
	return hex.EncodeToString(sum[:])
}

// instant turns stored microseconds into a time in UTC.
func instant(micros int64) time.Time { return time.UnixMicro(micros).UTC() }

// instantOf is instant of a column that may be empty: the zero time then.
func instantOf(micros *int64) time.Time {
	if micros == nil {
		return time.Time{}
	}
	return instant(*micros)
}

// microsOf is the column of a time that may be zero.
func microsOf(t time.Time) *int64 {
	if t.IsZero() {
		return nil
	}
	micros := t.UnixMicro()
	return &micros
}

func textOf(column *string) string {
	if column == nil {
		return ""
	}
	return *column
}

// columnOf is the column of a text that may be empty.
func columnOf(text string) *string {
	if text == "" {
		return nil
	}
	return &text
}

// bytesOf makes content that may be nil empty: nil would be stored as NULL, and
// one of the engines reads empty content back as nil.
func bytesOf(content []byte) []byte {
	if content == nil {
		return []byte{}
	}
	return content
}
