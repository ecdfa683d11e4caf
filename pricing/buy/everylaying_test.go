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

// everyLaying is the least that planks by width, thickness and length can cost, each strip of a board as wide as its widest plank: every way of
// parting the planks into strips, and these into boards, or where there is a bandsaw into layers of boards. -1 where none holds.
func everyLaying(planks [][3]int64, boards []sideSold, saw *bandsaw) int64 {
	best := int64(-1)
	count := make([]int64, len(boards))
	type strip struct{ layer, wide, left int64 }
	// layer is a whole board, or one sawn off it for planks so thick at most; rest is the board's thickness that is left, of its first.
	type layer struct{ thick, long, left, rest, first int64 }
	cost := func() {
		sum := int64(0)
		for i, b := range boards {
			least := int64(-1)
			for n := count[i]; n <= count[i]+8; n++ {
				if n == 0 {
					least = 0
					break
				}
				if price, sold := b.each(n); sold && (least < 0 || n*price < least) {
					least = n * price
				}
			}
			if least < 0 {
				return
			}
			sum += least
		}
		if best < 0 || sum < best {
			best = sum
		}
	}
	var put func(at int, strips []strip, layers []layer)
	put = func(at int, strips []strip, layers []layer) {
		if at == len(planks) {
			cost()
			return
		}
		p := planks[at] // widest first, so that a strip's first plank is its widest
		for k := range strips {
			if strips[k].left >= p[2]+3 && layers[strips[k].layer].thick >= p[1]+2 {
				strips[k].left -= p[2] + 3
				put(at+1, strips, layers)
				strips[k].left += p[2] + 3
			}
		}
		begin := func(o int, layers []layer) {
			if y := layers[o]; y.left >= p[0]+5 && y.long >= p[2]+3 && y.thick >= p[1]+2 {
				layers[o].left -= p[0] + 5
				put(at+1, append(append([]strip(nil), strips...), strip{int64(o), p[0], y.long - p[2] - 3}), layers)
				layers[o].left += p[0] + 5
			}
		}
		for o := range layers {
			begin(o, layers)
		}
		for _, q := range planks { // a layer for planks no thicker than this one
			if saw == nil {
				break
			}
			takes := q[1] + saw.planing + saw.kerf
			for o, y := range layers {
				if y.rest >= takes {
					more := append(append([]layer(nil), layers...), layer{q[1] + 2, y.long, y.first, 0, y.first})
					more[o].rest -= takes
					begin(len(layers), more)
				}
			}
			for i, b := range boards {
				if b.thick+saw.kerf >= takes {
					count[i]++
					begin(len(layers), append(append([]layer(nil), layers...), layer{q[1] + 2, b.long - 40 + 3, b.wide + 3, b.thick + saw.kerf - takes, b.wide + 3}))
					count[i]--
				}
			}
		}
		for i, b := range boards {
			count[i]++
			begin(len(layers), append(append([]layer(nil), layers...), layer{b.thick, b.long - 40 + 3, b.wide + 3, 0, 0}))
			count[i]--
		}
	}
	put(0, nil, nil)
	return best
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
			for range rapid.IntRange(1, 2).Draw(rt, "breaks") {
				b.from, b.price = append(b.from, from), append(b.price, price)
				row := sheet.Row{Kind: "timber", Supplier: fmt.Sprint("M", i), Unit: "C62", Species: "larch", Grade: "clear", Thickness: fmt.Sprint(b.thick), Width: fmt.Sprint(b.wide), StockLength: fmt.Sprint(b.long), Price: fmt.Sprint(price)}
				if from > 0 {
					row.MinQty = fmt.Sprint(from)
				}
				if b.avail >= 0 {
					row.Available = fmt.Sprint(b.avail)
				}
				rows = append(rows, row)
				from, price = max(from, 1)+rapid.Int64Range(1, 2).Draw(rt, "more"), price-rapid.Int64Range(-2, 15).Draw(rt, "off")
			}
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
