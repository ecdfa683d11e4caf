package buy_test

import (
	"fmt"
	"math/big"
	"strings"

	"ribband/pricing/buy"
	"ribband/pricing/money"
	"ribband/pricing/rack"
	"ribband/pricing/sheet"
	"ribband/takeoff/bill"
	"ribband/takeoff/boat"
	"ribband/takeoff/notation"
	"ribband/takeoff/quantity"

	"github.com/shopspring/decimal"
	"pgregory.net/rapid"
)

// drawnLading is a lading as a sheet, a rack and needs.
type drawnLading struct {
	lading
	sheet sheet.Content
	rack  rack.Rack
	needs []bill.Line
	rules buy.Rules
	rows  []sheet.Row
	coin  int64 // smallest coins in one of the currency
	// lengths of needs by which what is bought for several is shared.
	lengths map[string]int64
}

func ratOf(text string) *big.Rat {
	r, ok := new(big.Rat).SetString(text)
	if !ok {
		panic(text)
	}
	return r
}

// text of so many hundredths of a smallest coin.
func (d *drawnLading) text(hundredths int64) string {
	s := new(big.Rat).SetFrac64(hundredths, 100*d.coin).FloatString(6)
	return strings.TrimSuffix(strings.TrimRight(s, "0"), ".")
}

// coins are what a price in the currency is in smallest coins, exact.
func (d *drawnLading) coins(price string) *big.Rat {
	return new(big.Rat).Mul(ratOf(price), big.NewRat(d.coin, 1))
}

// A kerf of 3 mm and 20 mm off each end: of laminates 8 mm thick and planed 2 a board 100 mm wide gives (100 + 3) / (8 + 2 + 3) = 7, one of
// 200 mm 15. Of pieces of 900 mm two go in 2000 mm, (2000 - 40 + 3) / 903, and three in 3300; of 1500 mm one and two. The first group is
// 40 mm wide, the second 46: with its planing a board of 46 mm is too thin for it.
var (
	sideBySide = map[string]int64{"100": 7, "200": 15}
	endToEnd   = map[string][2]int64{"2000": {2, 1}, "3300": {3, 2}}
)

func (d *drawnLading) board(thick, width, length string) load {
	l := load{avail: -1, kg: new(big.Rat), m3: new(big.Rat).Mul(ratOf(thick), new(big.Rat).Mul(ratOf(width), ratOf(length)))}
	l.m3.Quo(l.m3, big.NewRat(1_000_000_000, 1))
	l.gives[0] = sideBySide[width] * endToEnd[length][0]
	if thick == "50" {
		l.gives[1] = sideBySide[width] * endToEnd[length][1]
	}
	return l
}

func drawLading(t *rapid.T) *drawnLading {
	d := &drawnLading{coin: rapid.SampledFrom([]int64{100, 100, 1}).Draw(t, "coin")}
	d.most = 6
	d.rules = buy.Rules{Kerf: dec("3"), EndTrim: dec("20"), Densities: map[string]decimal.Decimal{"oak": dec(rapid.SampledFrom([]string{"750", "612.5"}).Draw(t, "density"))}}
	if rapid.IntRange(0, 9).Draw(t, "unknown weight") == 0 {
		d.rules.Densities = nil
	}
	sellers := rapid.IntRange(1, 3).Draw(t, "sellers")
	for s := range sellers {
		d.sells(t, s)
	}
	d.woods(t, sellers)
	d.cans(t, sellers)
	if rapid.IntRange(0, 3).Draw(t, "in hand") == 0 {
		d.inHand(t)
	}
	var err error
	if d.sheet, err = sheet.FromRows(d.currency(), notation.Millimetres, d.rows); err != nil {
		t.Fatalf("%v\n%+v", err, d.rows)
	}
	return d
}

func (d *drawnLading) currency() money.Currency {
	if d.coin == 1 {
		return "JPY"
	}
	return "USD"
}

