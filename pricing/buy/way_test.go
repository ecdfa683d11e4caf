package buy_test

import (
	"fmt"
	"testing"

	"ribband/pricing/buy"
	"ribband/pricing/ripping"
	"ribband/pricing/sawing"
	"ribband/pricing/sheet"
	"ribband/takeoff/bill"
	"ribband/takeoff/boat"
	"ribband/takeoff/cutting"
	"ribband/takeoff/notation"

	"github.com/google/go-cmp/cmp"
	"github.com/shopspring/decimal"
	"pgregory.net/rapid"
)

// Hand-worked. Laminates 3/4 in sided and 1/4 thick out of boards 8 in wide. 4/4 on edge: (203.2 + 3.175) / (7.9375 + 3.175) =
// 18 strips; lying flat two layers (25.4 + 1.5875) / (7.9375 + 1.5875) of (203.2 + 3.175) / (20.6375 + 3.175) = 8 are 16. 8/4 on
// edge resawn: two layers of 18; flat: (50.8 + 1.5875) / 9.525 = 5 layers of 8 are 40. 72 pieces are four boards of 4/4, or two
// of 8/4, whichever costs less.
func TestThickBoardsAreResawnWhereThatIsCheaper(t *testing.T) {
	need := laminates(12, boat.Port, 72, 72, "2.600")
	need.Pieces.Siding = dec("19.05")
	rows := ",timber,A,C62,50.00,,,white_oak,select,4/4,0-8-0,12-0-0,,\n,timber,A,C62,%s,,,white_oak,select,8/4,0-8-0,12-0-0,,\n"
	for _, x := range []struct {
		thick, cost string
		rules       buy.Rules
	}{{"95.00", "190.00", resawing()}, {"101.00", "200.00", resawing()}, {"95.00", "200.00", shop}} {
		l, err := buy.New([]bill.Line{need}, prices(t, fmt.Sprintf(rows, x.thick)), x.rules)
		if err != nil || l.Cost.String() != x.cost || l.Bound != l.Cost {
			t.Errorf("at %s: %s, none below %s, want %s, %v", x.thick, l.Cost, l.Bound, x.cost, err)
		}
		want := sawing.Way{Flat: true, Layers: 5, Across: 8, LayerMM: dec("7.9375"), AcrossMM: dec("20.6375")}
		if x.rules.Resaw == nil {
			want = sawing.Way{Layers: 1, Across: 18, LayerMM: dec("50.8"), AcrossMM: dec("7.9375")}
		}
		if got := l.Timber[0].Offers[1].Way; cmp.Diff(want, got) != "" {
			t.Errorf("8/4: %+v", got)
		}
	}
}

// Hand-worked. 7 strips of a board that gives 5 layers of 4: two layers come off, three of the second's strips are cut. 50.8 - 2 x
// 9.525 = 31.75 mm stay whole, and of the second layer 203.2 - 3 x 42.8625 = 74.6125 mm of its width. A guide of 6 in does not take
// 8 in: two strips are ripped, all five layers come off them, three strips are over, and 203.2 - 2 x 42.8625 = 117.475 mm stay.
func TestLayersNotNeededStayOnTheBoard(t *testing.T) {
	needs := []bill.Line{laminates(12, boat.Port, 7, 7, "2.600")}
	c := prices(t, ",timber,A,C62,50.00,,,white_oak,select,8/4,0-8-0,12-0-0,,\n")
	low := resawing()
	low.Resaw = &sawing.Resaw{Kerf: dec("1.5875"), Planing: dec("1.5875"), Height: dec("152.4")}
	for _, x := range []struct {
		rules buy.Rules
		off   int64
		first bool
		want  []string
	}{{resawing(), 2, false, []string{"1 31.75 x 203.2", "1 7.9375 x 74.6125"}}, {low, 5, true, []string{"3 7.9375 x 39.6875", "1 50.8 x 117.475"}}} {
		l, err := buy.New(needs, c, x.rules)
		if err != nil {
			t.Fatal(err)
		}
		lists, err := ripping.Lists(l, needs, x.rules)
		if err != nil {
			t.Fatal(err)
		}
		b := lists[0].Boards[0]
		var got []string
		for _, rest := range b.Rest {
			got = append(got, fmt.Sprintf("%d %s x %s", rest.Count, rest.ThicknessMM, rest.WidthMM))
		}
		if d := cmp.Diff(x.want, got); d != "" || b.LayersOff != x.off || b.RipFirst != x.first {
			t.Errorf("%s %+v", d, b)
		}
	}
}

