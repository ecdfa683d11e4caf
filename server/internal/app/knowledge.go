package app

import (
	"context"

	"ribband/server/internal/auth"
	"ribband/server/internal/store"
	"ribband/takeoff/document"
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

// PutSpecies keeps the yard's species. Options made before go on with the version that they were made with.
func (a *App) PutSpecies(ctx context.Context, who auth.Principal, doc timber.Catalogue, seen store.Seen) (Written[timber.Catalogue], error) {
	return putKnowledge(ctx, a, who, kindSpecies, doc, doc.Check(), seen)
}

// PutStepLibrary keeps the yard's steps and their hours.
func (a *App) PutStepLibrary(ctx context.Context, who auth.Principal, doc step.Library, seen store.Seen) (Written[step.Library], error) {
	return putKnowledge(ctx, a, who, kindSteps, doc, doc.Check(), seen)
}

// PutRules keeps the yard's shop figures.
func (a *App) PutRules(ctx context.Context, who auth.Principal, doc rules.Document, seen store.Seen) (Written[rules.Document], error) {
	_, faults := rules.Read(doc)
	return putKnowledge(ctx, a, who, kindRules, doc, faults, seen)
}

func putKnowledge[T any](ctx context.Context, a *App, who auth.Principal, kind string, doc T, faults document.Faults, seen store.Seen) (Written[T], error) {
	if err := faults.Err(); err != nil {
		return Written[T]{}, err
	}
	return put(ctx, a, who, kind, yardOwn, doc, seen, nil)
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