// sells draws what a seller asks for bringing.
func (d *drawnLading) sells(t *rapid.T, s int) {
	var rows [3]fee
	for k, of := range []struct {
		unit  []string
		price []int64 // hundredths of a coin
	}{
		{[]string{"C62"}, []int64{0, 300, 1150, 2500}}, {[]string{"MTQ", "BFT"}, []int64{0, 0, 3700, 12_345, 31_000}}, {[]string{"KGM", "TNE"}, []int64{0, 0, 9, 31, 50}},
	} {
		price, unit := rapid.SampledFrom(of.price).Draw(t, "asks"), rapid.SampledFrom(of.unit).Draw(t, "unit")
		if price == 0 {
			continue
		}
		each := map[string]string{"C62": "1", "MTQ": "1", "BFT": "0.002359737216", "KGM": "1", "TNE": "1000"}[unit]
		row := sheet.Row{Kind: "freight", Supplier: fmt.Sprint("S", s), Unit: unit}
		switch unit {
		case "BFT":
			price /= 400
		case "TNE":
			price *= 1000
		}
		row.Price = d.text(price)
		if rapid.IntRange(0, 2).Draw(t, "per") == 0 {
			row.Per = "3"
		}
		f := fee{each: d.coins(row.Price)}
		if row.Per != "" {
			f.each.Quo(f.each, big.NewRat(3, 1))
		}
		if f.each.Quo(f.each, ratOf(each)); rapid.IntRange(0, 2).Draw(t, "frees") == 0 {
			free := rapid.SampledFrom([]int64{4000, 7050, 11_000}).Draw(t, "free")
			f.free, row.FreeFrom = (free+99)/100, d.text(free)
		}
		rows[k] = f
		d.rows = append(d.rows, row)
	}
	d.asks = append(d.asks, rows)
}

// prices draws one or two prices of a load, by a unit of which it holds so much, or of 0 by the piece.
func (d *drawnLading) prices(t *rapid.T, l *load, row sheet.Row, holds *big.Rat) {
	if l.avail = rapid.SampledFrom([]int64{-1, -1, -1, 1, 2, 3}).Draw(t, "avail"); l.avail >= 0 {
		row.Available = fmt.Sprint(l.avail)
	}
	from, price := rapid.SampledFrom([]int64{0, 0, 0, 2, 3}).Draw(t, "from"), rapid.Int64Range(600, 4000).Draw(t, "price")
	for range rapid.SampledFrom([]int{1, 1, 2}).Draw(t, "breaks") {
		row.Price, row.MinQty = d.text(halfUp(new(big.Rat).Quo(big.NewRat(price, 1), holds))), ""
		if from > 0 {
			row.MinQty = strings.TrimRight(new(big.Rat).Mul(big.NewRat(from, 1), holds).FloatString(6), "0")
			row.MinQty = strings.TrimSuffix(row.MinQty, ".")
		}
		coins := new(big.Rat).Mul(d.coins(row.Price), holds)
		l.from, l.price = append(l.from, from), append(l.price, halfUp(coins))
		d.rows = append(d.rows, row)
		from, price = max(1, from)+rapid.Int64Range(1, 2).Draw(t, "more"), max(600, price-rapid.Int64Range(0, 1500).Draw(t, "off"))
	}
	d.loads = append(d.loads, *l)
}

func (d *drawnLading) taken(key string) bool {
	for _, l := range d.loads {
		if l.key == key {
			return true
		}
	}
	return false
}

