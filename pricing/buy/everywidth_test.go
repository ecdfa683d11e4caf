package buy_test

import (
	"errors"
	"fmt"
	"math/big"
	"slices"
	"testing"

	"ribband/pricing/buy"
	"ribband/pricing/rack"
	"ribband/pricing/sheet"
	"ribband/takeoff/bill"
	"ribband/takeoff/boat"
	"ribband/takeoff/notation"
	"ribband/takeoff/step"

	"pgregory.net/rapid"
)

// stackBoard is a board of one width, or one of random width up to the widest, which is sold by the cubic metre, in cents.
type stackBoard struct {
	sawnBoard
	widest, cents int64
	supplier      int // -1 in hand
}

// reckoned is how many strips a board gives of pieces of a kind, and how wide it counts: of random width as wide as gives one strip more, every
// narrower one giving none, where strips lie as in the narrowest.
func (b stackBoard) reckoned(p sticks) (strips, wide int64) {
	strips, _, _ = b.strips(p, nil)
	if b.widest == 0 || strips == 0 {
		return strips, b.wide
	}
	each := p.thick
	if b.thick < p.side+2 || strips > (b.wide+3)/(p.thick+5) {
		each = p.side // flat
	}
	for wide = b.wide; wide < b.widest && (wide+3)/(each+5) == strips; {
		wide++
	}
	return strips, wide
}

// eachFor is what one board costs for pieces of a kind, cents.
func (b stackBoard) eachFor(wide int64) int64 {
	return roundHalfUp(new(big.Rat).Mul(big.NewRat(b.cents, 1), b.m3(wide)))
}

func (b stackBoard) m3(wide int64) *big.Rat {
	return new(big.Rat).Mul(big.NewRat(b.thick*wide, 1_000_000), big.NewRat(b.long, 1000))
}

// bringing is what a supplier asks by the order and the cubic metre, cents.
type bringing struct{ order, m3 int64 }

// everyStack is the least that boards as they are reckoned cost for all pieces, cents, and with what bringing them costs; -1 where there are none.
func everyStack(all []sticks, boards []stackBoard, asked []bringing) (goods, total int64) {
	goods, total = -1, -1
	count := make([][]int64, len(all))
	strips, wide := make([][]int64, len(all)), make([][]int64, len(all))
	for g, p := range all {
		count[g], strips[g], wide[g] = make([]int64, len(boards)), make([]int64, len(boards)), make([]int64, len(boards))
		for i, b := range boards {
			strips[g][i], wide[g][i] = b.reckoned(p)
			strips[g][i] *= (b.long - 2*b.trim + 3) / (p.long + 3)
		}
	}
	weigh := func() {
		sum, bought, m3 := int64(0), make([]bool, len(asked)), make([]*big.Rat, len(asked))
		for s := range m3 {
			m3[s] = new(big.Rat)
		}
		for i, b := range boards {
			n := int64(0)
			for g := range all {
				n += count[g][i]
			}
			if n == 0 {
				continue
			}
			if b.widest > 0 {
				for g := range all {
					sum += count[g][i] * b.eachFor(wide[g][i])
				}
			} else {
				price, sold := b.each(n)
				if !sold {
					return
				}
				sum += 100 * n * price
			}
			if b.supplier < 0 {
				continue
			}
			bought[b.supplier] = true
			for g := range all {
				m3[b.supplier].Add(m3[b.supplier], new(big.Rat).Mul(big.NewRat(count[g][i], 1), b.m3(wide[g][i])))
			}
		}
		if goods < 0 || sum < goods {
			goods = sum
		}
		for s, a := range asked {
			if bought[s] {
				sum += a.order + roundHalfUp(new(big.Rat).Mul(big.NewRat(a.m3, 1), m3[s]))
			}
		}
		if total < 0 || sum < total {
			total = sum
		}
	}
	var walk func(g, i int, left int64)
	walk = func(g, i int, left int64) {
		if i == len(boards) {
			if left > 0 {
				return
			}
			if g+1 < len(all) {
				walk(g+1, 0, all[g+1].count)
				return
			}
			weigh()
			return
		}
		needed := int64(0)
		if strips[g][i] > 0 && left > 0 {
			needed = (left + strips[g][i] - 1) / strips[g][i]
		}
		if boards[i].widest == 0 && strips[g][i] > 0 {
			needed += 3 // more than is needed may be sold for less, or be as many as are sold
		}
		for n := int64(0); n <= needed; n++ {
			count[g][i] = n
			walk(g, i+1, left-n*strips[g][i])
		}
		count[g][i] = 0
	}
	walk(0, 0, all[0].count)
	return goods, total
}

