package flat_test

import (
	"math"
	"math/bits"
	"slices"
	"testing"

	"ribband/takeoff/cutting/flat"
)

// exhaustive is the least cost of a list by trying everything, without any of the package's code: the pieces of every
// strip, the strips of every sheet, the sheets of the plan, each over all sets of pieces. For some eight pieces.
type exhaustive struct {
	list   flat.List
	pieces []flat.Piece
}

// least is that cost, -1 when too little is for sale.
func least(l flat.List) int64 {
	e := exhaustive{list: l}
	for _, p := range l.Pieces {
		for range p.Qty {
			e.pieces = append(e.pieces, p)
		}
	}
	// what all sets cost from the stock looked at so far
	cost := make([]int64, 1<<len(e.pieces))
	for set := range cost {
		cost[set] = none
	}
	cost[0] = 0
	for _, s := range l.Stock {
		one := e.amounts(s)
		next := slices.Clone(cost)
		for set := range cost {
			for part := set; part > 0; part = (part - 1) & set {
				if n := one[part]; n < none && (s.Avail < 0 || n <= s.Avail) && cost[set&^part] < none {
					price := n * s.Price
					if s.Roll() {
						price = (price + s.Per - 1) / s.Per
					}
					next[set] = min(next[set], price+cost[set&^part])
				}
			}
		}
		cost = next
	}
	if c := cost[len(cost)-1]; c < none {
		return c
	}
	return -1
}

// against looks over a plan, and holds its floor and its cost against what trying everything finds.
func against(t testing.TB, seed int, p flat.Plan, l flat.List, least int64) {
	t.Helper()
	sound(t, p, l)
	if p.Bound > least || p.Cost < least {
		t.Errorf("seed %d: %d..%d, by trying everything %d: %+v", seed, p.Bound, p.Cost, least, l)
	}
}

const none = math.MaxInt64 / 4

// amounts are how many of a stock, or what length of it, each set takes at least.
func (e exhaustive) amounts(s flat.Stock) []int64 {
	one := make([]int64, 1<<len(e.pieces))
	for i := range one {
		one[i] = none
	}
	one[0] = 0
	for _, first := range []flat.First{flat.Across, flat.Along} {
		if s.Roll() && first == flat.Along || !s.Roll() && e.list.Rules.First != flat.Either && e.list.Rules.First != first {
			continue
		}
		for set, deep := range e.depths(s, first == flat.Along) {
			switch {
			case set == 0 || deep >= none || e.refused(set, s, first):
			case s.Roll():
				one[set] = min(one[set], deep)
			case deep <= e.room(s, first != flat.Along):
				one[set] = 1
			}
		}
	}
	if s.Roll() {
		return one
	}
	out := make([]int64, len(one))
	for set := 1; set < len(out); set++ {
		out[set] = none
		for part := set; part > 0; part = (part - 1) & set {
			if part>>bits.TrailingZeros(uint(set))&1 == 1 && one[part] == 1 && out[set&^part] < none {
				out[set] = min(out[set], 1+out[set&^part])
			}
		}
	}
	return out
}

// refused says that some piece of a set is thicker than a stock, or does not go where the first cuts run so.
func (e exhaustive) refused(set int, s flat.Stock, first flat.First) bool {
	for i, p := range e.pieces {
		if set>>i&1 == 1 && (p.Thickness > s.Thickness || p.AlongOnly && first != flat.Along) {
			return true
		}
	}
	return false
}

// room is the length or the width of a sheet between its trims, with one kerf more.
func (e exhaustive) room(s flat.Stock, length bool) int64 {
	r := e.list.Rules
	if length {
		return s.Length - 2*r.TrimEach + r.Kerf
	}
	return s.Width - 2*r.TrimEach + r.Kerf
}

// sizes are the ways a piece may lie: along the strip and across it.
func (e exhaustive) sizes(i int, along bool) [][2]int64 {
	p, k := e.pieces[i], e.list.Rules.Kerf
	w, h := p.Width, p.Length
	if along {
		w, h = h, w
	}
	out := [][2]int64{{w + k, h + k}}
	if p.MayTurn {
		out = append(out, [2]int64{h + k, w + k})
	}
	return out
}

