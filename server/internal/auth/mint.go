package auth

import (
	"context"
	"fmt"
	"time"

	"ribband/server/internal/store"
)

// Grant says what a new token is to stand for.
type Grant struct {
	Name      string // whose it is
	Role      Role
	Job       string    // the one job an owner sees; empty for every other role
	ExpiresAt time.Time // zero: does not expire
}

// Minted is a token that was just made. Its secret is shown once.
type Minted struct {
	Token  store.Token
	Secret Secret
}

// Mint makes a token inside a write. An owner's needs a job, no other may have one.
// The secret is worth something only once the write has been committed.
func Mint(ctx context.Context, tx *store.Tx, grant Grant) (Minted, error) {
	if !grant.Role.Known() {
		return Minted{}, fmt.Errorf("there is no role %q; the roles are lead, estimator, accountant and owner", grant.Role)
	}
	if (grant.Role == Owner) != (grant.Job != "") {
		return Minted{}, fmt.Errorf("an owner's token is bound to one job and no other role's is, here role %s and job %q", grant.Role, grant.Job)
	}
	secret, err := NewSecret()
	if err != nil {
		return Minted{}, err
	}
	token, err := tx.AddToken(ctx, store.Token{Name: grant.Name, Role: string(grant.Role), JobID: grant.Job,
		Hash: secret.Hash(), ExpiresAt: grant.ExpiresAt})
	if err != nil {
		return Minted{}, err
	}
	return Minted{Token: token, Secret: secret}, nil
}

// MintAll puts every token of the yard out of force and makes one of each role,
// the owner's bound to job, in the order of [Roles]; each is named after its role.
func MintAll(ctx context.Context, tx *store.Tx, job string) ([]Minted, error) {
	if _, err := tx.RevokeTokens(ctx); err != nil {
		return nil, err
	}
	var minted []Minted
	for _, role := range Roles() {
		grant := Grant{Name: "demo " + string(role), Role: role}
		if role == Owner {
			grant.Job = job
		}
		token, err := Mint(ctx, tx, grant)
		if err != nil {
			return nil, err
		}
		minted = append(minted, token)
	}
	return minted, nil
}
