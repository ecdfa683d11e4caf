package flat

import (
	"fmt"
	"math"
	"slices"

	"ribband/takeoff/cutting/internal/simplex"
)

// prover shows that no plan of two stages is cheaper than the best by cases: at most so many sheets of a stock, or so many
// strips of a depth, or more. In each case a program of its own gives values of pieces and of the strips counted; made whole
// numbers they say what sheets hold at most, and so which numbers of sheets could hold all pieces. A case in which no such
// numbers cost less than the best plan is closed; another is parted again. Whole numbers of strips at least so deep are what
// the program at the top knows nothing of, and where some ten sheets do they are most of what it is short by.
//
// Rows: classes; for each form, its layouts are what is used of it; for each stock, what is used is at most what is bought; one
// for what all costs, which is less than the best plan; and for each group and level two, strips of that depth are at most
// those counted, and these are the slots of layouts. What is counted is strips at least so deep.
type prover struct {
	*search
	lp       *simplex.LP
	used     []int   // columns of what is used, by form
	bought   []int   // by stock
	missing  []int   // pieces not cut, by class
	count    [][]int // strips counted, by group and level
	at       [][]int // first of the two rows of each group and level
	money    int     // row of what all costs
	strips   []strip
	stripCol []int
	cuts     []cut
	cutCol   []int
	seen     map[string]bool
	target   int64 // a plan cheaper than the best costs so many units at most
	until    int64
	counted  int64 // work of the program that the search has counted
	open     []*node
	root     *node
	cases    int
	trial    simplex.State
	tried    map[counted]*trials
}

// counted names what cases are told apart by: sheets of a stock, sheets of a form, strips of a group at least of a level.
type counted struct {
	kind      kind
	at, level int
}

type kind int

const (
	ofStock kind = iota
	ofForm
	ofStrips
)

// newProver makes the program from the strips and layouts of the one at the top.
func newProver(s *search) *prover {
	v := &prover{search: s, seen: map[string]bool{}, tried: map[counted]*trials{}}
	v.money = len(s.classes) + len(s.forms) + len(s.stock)
	n := v.money + 1
	for _, g := range s.groups {
		var at []int
		for range s.lays[g.lay].levels {
			at = append(at, n)
			n += 2
		}
		v.at = append(v.at, at)
	}
	b := make([]float64, n)
	for i, c := range s.classes {
		b[i] = float64(c.demand)
	}
	v.lp = simplex.New(b)
	v.columns(n)
	for _, t := range s.strips[:s.first[0]] {
		v.addStrip(t)
	}
	for _, c := range s.cuts[:s.first[1]] {
		v.addCut(c)
	}
	return v
}

// A piece not cut costs so many of the dearest sheet: more than a case's values may ever come to.
const notCut = 100

// columns are those of what is counted and of what makes up differences, with which the program begins.
func (v *prover) columns(n int) {
	head, unit := make([]int, n), make([]int, n)
	one := func(cost float64, row int, val float64) int {
		return v.lp.Add([]int32{int32(row)}, []float64{val}, cost, 0, math.Inf(1))
	}
	m := len(v.classes)
	for i := range v.classes {
		unit[i] = one(0, i, -1)
		head[i] = one(notCut, i, 1)
		v.missing = append(v.missing, head[i])
	}
	price := func(stock int) float64 { return float64(v.stock[stock].price) / v.norm }
	for i, f := range v.forms {
		row := m + i
		unit[row] = one(notCut, row, -1)
		head[row] = v.lp.Add([]int32{int32(row), int32(m + len(v.forms) + f.stock)}, []float64{-1, -1}, price(f.stock), 0, math.Inf(1))
		v.used = append(v.used, head[row])
	}
	for k := range v.stock {
		row := m + len(v.forms) + k
		head[row] = one(0, row, -1)
		unit[row] = head[row]
		v.bought = append(v.bought, v.lp.Add([]int32{int32(row), int32(v.money)}, []float64{1, price(k)}, 0, 0, math.Inf(1)))
	}
	head[v.money] = one(0, v.money, 1)
	unit[v.money] = head[v.money]
	for g := range v.groups {
		var cols []int
		for i, row := range v.at[g] {
			rows, vals := []int32{int32(row), int32(row + 1)}, []float64{1, -1}
			if i > 0 {
				rows, vals = append(rows, int32(row-2), int32(row-1)), append(vals, -1, 1)
			}
			cols = append(cols, v.lp.Add(rows, vals, 0, 0, math.Inf(1)))
			unit[row], unit[row+1] = one(notCut, row, -1), one(notCut, row+1, -1)
			head[row+1] = unit[row+1]
			if i == 0 {
				head[row] = one(0, row, -1)
				continue
			}
			head[row] = v.lp.Add([]int32{int32(row), int32(row - 2)}, []float64{-1, 1}, 0, 0, math.Inf(1)) // counted, but less deep
		}
		v.count = append(v.count, cols)
	}
	v.lp.Begin(head, unit)
}

