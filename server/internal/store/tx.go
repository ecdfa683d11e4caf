package store

import (
	"context"
	"encoding/json"
	"errors"
	"fmt"
	"strconv"
	"time"

	"gorm.io/gorm"
)

// Seen is the version a caller saw before it asks for a change: a version from 1
// on, or [Absent]. The zero value says nothing and is refused.
type Seen int64

// Absent says that the caller saw nothing there: the write must be the first.
const Absent Seen = -1

// Tx is one running write. Its methods are the only ones that change anything;
// its [Reader] sees what the transaction has written so far. It is used by one
// goroutine and is worth nothing once the change has returned.
type Tx struct {
	Reader
	actor   Actor
	now     time.Time
	last    int64 // newest stamp given out in this yard
	changes []Change
}

// YardID is the yard that this write is in.
func (t *Tx) YardID() string { return t.yard }

// tick gives out the stamp of the next row.
func (t *Tx) tick() int64 {
	t.last = nextStamp(t.now, t.last)
	return t.last
}

// identify gives out the stamp and the identifier of the next row.
func (t *Tx) identify() (int64, string, error) {
	at := t.tick()
	id, err := newID(at, t.store.entropy)
	return at, id, err
}

// NewID is an identifier for something that is only put as a document. Rows of
// their own get theirs when they are added.
func (t *Tx) NewID() (string, error) {
	_, id, err := t.identify()
	return id, err
}

// changed notes a row for the audit.
func (t *Tx) changed(what, id string, n int64, hash string) {
	t.changes = append(t.changes, Change{What: what, ID: id, N: n, Hash: hash})
}

// rowHash is the hash of a row's content for the audit.
func rowHash(row any) (string, error) {
	content, err := json.Marshal(row)
	if err != nil {
		return "", fmt.Errorf("content of a row: %w", err)
	}
	return HashOf(content), nil
}

// match compares the version a caller saw with the one that stands; 0 stands for
// nothing there.
func match(kind, id string, seen Seen, current int64) error {
	switch {
	case seen == Absent && current == 0, int64(seen) == current && current > 0:
		return nil
	case seen == Absent:
		return &ExistsError{Kind: kind, ID: id, Current: current}
	case seen <= 0:
		return &UnseenError{Kind: kind, ID: id}
	}
	return &StaleError{Kind: kind, ID: id, Seen: int64(seen), Current: current}
}

// PutDocument writes the next version of a document: the first one where seen is
// [Absent], else the one after seen. Kind, ID, Schema and Body are taken from
// the document; the rest is filled in. Errors: [ExistsError], [StaleError],
// [UnseenError], [TextError].
func (t *Tx) PutDocument(ctx context.Context, document Document, seen Seen) (Document, error) {
	if !isKind(document.Kind) || document.ID == "" || document.Schema < 1 {
		return Document{}, &UsageError{"a document has a kind in lower case, an identifier and a schema from 1"}
	}
	if err := checkText("id", document.ID); err != nil {
		return Document{}, err
	}
	if err := checkBody(document.Kind, document.Body); err != nil {
		return Document{}, err
	}
	row := documentRow{YardID: t.yard, Kind: document.Kind, ID: document.ID, Schema: document.Schema,
		Body: bytesOf(document.Body), Hash: HashOf(document.Body)}
	err := t.do(ctx, func(db *gorm.DB) error {
		return db.Model(&documentRow{}).Select("COALESCE(MAX(n), 0)").
			Where("yard_id = ? AND kind = ? AND id = ?", t.yard, row.Kind, row.ID).Scan(&row.N).Error
	})
	if err != nil {
		return Document{}, err
	}
	if err := match(row.Kind, row.ID, seen, row.N); err != nil {
		return Document{}, err
	}
	row.N++
	row.CreatedAt = t.tick()
	if err := t.do(ctx, func(db *gorm.DB) error { return db.Create(&row).Error }); err != nil {
		return Document{}, err
	}
	t.changed("document "+row.Kind, row.ID, row.N, row.Hash)
	return row.record()
}

// ForgetKeys removes idempotency keys older than before and tells how many. Keys
// are kept for at least as long as the contract promises; that is the caller's.
func (t *Tx) ForgetKeys(ctx context.Context, before time.Time) (int64, error) {
	var count int64
	err := t.do(ctx, func(db *gorm.DB) error {
		done := db.Where("yard_id = ? AND created_at < ?", t.yard, before.UnixMicro()).Delete(&keyRow{})
		count = done.RowsAffected
		return done.Error
	})
	if err != nil {
		return 0, err
	}
	t.changed("idempotency keys", strconv.FormatInt(count, 10), 0, "")
	return count, nil
}

// Next takes the next number of a series in a year, from 1 without gaps: a write
// that fails gives its number back.
func (t *Tx) Next(ctx context.Context, series string, year int) (int64, error) {
	if !isKind(series) {
		return 0, &UsageError{"a series is named in lower case"}
	}
	var last int64
	// No upsert: on SQLite it fires the insert trigger, which refuses a counter
	// that is there. The yard's lock leaves nobody in between.
	err := t.do(ctx, func(db *gorm.DB) error {
		found := db.Raw("UPDATE counters SET last = last + 1 WHERE yard_id = ? AND series = ? AND year = ? RETURNING last",
			t.yard, series, year).Scan(&last)
		if found.Error != nil || last > 0 {
			return found.Error
		}
		last = 1
		return db.Exec("INSERT INTO counters (yard_id, series, year, last) VALUES (?, ?, ?, ?)", t.yard, series, year, last).Error
	})
	if err != nil {
		return 0, err
	}
	t.changed("number "+series, fmt.Sprintf("%d-%04d", year, last), 0, "")
	return last, nil
}

// parentMissing turns the engine's word for a missing parent row into ours.
func parentMissing(err error, kind, id string) error {
	if errors.Is(err, errNoParent) {
		return &NotFoundError{Kind: kind, ID: id}
	}
	return err
}

// duplicated turns the engine's word for a key that is taken into ours. Of a row that is added, SQLite's trigger
// against REPLACE says the same.
func duplicated(err error, kind, id string) error {
	var stands *ImmutableError
	if errors.Is(err, errDuplicate) || errors.As(err, &stands) {
		return &ExistsError{Kind: kind, ID: id}
	}
	return err
}
