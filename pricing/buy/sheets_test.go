package buy_test

import (
	"errors"
	"fmt"
	"strings"
	"testing"

	"ribband/pricing/buy"
	"ribband/pricing/pack"
	"ribband/pricing/rack"
	"ribband/pricing/sheet"
	"ribband/takeoff/bill"
	"ribband/takeoff/boat"
	"ribband/takeoff/cutting/flat"
	"ribband/takeoff/notation"
	"ribband/takeoff/quantity"

	"github.com/shopspring/decimal"
	"pgregory.net/rapid"
)

// cut is a need of count rectangles, mm, gross a tenth above the net area.
func cut(frame int, m bill.Material, item string, count, width, length int64, turn bool) bill.Line {
	area := decimal.NewFromInt(count * width * length).Shift(-6)
	at := boat.Member{Kind: boat.Frame, No: frame, Side: boat.Port}
	n := goods(frame, m, item, area.Round(3).String(), area.Mul(dec("1.1")).Round(3).String(), quantity.SquareMetre)
	n.ID = at.Path() + "/" + item
	n.Rectangles = &bill.Rectangles{Count: count, Width: decimal.NewFromInt(width), Length: decimal.NewFromInt(length), MayTurn: turn}
	return n
}

const (
	bySize = "ply,consumable,S,FTK,0.82,,32,,,,4-0-0,8-0-0,,\n"
	byArea = "ply,consumable,S,FTK,0.82,,32,,,,,,,\n"
)

// laidOut is a list of one item, looked over by both checkers.
func laidOut(t testing.TB, needs []bill.Line, rows string) pack.Plan {
	t.Helper()
	l, err := buy.New(needs, prices(t, rows), shop)
	if err != nil {
		t.Fatal(err)
	}
	p := l.Packs[0]
	laidWhole(t, l, p)
	return p
}

type failing interface {
	Errorf(format string, args ...any)
	Fatalf(format string, args ...any)
	Helper()
}

func laidWhole(t failing, l buy.List, p pack.Plan) {
	t.Helper()
	if p.Sheets == nil {
		t.Fatalf("nothing is laid out: %q", p.ByArea)
	}
	if err := flat.CheckCertificate(p.Sheets.Certificate, p.Sheets.Counted); err != nil {
		t.Errorf("certificate: %v", err)
	}
	cost, split := int64(0), int64(0)
	for _, b := range p.Bought {
		cost += b.Cost.Minor()
	}
	for _, s := range l.Shares {
		split += s.Cost.Minor()
	}
	if cost != p.Cost.Minor() || split != l.Cost.Minor() || p.Bound.Minor() > cost || p.Bound.Minor() < p.Sheets.Certificate.Floor/max(1, p.Sheets.PriceScale) || p.Bound.Minor() > p.Sheets.Least.Minor() || p.Proven != p.Bound.Equal(p.Cost) {
		t.Errorf("cost %s, bought %d, split %d of %s, bound %s, certificate %d", p.Cost, cost, split, l.Cost, p.Bound, p.Sheets.Certificate.Floor)
	}
	sheets := map[string]int64{}
	have := map[string]int64{}
	for _, y := range p.Sheets.Layouts {
		sheets[y.StockID] += y.LastSheet - y.FirstSheet + 1
		for _, r := range y.Rectangles {
			have[r.PieceID] += y.LastSheet - y.FirstSheet + 1
		}
	}
	for _, f := range p.Sheets.Elsewise {
		if err := flat.CheckCertificate(f.Certificate, f.Counted); err != nil || f.Least.Minor() < p.Sheets.Least.Minor() {
			t.Errorf("a floor of %s: %v", f.Least, err)
		}
	}
	list := p.Sheets.Counted
	if p.Sheets.Laid != nil {
		list = *p.Sheets.Laid
	}
	for _, q := range list.Pieces {
		if have[q.ID] != q.Qty {
			t.Errorf("%d of %s are laid out, %d needed", have[q.ID], q.ID, q.Qty)
		}
	}
}

