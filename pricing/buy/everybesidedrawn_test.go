package buy_test

import (
	"fmt"
	"math/big"
	"testing"

	"ribband/pricing/buy"
	"ribband/pricing/rack"
	"ribband/pricing/sheet"
	"ribband/takeoff/bill"
	"ribband/takeoff/notation"
	"ribband/takeoff/quantity"

	"github.com/shopspring/decimal"
	"pgregory.net/rapid"
)

// drawnBeside is a tiny yard of planks: what is for sale by two mills that ask for bringing it, and in hand. Sizes are ten-thousandths of a
// millimetre, of which a sixteenth of an inch is a whole number; money is in cents.
type drawnBeside struct {
	laying
	lading
	planksBy []int64 // how many of each need
	notation notation.Notation
	grain    int64 // sizes are whole numbers of it
	random   bool
	rules    buy.Rules
	sheet    sheet.Content
	doc      rack.Document
	rack     rack.Rack
	needs    []bill.Line
	rows     []sheet.Row
}

const tenThousandth = 10_000

func mmOf(size int64) decimal.Decimal { return decimal.New(size, -4) }

// text writes a size as the yard does.
func (d *drawnBeside) text(size int64) string {
	l, err := notation.Millimetres.Parse(mmOf(size).String())
	if err != nil {
		panic(err)
	}
	return d.notation.Format(l)
}

// near is the nearest size to so many millimetres that the yard writes.
func (d *drawnBeside) near(mm int64) int64 { return (mm*tenThousandth + d.grain/2) / d.grain * d.grain }

// drawBeside draws a yard for so many planks at most, a few of them alike.
func drawBeside(t *testing.T, rt *rapid.T, most, alike int64) *drawnBeside {
	d := &drawnBeside{notation: notation.Millimetres, grain: tenThousandth}
	d.kerf, d.planing = 3*tenThousandth, 2*tenThousandth
	ends := int64(20 * tenThousandth)
	if rapid.IntRange(0, 2).Draw(rt, "inches") == 0 {
		d.notation, d.grain = notation.FeetInchesEighths, 15_875
		d.kerf, d.planing, ends = 2*d.grain, d.grain, 12*d.grain
	}
	d.rules = buy.Rules{Kerf: mmOf(d.kerf), EndTrim: mmOf(ends), LeastShort: dec("600")}
	d.drawPlanks(t, rt, most, alike)
	d.asks = make([][3]fee, 2)
	if rapid.Bool().Draw(rt, "freight") {
		for s := range d.asks {
			d.drawFreight(rt, s)
		}
	}
	for i := range rapid.IntRange(1, 3).Draw(rt, "boards") {
		d.drawBoard(rt, i, 2*ends)
	}
	d.doc = rack.Document{Notation: d.notation, Currency: "EUR", Boards: []rack.Row{}}
	if rapid.IntRange(0, 2).Draw(rt, "rack") == 0 {
		d.drawHand(rt, 2*ends)
	}
	var err error
	if d.sheet, err = sheet.FromRows("EUR", d.notation, d.rows); err != nil {
		rt.Fatalf("%v: %+v", err, d.rows)
	}
	held, bad := rack.Read(d.doc)
	if len(bad) > 0 {
		rt.Fatal(bad)
	}
	d.rack, d.count, d.ripped = held, make([]int64, len(d.boards)), make([]bool, len(d.planks))
	return d
}

// drawPlanks draws two or three needs of planks alike, widest first.
func (d *drawnBeside) drawPlanks(t *testing.T, rt *rapid.T, left, alike int64) {
	var sizes [][3]string
	wide := rapid.Int64Range(150, 300).Draw(rt, "widest plank")
	for range rapid.IntRange(2, 3).Draw(rt, "needs") {
		if left == 0 {
			break
		}
		wide = max(60, wide-rapid.Int64Range(0, 120).Draw(rt, "narrower"))
		p := [3]int64{d.near(wide), d.near(rapid.SampledFrom([]int64{30, 30, 30, 45}).Draw(rt, "plank")), 100 * tenThousandth * rapid.SampledFrom([]int64{9, 13, 18, 21, 24}).Draw(rt, "length")}
		n := min(left, rapid.Int64Range(1, alike).Draw(rt, "planks"))
		left -= n
		for range n {
			d.planks = append(d.planks, p)
		}
		d.planksBy = append(d.planksBy, n)
		sizes = append(sizes, [3]string{mmOf(p[0]).String(), mmOf(p[1]).String(), mmOf(p[2]).String()})
	}
	d.needs = planksOf(t, sizes...)
	for i, n := range d.planksBy {
		d.needs[i].Net, d.needs[i].Gross = quantity.Count(n), quantity.Count(n)
		d.needs[i].Pieces.Planing = mmOf(d.planing)
	}
}

func (d *drawnBeside) drawFreight(rt *rapid.T, s int) {
	for k, unit := range []string{"C62", "MTQ"} {
		euros := rapid.SampledFrom([][]int64{{0, 9, 40}, {0, 0, 333}}[k]).Draw(rt, unit)
		if euros == 0 {
			continue
		}
		row, f := sheet.Row{Kind: "freight", Supplier: fmt.Sprint("S", s), Unit: unit, Price: fmt.Sprint(euros)}, fee{each: big.NewRat(100*euros, 1)}
		if free := rapid.SampledFrom([]int64{0, 0, 80, 150}).Draw(rt, "free"); free > 0 {
			row.FreeFrom, f.free = fmt.Sprint(free), 100*free
		}
		d.asks[s][k], d.rows = f, append(d.rows, row)
	}
}

