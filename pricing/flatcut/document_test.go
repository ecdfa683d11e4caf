package flatcut_test

import (
	"encoding/json"
	"errors"
	"fmt"
	"slices"
	"strings"
	"testing"

	"ribband/pricing/flatcut"
	"ribband/takeoff/cutting/flat"
	"ribband/takeoff/document"
	"ribband/takeoff/notation"

	"github.com/shopspring/decimal"
	"pgregory.net/rapid"
)

func price(text string) decimal.Decimal { return decimal.RequireFromString(text) }

// written is a list as a yard would write it: sheets of four by eight feet.
func written() flatcut.Document {
	return flatcut.Document{
		Currency: "USD", Notation: notation.FeetInchesEighths,
		Stock: []flatcut.Row{{ID: "ply", Width: "4-0-0", Length: "8-0-0", Price: price("26.24")}},
		Pieces: []flatcut.Piece{
			{ID: "mould", Width: "1-3-0", Length: "3-10-0", Qty: 6},
			{ID: "bevel board", Width: "0-6-0", Length: "2-0-0", Qty: 5},
		},
		Rules: flatcut.Rules{Kerf: "0-0-1", TrimEach: "0-0-0"},
	}
}

// solved is a document's answer, looked over by both checkers.
func solved(t testing.TB, d flatcut.Document) flatcut.Answer {
	t.Helper()
	a, err := d.Solve()
	if err != nil {
		t.Fatalf("%v", err)
	}
	checked(t, a)
	return a
}

func checked(t testing.TB, a flatcut.Answer) {
	t.Helper()
	if err := flat.CheckCertificate(a.Certificate, a.Counted.List); err != nil {
		t.Errorf("certificate: %v", err)
	}
	if a.Bound.Minor() > a.Cost.Minor() || a.Proven != a.Cost.Equal(a.Bound) || a.Certificate.Floor != a.Bound.Minor() {
		t.Errorf("cost %s, bound %s, proven %t, certificate %d", a.Cost, a.Bound, a.Proven, a.Certificate.Floor)
	}
	cost := int64(0)
	for _, l := range a.Bought {
		cost += l.Cost.Minor()
	}
	if cost != a.Cost.Minor() {
		t.Errorf("cost %s, bought %d", a.Cost, cost)
	}
	have := map[string]int64{}
	for _, y := range a.Layouts {
		for _, r := range y.Rectangles {
			n := y.LastSheet - y.FirstSheet + 1
			if r.Paired {
				n *= 2
			}
			have[r.PieceID] += n
		}
	}
	for _, p := range a.Counted.List.Pieces {
		if over := have[p.ID] - p.Qty; over != 0 && (over != 1 || p.Pair == nil) {
			t.Errorf("%d of %s laid, %d wanted", have[p.ID], p.ID, p.Qty)
		}
	}
}

// Eighths of an inch are counted in as they are, so the plan is exact; six moulds go three beside each other twice on a sheet
// (3 x 15 in and two cuts of 1/8 in leave 2 6/8 in), so one sheet holds no bevel board and the cheapest is two sheets: 23 sq ft
// of moulds and 5 of boards are more than a sheet's 32 only with what cannot be used.
func TestDocumentCountsEighths(t *testing.T) {
	a := solved(t, written())
	if !a.Counted.Exact || a.Counted.UnitMM.String() != "3.175" {
		t.Errorf("counted in %s mm, exact %t", a.Counted.UnitMM, a.Counted.Exact)
	}
	if a.Cost.String() != "52.48" && a.Cost.String() != "26.24" {
		t.Errorf("cost %s", a.Cost)
	}
	if !strings.HasPrefix(a.Says, "This plan costs "+a.Cost.String()+" USD; no") {
		t.Errorf("says %q", a.Says)
	}
	for _, y := range a.Layouts {
		if len(y.Cuts) == 0 || y.Cuts[0].Says == "" {
			t.Errorf("%+v", y.Cuts)
		}
	}
}