// Four patterns of 760 x 2000 mm are 6.08 m2, which three sheets of 2.973 m2 hold by area; only one goes on a sheet of
// 1219 x 2438 mm, so four are needed.
func TestPatternsThatGoOneToASheet(t *testing.T) {
	var needs []bill.Line
	for i := range 4 {
		needs = append(needs, cut(i+1, bill.Pattern, "ply", 1, 760, 2000, true))
	}
	if p := laidOut(t, needs, bySize); p.Bought[0].Count != 4 || !p.Proven || p.Cost.String() != "104.96" {
		t.Errorf("%d sheets, %s, proven %t", p.Bought[0].Count, p.Cost, p.Proven)
	}
	l, err := buy.New(needs, prices(t, byArea), shop)
	if err != nil || l.Packs[0].Sheets != nil || l.Packs[0].ByArea != "" || l.Packs[0].Bought[0].Count != 3 {
		t.Errorf("by area %+v, %v", l.Packs, err)
	}
}

// Rows without sizes, or whose pack is not one sheet of its size, are bought by area as they always were; so are needs of
// which one is known by its area alone, and the list says so. A pattern longer than a sheet is joined from equal lengths.
func TestWhatIsBoughtByArea(t *testing.T) {
	small := cut(1, bill.Pattern, "ply", 1, 500, 700, true)
	loose := goods(2, bill.Pattern, "ply", "1.000", "1.100", quantity.SquareMetre)
	wide := cut(3, bill.Pattern, "ply", 1, 1300, 1400, false)
	for name, x := range map[string]struct {
		needs []bill.Line
		rows  string
		says  string
	}{
		"no size":              {[]bill.Line{small}, byArea, ""},
		"a pack of ten sheets": {[]bill.Line{small}, strings.Replace(bySize, ",32,", ",320,", 1), "a pack of 320.00 square foot is no sheet of 4-0-0 x 8-0-0, which is 32.00"},
		"one of unknown size":  {[]bill.Line{small, loose}, bySize, "of 1 of its needs only the area is known"},
		"wider than any sheet": {[]bill.Line{small, wide}, bySize, "frame 3 port"},
	} {
		l, err := buy.New(x.needs, prices(t, x.rows), shop)
		if err != nil {
			t.Fatalf("%s: %v", name, err)
		}
		if p := l.Packs[0]; p.Sheets != nil || !strings.Contains(p.ByArea, x.says) || (x.says == "") != (p.ByArea == "") {
			t.Errorf("%s: laid out %t, says %q", name, p.Sheets != nil, p.ByArea)
		}
	}
	p := laidOut(t, []bill.Line{cut(4, bill.Pattern, "ply", 1, 500, 4000, true)}, bySize)
	if n := p.Sheets.Counted.Pieces[0].Qty; n != 2 {
		t.Errorf("4 m in %d lengths", n)
	}
}

// Sixteen lengths of cloth 100 mm wide and 2.3 m long come twelve abreast off a roll 1270 mm wide: two lengths of 2.3 m, in packs
// of 5 m2, which are 3.937 m of it: two packs.
func TestClothOffARoll(t *testing.T) {
	needs := []bill.Line{cut(1, bill.Cloth, "cloth", 8, 100, 2300, false), cut(2, bill.Cloth, "cloth", 8, 100, 2300, false)}
	p := laidOut(t, needs, "cloth,consumable,S,MTK,9.80,,5,,,,4-2-0,,,\n")
	if len(p.Bought) != 1 || p.Bought[0].Count != 2 || p.Cost.String() != "98.00" || !p.Proven {
		t.Errorf("%+v, bound %s", p.Bought, p.Bound)
	}
}

// Hand-worked. Sixteen lengths of cloth 100 mm wide and 2.3 m long come twelve abreast off a roll 1270 mm wide: 4.6 m. By the metre
// that is 5 of 12.00; by half a metre 10 of 6.00; by the yard, 5.03 of them, 6. Off a roll of 4 m the two lengths of 2.3 m take two rolls.
func TestClothByTheMetre(t *testing.T) {
	needs := []bill.Line{cut(1, bill.Cloth, "cloth", 8, 100, 2300, false), cut(2, bill.Cloth, "cloth", 8, 100, 2300, false)}
	for _, x := range []struct {
		row   string
		count int64
		cost  string
	}{
		{"cloth,consumable,S,MTR,12.00,,,,,,4-2-0,,,\n", 5, "60.00"},
		{"cloth,consumable,S,MTR,12.00,,0.5,,,,4-2-0,,,\n", 10, "60.00"},
		{"cloth,consumable,S,YRD,11.00,,,,,,4-2-0,,,\n", 6, "66.00"},
		{"cloth,consumable,S,MTR,12.00,,,,,,4-2-0,,7,\n", 7, "84.00"},
		{"cloth,consumable,S,MTR,12.00,,3.96,,,,4-2-0,13-0-0,,\n", 2, "95.04"},
		{"cloth,consumable,S,MTR,12.00,,,,,,4-2-0,13-0-0,,\n", 5, "60.00"},
	} {
		p := laidOut(t, needs, x.row)
		if len(p.Bought) != 1 || p.Bought[0].Count != x.count || p.Cost.String() != x.cost || !p.Proven || p.Bought[0].Width != "4-2-0" {
			t.Errorf("%s%+v, bound %s", x.row, p.Bought, p.Bound)
		}
	}
}