// addStrip takes a strip into the program; false when it stands there already.
func (v *prover) addStrip(t strip) bool {
	key := fmt.Sprint("s", t)
	if v.seen[key] || len(t.stacks) == 0 {
		return false
	}
	v.seen[key] = true
	rows, vals := []int32{int32(v.at[t.group][t.level])}, []float64{-1}
	for _, c := range v.counts(t) {
		rows, vals = append(rows, int32(c.thing)), append(vals, float64(c.n))
	}
	v.strips = append(v.strips, t)
	v.stripCol = append(v.stripCol, v.lp.Add(rows, vals, 0, 0, math.Inf(1)))
	return true
}

// addCut takes a layout into the program; false when it stands there already.
func (v *prover) addCut(c cut) bool {
	key := fmt.Sprint("c", c)
	if v.seen[key] || len(c.slots) == 0 {
		return false
	}
	v.seen[key] = true
	rows, vals := []int32{int32(len(v.classes) + c.form)}, []float64{1}
	for _, p := range c.slots {
		rows, vals = append(rows, int32(v.at[v.forms[c.form].group][p.thing]+1)), append(vals, float64(p.n))
	}
	v.cuts = append(v.cuts, c)
	v.cutCol = append(v.cutCol, v.lp.Add(rows, vals, 0, 0, math.Inf(1)))
	return true
}

// column is the program's of what is counted.
func (v *prover) column(c counted) int {
	switch c.kind {
	case ofStock:
		return v.bought[c.at]
	case ofForm:
		return v.used[c.at]
	}
	return v.count[c.at][c.level]
}

// most is how many of it any plan in question may have.
func (v *prover) most(c counted) int64 {
	stock := c.at
	switch c.kind {
	case ofStrips:
		return unbounded
	case ofForm:
		stock = v.forms[c.at].stock
	}
	most := v.target / v.stock[stock].price
	if a := v.stock[stock].Avail; a >= 0 {
		most = min(most, a)
	}
	return most
}

// bring adds the best strip of each group and level, and the best layout of each form, where they lower the cost; the tables
// of strips hold the present values of pieces, unit to the program's one. It gives how many.
func (v *prover) bring(y []float64, unit float64) int {
	added := 0
	for g, group := range v.groups {
		for i := range v.lays[group.lay].levels {
			if float64(v.worth(g, i))/unit-y[v.at[g][i]] > gain {
				t := strip{g, i, v.pricers[group.lay].stacks(i, group.room)}
				t.level = v.levelOf(t)
				if v.addStrip(t) {
					added++
				}
			}
		}
	}
	for i, f := range v.forms {
		slot := func(level int) float64 { return y[v.at[f.group][level]+1] }
		v.outer[i].clear()
		v.inSheet(i, func(level int) int64 { return int64(math.Max(0, slot(level)) * unit) })
		c := cut{i, v.outer[i].fill(f.deep, 0, len(v.outer[i].passes))}
		sum := y[len(v.classes)+i]
		for _, p := range c.slots {
			sum += float64(slot(p.thing) * float64(p.n))
		}
		if sum > gain && v.addCut(c) {
			added++
		}
	}
	return added
}

// inSheet puts strips of all levels into the table of a form's sheet.
func (v *prover) inSheet(form int, worth func(level int) int64) {
	f := v.forms[form]
	for level, d := range v.lays[v.groups[f.group].lay].levels {
		if d <= f.deep {
			v.outer[form].put(level, d, worth(level), f.deep)
		}
	}
}

// levelOf is the level of a strip's deepest piece.
func (v *prover) levelOf(t strip) int {
	y, deep := v.lays[v.groups[t.group].lay], int64(0)
	for _, k := range t.stacks {
		deep = max(deep, y.shapes[k.parts[0].thing].deep)
	}
	i, _ := slices.BinarySearch(y.levels, deep)
	return i
}