// woods draws boards and one or two groups of laminates.
func (d *drawnLading) woods(t *rapid.T, sellers int) {
	for range rapid.IntRange(1, 3).Draw(t, "boards") {
		thick, width, length := rapid.SampledFrom([]string{"50", "50", "46"}).Draw(t, "thick"), rapid.SampledFrom([]string{"100", "200"}).Draw(t, "width"), rapid.SampledFrom([]string{"2000", "3300"}).Draw(t, "length")
		l := d.board(thick, width, length)
		if density, ok := d.rules.Densities["oak"]; ok {
			l.kg.Mul(l.m3, density.Rat())
		}
		l.seller = rapid.IntRange(0, sellers-1).Draw(t, "by")
		if l.key = fmt.Sprintf("%d oak %s %s %s", l.seller, thick, width, length); d.taken(l.key) {
			continue
		}
		row := sheet.Row{Kind: "timber", Supplier: fmt.Sprint("S", l.seller), Species: "oak", Grade: "clear", Thickness: thick, Width: width, StockLength: length}
		row.Unit = rapid.SampledFrom([]string{"C62", "MTR", "MTQ"}).Draw(t, "sold by")
		holds := map[string]*big.Rat{"C62": big.NewRat(1, 1), "MTR": new(big.Rat).Quo(ratOf(length), big.NewRat(1000, 1)), "MTQ": l.m3}[row.Unit]
		d.prices(t, &l, row, holds)
	}
	for g, n := range []int64{rapid.Int64Range(1, 70).Draw(t, "pieces"), rapid.Int64Range(0, 40).Draw(t, "others")} {
		d.needed[g] = n
		for k, part := range []int64{n / 3, n - n/3} { // of two members
			if part == 0 {
				continue
			}
			l := laminates(10*g+k+1, boat.Port, int(part), int(part), []string{"0.900", "1.500"}[g])
			l.Pieces.Species, l.Pieces.Grade = "oak", "clear"
			l.Pieces.Thickness, l.Pieces.Siding, l.Pieces.Planing = dec("8"), dec([]string{"40", "46"}[g]), dec("2")
			d.needs = append(d.needs, l)
		}
	}
}

// cans draws glue that is sold by weight and oil that is sold by measure, which freight by weight cannot count.
func (d *drawnLading) cans(t *rapid.T, sellers int) {
	for k, item := range []string{"epoxy", "oil"} {
		need := rapid.Int64Range(0, 4).Draw(t, item)
		if d.needed[2+k] = need; need == 0 {
			continue
		}
		unit, of := []string{"KGM", "LTR"}[k], []quantity.Unit{quantity.Kilogram, quantity.Litre}[k]
		for range rapid.IntRange(1, 2).Draw(t, "cans") {
			size := rapid.Int64Range(1, 3).Draw(t, "size")
			l := load{seller: rapid.IntRange(0, sellers-1).Draw(t, "by"), avail: -1, m3: new(big.Rat), kg: new(big.Rat)}
			if l.key = fmt.Sprint(l.seller, " ", item, " ", size); d.taken(l.key) {
				continue
			}
			if l.gives[2+k] = size; k == 0 {
				l.kg.SetInt64(size)
			}
			d.prices(t, &l, sheet.Row{Item: item, Kind: "glue", Supplier: fmt.Sprint("s", l.seller), Unit: unit, PackSize: fmt.Sprint(size)}, big.NewRat(size, 1))
		}
		d.needs = append(d.needs, goods(30+k, bill.Glue, item, fmt.Sprint(need), fmt.Sprint(need), of))
	}
}

// inHand draws boards of the yard's own, as wide and long as some that are sold.
func (d *drawnLading) inHand(t *rapid.T) {
	l := d.board("50", "100", "2000")
	l.key, l.seller, l.avail, l.from = "rack", -1, rapid.Int64Range(1, 2).Draw(t, "count"), []int64{0}
	row := rack.Row{ID: "R1", Count: l.avail, Species: "oak", Grade: "clear", Thickness: "50", Width: "100", Length: "2000"}
	worth := rapid.SampledFrom([]int64{0, 0, 300, 1500}).Draw(t, "worth")
	if l.price = []int64{worth / 100}; worth > 0 {
		row.Worth = d.text(worth)
	}
	held, faults := rack.Read(rack.Document{Notation: notation.Millimetres, Currency: d.currency(), Boards: []rack.Row{row}})
	if len(faults) > 0 {
		t.Fatal(faults)
	}
	d.rack, d.loads = held, append(d.loads, l)
}

func (d *drawnLading) String() string {
	var b strings.Builder
	_ = d.sheet.WriteCSV(&b)
	fmt.Fprintf(&b, "needed %v of %s, rack %+v, densities %v\n", d.needed, d.currency(), d.rack, d.rules.Densities)
	return b.String()
}
