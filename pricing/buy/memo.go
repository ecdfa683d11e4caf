package buy

import (
	"fmt"

	"ribband/takeoff/cutting"
	"ribband/takeoff/cutting/flat"
)

// memo keeps plans of one list of needs while that is planned: with scarfs and without, and for every set of suppliers, much the same
// boards are cut again. A plan follows from its list alone, so that what is kept is what would come out anew.
type memo struct {
	cut  map[string]cutAnswer
	flat map[string]flatAnswer
}

type cutAnswer struct {
	plan cutting.Plan
	err  error
}

type flatAnswer struct {
	plan flat.Plan
	err  error
}

func newMemo() *memo {
	return &memo{map[string]cutAnswer{}, map[string]flatAnswer{}}
}

// strips is cutting.Solve. Lists without scarfs are quick and not kept.
func (m *memo) strips(stock []cutting.Stock, pieces []cutting.Piece, saw cutting.Rules) (cutting.Plan, error) {
	if saw.Scarf == nil || m == nil {
		return cutting.Solve(stock, pieces, saw)
	}
	key := fmt.Sprint(stock, pieces, saw.Kerf, saw.TrimEach, *saw.Scarf)
	a, ok := m.cut[key]
	if !ok {
		a.plan, a.err = cutting.Solve(stock, pieces, saw)
		m.cut[key] = a
	}
	return a.plan, a.err
}

// boards is flat.SolveWithin.
func (m *memo) boards(l flat.List, limits flat.Limits) (flat.Plan, error) {
	if m == nil {
		return flat.SolveWithin(l, limits)
	}
	key := fmt.Sprint(l, limits)
	a, ok := m.flat[key]
	if !ok {
		a.plan, a.err = flat.SolveWithin(l, limits)
		m.flat[key] = a
	}
	return a.plan, a.err
}