// Over boards and laminates: the strips of the way fit the board with their kerfs, and no other numbers of layers and strips side
// by side, either way up, give more; solid pieces never lie flat; the certificate of the plan holds.
func TestNoOtherWayGivesMoreStrips(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		tenth := func(name string, least, most int) decimal.Decimal {
			return decimal.New(int64(rapid.IntRange(least, most).Draw(t, name)), -1)
		}
		need := laminates(12, boat.Port, 9, 9, "2.000")
		p := need.Pieces
		p.Thickness, p.Siding, p.Planing = tenth("thick", 20, 300), tenth("sided", 100, 600), tenth("planing", 0, 30)
		if rapid.Bool().Draw(t, "solid") {
			need.Driver = "steamed_pieces"
		}
		r := resawing()
		r.Resaw = &sawing.Resaw{Kerf: tenth("resaw", 5, 30), Planing: tenth("dressing", 0, 40)}
		thickness, width := tenth("T", 100, 1000), tenth("W", 500, 3000)
		c, err := sheet.FromRows("USD", notation.Millimetres, []sheet.Row{{Kind: "timber", Unit: "C62", Price: "10", Species: "white_oak", Grade: "select", Thickness: thickness.String(), Width: width.String(), StockLength: "2400"}})
		if err != nil {
			t.Fatal(err)
		}
		most := int64(0)
		count := func(tall, wide decimal.Decimal, flat bool) {
			for layers := int64(1); layers < 60; layers++ {
				n := decimal.NewFromInt(layers)
				needed := tall.Add(p.Planing)
				if layers > 1 {
					needed = tall.Add(r.Resaw.Planing).Mul(n).Add(r.Resaw.Kerf.Mul(n.Sub(decimal.NewFromInt(1))))
				} else if flat && thickness.GreaterThan(p.Thickness.Add(p.Planing).Mul(decimal.NewFromInt(2))) {
					continue
				}
				for across := int64(1); needed.LessThanOrEqual(thickness) && across < 200; across++ {
					m := decimal.NewFromInt(across)
					if wide.Add(p.Planing).Mul(m).Add(r.Kerf.Mul(m.Sub(decimal.NewFromInt(1)))).LessThanOrEqual(width) {
						most = max(most, layers*across)
					}
				}
			}
		}
		count(p.Siding, p.Thickness, false)
		if need.Driver == "laminates" {
			count(p.Thickness, p.Siding, true)
		}
		l, err := buy.New([]bill.Line{need}, c, r)
		if err != nil {
			if most > 0 {
				t.Fatalf("%d strips come out, %v", most, err)
			}
			return
		}
		g := l.Timber[0]
		if o := g.Offers[0]; o.Strips != most || o.Way.Layers*o.Way.Across != most || o.Way.Flat && need.Driver != "laminates" {
			t.Fatalf("%+v, the most is %d", o, most)
		}
		stock := []cutting.Stock{{ID: "A", Length: 2_400_000_000, Price: 1000, Strips: most, Avail: -1}}
		pieces := []cutting.Piece{{ID: "P", Length: 2_000_000_000, Qty: 9}}
		if err := cutting.CheckCertificate(g.Certificate, stock, pieces, cutting.Rules{Kerf: 3_175_000, TrimEach: 25_400_000}); err != nil {
			t.Fatal(err)
		}
	})
}
