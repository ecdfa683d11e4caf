package store

import (
	"context"
	"time"

	"gorm.io/gorm"
	"gorm.io/gorm/clause"
)

// Session is what the pages keep of somebody who has signed in, under the SHA-256 of what the browser brings.
type Session struct {
	Hash      string
	Body      []byte
	ExpiresAt time.Time
}

type sessionRow struct {
	Hash      string `gorm:"primaryKey"`
	Body      []byte
	ExpiresAt int64
}

func (sessionRow) TableName() string { return "sessions" }

func (r sessionRow) record() (Session, error) {
	return Session{Hash: r.Hash, Body: bytesOf(r.Body), ExpiresAt: instant(r.ExpiresAt)}, nil
}

// SessionByHash finds a session that has not expired at now; a [NotFoundError] otherwise.
func (s *Store) SessionByHash(ctx context.Context, hash string, now time.Time) (Session, error) {
	return one[sessionRow](ctx, Reader{store: s, db: s.reader}, "session", "", func(db *gorm.DB) *gorm.DB {
		return db.Where("hash = ? AND expires_at > ?", hash, now.UnixMicro())
	})
}

// PutSession keeps a session, and takes out those that have expired at now. A session belongs to no yard, so this is
// no write of a yard: it asks for no version, takes no key and leaves no entry in an audit.
func (s *Store) PutSession(ctx context.Context, session Session, now time.Time) error {
	if err := checkText("hash", session.Hash); err != nil {
		return err
	}
	row := sessionRow{Hash: session.Hash, Body: bytesOf(session.Body), ExpiresAt: session.ExpiresAt.UnixMicro()}
	return s.sessions(ctx, func(db *gorm.DB) error {
		if err := db.Where("expires_at <= ?", now.UnixMicro()).Delete(&sessionRow{}).Error; err != nil {
			return err
		}
		return db.Clauses(clause.OnConflict{UpdateAll: true}).Create(&row).Error
	})
}

// DropSession ends a session. One that is not there has ended already.
func (s *Store) DropSession(ctx context.Context, hash string) error {
	return s.sessions(ctx, func(db *gorm.DB) error { return db.Where("hash = ?", hash).Delete(&sessionRow{}).Error })
}

// sessions changes the table in one transaction, again when the engine asks.
func (s *Store) sessions(ctx context.Context, change func(*gorm.DB) error) error {
	if inside(ctx) {
		return ErrInsideWrite
	}
	ctx, cancel := context.WithTimeout(ctx, s.patience)
	defer cancel()
	for try := 1; ; try++ {
		err := s.writer.WithContext(ctx).Transaction(change, s.isolation())
		if err == nil || !retryable(err) || try == mostTries || !pause(ctx, try) {
			return settle(ctx, err)
		}
	}
}
