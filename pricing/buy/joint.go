package buy

import (
	"errors"
	"slices"

	"ribband/pricing/sawing"
	"ribband/takeoff/cutting"
)

// Groups draw on the same boards: what one takes another cannot have, and one's boards count towards the least order of
// another. A floor that holds for all of them together lets each have every board that is for sale, and none of those that
// another group could use too in a least order.

// inSomeOrder plans the groups one after another, because they draw on the same boards. When one finds too few left, it goes
// first and all are planned again, until a group fails with everything still for sale. Where the order may have cost
// money, each group is tried first once, and the cheapest of these is kept.
func (g groups) inSomeOrder(from source, r Rules) ([]Timber, error) {
	order := make([]int, len(g.timber))
	for i := range order {
		order[i] = i
	}
	for try := 0; ; try++ {
		out, failed, err := g.inTurn(order, from, r)
		if err == nil {
			return g.elsewise(order, out, from, r), nil
		}
		if failed == 0 || try > 2*len(order) {
			return nil, err
		}
		order = toHead(order, failed)
	}
}

// inTurn plans the groups in an order; failed is the first place in it that found too few boards.
func (g groups) inTurn(order []int, from source, r Rules) (out []Timber, failed int, err error) {
	out, failed = make([]Timber, len(g.timber)), -1
	left := taken{}
	for k, i := range order {
		t, fault := g.planTimber(g.timber[i], from, r, left)
		if fault != nil {
			err = errors.Join(err, fault)
			if failed < 0 {
				failed = k
			}
		}
		out[i] = t
	}
	return out, failed, err
}

// mostTurns is up to how many groups are tried first, each of which plans all of them again.
const mostTurns = 6

// elsewise looks whether another group should have had its pick first: of few groups each, so that no order of two is better, of many
// those that cost more than their floor. A plan that meets its floor cannot be bettered.
func (g groups) elsewise(order []int, best []Timber, from source, r Rules) []Timber {
	tried := 0
	for k := 1; k < len(order) && tried < mostTurns; k++ {
		if cost, bound := totals(best); cost <= bound {
			return best
		}
		if t := best[order[k]]; len(order) > mostTurns && t.Cost.Minor()+t.labour() <= t.Bound.Minor() {
			continue
		}
		tried++
		out, _, err := g.inTurn(toHead(order, k), from, r)
		if err != nil {
			continue
		}
		was, _ := totals(best)
		if cost, _ := totals(out); cost < was {
			best = out
		}
	}
	return best
}

func totals(all []Timber) (cost, bound int64) {
	for _, t := range all {
		cost, bound = cost+t.Cost.Minor()+t.labour(), bound+t.Bound.Minor()
	}
	return cost, bound
}

// toHead is an order with its k-th at the head.
func toHead(order []int, k int) []int {
	i := order[k]
	return slices.Insert(slices.Delete(slices.Clone(order), k, k+1), 0, i)
}

// alone is the stock as it would stand if no other group drew on it.
func (g groups) alone(t *timberNeed, stock []cutting.Stock, boards map[string]board, r Rules) []cutting.Stock {
	out := slices.Clone(stock)
	for i := range out {
		b := boards[out[i].ID]
		out[i].Avail = b.avail
		shared := slices.ContainsFunc(g.timber, func(o *timberNeed) bool {
			return o != t && same(o.pieces.Species, t.pieces.Species) && same(o.pieces.Grade, t.pieces.Grade) && sawing.Best(b.thickness, b.width, o.pieces, o.flat, r.Kerf, r.Resaw).Strips() > 0
		})
		if shared {
			out[i].Least = 0
		}
	}
	return out
}

// jointly lowers what the plan claims to what holds for all groups together, and wherever joints come.
func (p *timberPlan) jointly(plan *cutting.Plan, alone, stock []cutting.Stock, pieces []cutting.Piece, saw cutting.Rules, memo *memo) error {
	if slices.Equal(alone, stock) && saw.Scarf == nil {
		return nil
	}
	free, err := p.free(*plan, alone, pieces, saw, memo)
	if err != nil {
		return err
	}
	plan.Bound, plan.Certificate = min(plan.Cost, free.Bound), free.Certificate
	if plan.Proof = free.Proof; plan.Bound < plan.Cost {
		plan.Proof = cutting.Limit
	}
	return nil
}

// free is a plan, of which the floor alone is for use, of boards that no other group draws on.
func (p *timberPlan) free(plan cutting.Plan, alone []cutting.Stock, pieces []cutting.Piece, saw cutting.Rules, memo *memo) (cutting.Plan, error) {
	if saw.Scarf != nil {
		free, grid := floorAnywhere(plan.Cost, alone, pieces, saw, memo)
		p.out.JointGrid = nanoMM(grid)
		return free, nil
	}
	free, err := memo.strips(alone, pieces, saw)
	return cutting.OnGrids(free, alone, pieces, saw), err
}