// Every fault is told at once, where it stands and with what would be right.
func TestDocumentTellsAllItsFaults(t *testing.T) {
	minus := int64(-2)
	for name, x := range map[string]struct {
		change func(*flatcut.Document)
		want   []string
		fix    string
	}{
		"several": {func(d *flatcut.Document) {
			d.Rules.Kerf, d.Rules.First, d.Rules.Stages = "a saw's", "sideways", 4
			d.Stock = append(d.Stock, flatcut.Row{ID: "ply", Width: "4-0-0", Price: price("-1"), Avail: &minus})
			d.Pieces[0].Qty, d.Pieces[1].ID = -1, ""
		}, []string{"/rules/kerf", "/rules/first", "/rules/stages", "/stock/1/id", "/stock/1/length", "/stock/1/price", "/stock/1/avail", "/pieces/0/qty", "/pieces/1/id"}, ""},
		"a price that rounds to nothing": {func(d *flatcut.Document) { d.Stock[0].Price = price("0.004") }, []string{"/stock/0/price"}, "at least 0.01"},
		"a price of nothing":             {func(d *flatcut.Document) { d.Stock[0].Price = price("0") }, []string{"/stock/0/price"}, "above 0"},
		"wider than any sheet":           {func(d *flatcut.Document) { d.Pieces[0].Width, d.Pieces[0].Length = "5-0-0", "4-6-0" }, []string{"/pieces/0"}, "ply at least 5-0-0 x 8-0-0"},
		"only turned":                    {func(d *flatcut.Document) { d.Pieces[0].Width, d.Pieces[0].Length = "6-0-0", "2-0-0" }, []string{"/pieces/0/may_turn"}, "ply at least 6-0-0 x 8-0-0"},
		"too few":                        {func(d *flatcut.Document) { d.Stock[0].Avail = new(int64); *d.Stock[0].Avail = 1; d.Pieces[0].Qty = 40 }, []string{"/pieces/0/qty"}, "more of ply"},
		"none for sale":                  {func(d *flatcut.Document) { d.Stock = nil }, []string{"/stock"}, "at least 1-3-0 x 3-10-0"},
		"a pair smaller than one":        {func(d *flatcut.Document) { d.Pieces[0].Pair = &flatcut.Size{Width: "1-0-0", Length: "9-0-0"} }, []string{"/pieces/0/pair/width"}, "at least 1-3-0"},
		"an outline and a size":          {func(d *flatcut.Document) { d.Pieces[0].Outline = []flatcut.Point{{"0-0-0", "0-0-0"}} }, []string{"/pieces/0/outline"}, "either"},
		"an outline that crosses itself": {func(d *flatcut.Document) {
			d.Pieces[0] = flatcut.Piece{ID: "mould", Qty: 1, Outline: []flatcut.Point{{"0-0-0", "0-0-0"}, {"1-0-0", "1-0-0"}, {"1-0-0", "0-0-0"}, {"0-0-0", "1-0-0"}}}
		}, []string{"/pieces/0/outline"}, "closed line"},
		"a roll by the number": {func(d *flatcut.Document) { d.Stock[0].Per, d.Stock[0].Avail = "1-0-0", new(int64) }, []string{"/stock/0/avail"}, "avail_length"},
		"no currency":          {func(d *flatcut.Document) { d.Currency = "" }, []string{"/currency"}, "USD"},
		"too many":             {func(d *flatcut.Document) { d.Pieces[0].Qty = 1500; d.Pieces[1].Qty = 1500 }, []string{"/pieces/1/qty"}, "2000"},
		"trimmed away":         {func(d *flatcut.Document) { d.Rules.TrimEach = "5-0-0"; d.Pieces = d.Pieces[:1] }, []string{"/pieces/0"}, "or less trim_each among the rules"},
		"too long":             {func(d *flatcut.Document) { d.Stock[0].Length = "3000-0-0" }, []string{"/stock"}, "50 m"},
		"two lengths that rolls are priced by": {func(d *flatcut.Document) {
			d.Stock = []flatcut.Row{{ID: "a", Width: "4-0-0", Price: price("5"), Per: "1-0-0"}, {ID: "b", Width: "4-0-0", Price: price("5"), Per: "3-0-0"}}
		}, []string{"/stock/1"}, ""},
	} {
		d := written()
		x.change(&d)
		_, err := d.Solve()
		var faults document.Faults
		if !errors.As(err, &faults) {
			t.Errorf("%s: %v", name, err)
			continue
		}
		var at []string
		for _, f := range faults {
			at = append(at, f.Pointer)
			if f.Detail == "" || f.Fix == "" || !strings.Contains(f.Fix, x.fix) {
				t.Errorf("%s: %+v", name, f)
			}
		}
		if !slices.Equal(at, x.want) {
			t.Errorf("%s: faults at %v, want %v", name, at, x.want)
		}
	}
}

// What a fault says would do, does.
func TestWhatWouldDoDoes(t *testing.T) {
	d := written()
	d.Pieces[0].Width, d.Pieces[0].Length, d.Pieces[0].MayTurn = "6-0-0", "2-0-0", true
	solved(t, d)
	d = written()
	d.Pieces[0].Width, d.Stock[0].Width = "5-0-0", "5-0-0"
	solved(t, d)
}

// Two knees lie in each other's angle: eight need less than eight rectangles, and their rectangle holds both.
func TestOutlinesLieInPairs(t *testing.T) {
	d := flatcut.Document{Currency: "EUR", Notation: notation.Millimetres,
		Stock: []flatcut.Row{{ID: "board", Width: "400", Length: "2000", Price: price("80")}},
		Pieces: []flatcut.Piece{{ID: "knee", Qty: 8, Outline: []flatcut.Point{
			{"0", "0"}, {"300", "0"}, {"300", "90"}, {"90", "90"}, {"90", "350"}, {"0", "350"}}}},
		Rules: flatcut.Rules{Kerf: "4", TrimEach: "0"}}
	a := solved(t, d)
	if a.Cost.String() != "80.00" || !a.Proven || !a.Layouts[0].Rectangles[0].Paired {
		t.Errorf("%s: %+v", a.Says, a.Layouts)
	}
	if p := a.Counted.List.Pieces[0].Pair; p.Width != 300 && p.Width != 150 {
		t.Errorf("pair %+v in %s mm", p, a.Counted.UnitMM)
	}
}