// Hand-worked. Four patterns of 760 x 2000 mm go one to a sheet of 4 x 8 ft: four sold singly, two packs of two, one of ten. Two widths of
// one supplier are two things: on 1600 mm two lie side by side, so that two metres of it do for two patterns. A row without what it takes to lay
// pieces out on it is no price, and says what is missing.
func TestSheetsByThePiece(t *testing.T) {
	needs := []bill.Line{cut(1, bill.Pattern, "ply", 4, 760, 2000, true)}
	for _, x := range []struct {
		row   string
		count int64
		cost  string
	}{
		{"ply,consumable,S,C62,26.24,,,,,,4-0-0,8-0-0,,\n", 4, "104.96"},
		{"ply,consumable,S,C62,26.24,,2,,,,4-0-0,8-0-0,,\n", 2, "104.96"},
		{"ply,consumable,S,C62,20.00,,10,,,,4-0-0,8-0-0,,\n", 1, "200.00"},
		{"ply,consumable,S,MTR,20.00,,,,,,2-6-0,,,\nply,consumable,S,MTR,30.00,,,,,,5-4-0,,,\n", 4, "120.00"},
	} {
		p := laidOut(t, needs, x.row)
		if len(p.Bought) != 1 || p.Bought[0].Count != x.count || p.Cost.String() != x.cost || !p.Proven {
			t.Errorf("%s%+v, bound %s", x.row, p.Bought, p.Bound)
		}
	}
	for row, says := range map[string]string{
		"ply,consumable,S,C62,26.24,,,,,,4-0-0,,,\n":        "without the width and stock_length of one sheet",
		"ply,consumable,S,MTR,26.24,,,,,,,,,\n":             "without the width of the roll",
		"ply,consumable,S,MTR,26.24,,50,,,,4-0-0,8-0-0,,\n": "its pack is longer than its stock_length",
	} {
		var missing *sheet.MissingPriceError
		if _, err := buy.New(needs, prices(t, row), shop); !errors.As(err, &missing) || !strings.Contains(missing.Items[0].Fix, says) {
			t.Errorf("%s%v %+v", row, err, missing)
		}
	}
}

// Against every choice there is, one pattern to a sheet: no sheets cost less where prices fall with the quantity and least orders
// hold, and that is proved.
func TestPricesOfSheetsAtQuantitiesAreTheCheapest(t *testing.T) {
	rapid.Check(t, func(r *rapid.T) {
		all, need := drawArticles(r, 2), rapid.Int64Range(1, 12).Draw(r, "sheets")
		var rows []sheet.Row
		for i, a := range all {
			for k := range a.from {
				row := sheet.Row{Item: "ply", Kind: "consumable", Supplier: fmt.Sprint("C", i), Unit: "C62", Price: fmt.Sprint(a.price[k]), Width: "1220", StockLength: "2440"}
				if a.from[k] > 0 {
					row.MinQty = fmt.Sprint(a.from[k])
				}
				if a.avail >= 0 {
					row.Available = fmt.Sprint(a.avail)
				}
				rows = append(rows, row)
			}
		}
		c, err := sheet.FromRows("USD", notation.Millimetres, rows)
		if err != nil {
			r.Fatal(err)
		}
		best := cheapest(all, need, func(article) int64 { return 1 })
		l, err := buy.New([]bill.Line{cut(1, bill.Pattern, "ply", need, 760, 2000, true)}, c, shop)
		if err != nil || best < 0 {
			var short *pack.ShortError
			if best >= 0 || err != nil && !errors.As(err, &short) {
				r.Fatalf("%v, the cheapest of %+v is %d", err, all, best)
			}
			return
		}
		if l.Packs[0].Sheets == nil {
			r.Fatalf("%s, the cheapest of %+v is %d", l.Packs[0].ByArea, all, best)
		}
		laidWhole(r, l, l.Packs[0])
		if l.Cost.Minor() != best*100 || !l.Packs[0].Proven {
			r.Fatalf("%+v for %d sheets of %+v: the cheapest is %d, none below %s", l.Packs[0].Bought, need, all, best, l.Bound)
		}
	})
}

