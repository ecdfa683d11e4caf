package store

import (
	"context"
	"database/sql"
	"errors"
	"time"

	"gorm.io/gorm"
	"gorm.io/gorm/clause"
)

// mostTries bounds how often one write is begun again because the engine asks.
const mostTries = 5

// Actor is who asks for a write. The server itself has a name and no token.
type Actor struct {
	TokenID string
	Role    string
	Name    string
}

// Request says for whom and under which key a change is made.
type Request struct {
	Yard   string
	Actor  Actor
	Action string // what is done, for the audit: the operation's name

	// Key is the idempotency key, RequestHash what makes the request the same one
	// (see [RequestHash]). Both or none.
	Key         string
	RequestHash string

	// Found makes the yard itself, in the same transaction and before the change.
	Found *Founding
}

// Founding makes a new yard. Where Request.Yard is empty the yard gets a new
// identifier, which the change reads from [Tx.YardID].
type Founding struct {
	Name     string
	Invented bool // a demonstration yard
	// Alone refuses with [ExistsError] when the database holds any yard already.
	// Of several servers that start at once on an empty database one founds it.
	Alone bool
}

// Answer is what the caller of a write is told, kept with its key: the same
// request gets the same bytes again.
type Answer struct {
	Status      int // 200 to 299; 0 where nobody is told, which no key may keep
	ETag        string
	Location    string
	ContentType string
	Body        []byte
}

// RequestHash is the SHA-256, in hexadecimal, of what makes two requests the same:
// method, target (path with query) and body.
func RequestHash(method, target string, body []byte) string {
	return chainHash(method, target, string(body))
}

// insideKey marks the context of a running change.
type insideKey struct{}

// inside tells whether a change is running with this context.
func inside(ctx context.Context) bool { return ctx.Value(insideKey{}) != nil }

// Write runs one change as one transaction: lock of the yard, idempotency, the
// change, the stored answer, the audit entry, commit, and all of it again when the
// engine asks. It returns the answer and whether it was one stored before.
//
// The change gets a context to hand on and a [Tx] to write with. It may be run
// several times, so it changes nothing outside its Tx but variables it sets anew
// each time. When it returns an error or panics nothing is kept, the key neither.
//
// Errors, besides the change's own: [NotFoundError] for an unknown yard,
// [KeyReusedError], [BusyError], [UnavailableError], [TextError], [UsageError],
// [ErrInsideWrite].
func (s *Store) Write(ctx context.Context, request Request, change func(context.Context, *Tx) (Answer, error)) (Answer, bool, error) {
	if inside(ctx) {
		return Answer{}, false, ErrInsideWrite
	}
	if err := request.check(); err != nil {
		return Answer{}, false, err
	}
	ctx, cancel := context.WithTimeout(ctx, s.patience)
	defer cancel()
	for try := 1; ; try++ {
		answer, replayed, err := s.attempt(ctx, request, change)
		if err == nil {
			return answer, replayed, nil
		}
		if !retryable(err) {
			return Answer{}, false, settle(ctx, err)
		}
		if try == mostTries {
			return Answer{}, false, &BusyError{RetryAfter: retryAfterBusy, Tries: try, Cause: err}
		}
		if !pause(ctx, try) {
			return Answer{}, false, settle(ctx, ctx.Err())
		}
	}
}

func (r Request) check() error {
	switch {
	case r.Action == "":
		return &UsageError{"a write names no action"}
	case r.Yard == "" && r.Found == nil:
		return &UsageError{"a write names no yard"}
	case (r.Key == "") != (r.RequestHash == ""):
		return &UsageError{"an idempotency key and the request's hash go together"}
	case r.Key != "" && r.Actor.TokenID == "":
		return &UsageError{"an idempotency key belongs to a token"}
	}
	return checkText("yard", r.Yard, "action", r.Action, "Idempotency-Key", r.Key,
		"token", r.Actor.TokenID, "role", r.Actor.Role, "name", r.Actor.Name)
}

// attempt runs the transaction once.
func (s *Store) attempt(ctx context.Context, request Request, change func(context.Context, *Tx) (Answer, error)) (Answer, bool, error) {
	db := s.writer.WithContext(ctx).Begin(s.isolation())
	if db.Error != nil {
		return Answer{}, false, db.Error
	}
	committed := false
	state := &ongoing{}
	// Also on the way of a panic, which goes on to whoever answers the request.
	defer func() {
		state.over = true
		if !committed {
			db.Rollback()
		}
	}()
	yard, err := s.lockYard(db, request)
	if err != nil {
		return Answer{}, false, err
	}
	request.Yard = yard.ID
	if request.Key != "" {
		stored, found, err := storedAnswer(db, request)
		if err != nil || found {
			return stored, found, err
		}
	}
	tx := &Tx{Reader: Reader{store: s, db: db, yard: yard.ID, tx: state}, actor: request.Actor, now: s.now(), last: yard.LastAt}
	if request.Found != nil {
		tx.changed("yard", yard.ID, 1, "")
	}
	answer, err := change(context.WithValue(ctx, insideKey{}, true), tx)
	answer.Body = bytesOf(answer.Body) // the same as it will be read back
	if err == nil {
		err = state.broken // a change may not carry on over a failed statement
	}
	if err == nil {
		err = tx.finish(request, yard, answer)
	}
	if err != nil {
		return Answer{}, false, err
	}
	if err := db.Commit().Error; err != nil {
		return Answer{}, false, err
	}
	committed = true
	return answer, false, nil
}

