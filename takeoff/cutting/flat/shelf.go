package flat

import (
	"cmp"
	"math/big"
	"slices"
)

// shelf is strips being filled, first-fit by decreasing depth: each piece goes into the first strip that takes it; a new
// strip is begun only when none does, and a new sheet only when no sheet has room for the strip.
type shelf struct {
	*packing
	order  []int // forms in the order in which they are opened
	pairs  bool  // two of a piece go in as their pair where they have one
	strips []*made
	home   []int    // sheet of each strip
	flat   [][2]int // by form and class, of one and of a pair: the shape that makes the least deep strip; -1 for none
}

// Shelves is the plan by shelves alone, the cheapest of each stock alone and of all in three orders. It is what Solve
// starts from and never passes. Errors are Solve's.
func Shelves(l List) (Plan, error) {
	p, err := prepare(l)
	if err != nil || p == nil {
		return nothing(), err
	}
	best, short := p.shelves()
	if best == nil {
		return Plan{}, short
	}
	best.Certificate = Certificate{Unit: 1, Scale: 1, Values: []Value{}, Depths: p.depths()}
	return *best, nil
}

// shelves gives the best plan, or what stands in the way of the first order.
func (p *problem) shelves() (best *Plan, short error) {
	var first *ShortError
	flat := p.flattest()
	for _, order := range p.orders() {
		for _, pairs := range []bool{false, true} {
			if pairs && !slices.ContainsFunc(p.classes, func(c class) bool { return c.ids[0].Pair != nil }) {
				continue
			}
			k := &shelf{packing: p.pack(), order: order, pairs: pairs, flat: flat}
			if e := k.fill(); e != nil {
				if first == nil {
					first = e
				}
				continue
			}
			if plan, ok := k.plan(); ok && (best == nil || better(plan, *best)) {
				best = &plan
			}
		}
	}
	if best == nil {
		if first == nil {
			first = &ShortError{Piece: p.classes[0].ids[0], Short: p.classes[0].ids[0].Qty}
		}
		return nil, first
	}
	return best, nil
}

// orders in which forms are opened: all by price for their area, smallest first, largest first, each way of the first
// cut alone, and each stock alone.
func (p *problem) orders() [][]int {
	var all []int
	for i := range p.forms {
		all = append(all, i)
	}
	area := func(i int) int64 { f := p.forms[i]; return max(1, f.deep) * p.groups[f.group].room }
	rate := func(i int) *big.Rat { return big.NewRat(p.stock[p.forms[i].stock].price, area(i)) }
	sorted := func(less func(a, b int) int) []int {
		out := slices.Clone(all)
		slices.SortStableFunc(out, less)
		return out
	}
	dear := func(a, b int) int { return rate(a).Cmp(rate(b)) }
	size := func(a, b int) int { return cmp.Or(cmp.Compare(area(a), area(b)), dear(a, b)) }
	out := [][]int{sorted(dear), sorted(size), sorted(func(a, b int) int { return size(b, a) })}
	along := func(i int) bool { return p.lays[p.groups[p.forms[i].group].lay].along }
	for _, way := range []bool{false, true} {
		if p.bothWays() {
			out = append(out, slices.DeleteFunc(sorted(dear), func(i int) bool { return along(i) != way }))
		}
	}
	for s := range p.stock {
		for _, way := range []bool{false, true} {
			out = append(out, slices.DeleteFunc(slices.Clone(all), func(i int) bool { return p.forms[i].stock != s || along(i) != way }))
		}
	}
	return slices.DeleteFunc(out, func(o []int) bool { return len(o) == 0 })
}

// fill lays all pieces; an error names the first kind that found no room.
func (k *shelf) fill() *ShortError {
	deepest := make([]int64, len(k.classes)) // of a class at its flattest
	for i := range k.classes {
		for _, form := range k.order {
			for _, h := range k.lays[k.groups[k.forms[form].group].lay].shapes {
				if h.class == int64(i) && h.n == 1 && (deepest[i] == 0 || h.deep < deepest[i]) {
					deepest[i] = h.deep
				}
			}
		}
	}
	var order []int
	for i := range k.classes {
		order = append(order, i)
	}
	slices.SortStableFunc(order, func(a, b int) int { return cmp.Compare(deepest[b], deepest[a]) })
	for _, c := range order {
		left := k.classes[c].demand
		for _, n := range []int64{2, 1} {
			if n == 2 && !k.pairs {
				continue
			}
			for from := 0; left >= n; left -= n {
				at, ok := k.one(int64(c), n, from)
				if !ok {
					break
				}
				from = at
			}
		}
		if left > 0 {
			return &ShortError{Piece: k.classes[c].ids[0], Short: left}
		}
	}
	return nil
}

// one lays one rectangle of a class, looking at strips from one on; it gives the strip it went into.
func (k *shelf) one(class, n int64, from int) (int, bool) {
	for i := from; i < len(k.strips); i++ {
		m := k.strips[i]
		for j, h := range k.lays[m.lay].shapes {
			fits := h.deep <= m.deep && (!k.list.Rules.Exact || k.list.Rules.Stages == 3 || h.deep == m.deep)
			if h.class == class && h.n == n && fits && k.gives(k.sheets[k.home[i]].form, m.lay, m.along+h.along) {
				m.add(j, h.along)
				return i, true
			}
		}
	}
	for i, s := range k.sheets {
		if !k.stock[k.forms[s.form].stock].Roll() && k.begin(i, class, n) {
			return len(k.strips) - 1, true
		}
	}
	for _, form := range k.order {
		j := k.flattest(form, class, n)
		if j < 0 {
			continue
		}
		at := len(k.sheets)
		deep := k.lays[k.groups[k.forms[form].group].lay].shapes[j].deep
		if k.open(form, deep) != nil && k.begin(at, class, n) {
			return len(k.strips) - 1, true
		}
	}
	return 0, false
}

// add puts one more of a shape at the end of a strip.
func (m *made) add(shape int, along int64) {
	m.along += along
	if n := len(m.stacks); n > 0 && m.stacks[n-1].parts[0].thing == shape {
		m.stacks[n-1].n++
		return
	}
	m.stacks = append(m.stacks, stack{1, along, []pick{{shape, 1}}})
}

// flattest gives for each form and class the shape that makes the least deep strip.
func (p *problem) flattest() [][2]int {
	out := make([][2]int, len(p.forms)*len(p.classes))
	for i := range out {
		out[i] = [2]int{-1, -1}
	}
	for i, f := range p.forms {
		g := p.groups[f.group]
		shapes := p.lays[g.lay].shapes
		for j, h := range shapes {
			at := &out[i*len(p.classes)+int(h.class)][h.n-1]
			if h.along <= g.room && h.deep <= f.deep && (*at < 0 || h.deep < shapes[*at].deep) {
				*at = j
			}
		}
	}
	return out
}

// flattest is the shape of n of a class that makes the least deep strip of a form; -1 when none goes in.
func (k *shelf) flattest(form int, class, n int64) int {
	return k.flat[form*len(k.classes)+int(class)][n-1]
}

// begin begins a strip on a sheet.
func (k *shelf) begin(at int, class, n int64) bool {
	s := k.sheets[at]
	j := k.flattest(s.form, class, n)
	if j < 0 {
		return false
	}
	lay := k.groups[k.forms[s.form].group].lay
	h := k.lays[lay].shapes[j]
	if h.deep > s.free {
		return false
	}
	m := &made{lay: lay, deep: h.deep}
	m.add(j, h.along)
	s.free -= h.deep
	s.strips = append(s.strips, m)
	k.strips, k.home = append(k.strips, m), append(k.home, at)
	return true
}