// A roll is bought by what is cut off it.
func TestRolls(t *testing.T) {
	d := flatcut.Document{Currency: "EUR", Notation: notation.Metres,
		Stock:  []flatcut.Row{{ID: "cloth", Width: "1.27", Price: price("12.50"), Per: "1", AvailLength: "20"}},
		Pieces: []flatcut.Piece{{ID: "strap", Width: "0.1", Length: "2.4", Qty: 15}},
		Rules:  flatcut.Rules{Kerf: "0", TrimEach: "0"}}
	a := solved(t, d)
	if len(a.Bought) != 1 || a.Bought[0].LengthMM == nil || a.Bought[0].LengthMM.String() != "4800" || a.Cost.String() != "60.00" || !a.Proven {
		t.Errorf("%+v %s", a.Bought, a.Says)
	}
	d.Stock[0].AvailLength = "3"
	_, err := d.Solve()
	if err == nil || !strings.Contains(fmt.Sprint(err), "found no room") {
		t.Errorf("%v", err)
	}
}

// drawn is a small list.
func drawn(t *rapid.T) flatcut.Document {
	d := flatcut.Document{Currency: "EUR", Notation: notation.Millimetres, Rules: flatcut.Rules{Kerf: fmt.Sprint(rapid.IntRange(0, 5).Draw(t, "kerf")), TrimEach: "5",
		First: rapid.SampledFrom([]flat.First{flat.Along, flat.Across, flat.Either}).Draw(t, "first"), Stages: 2}}
	for i := range rapid.IntRange(1, 2).Draw(t, "sheets") {
		d.Stock = append(d.Stock, flatcut.Row{ID: fmt.Sprint("s", i), Width: fmt.Sprint(rapid.IntRange(600, 1300).Draw(t, "width")), Length: fmt.Sprint(rapid.IntRange(1200, 2500).Draw(t, "length")),
			Price: decimal.New(rapid.Int64Range(1500, 9000).Draw(t, "price"), -2)})
	}
	for i := range rapid.IntRange(1, 5).Draw(t, "kinds") {
		d.Pieces = append(d.Pieces, flatcut.Piece{ID: fmt.Sprint("p", i), Width: fmt.Sprint(rapid.IntRange(60, 580).Draw(t, "w")), Length: fmt.Sprint(rapid.IntRange(100, 1100).Draw(t, "l")), Qty: rapid.Int64Range(1, 6).Draw(t, "qty")})
	}
	return d
}

// The order of stock and pieces changes nothing. A dearer sheet, one more piece or a thicker saw never lowers what a proven
// plan costs below the bound of the list before it, nor a cheaper sheet what it was.
func TestListsKeepTheirOrder(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		d := drawn(t)
		a, err := d.Solve()
		if err != nil {
			t.Fatal(err)
		}
		turned := d
		turned.Stock, turned.Pieces = slices.Clone(d.Stock), slices.Clone(d.Pieces)
		slices.Reverse(turned.Stock)
		slices.Reverse(turned.Pieces)
		if b, err := turned.Solve(); err != nil || !b.Cost.Equal(a.Cost) || !b.Bound.Equal(a.Bound) {
			t.Fatalf("%s, the other way round %s, %v", a.Says, b.Says, err)
		}
		more := d
		more.Pieces = append(slices.Clone(d.Pieces), flatcut.Piece{ID: "one more", Width: "200", Length: "300", Qty: 1})
		saw := d
		saw.Rules.Kerf = "8"
		dearer := d
		dearer.Stock = slices.Clone(d.Stock)
		dearer.Stock[0].Price = d.Stock[0].Price.Add(decimal.NewFromInt(7))
		for name, other := range map[string]flatcut.Document{"one more piece": more, "a thicker saw": saw, "a dearer sheet": dearer} {
			if b, err := other.Solve(); err != nil || b.Cost.Minor() < a.Bound.Minor() {
				t.Fatalf("%s: %s, before %s, %v", name, b.Says, a.Says, err)
			}
		}
	})
}

// Whatever is written, there is an answer that holds or faults that say why; nothing falls over.
func FuzzDocument(f *testing.F) {
	for _, d := range []flatcut.Document{written()} {
		body, err := json.Marshal(d)
		if err != nil {
			f.Fatal(err)
		}
		f.Add(body)
	}
	f.Add([]byte(`{"currency":"JPY","notation":"mm","stock":[{"id":"r","width":"1","price":"1","per":"1"}],"pieces":[{"id":"p","qty":1,"outline":[{"across":"0","along":"0"},{"across":"1","along":"0"},{"across":"0","along":"1"}]}],"rules":{"kerf":"0","trim_each":"0"}}`))
	f.Fuzz(func(t *testing.T, body []byte) {
		var d flatcut.Document
		if json.Unmarshal(body, &d) != nil || len(d.Pieces) > 6 {
			return
		}
		a, err := d.Solve()
		var faults document.Faults
		switch {
		case err == nil:
			checked(t, a)
		case !errors.As(err, &faults) || len(faults) == 0:
			t.Errorf("%v", err)
		}
	})
}
