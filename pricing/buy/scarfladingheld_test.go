package buy_test

import (
	"errors"
	"fmt"
	"math/big"
	"testing"

	"ribband/pricing/buy"
	"ribband/pricing/money"
	"ribband/pricing/pack"
	"ribband/pricing/sheet"
	"ribband/takeoff/bill"
	"ribband/takeoff/boat"
	"ribband/takeoff/notation"
	"ribband/takeoff/quantity"
	"ribband/takeoff/step"

	"pgregory.net/rapid"
)

// drawnScarfs is such a yard as a sheet and needs.
type drawnScarfs struct {
	drawnLading
	scarfable
}

func drawScarfs(t *rapid.T) *drawnScarfs {
	d := &drawnScarfs{}
	y := &d.scarfable
	d.coin = rapid.SampledFrom([]int64{100, 1}).Draw(t, "coin")
	d.rules = scarfing("1", rapid.SampledFrom([]string{"0", "0", "2", "20"}).Draw(t, "setup"))
	d.rules.Kerf = dec("5")
	sellers := rapid.IntRange(1, 2).Draw(t, "sellers")
	for s := range sellers {
		d.sells(t, s)
	}
	joint := rapid.SampledFrom([]int64{50, 150, 250, 400, 701, 1250, 3333}).Draw(t, "joint") // hundredths of a coin
	rate := sheet.Row{Item: "shipwright", Kind: "labour", Unit: "HUR", Price: d.text(joint)}
	y.joint = d.coins(rate.Price)
	if rapid.IntRange(0, 3).Draw(t, "per") == 0 {
		rate.Per = "3"
		y.joint.Quo(y.joint, big.NewRat(3, 1))
	}
	d.rows = append(d.rows, rate)
	d.planking(t)
	d.longBoards(t, sellers)
	for range rapid.IntRange(1, 2).Draw(t, "cans") {
		l := load{seller: rapid.IntRange(0, sellers-1).Draw(t, "by"), m3: new(big.Rat), kg: new(big.Rat)}
		size := rapid.Int64Range(1, 2).Draw(t, "litres")
		if l.key = fmt.Sprint(l.seller, " epoxy ", size); d.taken(l.key) {
			continue
		}
		l.gives[2] = 100 * size
		d.prices(t, &l, sheet.Row{Item: "epoxy", Kind: "glue", Supplier: fmt.Sprint("S", l.seller), Unit: "LTR", PackSize: fmt.Sprint(size)}, big.NewRat(size, 1))
		y.strips, y.room, y.wood = append(y.strips, 0), append(y.room, 0), append(y.wood, -1)
	}
	var err error
	if d.sheet, err = sheet.FromRows(d.currency(), notation.Millimetres, d.rows); err != nil {
		t.Fatalf("%v\n%+v", err, d.rows)
	}
	y.lading = d.drawnLading.lading
	y.most = 2
	return d
}

var woods = []string{"larch", "oak"}

// planking draws one or two planks of one wood or of two, with glue that is needed beside their joints.
func (d *drawnScarfs) planking(t *rapid.T) {
	var sizes [][3]string
	for range rapid.IntRange(1, 2).Draw(t, "planks") {
		p := plank{wood: rapid.Int64Range(0, 1).Draw(t, "wood"), length: 50 * rapid.Int64Range(34, 96).Draw(t, "length")}
		d.planks = append(d.planks, p)
		sizes = append(sizes, [3]string{"150", "30", fmt.Sprint(p.length)})
	}
	d.needs = mayScarf(planksOf(&testing.T{}, sizes...))
	d.lengths = map[string]int64{}
	for i := range d.needs {
		d.needs[i].Pieces.Species = woods[d.planks[i].wood]
		d.lengths[d.needs[i].ID] = d.planks[i].length
	}
	// Of one joint 385.333 x 150 / 10^6 = 0.058 m2 take 0.02 L, and 0.03 with what the pot keeps.
	if d.scarfable.eachJoint, d.glue = 3, rapid.SampledFrom([]int64{0, 95, 97, 100, 198}).Draw(t, "glue"); d.glue > 0 {
		litres := fmt.Sprintf("%d.%02d", d.glue/100, d.glue%100)
		d.needs = append(d.needs, goods(30, bill.Glue, "epoxy", litres, litres, quantity.Litre))
	}
	if rapid.IntRange(0, 3).Draw(t, "counted") == 0 { // by the bill
		n := &d.needs[0]
		n.Pieces.Scarf.Counted = 1
		d.needs = append(d.needs, bill.Line{ID: n.Pieces.Scarf.Glue.Line, Material: bill.Glue, Item: "epoxy", Driver: string(step.Scarfs), Member: n.Member, Remedy: boat.RenewPlank,
			Net: of("0.02", quantity.Litre), Gross: of("0.03", quantity.Litre)})
	}
}

