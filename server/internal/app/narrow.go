package app

import (
	"context"

	"ribband/server/internal/auth"
	"ribband/takeoff"
)

// Narrowing is the one further measurement that would narrow most the timber of an option, on the documents as they stand.
func (a *App) Narrowing(ctx context.Context, who auth.Principal, job, option string) (takeoff.Narrowing, error) {
	o, err := a.Option(ctx, who, job, option)
	if err != nil {
		return takeoff.Narrowing{}, err
	}
	w, err := a.takeoff(ctx, who, o)
	if err != nil {
		return takeoff.Narrowing{}, err
	}
	return a.NarrowingOf(ctx, w.papers)
}

// NarrowingOf documents that came along, of which there is a takeoff.
func (a *App) NarrowingOf(ctx context.Context, p Papers) (takeoff.Narrowing, error) {
	done, err := a.heavy(ctx)
	if err != nil {
		return takeoff.Narrowing{}, err
	}
	defer done()
	basis, faults := p.basis()
	if len(faults) > 0 {
		return takeoff.Narrowing{}, &ComputeError{faults}
	}
	return takeoff.Narrow(basis)
}
