package store

import (
	"context"

	"gorm.io/gorm"
)

// AddToken keeps the hash of a token that was just made. Name, Role, JobID, Hash
// and ExpiresAt are taken, the rest is filled in. Errors: [NotFoundError] for the
// job, [ExistsError] for a hash that is kept already, [TextError].
func (t *Tx) AddToken(ctx context.Context, token Token) (Token, error) {
	if err := checkText("name", token.Name, "role", token.Role, "job", token.JobID, "hash", token.Hash); err != nil {
		return Token{}, err
	}
	at, id, err := t.identify()
	if err != nil {
		return Token{}, err
	}
	row := tokenRow{YardID: t.yard, ID: id, Name: token.Name, Role: token.Role, JobID: columnOf(token.JobID), Hash: token.Hash,
		CreatedAt: at, ExpiresAt: microsOf(token.ExpiresAt)}
	if err := t.do(ctx, func(db *gorm.DB) error { return db.Create(&row).Error }); err != nil {
		return Token{}, duplicated(parentMissing(err, "job", token.JobID), "token", id)
	}
	return row.noted(t)
}

// RevokeToken puts a token out of force from now on. Revoking it again changes
// nothing.
func (t *Tx) RevokeToken(ctx context.Context, id string) (Token, error) {
	token, err := t.Token(ctx, id)
	if err != nil || !token.RevokedAt.IsZero() {
		return token, err
	}
	at := t.tick()
	err = t.do(ctx, func(db *gorm.DB) error {
		return db.Model(&tokenRow{}).Where("yard_id = ? AND id = ?", t.yard, id).UpdateColumn("revoked_at", at).Error
	})
	if err != nil {
		return Token{}, err
	}
	t.changed("token revoked", id, 0, "")
	token.RevokedAt = instant(at)
	return token, nil
}

// RevokeTokens puts every token of the yard out of force that still is in force,
// and tells how many those were.
func (t *Tx) RevokeTokens(ctx context.Context) (int, error) {
	var ids []string
	err := t.do(ctx, func(db *gorm.DB) error {
		return db.Model(&tokenRow{}).Where("yard_id = ? AND revoked_at IS NULL", t.yard).Order("created_at, id").Pluck("id", &ids).Error
	})
	if err != nil {
		return 0, err
	}
	for _, id := range ids {
		if _, err := t.RevokeToken(ctx, id); err != nil {
			return 0, err
		}
	}
	return len(ids), nil
}

// noted enters the row into the audit, its hash covering the token's hash, and
// hands it back as a record.
func (r tokenRow) noted(t *Tx) (Token, error) {
	hash, err := rowHash(r)
	if err != nil {
		return Token{}, err
	}
	t.changed("token", r.ID, 0, hash)
	return r.record()
}
