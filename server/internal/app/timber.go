package app

import (
	"context"

	"ribband/server/internal/auth"
	"ribband/takeoff/timber/movement"
	"ribband/takeoff/timber/tally"
)

// TimberTally is a list of boards counted, with the version of the yard's species that it was weighed by.
type TimberTally struct {
	tally.Answer
	// SpeciesVersion and RulesVersion are the yard's newest.
	SpeciesVersion int64 `json:"species_version"`
	RulesVersion   int64 `json:"rules_version"`
}

// TimberMovement is how a board moves, with the version of the yard's species that it is reckoned by.
type TimberMovement struct {
	movement.Answer
	SpeciesVersion int64 `json:"species_version"`
}

// TallyTimber counts a list that came along by the yard's newest woods and rules. Faults of the list refuse it.
func (a *App) TallyTimber(ctx context.Context, who auth.Principal, d tally.Document) (TimberTally, error) {
	woods, err := a.Species(ctx, who, 0)
	if err != nil {
		return TimberTally{}, err
	}
	rules, err := a.Rules(ctx, who, 0)
	if err != nil {
		return TimberTally{}, err
	}
	done, err := a.heavy(ctx)
	if err != nil {
		return TimberTally{}, err
	}
	defer done()
	out, err := d.Count(tally.Yard{Species: woods.Doc, HalfFoot: rules.Doc.HalfFoot})
	return TimberTally{out, woods.N, rules.N}, err
}

// MoveTimber tells how a board of one of the yard's woods moves.
func (a *App) MoveTimber(ctx context.Context, who auth.Principal, d movement.Document) (TimberMovement, error) {
	woods, err := a.Species(ctx, who, 0)
	if err != nil {
		return TimberMovement{}, err
	}
	out, err := d.Move(woods.Doc)
	return TimberMovement{out, woods.N}, err
}