// Against every choice of boards as they are reckoned, of random width and of one, in hand, and freight by the order and the cubic metre: no
// floor is above the cheapest, and no list below it.
func TestRandomWidthsAgainstEveryChoice(t *testing.T) {
	rapid.Check(t, func(rt *rapid.T) {
		var rows []sheet.Row
		asked := make([]bringing, 2)
		for s := range asked {
			if asked[s].order = 100 * rapid.SampledFrom([]int64{0, 0, 9}).Draw(rt, "order"); asked[s].order > 0 {
				rows = append(rows, sheet.Row{Kind: "freight", Supplier: fmt.Sprint("S", s), Unit: "C62", Price: fmt.Sprint(asked[s].order / 100)})
			}
			if asked[s].m3 = 100 * rapid.SampledFrom([]int64{0, 0, 333}).Draw(rt, "m3"); asked[s].m3 > 0 {
				rows = append(rows, sheet.Row{Kind: "freight", Supplier: fmt.Sprint("S", s), Unit: "MTQ", Price: fmt.Sprint(asked[s].m3 / 100)})
			}
		}
		freight := len(rows) > 0
		var boards []stackBoard
		for i := range rapid.IntRange(1, 3).Draw(rt, "boards") {
			b := stackBoard{sawnBoard{rapid.SampledFrom([]int64{34, 52, 66}).Draw(rt, "thick"), rapid.Int64Range(40, 160).Draw(rt, "wide"), rapid.SampledFrom([]int64{2000, 3000}).Draw(rt, "long") + int64(i), 20, article{avail: -1}}, 0, 0, rapid.IntRange(0, 1).Draw(rt, "by")}
			row := sheet.Row{Kind: "timber", Supplier: fmt.Sprint("S", b.supplier), Species: "larch", Grade: "clear", Thickness: fmt.Sprint(b.thick), Width: fmt.Sprint(b.wide), StockLength: fmt.Sprint(b.long)}
			if rapid.IntRange(0, 2).Draw(rt, "one width") > 0 {
				b.widest, b.cents = b.wide+rapid.Int64Range(1, 120).Draw(rt, "wider"), 100*rapid.Int64Range(700, 3000).Draw(rt, "m3")
				row.Unit, row.Widest, row.Price = "MTQ", fmt.Sprint(b.widest), fmt.Sprint(b.cents/100)
				rows, boards = append(rows, row), append(boards, b)
				continue
			}
			b.avail = rapid.SampledFrom([]int64{-1, 1, 3}).Draw(rt, "avail")
			from, price := rapid.SampledFrom([]int64{0, 0, 2}).Draw(rt, "from"), rapid.Int64Range(4, 30).Draw(rt, "price")
			for range rapid.IntRange(1, 2).Draw(rt, "breaks") {
				b.from, b.price = append(b.from, from), append(b.price, price)
				row.Unit, row.Price, row.MinQty = "C62", fmt.Sprint(price), ""
				if from > 0 {
					row.MinQty = fmt.Sprint(from)
				}
				if b.avail >= 0 {
					row.Available = fmt.Sprint(b.avail)
				}
				rows = append(rows, row)
				from, price = max(from, 1)+rapid.Int64Range(1, 2).Draw(rt, "more"), max(1, price-rapid.Int64Range(0, 6).Draw(rt, "off"))
			}
			boards = append(boards, b)
		}
		hand := rack.Document{Notation: notation.Millimetres, Currency: "EUR"}
		if rapid.IntRange(0, 2).Draw(rt, "rack") == 0 {
			b := stackBoard{sawnBoard{52, 100, 2000, 20, article{avail: rapid.Int64Range(1, 2).Draw(rt, "held"), from: []int64{0}, price: []int64{rapid.SampledFrom([]int64{0, 5}).Draw(rt, "worth")}}}, 0, 0, -1}
			boards, hand.Boards = append(boards, b), []rack.Row{{ID: "R1", Count: b.avail, Species: "larch", Grade: "clear", Thickness: "52", Width: "100", Length: "2000", Worth: fmt.Sprint(b.price[0])}}
		}
		held, bad := rack.Read(hand)
		if len(bad) > 0 {
			rt.Fatal(bad)
		}
		c, err := sheet.FromRows("EUR", notation.Millimetres, rows)
		if err != nil {
			rt.Fatal(err)
		}
		all, needs := drawSticks(rt)
		l, err := buy.WithRack(needs, c, held, sawn)
		said := fmt.Sprintf("%+v of %+v, asked %+v", all, boards, asked)
		beside := slices.ContainsFunc(l.Timber, func(g buy.Timber) bool { return g.SideBySide != nil })
		if err == nil && !beside && len(l.Timber) < len(all) { // put together, as wide as the widest
			both := all[0]
			both.thick, both.count = max(all[0].thick, all[1].thick), all[0].count+all[1].count
			all = []sticks{both}
		}
		goods, total := everyStack(all, boards, asked)
		var short *buy.ShortBoardsError
		var missing *sheet.MissingPriceError
		if errors.As(err, &short) || errors.As(err, &missing) {
			if goods >= 0 && len(all) == 1 {
				rt.Fatalf("%v, and %d is possible: %s", err, goods, said)
			}
			return
		}
		if err != nil {
			rt.Fatalf("%v: %s", err, said)
		}
		if beside && goods < 0 {
			return // side by side is the only way
		}
		if goods < 0 || !beside && l.Cost.Minor() < goods || l.Bound.Minor() > goods {
			rt.Fatalf("%s, none below %s, and %d is the least: %s\n%s", l.Cost, l.Bound, goods, said, toldOf(l))
		}
		if freight && (!beside && l.Total.Minor() < total || l.TotalBound.Minor() > total) {
			rt.Fatalf("%s with freight, none below %s, and %d is the least: %s\n%s", l.Total, l.TotalBound, total, said, toldOf(l))
		}
	})
}