// The least order and the price at a quantity hold for sheets too, and the least that decides is told.
func TestSheetsAtQuantities(t *testing.T) {
	needs := []bill.Line{cut(1, bill.Pattern, "ply", 4, 760, 2000, true)}
	rows := bySize + strings.Replace(strings.Replace(bySize, "0.82", "0.60", 1), "8-0-0,,", "8-0-0,160,", 1)
	if p := laidOut(t, needs, rows); p.Cost.String() != "96.00" || p.Bought[0].Count != 5 || !p.Proven { // five at 19.20 are less than four at 26.24
		t.Errorf("%s for %+v", p.Cost, p.Bought)
	}
	only := strings.Replace(bySize, "8-0-0,,", "8-0-0,192,", 1)
	c := prices(t, only)
	l, err := buy.New(needs, c, shop)
	if err != nil {
		t.Fatal(err)
	}
	least, err := l.Least(needs, c, rack.Rack{}, shop)
	if err != nil || l.Packs[0].Bought[0].Count != 6 || len(least.Rows) != 1 || least.Rows[0].Needed != 4 || least.Rows[0].Least != 6 || least.Extra.String() != "52.48" {
		t.Errorf("%+v, %+v, %v", l.Packs[0].Bought, least, err)
	}
}

// One more piece never lowers what no plan can be below under what it was, nor does a thicker saw; the order of needs changes
// nothing, and a cheaper sheet never makes a dearer list than the floor allows.
func TestSheetListsKeepTheirOrder(t *testing.T) {
	rapid.Check(t, func(r *rapid.T) {
		var needs []bill.Line
		for i := range rapid.IntRange(1, 6).Draw(r, "needs") {
			needs = append(needs, cut(i+1, bill.Pattern, "ply", rapid.Int64Range(1, 3).Draw(r, "count"), rapid.Int64Range(100, 1200).Draw(r, "width"), rapid.Int64Range(200, 3000).Draw(r, "length"), true))
		}
		list := func(needs []bill.Line, rows string, shop buy.Rules) pack.Plan {
			l, err := buy.New(needs, prices(t, rows), shop)
			if err != nil {
				r.Fatalf("%v", err)
			}
			laidWhole(r, l, l.Packs[0])
			return l.Packs[0]
		}
		p := list(needs, bySize, shop)
		var back []bill.Line
		for i := range needs {
			back = append(back, needs[len(needs)-1-i])
		}
		if q := list(back, bySize, shop); q.Cost != p.Cost || q.Bound != p.Bound {
			r.Fatalf("%s above %s, the other way round %s above %s", p.Cost, p.Bound, q.Cost, q.Bound)
		}
		if q := list(append(needs, cut(99, bill.Pattern, "ply", 1, 300, 400, true)), bySize, shop); q.Cost.Minor() < p.Bound.Minor() || q.Bound.Minor() < p.Bound.Minor() {
			r.Fatalf("one more costs %s, before none could be below %s", q.Cost, p.Bound)
		}
		thick := shop
		thick.Kerf = dec("6")
		if q := list(needs, bySize, thick); q.Cost.Minor() < p.Bound.Minor() {
			r.Fatalf("a thicker saw costs %s, before none could be below %s", q.Cost, p.Bound)
		}
		if q := list(needs, strings.Replace(bySize, "0.82", "0.80", 1), shop); q.Bound.Minor() > p.Cost.Minor() || q.Cost.Minor() > p.Cost.Minor() {
			r.Fatalf("a cheaper sheet: none below %s, before %s", q.Bound, p.Cost)
		}
	})
}

// BenchmarkSheets is 136 patterns laid out, as a multiple of what they take by area.
func BenchmarkSheets(b *testing.B) {
	var needs []bill.Line
	for i := range 136 {
		needs = append(needs, cut(i+1, bill.Pattern, "ply", 1, 300+int64(i*7%400), 1200+int64(i*31%1100), true))
	}
	for name, rows := range map[string]string{"by size": bySize, "by area": byArea} {
		c := prices(b, rows)
		b.Run(name, func(b *testing.B) {
			for b.Loop() {
				l, err := buy.New(needs, c, shop)
				if err != nil {
					b.Fatal(err)
				}
				b.ReportMetric(float64(l.Cost.Minor())/float64(max(1, l.Bound.Minor())), "cost/floor")
			}
		})
	}
}
