package app

import (
	"context"
	"errors"

	"ribband/server/internal/auth"
	"ribband/server/internal/store"
	"ribband/takeoff/document"
)

// kindLetterhead is the kind of the yard's letterhead.
const kindLetterhead = "letterhead"

// Letterhead is who makes the estimate, as it stands on paper.
type Letterhead struct {
	Name    string   `json:"name"`
	Address []string `json:"address,omitempty"`
	Contact string   `json:"contact,omitempty"`
	// Note is the program's word on the whole estimate, never the yard's own.
	Note string `json:"note,omitempty"`
}

// YardFields is what a yard says of itself.
type YardFields struct {
	Name    string   `json:"name"`
	Address []string `json:"address,omitempty"`
	Contact string   `json:"contact,omitempty"`
}

func (f YardFields) check() document.Faults {
	var faults document.Faults
	named(&faults, "/name", f.Name)
	lines(&faults, "/address", f.Address)
	short(&faults, "/contact", f.Contact, longestText)
	return faults
}

// Yard reads who the yard is, once it has said so.
func (a *App) Yard(ctx context.Context, who auth.Principal) (Written[YardFields], error) {
	d, err := a.store.In(who.Yard).Document(ctx, kindLetterhead, yardOwn)
	if err != nil {
		return Written[YardFields]{}, err
	}
	return yardOf(writtenOf[Letterhead](d))
}

// PutYard keeps who the yard is. An invented yard goes on saying that it is one.
func (a *App) PutYard(ctx context.Context, who auth.Principal, fields YardFields, seen store.Seen) (Written[YardFields], error) {
	if err := fields.check().Err(); err != nil {
		return Written[YardFields]{}, err
	}
	old, _, err := a.letterhead(ctx, who.Yard)
	if err != nil {
		return Written[YardFields]{}, err
	}
	next := Letterhead{fields.Name, fields.Address, fields.Contact, old.Note}
	return yardOf(put(ctx, a, who, kindLetterhead, yardOwn, next, seen, nil))
}

func yardOf(w Written[Letterhead], err error) (Written[YardFields], error) {
	return Written[YardFields]{YardFields{w.Doc.Name, w.Doc.Address, w.Doc.Contact}, w.N, w.Hash}, err
}

// letterhead reads the yard's letterhead. A yard that has not said who it is has a name to be shown alone, and own is
// false.
func (a *App) letterhead(ctx context.Context, yard string) (l Letterhead, own bool, err error) {
	in := a.store.In(yard)
	d, err := in.Document(ctx, kindLetterhead, yardOwn)
	var none *store.NotFoundError
	if errors.As(err, &none) {
		y, err := in.Yard(ctx)
		return Letterhead{Name: y.Name}, false, err
	}
	if err != nil {
		return Letterhead{}, false, err
	}
	l, err = stored[Letterhead](d.Kind, d.Body)
	return l, err == nil, err
}

// Letterhead reads who the yard is, as pages and paper show it.
func (a *App) Letterhead(ctx context.Context, who auth.Principal) (Letterhead, error) {
	l, _, err := a.letterhead(ctx, who.Yard)
	return l, err
}
