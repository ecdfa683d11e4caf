package app

import (
	"context"
	"strconv"

	"ribband/server/internal/auth"
	"ribband/takeoff"
)

// worked is a takeoff that was worked out, with the papers it read.
type worked struct {
	basis  []Source
	hash   string
	from   sources
	papers Papers
	result takeoff.Result
}

// Takeoff is the takeoff of an option with the documents it rests on.
type Takeoff struct {
	Basis     []Source
	BasisHash string
	takeoff.Result
}

// Takeoff works out what an option needs. It may carry faults.
func (a *App) Takeoff(ctx context.Context, who auth.Principal, job, option string) (Takeoff, error) {
	o, err := a.Option(ctx, who, job, option)
	if err != nil {
		return Takeoff{}, err
	}
	w, err := a.takeoff(ctx, who, o)
	if err != nil {
		return Takeoff{}, err
	}
	return Takeoff{w.basis, w.hash, w.result}, nil
}

// takeoff is the option's takeoff on the documents as they stand, from those kept where it is there.
func (a *App) takeoff(ctx context.Context, who auth.Principal, o Option) (*worked, error) {
	from, err := a.sourcesOf(ctx, who, o)
	if err != nil {
		return nil, err
	}
	return a.workOut(ctx, from)
}

// takeoffOn is the takeoff on the very documents that a basis names.
func (a *App) takeoffOn(ctx context.Context, who auth.Principal, basis []Source) (*worked, error) {
	in := a.store.In(who.Yard)
	var from sources
	for _, s := range basis {
		d, err := in.DocumentAt(ctx, s.Kind, s.ID, s.N)
		if err != nil {
			return nil, err
		}
		from = append(from, d)
	}
	return a.workOut(ctx, from)
}

func (a *App) workOut(ctx context.Context, from sources) (*worked, error) {
	hash, err := from.hash()
	if err != nil {
		return nil, err
	}
	// The hash covers contents and the yard's own ids, so what is kept under it is the same for whoever asks.
	if w, ok := a.takeoffs.get(hash); ok {
		return w, nil
	}
	papers, err := from.papers()
	if err != nil {
		return nil, err
	}
	done, err := a.heavy(ctx)
	if err != nil {
		return nil, err
	}
	defer done()
	basis, faults := papers.basis()
	if len(faults) > 0 {
		return nil, &ComputeError{faults}
	}
	result, faults, err := run(basis)
	if err != nil {
		return nil, err
	}
	if len(faults) > 0 {
		return nil, &ComputeError{faults}
	}
	w := &worked{from.list(), hash, from, papers, result}
	a.takeoffs.put(hash, w)
	return w, nil
}

// TakeoffOf is the takeoff of documents that came along. Faults refuse it.
func (a *App) TakeoffOf(ctx context.Context, p Papers) (takeoff.Result, error) {
	done, err := a.heavy(ctx)
	if err != nil {
		return takeoff.Result{}, err
	}
	defer done()
	basis, faults := p.basis()
	if len(faults) > 0 {
		return takeoff.Result{}, faults
	}
	result, faults, err := run(basis)
	if err != nil {
		return takeoff.Result{}, err
	}
	if len(faults) > 0 {
		return takeoff.Result{}, faults
	}
	if len(result.Bill.Faults) > 0 {
		out := &FaultyTwinError{}
		for _, f := range result.Bill.Faults {
			out.Faults = append(out.Faults, PlacedFault{f, p.rowOf(f.Member)})
		}
		return takeoff.Result{}, out
	}
	return result, nil
}

func itoa(i int) string { return strconv.Itoa(i) }
