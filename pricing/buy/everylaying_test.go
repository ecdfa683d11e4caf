package buy_test

import (
	"errors"
	"fmt"
	"strconv"
	"testing"

	"ribband/pricing/buy"
	"ribband/pricing/sawing"
	"ribband/pricing/sheet"
	"ribband/takeoff/notation"

	"pgregory.net/rapid"
)

// sideSold is a board by its sizes, mm, and its price at numbers.
type sideSold struct {
	thick, wide, long int64
	article
}

// bandsaw is what it takes between two layers of a board, and what each layer loses in planing, mm.
type bandsaw struct{ kerf, planing int64 }

// everyLaying is the least that planks by width, thickness and length can cost, each strip of a board as wide as its widest plank and each length
// of one crosscut first as long as its longest: every way of parting the planks into strips and lengths, and these into boards, or where there is a
// bandsaw into layers of boards. -1 where none holds.
func everyLaying(planks [][3]int64, boards []sideSold, saw *bandsaw) int64 {
	return everyLayingOf(planks, make([]bool, len(planks)), boards, saw)
}

// everyLayingOf is everyLaying where some planks, those ripped, go on no board that is crosscut first.
func everyLayingOf(planks [][3]int64, ripped []bool, boards []sideSold, saw *bandsaw) int64 {
	e := laying{planks: planks, ripped: ripped, boards: boards, saw: saw, kerf: 3, planing: 2, best: -1, count: make([]int64, len(boards))}
	for range boards {
		e.trims = append(e.trims, 40)
	}
	e.weigh = e.cost
	e.put(0, nil, nil)
	return e.best
}

// laying is the search. Trims are what both ends of each board lose; alone are the sizes of the one plank that a board is reckoned for, nothing
// for any; weigh is told every way of laying all planks, with how many of each board it cuts.
type laying struct {
	planks        [][3]int64 // widest first, so that a strip's first plank is its widest
	ripped        []bool
	boards        []sideSold
	alone         [][3]int64
	saw           *bandsaw
	kerf, planing int64
	trims         []int64
	weigh         func()
	best          int64
	count         []int64
}

// strip is a strip, or a length of a board that is crosscut first: what is left of the one along the board, and of the other across it.
type strip struct {
	layer, left int64
	length      int64 // of a length; 0 of a strip
}

// layer is a whole board, or one sawn off it for planks so thick at most, and what is left of its width or, crosscut first, of its length.
// rest is the board's thickness that is left, of its first layer, wide and long its own.
type layer struct {
	thick, wide, long, left int64
	across                  bool
	rest                    int64
	board                   int
}

// serves says that a board may be cut for a plank.
func (e *laying) serves(board int, p [3]int64) bool {
	return e.alone == nil || e.alone[board] == [3]int64{} || e.alone[board] == p
}

func (e *laying) cost() {
	sum := int64(0)
	for i, b := range e.boards {
		least, sold := b.least(e.count[i])
		if !sold {
			return
		}
		sum += least
	}
	if e.best < 0 || sum < e.best {
		e.best = sum
	}
}

func (e *laying) put(at int, strips []strip, layers []layer) {
	if at == len(e.planks) {
		e.weigh()
		return
	}
	p := e.planks[at]
	for k, s := range strips {
		takes := p[2] + e.kerf
		if s.length > 0 {
			takes = p[0] + e.planing + e.kerf
		}
		if s.length > 0 && e.ripped[at] || !e.serves(layers[s.layer].board, p) {
			continue
		}
		if s.left >= takes && layers[s.layer].thick >= p[1]+e.planing && (s.length == 0 || s.length >= p[2]) {
			strips[k].left -= takes
			e.put(at+1, strips, layers)
			strips[k].left += takes
		}
	}
	for o := range layers {
		e.begin(at, o, strips, layers)
	}
	for _, across := range []bool{false, true} {
		e.open(at, across, strips, layers)
	}
}

// begin begins a strip or a length of a layer with a plank: a length may be as long as that or as a longer one.
func (e *laying) begin(at, o int, strips []strip, layers []layer) {
	p, y := e.planks[at], layers[o]
	if y.thick < p[1]+e.planing || !e.serves(y.board, p) {
		return
	}
	start := func(takes int64, s strip) {
		layers[o].left -= takes
		e.put(at+1, append(append([]strip(nil), strips...), s), layers)
		layers[o].left += takes
	}
	wide := p[0] + e.planing + e.kerf
	if !y.across {
		if y.left >= wide && y.long >= p[2]+e.kerf {
			start(wide, strip{int64(o), y.long - p[2] - e.kerf, 0})
		}
		return
	}
	if e.ripped[at] {
		return
	}
	tried := map[int64]bool{}
	for _, q := range e.planks {
		if q[2] >= p[2] && y.left >= q[2]+e.kerf && y.wide >= wide && !tried[q[2]] {
			tried[q[2]] = true
			start(q[2]+e.kerf, strip{int64(o), y.wide - wide, q[2]})
		}
	}
}

