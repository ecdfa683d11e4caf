package store

import (
	"errors"
	"fmt"
	"time"
)

// ErrInsideWrite is returned by every method of the [Store] and of a [Reader]
// taken from it when they are called with the context of a running change. Use
// the methods of the [Tx] there.
var ErrInsideWrite = errors.New("the store was used inside a change; use the transaction that was handed in")

// NotFoundError says that the yard holds no such thing. Things of other yards
// are not found either.
type NotFoundError struct {
	Kind string // "job", "option", "quote", "revision", "token", "yard", or a document's kind
	ID   string
}

func (e *NotFoundError) Error() string {
	return fmt.Sprintf("there is no %s %q in this yard", e.Kind, e.ID)
}

// StaleError says that the caller saw an older version than the one that stands.
type StaleError struct {
	Kind    string
	ID      string
	Seen    int64 // the version the caller named
	Current int64 // the version that stands; 0 when nothing stands there yet
}

func (e *StaleError) Error() string {
	if e.Current == 0 {
		return fmt.Sprintf("%s %q has no version yet, version %d was named", e.Kind, e.ID, e.Seen)
	}
	return fmt.Sprintf("%s %q is at version %d, version %d was named", e.Kind, e.ID, e.Current, e.Seen)
}

// ExistsError says that a first write met something already there.
type ExistsError struct {
	Kind    string
	ID      string
	Current int64 // the version that stands, where there is one
}

func (e *ExistsError) Error() string {
	return fmt.Sprintf("%s %q exists already", e.Kind, e.ID)
}

// UnseenError says that a change named neither [Absent] nor a version it saw.
type UnseenError struct {
	Kind string
	ID   string
}

func (e *UnseenError) Error() string {
	return fmt.Sprintf("the change of %s %q names no version it saw", e.Kind, e.ID)
}

// KeyReusedError says that an idempotency key came back with another request.
type KeyReusedError struct{ Key string }

func (e *KeyReusedError) Error() string {
	return fmt.Sprintf("the key %q was used for another request", e.Key)
}

// ImmutableError says that a row which stands for ever was to be changed.
type ImmutableError struct {
	Kind string // the table, or "revision" when it was caught before the database
	ID   string // may be empty
}

func (e *ImmutableError) Error() string {
	if e.ID == "" {
		return fmt.Sprintf("%s cannot be changed once written", e.Kind)
	}
	return fmt.Sprintf("%s %q cannot be changed once issued", e.Kind, e.ID)
}

// UnavailableError says that the database did not answer in time or cannot be
// reached or written now. The same request may work later.
type UnavailableError struct {
	RetryAfter time.Duration // how long to wait before trying again
	Cause      error
}

func (e *UnavailableError) Error() string {
	return fmt.Sprintf("the database is not available: %v", e.Cause)
}
func (e *UnavailableError) Unwrap() error { return e.Cause }

// BusyError says that others wrote at the same time and every try was turned
// away by the engine. Nothing was written.
type BusyError struct {
	RetryAfter time.Duration
	Tries      int
	Cause      error
}

func (e *BusyError) Error() string {
	return fmt.Sprintf("the database was busy, %d tries: %v", e.Tries, e.Cause)
}
func (e *BusyError) Unwrap() error { return e.Cause }

// TextError says that a text holds a NUL or is not UTF-8. One engine would store
// it and the other would not, so neither does.
type TextError struct {
	Field  string
	Reason string
}

func (e *TextError) Error() string {
	if e.Field == "" {
		return "a text " + e.Reason
	}
	return fmt.Sprintf("%s %s", e.Field, e.Reason)
}

// CursorError says that a list was asked to go on from a place no list gave out.
type CursorError struct{ Cursor string }

func (e *CursorError) Error() string {
	return "the cursor was not given out by this list; begin again without one"
}

// PlaceError says why a database cannot be opened at an address and what to do.
type PlaceError struct {
	Place  string // path, or host and database, never a password
	Reason string
	Fix    string
	Cause  error // may be nil
}

func (e *PlaceError) Error() string {
	return fmt.Sprintf("cannot keep the database at %s: %s. %s", e.Place, e.Reason, e.Fix)
}
func (e *PlaceError) Unwrap() error { return e.Cause }

// SchemaError says that the database was written by a newer server than this one.
type SchemaError struct {
	Place string
	Have  int64 // the number of the newest migration in the database
	Known int64 // the number of the newest migration in this server
}

func (e *SchemaError) Error() string {
	return fmt.Sprintf("the database at %s is at schema %d, this server knows schemas up to %d; start a newer server", e.Place, e.Have, e.Known)
}

// CorruptError says that a stored row no longer is what was written.
type CorruptError struct {
	Table  string
	ID     string
	Reason string
}

func (e *CorruptError) Error() string {
	return fmt.Sprintf("stored row %s %s is damaged: %s", e.Table, e.ID, e.Reason)
}

// AuditError says where the audit chain of a yard is broken.
type AuditError struct {
	N      int64 // the first entry that does not follow
	Reason string
}

func (e *AuditError) Error() string {
	return fmt.Sprintf("the audit is broken at entry %d: %s", e.N, e.Reason)
}

// UsageError says that a caller inside the server used the store wrongly: a
// fault of the program, never of the request.
type UsageError struct{ Reason string }

func (e *UsageError) Error() string { return "store used wrongly: " + e.Reason }
