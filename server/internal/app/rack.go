package app

import (
	"context"
	"errors"
	"fmt"
	"strings"

	"ribband/pricing/rack"
	"ribband/pricing/ripping"
	"ribband/server/internal/auth"
	"ribband/server/internal/store"
	"ribband/takeoff/document"
	"ribband/takeoff/notation"
	"ribband/takeoff/timber"
)

// Rack reads version n of what the yard has in hand, the newest when n is 0.
func (a *App) Rack(ctx context.Context, who auth.Principal, n int64) (Written[rack.Document], error) {
	return knowledge[rack.Document](ctx, a, who, kindRack, n)
}

// PutRack keeps what the yard has in hand. Every version is kept, so that a buy list can say which it drew on.
func (a *App) PutRack(ctx context.Context, who auth.Principal, doc rack.Document, seen store.Seen) (Written[rack.Document], error) {
	_, faults := rack.Read(doc)
	known, err := a.Species(ctx, who, 0)
	if err != nil {
		return Written[rack.Document]{}, err
	}
	faults = append(faults, unknownSpecies(doc, known.Doc)...)
	return putKnowledge(ctx, a, who, kindRack, doc, faults, seen)
}

// unknownSpecies are boards of a species that the yard does not know, which no takeoff could ask for.
func unknownSpecies(doc rack.Document, known timber.Catalogue) document.Faults {
	var faults document.Faults
	for i, b := range doc.Boards {
		if _, ok := known.Find(b.Species); !ok && b.Species != "" {
			faults.Add(fmt.Sprintf("/boards/%d/species", i), known.Meant(b.Species), "%s is none of the yard's species", notation.Quote(b.Species))
		}
	}
	return faults
}

// RackAfter is the rack once the boards of an option's buy list are cut: version inHand of it, or the newest where the list
// draws on none, less what is cut and with what is kept. Nothing is stored.
func (a *App) RackAfter(ctx context.Context, who auth.Principal, job, option, sheetID string, n, inHand int64) (rack.Document, error) {
	list, err := a.BuyList(ctx, who, job, option, sheetID, n, inHand)
	if err != nil {
		return rack.Document{}, err
	}
	j, err := a.Job(ctx, who, job)
	if err != nil {
		return rack.Document{}, err
	}
	now, err := a.Rack(ctx, who, inHand)
	var none *store.NotFoundError
	if errors.As(err, &none) && inHand == 0 {
		now.Doc, err = rack.Document{Notation: j.Notation, Boards: []rack.Row{}}, nil
	}
	if err != nil {
		return rack.Document{}, err
	}
	next, dropped, err := ripping.NextRack(now.Doc, list.List, list.Remains, strings.TrimSpace(shortName(j.Boat.Name)))
	if dropped > 0 {
		next.Note = strings.TrimSpace(fmt.Sprintf("%s %d lengths found no place on this rack.", next.Note, dropped))
	}
	return next, err
}

// shortName is a name short enough to be chalked on a board with a number behind it.
func shortName(name string) string {
	if cut := []rune(name); len(cut) > 40 {
		return string(cut[:40])
	}
	return name
}

// inHand is version n of the rack for a buy list; nothing when n is 0.
func (a *App) inHand(ctx context.Context, who auth.Principal, n int64) (rack.Rack, *Source, error) {
	if n == 0 {
		return rack.Rack{}, nil, nil
	}
	d, err := a.store.In(who.Yard).DocumentAt(ctx, kindRack, yardOwn, n)
	if err != nil {
		return rack.Rack{}, nil, err
	}
	doc, err := stored[rack.Document](kindRack, d.Body)
	if err != nil {
		return rack.Rack{}, nil, err
	}
	r, faults := rack.Read(doc)
	return r, &Source{d.Kind, d.ID, d.N, d.Hash}, faults.Err()
}
