package cutting

import (
	"math"

	"ribband/takeoff/cutting/internal/simplex"
)

// stepColumn is column number of of its kind.
type stepColumn struct {
	kind stepKind
	of   int
}

type stepKind int

const (
	ofLayout stepKind = iota
	ofBoard
	surplus
	lacking // what a row lacks, dearer than any way to have it
)

// row adds a row of at least so much, with its surplus and what it lacks.
func (t *stepped) row(least float64) {
	r := len(t.right)
	t.right, t.unit = append(t.right, least), append(t.unit, len(t.cols))
	t.cols = append(t.cols, stepColumn{surplus, r}, stepColumn{lacking, r})
}

// load makes the program afresh with a first basis.
func (t *stepped) load(head []int) {
	if t.lp != nil {
		t.work += t.lp.Work
	}
	t.lp = simplex.New(t.right)
	for _, c := range t.cols {
		t.put(c)
	}
	t.lp.Begin(head, t.unit)
}

// bringIn takes in layouts that are new.
func (t *stepped) bringIn() {
	for ; t.taken < len(t.layouts); t.taken++ {
		c := stepColumn{ofLayout, t.taken}
		t.cols = append(t.cols, c)
		t.put(c)
	}
}

// put gives the program a column.
func (t *stepped) put(c stepColumn) {
	var rows []int32
	var vals []float64
	set := func(r int, v float64) { rows, vals = append(rows, int32(r)), append(vals, v) }
	cost := 0.0
	switch c.kind {
	case surplus:
		set(c.of, -1)
	case lacking:
		set(c.of, 1)
		cost = t.dear * float64(t.cells)
	case ofBoard:
		b := t.boards[c.of]
		set(c.of, float64(b.strips))
		if b.most >= 0 {
			set(t.limit(c.of), -1)
		}
		cost = float64(b.price) / t.norm
	case ofLayout:
		l := t.layouts[c.of]
		set(l.board, -1)
		length, r := 0, t.rate()
		for _, n := range l.counts {
			length += int(n.k) * t.items[n.item].size
		}
		set(r, float64(length)/float64(t.cells))
		for j, at := range t.steps {
			if n := l.upTo(at); n > 0 {
				set(r+1+j, float64(n))
			}
		}
		cost = float64(t.takes(l)) / t.norm
	}
	t.lp.Add(rows, vals, cost, 0, math.Inf(1))
}

// limit is the row of a limited board.
func (t *stepped) limit(board int) int {
	r := len(t.boards)
	for _, b := range t.boards[:board] {
		if b.most >= 0 {
			r++
		}
	}
	return r
}

// rate is the row of the length of all.
func (t *stepped) rate() int { return len(t.right) - len(t.steps) - 1 }
