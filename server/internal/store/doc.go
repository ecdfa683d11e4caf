// Package store keeps everything a yard has written down: jobs, options,
// versioned documents, quotes with their issued revisions, tokens, and the audit
// of who changed what.
//
// # Two engines, one meaning
//
// [Open] takes a file path (SQLite, built in, pure Go) or a postgres:// address.
// The same tests run on both and the same calls give the same answers: identifiers
// and stamps sort by their bytes on both, money is whole minor units, quantities
// are text, times are whole microseconds in UTC.
//
// SQLite runs with a write-ahead log and synchronous=FULL, so that an answered
// write survives a power cut. It has one connection that writes and four that may
// only read. PostgreSQL runs every write at READ COMMITTED with the yard's row
// locked first: one writer for each yard at a time, on either engine.
//
// # Reading
//
// [Store.In] gives a [Reader] bound to one yard; there is no way to read a row
// of another yard through it. Rows are checked again when they are loaded: a
// document or a snapshot whose bytes no longer match their hash is a
// [CorruptError], never an answer.
//
// # Writing
//
// [Store.Write] is the only way to change anything. It
//
//  1. begins the transaction and locks the yard's row,
//  2. looks the idempotency key up: the same request gets the stored answer
//     again, another request under the same key is a [KeyReusedError],
//  3. runs the change with a [Tx], whose methods are the only ones that write and
//     which ask for the version the caller saw ([Seen]),
//  4. stores the answer with the key,
//  5. appends the audit entry, hash-chained to the one before,
//  6. commits, and begins again when the engine asks for it.
//
// A change that fails, or panics, leaves no trace. Since a change may be run
// again, it does nothing but compute and call its Tx. The context handed to the
// change is marked: using the Store inside a change, where it would wait for
// itself or commit apart, is refused with [ErrInsideWrite].
//
// Each row gets its own stamp: the clock's microsecond, or one more than the
// newest stamp in the yard when the clock stands still or has gone back. Stamps
// only rise within a yard, in the order of the commits, which is why a list read
// page by page neither skips nor repeats a row while others write.
//
// Documents, quote events, totals, spend, the audit and issued revisions are
// append-only. Triggers refuse a change in the database itself, also to a hand
// with an SQL prompt.
//
// # Adding a migration
//
// Put one file with the next number into each of migrations/sqlite and
// migrations/postgres, under the same name, beginning with "-- +goose Up"; wrap
// triggers and functions in StatementBegin and StatementEnd. Each file is one
// transaction. A file that has landed is never changed again: databases out in
// yards have run it. There is no way down; a mistake is mended by the next
// migration. Begin each key with yard_id, use only the column types of the first
// migration, and on PostgreSQL give text COLLATE "C". Then run
//
//	go test ./server/internal/store -run Schema -update
//
// with RIBBAND_TEST_POSTGRES naming a server, and read what changed in testdata.
// Starting several servers at once on one database is safe on both engines.
// A server that meets a schema newer than its own refuses with a [SchemaError].
package store
