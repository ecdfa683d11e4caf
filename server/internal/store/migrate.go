package store

import (
	"context"
	"database/sql"
	"embed"
	"errors"
	"io/fs"

	"github.com/pressly/goose/v3"
)

//go:embed migrations/sqlite/*.sql migrations/postgres/*.sql
var migrations embed.FS

// migrationLock is the advisory lock that starts on one PostgreSQL database
// queue up behind. The number only has to differ from other programs' numbers.
const migrationLock = 7_268_310_545

// migrateTries bounds how often a start on SQLite, where nothing can be locked
// beforehand, runs the migrations again after another start was quicker.
const migrateTries = 20

// migrate brings the schema up to the newest numbered migration.
func (s *Store) migrate(ctx context.Context, pool *sql.DB) error {
	if s.place.engine == SQLite {
		var err error
		for try := 1; try <= migrateTries; try++ {
			err = s.runMigrations(ctx, pool)
			var newer *SchemaError
			if err == nil || errors.As(err, &newer) || !pause(ctx, try) {
				return err
			}
		}
		return err
	}
	lock, err := pool.Conn(ctx)
	if err != nil {
		return err
	}
	if _, err := lock.ExecContext(ctx, "SELECT pg_advisory_lock($1)", int64(migrationLock)); err != nil {
		return errors.Join(err, lock.Close())
	}
	err = s.runMigrations(ctx, pool)
	// The session goes back to the pool and would keep the lock.
	_, unlockErr := lock.ExecContext(ctx, "SELECT pg_advisory_unlock($1)", int64(migrationLock))
	return errors.Join(err, unlockErr, lock.Close())
}

func (s *Store) runMigrations(ctx context.Context, pool *sql.DB) error {
	dialect, folder := goose.DialectSQLite3, "migrations/sqlite"
	if s.place.engine == PostgreSQL {
		dialect, folder = goose.DialectPostgres, "migrations/postgres"
	}
	files, err := fs.Sub(migrations, folder)
	if err != nil {
		return err
	}
	provider, err := goose.NewProvider(dialect, pool, files, goose.WithDisableGlobalRegistry(true))
	if err != nil {
		return err
	}
	sources := provider.ListSources()
	known := sources[len(sources)-1].Version
	have, err := provider.GetDBVersion(ctx)
	if err != nil {
		return err
	}
	if have > known {
		return &SchemaError{Place: s.place.show, Have: have, Known: known}
	}
	_, err = provider.Up(ctx)
	return err
}
