package store

import (
	"context"
	"database/sql"
	"database/sql/driver"
	"errors"
	"net"
	"strings"
	"time"

	"github.com/jackc/pgx/v5"
	"github.com/jackc/pgx/v5/pgconn"
	"gorm.io/driver/postgres"
	"gorm.io/driver/sqlite"
	"gorm.io/gorm"
	lite "modernc.org/sqlite"
)

// Engine names the kind of database underneath.
type Engine string

// The two engines.
const (
	SQLite     Engine = "sqlite"
	PostgreSQL Engine = "postgres"
)

// Result codes of SQLite (sqlite.org/rescode.html) that the store tells apart.
const (
	liteBusy       = 5
	liteLocked     = 6
	liteReadOnly   = 8
	liteInterrupt  = 9
	liteIOError    = 10
	liteCorrupt    = 11
	liteFull       = 13
	liteCannotOpen = 14
	liteNotADB     = 26
	liteForeignKey = 787
	liteTrigger    = 1811 // ON DELETE RESTRICT, and every RAISE(ABORT)
	litePrimaryKey = 1555
	liteUnique     = 2067
)

const appendOnly = "append-only: "

// Faults of the engines that the methods of Tx turn into errors of their own.
var (
	errDuplicate = errors.New("a row with this key exists")
	errNoParent  = errors.New("the row this one belongs to does not exist")
)

// liteDialect is gorm's SQLite dialect with a translation that knows the errors
// of the pure-Go engine; the stock one recognises none of them.
type liteDialect struct{ *sqlite.Dialector }

func (liteDialect) Translate(err error) error { return translate(err) }

// pgDialect is gorm's PostgreSQL dialect with the same translation.
type pgDialect struct{ *postgres.Dialector }

func (pgDialect) Translate(err error) error { return translate(err) }

// joined keeps what the engine said beside what it means here.
type joined struct{ means, cause error }

func (j *joined) Error() string   { return j.means.Error() + " (" + j.cause.Error() + ")" }
func (j *joined) Unwrap() []error { return []error{j.means, j.cause} }

// translate gives an engine's error its meaning. Errors that ask for another try
// and errors it does not know come back as they are.
func translate(err error) error {
	var already *joined
	if err == nil || errors.As(err, &already) {
		return err
	}
	var pg *pgconn.PgError
	if errors.As(err, &pg) {
		return translatePostgres(pg, err)
	}
	var sl *lite.Error
	if errors.As(err, &sl) {
		return translateSQLite(sl.Code(), sl.Error(), err)
	}
	var connect *pgconn.ConnectError
	var network net.Error
	switch {
	case errors.As(err, &connect), errors.As(err, &network),
		errors.Is(err, driver.ErrBadConn), errors.Is(err, net.ErrClosed):
		return &UnavailableError{RetryAfter: retryAfterOutage, Cause: err}
	}
	return err
}

func translatePostgres(pg *pgconn.PgError, err error) error {
	switch pg.Code {
	case "RB001":
		return &joined{&ImmutableError{Kind: strings.TrimPrefix(pg.Message, appendOnly)}, err}
	case "23505":
		return &joined{errDuplicate, err}
	case "23503":
		return &joined{errNoParent, err}
	case "22021":
		return &joined{&TextError{Reason: "holds bytes that are not text"}, err}
	case "25006", "53100", "53200", "53300", "57P01", "57P02", "57P03":
		return &UnavailableError{RetryAfter: retryAfterOutage, Cause: err}
	}
	if strings.HasPrefix(pg.Code, "08") || strings.HasPrefix(pg.Code, "58") {
		return &UnavailableError{RetryAfter: retryAfterOutage, Cause: err}
	}
	return err
}

func translateSQLite(code int, text string, err error) error {
	switch code {
	case litePrimaryKey, liteUnique:
		return &joined{errDuplicate, err}
	case liteForeignKey:
		return &joined{errNoParent, err}
	case liteTrigger:
		if _, table, found := strings.Cut(text, appendOnly); found {
			table, _, _ = strings.Cut(table, " ")
			return &joined{&ImmutableError{Kind: table}, err}
		}
		if strings.Contains(text, "FOREIGN KEY") {
			return &joined{errNoParent, err}
		}
		return err
	}
	switch code & 0xff {
	case liteFull, liteIOError, liteReadOnly, liteCannotOpen:
		return &UnavailableError{RetryAfter: retryAfterOutage, Cause: err}
	case liteCorrupt, liteNotADB:
		return &joined{&CorruptError{Table: "database", Reason: text}, err}
	}
	return err
}

// retryable tells whether the engine asks for the whole transaction again:
// serialization failure and deadlock on PostgreSQL; busy, locked and busy
// snapshot on SQLite.
func retryable(err error) bool {
	var pg *pgconn.PgError
	if errors.As(err, &pg) {
		return pg.Code == "40001" || pg.Code == "40P01"
	}
	var sl *lite.Error
	if errors.As(err, &sl) {
		return sl.Code()&0xff == liteBusy || sl.Code()&0xff == liteLocked
	}
	return false
}

// Waits that an UnavailableError and a BusyError name. Assumption: an outage is
// not over within a second, a crowd usually is.
const (
	retryAfterOutage = 5 * time.Second
	retryAfterBusy   = time.Second
)

// settle is the last look at an error before it leaves the store: an expired
// deadline is the database not answering, a caller that left is its own fault.
func settle(ctx context.Context, err error) error {
	if err == nil {
		return nil
	}
	if errors.Is(ctx.Err(), context.Canceled) {
		return context.Canceled
	}
	err = translate(err)
	var unavailable *UnavailableError
	if errors.As(err, &unavailable) {
		return err
	}
	var sl *lite.Error
	interrupted := errors.As(err, &sl) && sl.Code()&0xff == liteInterrupt
	expired := errors.Is(err, context.DeadlineExceeded) ||
		ctx.Err() != nil && (interrupted || errors.Is(err, sql.ErrTxDone) || errors.Is(err, context.Canceled))
	switch {
	case expired:
		return &UnavailableError{RetryAfter: retryAfterOutage, Cause: context.DeadlineExceeded}
	case retryable(err):
		return &BusyError{RetryAfter: retryAfterBusy, Tries: 1, Cause: err}
	}
	return err
}

// missing tells whether a query found no row.
func missing(err error) bool {
	return errors.Is(err, gorm.ErrRecordNotFound) || errors.Is(err, sql.ErrNoRows) || errors.Is(err, pgx.ErrNoRows)
}
