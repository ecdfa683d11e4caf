package app

import (
	"context"
	"errors"

	"ribband/server/internal/auth"
	"ribband/server/internal/store"
)

// kindLetterhead is the kind of the yard's letterhead.
const kindLetterhead = "letterhead"

// Letterhead is who makes the estimate, as it stands on paper.
type Letterhead struct {
	Name    string   `json:"name"`
	Address []string `json:"address,omitempty"`
	Contact string   `json:"contact,omitempty"`
	Note    string   `json:"note,omitempty"`
}

// letterhead reads the yard's letterhead; a yard without one has its name alone.
func (a *App) letterhead(ctx context.Context, yard string) (Letterhead, error) {
	in := a.store.In(yard)
	d, err := in.Document(ctx, kindLetterhead, yardOwn)
	var none *store.NotFoundError
	if errors.As(err, &none) {
		y, err := in.Yard(ctx)
		return Letterhead{Name: y.Name}, err
	}
	if err != nil {
		return Letterhead{}, err
	}
	return stored[Letterhead](d.Kind, d.Body)
}

// Letterhead reads who the yard is, as pages and paper show it.
func (a *App) Letterhead(ctx context.Context, who auth.Principal) (Letterhead, error) {
	return a.letterhead(ctx, who.Yard)
}
