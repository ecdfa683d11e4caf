package store

import (
	"context"

	"gorm.io/gorm"
)

// Reader reads what one yard holds. Lists are oldest first. What the yard does
// not hold is a [NotFoundError].
type Reader struct {
	store *Store
	db    *gorm.DB // the reading handle, or the transaction's
	yard  string
	tx    *ongoing // reads inside a change
}

// In gives a reader of one yard.
func (s *Store) In(yard string) Reader {
	if textFault(yard) != "" {
		yard = "" // what cannot be stored names no yard
	}
	return Reader{store: s, db: s.reader, yard: yard}
}

// Yards lists every yard in the database, oldest first.
func (s *Store) Yards(ctx context.Context) ([]Yard, error) {
	var rows []yardRow
	err := Reader{store: s, db: s.reader}.do(ctx, func(db *gorm.DB) error {
		return db.Order("created_at, id").Find(&rows).Error
	})
	if err != nil {
		return nil, err
	}
	yards := make([]Yard, 0, len(rows))
	for _, row := range rows {
		yard, err := row.record()
		if err != nil {
			return nil, err
		}
		yards = append(yards, yard)
	}
	return yards, nil
}

// TokenByHash finds a token in any yard by the SHA-256 of its text, revoked and
// expired ones too: a bearer token names no yard, it is what tells which is meant.
func (s *Store) TokenByHash(ctx context.Context, hash string) (Token, error) {
	reader := Reader{store: s, db: s.reader}
	return one[tokenRow](ctx, reader, "token", "", func(db *gorm.DB) *gorm.DB { return db.Where("hash = ?", hash) })
}

// do runs a query within the store's patience.
func (r Reader) do(ctx context.Context, query func(*gorm.DB) error) error {
	if r.tx != nil {
		if r.tx.over {
			return &UsageError{"a transaction was used after its change had returned"}
		}
		return r.tx.note(query(r.db.WithContext(ctx)))
	}
	if inside(ctx) {
		return ErrInsideWrite
	}
	ctx, cancel := context.WithTimeout(ctx, r.store.patience)
	defer cancel()
	return settle(ctx, query(r.db.WithContext(ctx)))
}

// recorded is a row that turns into a record.
type recorded[T any] interface{ record() (T, error) }

// one reads the one row that where selects.
func one[R recorded[T], T any](ctx context.Context, r Reader, kind, id string, where func(*gorm.DB) *gorm.DB) (T, error) {
	var row R
	var none T
	err := r.do(ctx, func(db *gorm.DB) error { return where(db).Take(&row).Error })
	if missing(err) {
		return none, &NotFoundError{Kind: kind, ID: id}
	}
	if err != nil {
		return none, err
	}
	return row.record()
}

// byID reads a row of this yard by its identifier.
func byID[R recorded[T], T any](ctx context.Context, r Reader, kind, id string) (T, error) {
	if textFault(id) != "" {
		var none T
		return none, &NotFoundError{Kind: kind, ID: id}
	}
	return one[R](ctx, r, kind, id, func(db *gorm.DB) *gorm.DB { return db.Where("yard_id = ? AND id = ?", r.yard, id) })
}

// listOf reads a page of this yard's rows. An identifier that cannot be one
// selects nothing.
func listOf[R stamped[T], T any](ctx context.Context, r Reader, page Page, condition string, values ...string) (List[T], error) {
	arguments := []any{r.yard}
	for _, value := range values {
		if textFault(value) != "" {
			return List[T]{Items: []T{}}, nil
		}
		arguments = append(arguments, value)
	}
	var list List[T]
	err := r.do(ctx, func(db *gorm.DB) (err error) {
		list, err = listPage[R](db.Where("yard_id = ?"+condition, arguments...), page)
		return err
	})
	return list, err
}

// Yard reads the yard itself.
func (r Reader) Yard(ctx context.Context) (Yard, error) {
	return one[yardRow](ctx, r, "yard", r.yard, func(db *gorm.DB) *gorm.DB { return db.Where("id = ?", r.yard) })
}

// Job reads one job.
func (r Reader) Job(ctx context.Context, id string) (Job, error) {
	return byID[jobRow](ctx, r, "job", id)
}

// Jobs lists the yard's jobs.
func (r Reader) Jobs(ctx context.Context, page Page) (List[Job], error) {
	return listOf[jobRow](ctx, r, page, "")
}

// Option reads one option.
func (r Reader) Option(ctx context.Context, id string) (Option, error) {
	return byID[optionRow](ctx, r, "option", id)
}

// Options lists a job's options.
func (r Reader) Options(ctx context.Context, jobID string, page Page) (List[Option], error) {
	return listOf[optionRow](ctx, r, page, " AND job_id = ?", jobID)
}

// Token reads one token of the yard.
func (r Reader) Token(ctx context.Context, id string) (Token, error) {
	return byID[tokenRow](ctx, r, "token", id)
}

// Tokens lists the yard's tokens, revoked ones too.
func (r Reader) Tokens(ctx context.Context, page Page) (List[Token], error) {
	return listOf[tokenRow](ctx, r, page, "")
}
