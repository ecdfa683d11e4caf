package app

import (
	"context"
	"fmt"

	"ribband/pricing/rack"
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
			faults.Add(fmt.Sprintf("/boards/%d/species", i), "the code of one of the yard's species", "%s is none of the yard's species", notation.Quote(b.Species))
		}
	}
	return faults
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
