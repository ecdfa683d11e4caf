package buy_test

import (
	"errors"
	"fmt"
	"slices"
	"strings"
	"testing"

	"ribband/pricing/buy"
	"ribband/pricing/rack"
	"ribband/pricing/ripping"
	"ribband/pricing/sheet"
	"ribband/takeoff/bill"
	"ribband/takeoff/boat"
	"ribband/takeoff/notation"
	"ribband/takeoff/quantity"
	"ribband/takeoff/step"

	"github.com/shopspring/decimal"
	"pgregory.net/rapid"
)

// planksOf are needs of one plank each: width, thickness with backing, length in mm.
func planksOf(t *testing.T, sizes ...[3]string) []bill.Line {
	t.Helper()
	var out []bill.Line
	for i, s := range sizes {
		long, err := quantity.Of(decimal.RequireFromString(s[2]).Shift(-3), quantity.Metre)
		if err != nil {
			t.Fatal(err)
		}
		m := boat.Member{Kind: boat.Strake, No: i + 1, Side: boat.Port}
		out = append(out, bill.Line{ID: m.Path() + "/plank_1/timber", Material: bill.Timber, Driver: string(step.Planks), Member: m, Part: "frames 8 to 15", Remedy: boat.RenewPlank,
			Net: quantity.Count(1), Gross: quantity.Count(1),
			Pieces: &bill.Pieces{Species: "larch", Grade: "clear", Thickness: decimal.RequireFromString(s[0]), Siding: decimal.RequireFromString(s[1]), Planing: decimal.RequireFromString("2"), Length: long}})
	}
	return out
}

// larch are boards 40 mm thick, by width and length in m and price for one.
func larch(t *testing.T, rows ...string) sheet.Content {
	t.Helper()
	const head = "item,description,kind,supplier,unit,price,per,pack_size,species,grade,thickness,width,stock_length,min_qty,lead_days,valid_until,available\n"
	var body strings.Builder
	for _, r := range rows {
		f := strings.Fields(r)
		body.WriteString(",Larch,timber,A mill,MTR," + f[3] + ",,,larch,clear," + f[0] + "," + f[1] + "," + f[2] + ",,,,\n")
	}
	c, err := sheet.ReadCSV([]byte(head+body.String()), "EUR", notation.Millimetres)
	if err != nil {
		t.Fatal(err)
	}
	return c
}

// Planks that every board gives one strip of share boards end to end; bought one by one each would have its own. What they
// cost is shared by their faces, and comes back the same at the same prices.
func TestPlanksShareBoards(t *testing.T) {
	needs := planksOf(t, [3]string{"150", "30.4", "2400"}, [3]string{"171.3", "31", "2300"}, [3]string{"90", "30", "2000"})
	c := larch(t, "40 200 5000 10", "40 120 2500 5")
	l, err := buy.New(needs, c, buy.Rules{Kerf: decimal.NewFromInt(3), EndTrim: decimal.NewFromInt(50)})
	if err != nil {
		t.Fatal(err)
	}
	if len(l.Timber) != 2 || l.Cost != l.Bound {
		t.Fatalf("%+v", l.Timber)
	}
	i := slices.IndexFunc(l.Timber, func(t buy.Timber) bool { return len(t.Lines) == 2 })
	if i < 0 {
		t.Fatalf("%+v", l.Timber)
	}
	if two := l.Timber[i]; len(two.Boards) != 1 || two.Boards[0].Count != 1 || two.Thickness.String() != "171.3" || two.Siding.String() != "31" {
		t.Errorf("%+v", two)
	}
	// 5 m at 10 for the two, by 150 x 2400 and 171.3 x 2300; 2.5 m at 5 for the narrow one
	var got []string
	for _, s := range l.Shares {
		got = append(got, s.Cost.String())
	}
	if want := []string{"23.87", "26.13", "12.50"}; !slices.Equal(got, want) {
		t.Errorf("%v, %v wanted", got, want)
	}
	again, _, err := l.SharesAt(needs, c, c, buy.Rules{Kerf: decimal.NewFromInt(3), EndTrim: decimal.NewFromInt(50)})
	if err != nil {
		t.Fatal(err)
	}
	for i, s := range again {
		if s.Cost != l.Shares[i].Cost {
			t.Errorf("%s: %v at the same prices, %v", s.Line, s.Cost, l.Shares[i].Cost)
		}
	}
	list, err := ripping.Lists(l, needs, buy.Rules{Kerf: decimal.NewFromInt(3), EndTrim: decimal.NewFromInt(50)})
	if err != nil {
		t.Fatal(err)
	}
	if b := list[i].Boards; len(b) != 1 || len(b[0].Strips) != 1 || len(b[0].Strips[0].Pieces) != 2 {
		t.Errorf("%+v", b)
	}
}

// A plank that no board holds is named with the nearest board and what it lacks.
func TestNoBoardHoldsAPlank(t *testing.T) {
	for want, c := range map[string][3]string{
		"is 0.4 mm (0.02 in) too thin":                                             {"150", "38.4", "2400"},
		"is 12 mm (0.48 in) too narrow":                                            {"210", "30", "2400"},
		"is 600 mm (23.63 in) too short; or the lengths for sale as stock_lengths": {"150", "30", "5500"},
	} {
		_, err := buy.New(planksOf(t, c), larch(t, "40 200 5000 10", "40 120 2500 5"), buy.Rules{EndTrim: decimal.NewFromInt(50)})
		var missing *sheet.MissingPriceError
		if !errors.As(err, &missing) || len(missing.Items) != 1 || !strings.Contains(missing.Items[0].Fix, "the nearest on the sheet, 40 thick, 200 wide and 5000 long, "+want) {
			t.Errorf("%v: %v", c, err)
			if missing != nil {
				t.Log(missing.Items[0].Fix)
			}
		}
	}
}