// depths are the least depths of strips, one under another, that hold each set.
func (e exhaustive) depths(s flat.Stock, along bool) []int64 {
	room := e.room(s, along)
	n := len(e.pieces)
	strip := make([]int64, 1<<n)
	for set := 1; set < len(strip); set++ {
		strip[set] = none
		for d := range e.candidates(set, along) {
			if s.Roll() && d > e.atOnce(s, along) {
				continue
			}
			if d < strip[set] && e.width(set, d, along) <= room {
				strip[set] = d
			}
		}
	}
	out := make([]int64, 1<<n)
	for set := 1; set < len(out); set++ {
		out[set] = none
		for part := set; part > 0; part = (part - 1) & set {
			if part>>bits.TrailingZeros(uint(set))&1 == 1 && strip[part] < none && out[set&^part] < none {
				out[set] = min(out[set], strip[part]+out[set&^part])
			}
		}
	}
	return out
}

// atOnce is the longest that is cut off a roll, with a kerf.
func (e exhaustive) atOnce(s flat.Stock, along bool) int64 {
	if s.Length > 0 {
		return s.Length + e.list.Rules.Kerf
	}
	most := int64(0)
	for i := range e.pieces {
		for _, size := range e.sizes(i, along) {
			if size[0] <= e.room(s, along) {
				most = max(most, size[1])
			}
		}
	}
	return most
}

// candidates are the depths that a strip of a set may have.
func (e exhaustive) candidates(set int, along bool) map[int64]bool {
	sums := map[int64]bool{0: true}
	for i := range e.pieces {
		if set>>i&1 == 0 {
			continue
		}
		next := map[int64]bool{}
		for s := range sums {
			next[s] = true
			for _, size := range e.sizes(i, along) {
				if e.list.Rules.Stages == 3 || s == 0 {
					next[s+size[1]] = true
				}
			}
		}
		sums = next
	}
	delete(sums, 0)
	return sums
}

// width is the least length of a strip of a depth that holds a set.
func (e exhaustive) width(set int, depth int64, along bool) int64 {
	exact := e.list.Rules.Exact
	if e.list.Rules.Stages == 2 {
		sum := int64(0)
		for i := range e.pieces {
			if set>>i&1 == 0 {
				continue
			}
			w := int64(none)
			for _, size := range e.sizes(i, along) {
				if size[1] == depth || size[1] < depth && !exact {
					w = min(w, size[0])
				}
			}
			if w == none {
				return none
			}
			sum += w
		}
		return sum
	}
	// stacks: every set of pieces in every way of lying
	out := make([]int64, set+1)
	for sub := 1; sub <= set; sub++ {
		if sub&^set != 0 {
			continue
		}
		out[sub] = none
		for part := sub; part > 0; part = (part - 1) & sub {
			if part>>bits.TrailingZeros(uint(sub))&1 == 1 && out[sub&^part] < none {
				if w := e.stack(part, depth, along); w < none {
					out[sub] = min(out[sub], w+out[sub&^part])
				}
			}
		}
	}
	return out[set]
}

// stack is the least width of a stack of a set that is no deeper than depth.
func (e exhaustive) stack(set int, depth int64, along bool) int64 {
	var list []int
	for i := range e.pieces {
		if set>>i&1 == 1 {
			list = append(list, i)
		}
	}
	best := int64(none)
	var walk func(at int, widest, narrowest, deep int64)
	walk = func(at int, widest, narrowest, deep int64) {
		if deep > depth || widest >= best {
			return
		}
		if at == len(list) {
			if !e.list.Rules.Exact || widest == narrowest {
				best = widest
			}
			return
		}
		for _, size := range e.sizes(list[at], along) {
			walk(at+1, max(widest, size[0]), min(narrowest, size[0]), deep+size[1])
		}
	}
	walk(0, 0, none, 0)
	return best
}
