package cutting

import (
	"cmp"
	"math"
	"slices"

	"ribband/takeoff/cutting/internal/simplex"
)

// stepped is the program with the rows of the items added up: all pieces together have their length, and of pieces as long
// as some length or longer as many are cut as are asked for, for few such lengths. Sums of rows follow from the rows, so
// that what it costs is below what the whole program does. Its duals value a piece by its length at a rate, with a step up at
// each of those lengths, and prove a floor like any other values. With a step at every length it costs what the whole program does,
// as far as a longer piece may stand in every strip in place of a shorter one.
//
// Rows in order: for each board the strips that it gives, for each limited one its number, the length of all, the steps.
type stepped struct {
	*search
	lp    *simplex.LP
	right []float64
	cols  []stepColumn
	unit  []int // the surplus of each row
	steps []int // the last item that is long enough
	taken int   // layouts that are in the program
}

// Steps added at once where the answer cuts too few pieces so long, optima in a row that lift no floor before it is given up,
// and the part of the work allowed that it may take. On a list of 393 lengths the floor, which no length alone proves, comes
// after 36 steps; with all its rows the program had not come there in a hundred times the work.
const (
	stepsAtOnce  = 4
	stepsForNone = 15
	stepsShare   = 4
)

// stepwise looks for a floor by few steps. Its layouts stay for the whole program, and the values are the best so far.
func (s *search) stepwise() {
	t := &stepped{search: s}
	for range s.boards {
		t.row(0)
	}
	for _, b := range s.boards {
		if b.most >= 0 {
			t.row(-float64(b.most))
		}
	}
	length := 0.0
	for _, it := range s.items {
		length += float64(float64(it.demand) * float64(it.size))
	}
	t.row(length / float64(s.cells))
	head := slices.Clone(t.unit)
	head[len(head)-1]++ // lacking: the others are feasible with nothing cut
	for k := range s.boards {
		t.cols = append(t.cols, stepColumn{ofBoard, k})
	}
	t.load(head)
	before := s.sack.work
	t.climb(before + s.limits.Work/stepsShare)
	s.work += t.lp.Work
}

// climb brings in layouts and steps until the floor meets the best plan or stands still.
func (t *stepped) climb(until int64) {
	last, still := int64(-1), 0
	for !t.spent() && t.lp.Work+t.sack.work < until {
		t.bringIn()
		if t.lp.Primal(t.pivots()) != simplex.Optimal {
			return
		}
		y := t.duals()
		t.price(t.integers(y))
		if t.settled() {
			return
		}
		if t.bring(y) > 0 {
			continue
		}
		if still++; t.floor() > last {
			last, still = t.floor(), 0
		}
		if still > stepsForNone || !t.step() {
			return
		}
	}
}

func (t *stepped) pivots() int { return 100 * (len(t.right) + 10) }

// upTo is how many pieces of a layout are of the items up to one.
func (l layout) upTo(item int) (n int64) {
	for _, c := range l.counts {
		if c.item <= item {
			n += c.k
		}
	}
	return n
}

// duals are those of the rows of the whole program.
func (t *stepped) duals() []float64 {
	y, out := t.lp.Duals(0), make([]float64, len(t.items)+len(t.boards))
	r := t.rate()
	for i, it := range t.items {
		out[i] = y[r] * float64(it.size) / float64(t.cells)
	}
	for j, at := range t.steps {
		for i := range out[:at+1] {
			out[i] += y[r+1+j]
		}
	}
	for k := range t.boards {
		out[len(t.items)+k] = -y[k]
	}
	return out
}

// step adds steps where the answer lacks most pieces so long, no two next to each other; false when it lacks none.
func (t *stepped) step() bool {
	var worst []int // the item up to which most are lacking, of each stretch of items
	lacks, open := t.lacks(), false
	for i, v := range lacks {
		switch {
		case v < nearWhole || slices.Contains(t.steps, i):
			open = false
		case !open:
			worst, open = append(worst, i), true
		case v > lacks[worst[len(worst)-1]]:
			worst[len(worst)-1] = i
		}
	}
	slices.SortStableFunc(worst, func(a, b int) int { return cmp.Compare(lacks[b], lacks[a]) })
	head := slices.Clone(t.lp.Head())
	for _, at := range worst[:min(stepsAtOnce, len(worst))] {
		wanted := int64(0)
		for _, it := range t.items[:at+1] {
			wanted += it.demand
		}
		t.steps = append(t.steps, at)
		t.row(float64(wanted))
		head = append(head, t.unit[len(t.unit)-1])
	}
	if len(worst) == 0 {
		return false
	}
	t.load(head)
	return t.lp.Dual(t.pivots(), math.Inf(1)) == simplex.Optimal
}

// lacks is by how many pieces the answer falls short of the items up to each.
func (t *stepped) lacks() []float64 {
	x, out := t.lp.Values(), make([]float64, len(t.items))
	for i, it := range t.items {
		out[i] = float64(it.demand)
	}
	for j, c := range t.cols {
		if c.kind == ofLayout && x[j] > 0 {
			for _, n := range t.layouts[c.of].counts {
				out[n.item] -= float64(x[j] * float64(n.k))
			}
		}
	}
	for i := 1; i < len(out); i++ {
		out[i] += out[i-1]
	}
	return out
}