// drawBoard draws a board of one width, or of random width: as one board for each size of plank, as wide as it is reckoned for that.
func (d *drawnBeside) drawBoard(rt *rapid.T, i int, trim int64) {
	thick, wide, long := d.near(rapid.SampledFrom([]int64{40, 50, 50, 80}).Draw(rt, "thick")), d.near(10*rapid.Int64Range(16, 42).Draw(rt, "wide")), d.near(1000*rapid.Int64Range(2, 4).Draw(rt, "long")+16*int64(i))
	if i == 0 && rapid.IntRange(0, 5).Draw(rt, "large") > 0 { // that gives every plank
		thick, wide, long = max(thick, d.near(50)), max(wide, d.near(320)), max(long, d.near(2500))
	}
	s := rapid.IntRange(0, 1).Draw(rt, "by")
	row := sheet.Row{Kind: "timber", Supplier: fmt.Sprint("S", s), Species: "larch", Grade: "clear", Thickness: d.text(thick), Width: d.text(wide), StockLength: d.text(long)}
	if rapid.IntRange(0, 4).Draw(rt, "random width") == 0 {
		widest, euros := wide+d.near(rapid.Int64Range(5, 150).Draw(rt, "wider")), rapid.Int64Range(1000, 9000).Draw(rt, "m3")
		row.Unit, row.Widest, row.Price = "MTQ", d.text(widest), fmt.Sprint(euros)
		d.rows, d.random = append(d.rows, row), true
		for k, p := range d.planks {
			each := p[0] + d.planing + d.kerf
			n := (wide + d.kerf) / each
			if n == 0 || k > 0 && p == d.planks[k-1] {
				continue
			}
			across, gives := min(widest, (n+1)*each-d.kerf), min(widest, (n+1)*each-d.kerf-1)
			m3 := volume(thick, across, long)
			cents := halfUp(new(big.Rat).Mul(m3, big.NewRat(100*euros, 1)))
			d.add(sideSold{thick, gives, long, article{avail: -1, from: []int64{0}, price: []int64{cents}}}, p, trim, s, m3)
		}
		return
	}
	b := sideSold{thick, wide, long, article{avail: rapid.SampledFrom([]int64{-1, -1, 1, 2, 4}).Draw(rt, "avail")}}
	from, price := rapid.SampledFrom([]int64{0, 0, 0, 2, 3}).Draw(rt, "from"), rapid.Int64Range(20, 90).Draw(rt, "price")
	for range rapid.IntRange(1, 2).Draw(rt, "breaks") {
		b.from, b.price = append(b.from, from), append(b.price, 100*price)
		row.Unit, row.Price, row.MinQty = "C62", fmt.Sprint(price), ""
		if from > 0 {
			row.MinQty = fmt.Sprint(from)
		}
		if b.avail >= 0 {
			row.Available = fmt.Sprint(b.avail)
		}
		d.rows = append(d.rows, row)
		from, price = max(from, 1)+rapid.Int64Range(1, 2).Draw(rt, "more"), price-rapid.Int64Range(-2, 15).Draw(rt, "off")
	}
	d.add(b, [3]int64{}, trim, s, volume(thick, wide, long))
}

// drawHand draws boards in hand, whole or with one or two stretches marked as clear, each of which counts as a board with its part of the worth.
func (d *drawnBeside) drawHand(rt *rapid.T, trim int64) {
	thick, wide, long := d.near(rapid.SampledFrom([]int64{40, 50, 80}).Draw(rt, "held thick")), d.near(10*rapid.Int64Range(10, 40).Draw(rt, "held wide")), d.near(1000*rapid.Int64Range(2, 4).Draw(rt, "held long"))
	worth, count := rapid.SampledFrom([]int64{0, 0, 14}).Draw(rt, "worth"), rapid.Int64Range(1, 2).Draw(rt, "held")
	row := rack.Row{ID: "R1", Count: count, Species: "larch", Grade: "clear", Thickness: d.text(thick), Width: d.text(wide), Length: d.text(long)}
	if worth > 0 {
		row.Worth = fmt.Sprint(worth)
	}
	n := rapid.Int64Range(0, 2).Draw(rt, "marked")
	b := sideSold{thick, wide, long, article{avail: count, from: []int64{0}, price: []int64{100 * worth}}}
	if n > 0 {
		b.long, trim, b.price = (long/n/d.grain-4)*d.grain, 0, []int64{100 * worth / n}
		for k := range n {
			row.Clear = append(row.Clear, rack.Stretch{From: d.text(k * (b.long + d.grain)), To: d.text(k*(b.long+d.grain) + b.long)})
		}
	}
	for range max(1, n) {
		d.add(b, [3]int64{}, trim, -1, new(big.Rat))
	}
	d.doc.Boards = append(d.doc.Boards, row)
}

func (d *drawnBeside) add(b sideSold, alone [3]int64, trim int64, seller int, m3 *big.Rat) {
	d.boards, d.alone, d.trims = append(d.boards, b), append(d.alone, alone), append(d.trims, trim)
	d.loads = append(d.loads, load{seller: seller, avail: b.avail, from: b.from, price: b.price, m3: m3, kg: new(big.Rat)})
}

// volume of a board, m3.
func volume(thick, wide, long int64) *big.Rat {
	v := new(big.Rat).SetInt(new(big.Int).Mul(big.NewInt(thick*wide), big.NewInt(long)))
	return v.Mul(v, new(big.Rat).SetFrac(big.NewInt(1), new(big.Int).Exp(big.NewInt(10), big.NewInt(21), nil)))
}