// drawSticks draws laminates, sawn pieces or planks of one or two kinds.
func drawSticks(t *rapid.T) (all []sticks, needs []bill.Line) {
	kinds := []sticks{{6, 40, 0, 0, true}, {9, 40, 0, 0, true}, {14, 30, 0, 0, true}, {30, 45, 0, 0, false}, {22, 30, 0, 0, false}}
	driver := string(step.Laminates)
	if rapid.IntRange(0, 3).Draw(t, "planks") == 0 {
		kinds, driver = []sticks{{38, 30, 0, 0, false}, {55, 30, 0, 0, false}, {70, 30, 0, 0, false}}, string(step.Planks)
	}
	first := rapid.IntRange(0, len(kinds)-1).Draw(t, "kind")
	for g := range rapid.IntRange(1, 2).Draw(t, "groups") {
		p := kinds[(first+g*rapid.IntRange(1, len(kinds)-1).Draw(t, "other"))%len(kinds)]
		p.long, p.count = rapid.SampledFrom([]int64{900, 1400, 1900}).Draw(t, "length"), rapid.Int64Range(1, 24).Draw(t, "count")
		if !p.flat {
			p.count = (p.count + 5) / 6
		}
		if g > 0 && driver == string(step.Planks) {
			p.long = all[0].long // they may lie in one strip
		}
		n := laminates(10+g, boat.Port, int(p.count), int(p.count), fmt.Sprintf("%d.%03d", p.long/1000, p.long%1000))
		n.Pieces.Species, n.Pieces.Grade, n.Pieces.Thickness, n.Pieces.Siding, n.Pieces.Planing = "larch", "clear", dec(fmt.Sprint(p.thick)), dec(fmt.Sprint(p.side)), dec("2")
		if n.Driver = driver; driver == string(step.Laminates) && !p.flat {
			n.Driver = string(step.Sawn)
		}
		all, needs = append(all, p), append(needs, n)
	}
	return all, needs
}