// Putting planks together never costs more than buying each by itself, whatever widths and boards there are, and every plank
// is cut from a board that holds it: wide, thick and long enough.
func TestTogetherPlanksCostNoMore(t *testing.T) {
	c := larch(t, "40 200 5000 10", "40 150 4000 7", "34 240 3000 9")
	r := buy.Rules{Kerf: decimal.NewFromInt(3), EndTrim: decimal.NewFromInt(20)}
	board := map[string][2]int64{}
	rapid.Check(t, func(rt *rapid.T) {
		var sizes [][3]string
		for range rapid.IntRange(1, 6).Draw(rt, "planks") {
			sizes = append(sizes, [3]string{fmt.Sprint(rapid.IntRange(60, 190).Draw(rt, "width")), fmt.Sprint(rapid.IntRange(28, 31).Draw(rt, "thickness")), fmt.Sprint(rapid.IntRange(800, 2900).Draw(rt, "length"))})
		}
		needs := planksOf(t, sizes...)
		l, err := buy.New(needs, c, r)
		if err != nil {
			rt.Fatal(err)
		}
		apart, held := int64(0), map[string]int64{}
		for _, n := range needs {
			one, err := buy.New([]bill.Line{n}, c, r)
			if err != nil {
				rt.Fatal(err)
			}
			apart += one.Cost.Minor()
		}
		if l.Cost.Minor() > apart {
			rt.Fatalf("together %d, apart %d", l.Cost.Minor(), apart)
		}
		for _, x := range l.Timber {
			for _, o := range x.Offers {
				board[o.ID] = [2]int64{o.WidthMM.IntPart(), o.ThicknessMM.IntPart()}
			}
			for _, cut := range x.Cuts {
				for _, p := range cut.Pieces {
					i := slices.IndexFunc(needs, func(n bill.Line) bool { return n.ID == p.Line })
					held[p.Line] += p.Count * cut.Strips
					q, b := needs[i].Pieces, board[cut.Offer]
					if q.Thickness.Add(q.Planing).IntPart() > b[0] || q.Siding.Add(q.Planing).IntPart() > b[1] {
						rt.Fatalf("%s of %s x %s out of %s", p.Line, q.Thickness, q.Siding, cut.Offer)
					}
				}
			}
		}
		for _, n := range needs {
			if held[n.ID] != 1 {
				rt.Fatalf("%s is cut %d times", n.ID, held[n.ID])
			}
		}
	})
}

// A board in hand comes first for planks too.
func TestPlanksOffTheRack(t *testing.T) {
	r := buy.Rules{Kerf: decimal.NewFromInt(3), EndTrim: decimal.NewFromInt(20)}
	boards, faults := rack.Read(rack.Document{Notation: notation.Millimetres, Boards: []rack.Row{{ID: "R1", Count: 1, Species: "larch", Grade: "clear", Thickness: "38", Width: "180", Length: "5200"}}})
	if len(faults) > 0 {
		t.Fatal(faults)
	}
	l, err := buy.WithRack(planksOf(t, [3]string{"150", "30.4", "2400"}, [3]string{"171.3", "31", "2300"}), larch(t, "40 200 5000 10"), boards, r)
	if err != nil || !l.Cost.IsZero() || len(l.Timber) != 1 || len(l.Timber[0].Cuts) != 1 || l.Timber[0].Cuts[0].Offer != "rack: R1" {
		t.Errorf("%v %+v", err, l.Timber)
	}
}

// Butt blocks come out of what planks leave of their boards: one plank and its two blocks take one board, where apart they took two.
// Blocks that a board for planks is too thin for are bought by themselves.
func TestButtBlocksComeOutOfPlankBoards(t *testing.T) {
	needs := planksOf(t, [3]string{"150", "30", "2400"}, [3]string{"190", "34", "240"}, [3]string{"185", "34", "235"})
	for i := range needs[1:] {
		needs[i+1].Driver, needs[i+1].Part = string(step.NewButts), "butt block"
	}
	l, err := buy.New(needs, larch(t, "40 200 3200 10"), buy.Rules{Kerf: decimal.NewFromInt(3), EndTrim: decimal.NewFromInt(50)})
	if err != nil {
		t.Fatal(err)
	}
	if len(l.Timber) != 1 || len(l.Timber[0].Boards) != 1 || l.Timber[0].Boards[0].Count != 1 {
		t.Errorf("%+v", l.Timber)
	}
	// 3.2 m at 10, by 150 x 2400, 190 x 240 and 185 x 235
	var got []string
	for _, s := range l.Shares {
		got = append(got, s.Cost.String())
	}
	if want := []string{"25.65", "3.25", "3.10"}; !slices.Equal(got, want) {
		t.Errorf("%v, %v wanted", got, want)
	}
	needs[1].Pieces.Siding, needs[2].Pieces.Siding = decimal.NewFromInt(44), decimal.NewFromInt(44)
	l, err = buy.New(needs, larch(t, "40 200 3200 10", "50 200 600 20"), buy.Rules{Kerf: decimal.NewFromInt(3), EndTrim: decimal.NewFromInt(50)})
	if err != nil {
		t.Fatal(err)
	}
	if len(l.Timber) != 2 {
		t.Errorf("%+v", l.Timber)
	}
}
