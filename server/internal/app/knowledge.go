package app

import (
	"context"

	"ribband/server/internal/auth"
	"ribband/takeoff/rules"
	"ribband/takeoff/step"
	"ribband/takeoff/timber"
)

// Species reads version n of the yard's species, the newest when n is 0.
func (a *App) Species(ctx context.Context, who auth.Principal, n int64) (Written[timber.Catalogue], error) {
	return knowledge[timber.Catalogue](ctx, a, who, kindSpecies, n)
}

// StepLibrary reads version n of the yard's steps, the newest when n is 0.
func (a *App) StepLibrary(ctx context.Context, who auth.Principal, n int64) (Written[step.Library], error) {
	return knowledge[step.Library](ctx, a, who, kindSteps, n)
}

// Rules reads version n of the yard's shop figures, the newest when n is 0.
func (a *App) Rules(ctx context.Context, who auth.Principal, n int64) (Written[rules.Document], error) {
	return knowledge[rules.Document](ctx, a, who, kindRules, n)
}

func knowledge[T any](ctx context.Context, a *App, who auth.Principal, kind string, n int64) (Written[T], error) {
	in := a.store.In(who.Yard)
	d, err := in.Document(ctx, kind, yardOwn)
	if n > 0 {
		d, err = in.DocumentAt(ctx, kind, yardOwn, n)
	}
	if err != nil {
		return Written[T]{}, err
	}
	return writtenOf[T](d)
}
