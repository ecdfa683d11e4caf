package cutting

import (
	"cmp"
	"math"
	"slices"
)

// finish lays the last pieces of a plan strip by strip: in each the longest piece left with what loses least beside it, by
// whole values of the pieces, those that lose least first and of these the ones with fewest pieces, so that the small ones stay to the end.
// Where nothing leads on within the cost aimed at, steps are taken back. It finds ends that a dive misses, whose program near the
// end leaves no layout in whole numbers though there is one.
type finish struct {
	*search
	values []int64
	left   []int64 // of each item
	strips []int64 // of each board, -1 for no limit
	price  []int64 // of a strip of each board, with what limited ones are worth above what they cost, in unit/scale
	out    []batch
	tables [][]int64 // by depth, used again
	turn   uint32
	until  int64 // the work at which it ends
}

// Pieces that are left when it is tried first and by how many fewer each time after, strips tried in one place, and the part of the
// work allowed that one takes.
const (
	finishPieces = 48
	finishFewer  = 12
	finishTries  = 60
	finishShare  = 400
)

// Plans cost whole units, so that a part of one is there for values' rounding.
const finishRounding = 1 << 10

// nextStrip is a layout that may come next: what it loses, and its place among those that lose as much.
type nextStrip struct {
	layout layout
	loss   int64
	order  uint32
}

// end lays what a dive has left; false when it found no plan within the aim.
func (d *dive) end() bool {
	y := d.lp.Duals(0)
	f := finish{search: d.search, values: d.integers(y), turn: 1, until: d.sack.work + d.limits.Work/finishShare}
	budget := sum{v: int64(math.Min(d.aim*d.norm*float64(d.scale), 1<<59)) + d.scale/finishRounding}
	for k, b := range d.boards {
		f.strips = append(f.strips, -1)
		if _, hi := d.lp.Bounds(d.boardCol[k]); !math.IsInf(hi, 1) {
			f.strips[k] = int64(hi) * b.strips
		}
	}
	for l := range d.layouts {
		if n := d.fixed[l]; n > 0 {
			k := d.layouts[l].board
			if f.strips[k] >= 0 {
				f.strips[k] = max(0, f.strips[k]-n)
			}
			budget.addProduct(-n, (d.boards[k].price/d.boards[k].strips+d.takes(d.layouts[l]))*d.scale)
			f.out = append(f.out, batch{d.layouts[l], n})
		}
	}
	for k, b := range d.boards {
		own := b.price / b.strips * d.scale
		price := max(own, d.whole(-y[len(d.items)+k]))
		if f.strips[k] < 0 {
			price = own
		}
		f.price = append(f.price, price)
		budget.addProduct(max(0, f.strips[k]), price-own)
	}
	for i, w := range d.wanted {
		f.left = append(f.left, max(0, w))
		budget.addProduct(-f.left[i], f.values[i])
	}
	if budget.past || !f.lay(0, budget.v) {
		return false
	}
	d.offer(f.out, d.joints)
	return true
}

// costs of a layout's strip, less what is kept of it.
func (f *finish) costs(l layout) int64 { return f.price[l.board] + f.takes(l)*f.scale }

// lay lays all that is left, losing no more than the budget.
func (f *finish) lay(depth int, budget int64) bool {
	var kinds []int // longest first
	for i, n := range f.left {
		if n > 0 {
			kinds = append(kinds, i)
		}
	}
	if len(kinds) == 0 {
		return budget >= 0
	}
	if f.sack.work > f.until || budget < 0 {
		return false
	}
	for _, s := range f.next(depth, kinds, budget) {
		f.put(s.layout, 1)
		f.out = append(f.out, batch{s.layout, 1})
		if f.lay(depth+1, budget-s.loss) {
			return true
		}
		f.out = f.out[:len(f.out)-1]
		f.put(s.layout, -1)
		if f.sack.work > f.until {
			return false
		}
	}
	return false
}

// put lays n strips of a layout.
func (f *finish) put(l layout, n int64) {
	for _, c := range l.counts {
		f.left[c.item] -= n * c.k
	}
	if f.strips[l.board] >= 0 {
		f.strips[l.board] -= n
	}
}

// next are strips with the longest piece left that lose no more than the budget, in the order to be tried.
func (f *finish) next(depth int, kinds []int, budget int64) []nextStrip {
	w := walk{finish: f, kinds: kinds, table: f.fill(depth, kinds), budget: budget}
	for k, b := range f.boards {
		if f.strips[k] != 0 {
			w.board, w.found = k, 0
			w.from(0, b.room, 0)
		}
	}
	slices.SortFunc(w.out, func(a, b nextStrip) int {
		return cmp.Or(cmp.Compare(a.loss, b.loss), cmp.Compare(a.order, b.order))
	})
	return w.out
}

// fill gives, for each kind and room, the most that the kinds from it on can be worth: a row for each, and one for none.
func (f *finish) fill(depth int, kinds []int) []int64 {
	w, m := f.cells+1, len(kinds)
	for len(f.tables) <= depth {
		f.tables = append(f.tables, nil)
	}
	if len(f.tables[depth]) < (m+1)*w {
		f.tables[depth] = make([]int64, (m+1)*w)
	}
	t := f.tables[depth]
	clear(t[m*w : (m+1)*w])
	if f.sack.base != nil {
		copy(t[m*w:], f.sack.base)
	}
	for j := m - 1; j >= 0; j-- {
		row := t[j*w : (j+1)*w]
		copy(row, t[(j+1)*w:(j+2)*w])
		size, value, n := f.items[kinds[j]].size, f.values[kinds[j]], f.left[kinds[j]]
		for k := int64(1); n > 0 && int64(size) < int64(w); k *= 2 {
			k = min(k, n, int64(w/size)+1)
			n -= k
			for x := w - 1; x >= int(k)*size; x-- {
				row[x] = max(row[x], row[x-int(k)*size]+k*value)
			}
			f.sack.work += int64(w)
		}
	}
	return t
}

// walk lists the strips of one board.
type walk struct {
	*finish
	kinds  []int
	table  []int64
	budget int64
	board  int
	found  int
	counts []count
	out    []nextStrip
}

// from goes on with kind j and the room left, worth being what is in the strip already.
func (w *walk) from(j, room int, worth int64) {
	b := w.boards[w.board]
	w.sack.work += 4
	row := w.table[j*(w.cells+1):]
	if most := worth + row[room] - b.uncut*w.scale; w.found >= finishTries || w.sack.work > w.until || w.price[w.board]-most > w.budget {
		return
	}
	if j == len(w.kinds) {
		l := layout{w.board, slices.Clone(w.counts)}
		if loss := w.costs(l) - worth; loss <= w.budget {
			w.turn = w.turn*1664525 + 1013904223
			pieces := uint32(0)
			for _, c := range l.counts {
				pieces += uint32(min(c.k, 1<<10))
			}
			w.out = append(w.out, nextStrip{l, loss, pieces<<18 + w.turn>>14})
			w.found++
		}
		return
	}
	i := w.kinds[j]
	size := w.items[i].size
	for n := min(w.left[i], int64(room/size)); n >= 0 && (n > 0 || j > 0); n-- {
		if n > 0 {
			w.counts = append(w.counts, count{i, n})
		}
		w.from(j+1, room-int(n)*size, worth+n*w.values[i])
		if n > 0 {
			w.counts = w.counts[:len(w.counts)-1]
		}
	}
}