// isolation is READ COMMITTED on PostgreSQL whatever the server's default: with
// the yard's row locked first, SERIALIZABLE only adds failures. SQLite's writer
// begins IMMEDIATE by its address.
func (s *Store) isolation() *sql.TxOptions {
	if s.place.engine == PostgreSQL {
		return &sql.TxOptions{Isolation: sql.LevelReadCommitted}
	}
	return &sql.TxOptions{}
}

// lockYard takes the yard's row for this transaction, and makes it first where
// the request says so.
func (s *Store) lockYard(db *gorm.DB, request Request) (yardRow, error) {
	if request.Found != nil {
		return s.found(db, request)
	}
	query := db.Where("id = ?", request.Yard)
	if s.place.engine == PostgreSQL {
		query = query.Clauses(clause.Locking{Strength: "NO KEY UPDATE"})
	}
	var row yardRow
	if err := query.Take(&row).Error; missing(err) {
		return row, &NotFoundError{Kind: "yard", ID: request.Yard}
	} else if err != nil {
		return row, err
	}
	return row, nil
}

// found makes the yard. Two founders wait for each other: there is no row yet
// that could be locked.
func (s *Store) found(db *gorm.DB, request Request) (yardRow, error) {
	if err := checkText("name", request.Found.Name); err != nil {
		return yardRow{}, err
	}
	if s.place.engine == PostgreSQL {
		if err := db.Exec("LOCK TABLE yards IN SHARE ROW EXCLUSIVE MODE").Error; err != nil {
			return yardRow{}, err
		}
	}
	query := db
	if !request.Found.Alone {
		query = db.Where("id = ?", request.Yard)
	}
	var there []yardRow
	if err := query.Order("created_at, id").Limit(1).Find(&there).Error; err != nil {
		return yardRow{}, err
	}
	if len(there) > 0 {
		return yardRow{}, &ExistsError{Kind: "yard", ID: there[0].ID}
	}
	at := s.now().UnixMicro()
	row := yardRow{ID: request.Yard, Name: request.Found.Name, Invented: request.Found.Invented,
		CreatedAt: at, LastAt: at, AuditHash: noHash}
	if row.ID == "" {
		var err error
		if row.ID, err = newID(at, s.entropy); err != nil {
			return yardRow{}, err
		}
	}
	return row, db.Create(&row).Error
}

// storedAnswer looks up what this key was answered before.
func storedAnswer(db *gorm.DB, request Request) (Answer, bool, error) {
	var row keyRow
	err := db.Where("yard_id = ? AND token_id = ? AND key = ?", request.Yard, request.Actor.TokenID, request.Key).Take(&row).Error
	switch {
	case missing(err):
		return Answer{}, false, nil
	case err != nil:
		return Answer{}, false, err
	case row.RequestHash != request.RequestHash:
		return Answer{}, false, &KeyReusedError{Key: request.Key}
	}
	return row.answer(), true, nil
}

// ongoing is the state of a transaction, shared by everything that uses it.
type ongoing struct {
	broken error // the first fault of a statement
	over   bool  // committed or rolled back
}

// note remembers a failed statement: whatever the change makes of it, the
// transaction will not be committed.
func (o *ongoing) note(err error) error {
	if err == nil || missing(err) {
		return err
	}
	var cursor *CursorError
	if o.broken == nil && !errors.As(err, &cursor) {
		o.broken = err
	}
	return err
}

// finish stores the answer and appends the audit entry.
func (t *Tx) finish(request Request, yard yardRow, answer Answer) error {
	if answer.Status != 0 && (answer.Status < 200 || answer.Status > 299) {
		return &UsageError{"a change answers with a status of 200 to 299; anything else is returned as an error"}
	}
	if request.Key != "" {
		if answer.Status == 0 {
			return &UsageError{"a change under an idempotency key answers nothing"}
		}
		if err := checkText("ETag", answer.ETag, "Location", answer.Location, "Content-Type", answer.ContentType); err != nil {
			return err
		}
		row := keyRow{YardID: yard.ID, TokenID: request.Actor.TokenID, Key: request.Key, RequestHash: request.RequestHash,
			Status: answer.Status, ETag: answer.ETag, Location: answer.Location, ContentType: answer.ContentType,
			Body: answer.Body, CreatedAt: t.tick()}
		if err := t.db.Create(&row).Error; err != nil {
			return err
		}
	}
	return t.appendAudit(request, yard)
}

// Now is the clock's time at which this transaction began, in UTC and whole
// microseconds: for dates on paper and the year in a number.
func (t *Tx) Now() time.Time { return t.now.UTC().Truncate(time.Microsecond) }
