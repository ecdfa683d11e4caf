package buy

import (
	"slices"

	"ribband/takeoff/cutting"
	"ribband/takeoff/cutting/flat"
)

// The cutting counts joints at places on a grid, and its floor is of plans with joints there. A joint may come anywhere, though: of planks
// that go on from one board into the next every joint is moved by the one before. So the floor is that of a list in which every plan has
// a place on the grid: where two parts a + b make up a plank with its taper, a cut down to the grid and b shorter by the rest of a
// step make up the same plank with a taper, and least parts, shorter by one step. Computed.

// anywhere are the pieces and rules whose floor holds wherever joints come, for a grid as fine as the number of parts allows, and no coarser
// than the taper. With evenly set the planks themselves are cut down so that both parts come on the grid, whatever the plank: fewer
// different parts, and so a finer grid for many lengths of plank, and less for those cut whole.
func anywhere(stock []cutting.Stock, pieces []cutting.Piece, r cutting.Rules, evenly bool) ([]cutting.Piece, cutting.Rules) {
	s := *r.Scarf
	grid := min(s.Step, s.Length)
	if evenly {
		longest := int64(0)
		for _, b := range stock {
			longest = max(longest, b.Length-2*r.TrimEach)
		}
		grid = min(s.Length, (longest/mostEvenly/millimetre+1)*millimetre)
		pieces = slices.Clone(pieces)
		for i := range pieces {
			if p := &pieces[i]; p.MayScarf && p.Length+s.Length >= 2*s.Least {
				p.Length = (p.Length+s.Length)/grid*grid - s.Length
			}
		}
	}
	s.Length, s.Least, s.Step = s.Length-grid, s.Least-grid, grid
	r.Scarf = &s
	return pieces, r
}

// mostEvenly is about how many parts there are on a grid of its own.
const mostEvenly = 200

// floorAnywhere is a plan of some boards, of which the floor alone is for use, up to what another plan costs, wherever joints come, and the grid
// that they are counted on. The floor is raised to the least sum that boards and joints can form. No floor where there would be too many parts on either grid.
func floorAnywhere(cost int64, stock []cutting.Stock, pieces []cutting.Piece, r cutting.Rules, memo *memo) (best cutting.Plan, grid int64) {
	best.Proof = cutting.Limit
	for _, evenly := range []bool{false, true} {
		down, rules := anywhere(stock, pieces, r, evenly)
		p, err := memo.strips(stock, down, rules)
		if err != nil { // too many parts
			continue
		}
		if p.Bound > best.Bound {
			best, grid = p, rules.Scarf.Step
		}
		if best.Bound >= cost {
			break
		}
	}
	best.Bound = flat.LeastSum(best.Bound, prices(stock, r))
	return best, grid
}

// prices are what a plan's cost is a sum of: boards, and joints that cost something.
func prices(stock []cutting.Stock, r cutting.Rules) (out []int64) {
	for _, s := range stock {
		out = append(out, s.Price)
	}
	if r.Scarf.Price > 0 {
		out = append(out, r.Scarf.Price)
	}
	return out
}
