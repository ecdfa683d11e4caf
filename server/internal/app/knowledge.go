package app

import (
	"context"
	"strconv"

	"ribband/server/internal/auth"
	"ribband/takeoff/document"
	"ribband/takeoff/notation"
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

// Limits of a step library. Assumption: no yard tells more kinds of work apart.
const (
	mostSteps    = 200
	mostCautions = 20
)

// checkSteps says everything that is wrong with a step library.
func checkSteps(l step.Library) document.Faults {
	var f document.Faults
	if len(l.Steps) > mostSteps {
		f.Add("/steps", "at most "+strconv.Itoa(mostSteps), "%d steps are given", len(l.Steps))
		return f
	}
	seen := map[string]bool{}
	for i, s := range l.Steps {
		p := "/steps/" + strconv.Itoa(i)
		named(&f, p+"/code", s.Code)
		named(&f, p+"/name", s.Name)
		named(&f, p+"/trade", s.Trade)
		if seen[s.Code] {
			f.Add(p+"/code", "each step once", "%s is given twice", notation.Quote(s.Code))
		}
		seen[s.Code] = true
		if !s.Driver.Known() {
			f.Add(p+"/driver", "patterns, frames, laminates, glue_line_m2 or girth_m", "nothing is counted by %s", notation.Quote(string(s.Driver)))
		}
		if s.PerUnitH.IsNegative() || s.Factor.IsNegative() || s.SetupH.IsNegative() {
			f.Add(p, "hours and a factor of 0 or more", "hours or the factor are below 0")
		}
		if len(s.Cautions) > mostCautions {
			f.Add(p+"/cautions", "at most "+strconv.Itoa(mostCautions), "%d cautions are given", len(s.Cautions))
		}
	}
	return f
}