// open takes a board up for a plank, or a layer of one.
func (e *laying) open(at int, across bool, strips []strip, layers []layer) {
	fresh := func(board int, thick, wide, long, rest int64) {
		y := layer{thick, wide, long, wide, across, rest, board}
		if across {
			y.left = long
		}
		e.begin(at, len(layers), strips, append(append([]layer(nil), layers...), y))
	}
	for _, q := range e.planks { // a layer for planks no thicker than this one
		if e.saw == nil {
			break
		}
		takes := q[1] + e.saw.planing + e.saw.kerf
		for o, y := range layers {
			if y.rest >= takes {
				layers[o].rest -= takes
				fresh(y.board, q[1]+2, y.wide, y.long, 0)
				layers[o].rest += takes
			}
		}
		for i, b := range e.boards {
			if b.thick+e.saw.kerf >= takes {
				e.count[i]++
				fresh(i, q[1]+2, b.wide+3, b.long-40+3, b.thick+e.saw.kerf-takes)
				e.count[i]--
			}
		}
	}
	for i, b := range e.boards {
		e.count[i]++
		fresh(i, b.thick, b.wide+e.kerf, b.long-e.trims[i]+e.kerf, 0)
		e.count[i]--
	}
}

// Against every plan there is, of few planks of several widths that lie side by side or not, out of boards sold from a number on, cheaper by
// the number or in few: no floor is above the cheapest, and no order is too small or too large.
func TestSideBySideAgainstEveryPlan(t *testing.T) {
	rapid.Check(t, func(rt *rapid.T) {
		var boards []sideSold
		var rows []sheet.Row
		for i := range rapid.IntRange(1, 3).Draw(rt, "boards") {
			b := sideSold{rapid.SampledFrom([]int64{40, 50, 50, 80}).Draw(rt, "thick"), 10 * rapid.Int64Range(16, 42).Draw(rt, "wide"), 1000 * rapid.Int64Range(2, 4).Draw(rt, "long"),
				article{avail: rapid.Int64Range(-1, 4).Draw(rt, "avail")}}
			from, price := rapid.Int64Range(0, 3).Draw(rt, "from"), rapid.Int64Range(20, 90).Draw(rt, "price")
			rows = append(rows, b.onSale(rt, sheet.Row{Kind: "timber", Supplier: fmt.Sprint("M", i), Unit: "C62", Species: "larch", Grade: "clear", Thickness: fmt.Sprint(b.thick), Width: fmt.Sprint(b.wide), StockLength: fmt.Sprint(b.long)}, from, price)...)
			boards = append(boards, b)
		}
		c, err := sheet.FromRows("EUR", notation.Millimetres, rows)
		if err != nil {
			rt.Fatal(err)
		}
		var planks [][3]int64
		var sizes [][3]string
		wide := int64(190)
		for range rapid.IntRange(2, 4).Draw(rt, "planks") {
			wide -= rapid.Int64Range(0, 40).Draw(rt, "narrower")
			p := [3]int64{wide, rapid.SampledFrom([]int64{30, 30, 45}).Draw(rt, "plank"), 100 * rapid.Int64Range(8, 30).Draw(rt, "length")}
			planks = append(planks, p)
			sizes = append(sizes, [3]string{fmt.Sprint(p[0]), fmt.Sprint(p[1]), fmt.Sprint(p[2])})
		}
		r := sawn
		var saw *bandsaw
		if rapid.IntRange(0, 3).Draw(rt, "saw") == 0 {
			saw = &bandsaw{rapid.Int64Range(1, 4).Draw(rt, "sawkerf"), rapid.Int64Range(0, 6).Draw(rt, "planing")}
			r.Resaw = &sawing.Resaw{Kerf: dec(fmt.Sprint(saw.kerf)), Planing: dec(fmt.Sprint(saw.planing))}
		}
		best := everyLaying(planks, boards, saw)
		needs := planksOf(t, sizes...)
		l, err := buy.New(needs, c, r)
		var short *buy.ShortBoardsError
		var missing *sheet.MissingPriceError
		if errors.As(err, &short) || errors.As(err, &missing) {
			if missing == nil && best >= 0 && saw == nil {
				rt.Fatalf("%v, and %d is possible of %+v, %v", err, best, boards, planks)
			}
			return
		}
		if err != nil {
			rt.Fatal(err)
		}
		heldOnce(rt, l, needs, c, r)
		bought := map[string]int64{}
		paid := int64(0)
		for _, g := range l.Timber {
			for _, b := range g.Boards {
				o, _ := g.Offer(b.Offer)
				bought[o.Supplier] += b.Count
				paid += b.Cost.Minor()
			}
			if g.SideBySide != nil {
				for _, y := range g.SideBySide.Layouts {
					within(rt, y, g, needs)
				}
			}
		}
		due := int64(0)
		for supplier, n := range bought {
			i, _ := strconv.Atoi(supplier[1:])
			price, sold := boards[i].each(n)
			if !sold {
				rt.Fatalf("%d of %+v bought: %+v", n, boards[i], l.Timber)
			}
			due += n * price * 100
		}
		if best < 0 || due > paid || l.Cost.Minor() != paid || l.Bound.Minor() > best*100 || l.Cost.Minor() < best*100 {
			rt.Fatalf("%s, paid %d, due %d, none below %s, and %d is the least of %+v, %v\n%+v", l.Cost, paid, due, l.Bound, best, boards, planks, l.Timber)
		}
	})
}
