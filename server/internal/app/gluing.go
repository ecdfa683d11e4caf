package app

import (
	"context"

	"ribband/server/internal/auth"
	"ribband/takeoff"
)

// Gluing is how the new blanks of an option are glued up, with the documents it rests on.
type Gluing struct {
	Basis     []Source `json:"basis"`
	BasisHash string   `json:"basis_hash"`
	takeoff.Gluing
}

// GluingOf is the gluing of an option's takeoff.
func (a *App) GluingOf(ctx context.Context, who auth.Principal, job, option string) (Gluing, error) {
	t, err := a.Takeoff(ctx, who, job, option)
	if err != nil {
		return Gluing{}, err
	}
	return Gluing{t.Basis, t.BasisHash, t.Result.Gluing}, nil
}