// longBoards draws one or two boards of each wood that is needed: of 160 mm one strip, of 320 mm two, 20 mm off each end.
func (d *drawnScarfs) longBoards(t *rapid.T, sellers int) {
	y := &d.scarfable
	for w, name := range woods {
		wanted := false
		for _, p := range d.planks {
			wanted = wanted || p.wood == int64(w)
		}
		for range rapid.IntRange(1, 2).Draw(t, "boards") {
			l := load{seller: rapid.IntRange(0, sellers-1).Draw(t, "by"), kg: new(big.Rat)}
			strips, length := rapid.SampledFrom([]int64{1, 1, 2}).Draw(t, "strips"), 500*rapid.Int64Range(4, 11).Draw(t, "long")
			l.key = fmt.Sprintf("%d %s 40 %d %d", l.seller, name, 160*strips, length)
			if !wanted || d.taken(l.key) {
				continue
			}
			l.m3 = big.NewRat(40*160*strips*length, 1_000_000_000)
			row := sheet.Row{Kind: "timber", Supplier: fmt.Sprint("S", l.seller), Species: name, Grade: "clear", Unit: "C62", Thickness: "40", Width: fmt.Sprint(160 * strips), StockLength: fmt.Sprint(length)}
			d.prices(t, &l, row, big.NewRat(1, 1))
			y.strips, y.room, y.wood = append(y.strips, strips), append(y.room, length-40+kerfMM), append(y.wood, int64(w))
		}
	}
}

// Against every way of making one or two planks whole or of two parts out of boards that sellers ask freight for, with the
// glue that joints add and hours that come to parts of a coin: no floor is above what some plan comes to with its hours, none is cheaper
// than what is told as the least, every sum is that of the sheet, and shares add up.
func TestScarfsWithFreightAgainstEveryPlan(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		d := drawScarfs(t)
		y := &d.scarfable
		y.lookScarfs()
		l, err := buy.New(d.needs, d.sheet, d.rules)
		var boards *buy.ShortBoardsError
		var packs *pack.ShortError
		var missing *sheet.MissingPriceError
		if err != nil && (errors.As(err, &boards) || errors.As(err, &packs) || errors.As(err, &missing)) {
			if y.total >= 0 {
				t.Fatalf("%v, and %d would do\n%s", err, y.total, d)
			}
			return
		}
		if err != nil {
			t.Fatalf("%v, the cheapest is %d\n%s", err, y.total, d)
		}
		counts := d.recount(t, l)
		d.shares(t, l)
		labour := d.labour(t, l)
		total, bound := l.Total, l.TotalBound
		if total == (money.Money{}) {
			total, bound = l.Cost, l.Bound
		}
		all := total.Minor() + labour
		if bound.Minor() > all || l.Bound.Minor() > l.Cost.Minor()+labour {
			t.Fatalf("%d below its floor %s, or goods %s below %s\n%s", all, bound, l.Cost, l.Bound, d)
		}
		if y.total >= 0 && (bound.Minor() > y.total || l.Bound.Minor() > y.goods) || y.within(counts) && (y.total < 0 || all < y.total) {
			t.Fatalf("%s and hours of %d, none below %s, goods %s, none below %s: the cheapest is %d, goods %d\n%s", total, labour, bound, l.Cost, l.Bound, y.total, y.goods, d)
		}
	})
}

// labour of a list's joints, each wood's rounded once.
func (d *drawnScarfs) labour(t *rapid.T, l buy.List) (sum int64) {
	for _, g := range l.Timber {
		if g.Scarfed == nil {
			continue
		}
		n := int64(0)
		for _, j := range g.Scarfed.Joints {
			n += j.Count
		}
		each := halfUp(new(big.Rat).Mul(d.joint, big.NewRat(n, 1)))
		if sum += each; n != g.Scarfed.Count || g.Scarfed.Labour.Minor() != each {
			t.Fatalf("%d joints, %d told, for %s, want %d\n%s", n, g.Scarfed.Count, g.Scarfed.Labour, each, d)
		}
	}
	if l.ScarfLabour != (money.Money{}) && l.ScarfLabour.Minor() != sum || l.ScarfLabour == (money.Money{}) && sum != 0 {
		t.Fatalf("hours of %s, %d are counted\n%s", l.ScarfLabour, sum, d)
	}
	return sum
}

func (d *drawnScarfs) String() string {
	return fmt.Sprintf("%s%+v, glue %d, joint %s\n", d.drawnLading.String(), d.planks, d.glue, d.joint.FloatString(4))
}
