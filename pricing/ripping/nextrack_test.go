package ripping_test

import (
	"errors"
	"fmt"
	"testing"

	"ribband/pricing/buy"
	"ribband/pricing/internal/exact"
	"ribband/pricing/internal/yard"
	"ribband/pricing/rack"
	"ribband/pricing/ripping"
	"ribband/takeoff/bill"
	"ribband/takeoff/boat"
	"ribband/takeoff/notation"

	"github.com/google/go-cmp/cmp"
	"github.com/shopspring/decimal"
	"pgregory.net/rapid"
)

// Hand-worked. One stretch of a marked board of 18 ft holds 18 strips of one piece of 2.6 m; six are needed. The other stretch, 9 ft
// of it, stays as a board of its own, with half the worth that its length has of 17 ft 7 in. Of the stretch that is cut 203.2 - 6 x
// 11.1125 = 136.525 mm of its width, 5 3/8 in, stays; what is left of the strips, 2616.2 - 2600 - 3.175 mm, is too short.
func TestTheRackOnceABoardIsCut(t *testing.T) {
	doc := rack.Document{Notation: notation.FeetInchesEighths, Currency: "USD", Boards: []rack.Row{
		yard.Oak("R1", 1, "0-8-0", "18-0-0", "21.10", rack.Stretch{From: "0-0-0", To: "8-7-0"}, rack.Stretch{From: "9-0-0", To: "18-0-0"}),
		yard.Oak("R2", 2, "0-8-0", "2-0-0", ""),
	}}
	in, faults := rack.Read(doc)
	if len(faults) > 0 {
		t.Fatal(faults)
	}
	c := yard.Prices(t, ",timber,A,C62,90.00,,,white_oak,select,8/4,0-8-0,12-0-0,,\n")
	needs := []bill.Line{yard.Laminates(12, boat.Port, 6, 6, "2.600")}
	l, err := buy.WithRack(needs, c, in, yard.Keeping())
	if err != nil {
		t.Fatal(err)
	}
	lists, err := ripping.Lists(l, needs, yard.Keeping())
	if err != nil {
		t.Fatal(err)
	}
	left := ripping.Remaining(l, lists)
	next, dropped, err := ripping.NextRack(doc, l, left, "job 7")
	if err != nil || dropped != 0 {
		t.Fatal(err, dropped)
	}
	var got []string
	for _, row := range next.Boards {
		got = append(got, fmt.Sprintf("%s: %d of %s x %s x %s, clear %d, worth %q", row.ID, row.Count, row.Thickness, row.Width, row.Length, len(row.Clear), row.Worth))
	}
	want := []string{
		`R1 part 1: 1 of 8/4 x 0-8-0 x 9-0-0, clear 1, worth "10.80"`, // 21.10 x 9 / 17 7/12
		`R2: 2 of 8/4 x 0-8-0 x 2-0-0, clear 0, worth ""`,
		`job 7 1: 1 of 0-2-0 x 0-5-3 x 8-6-7+, clear 0, worth ""`, // 8 ft 7 in cut down to the whole millimetre, 2616, and to 1/16 in
	}
	if d := cmp.Diff(want, got); d != "" {
		t.Error(d)
	}
	if s := left[0].Scrap; len(s) != 1 || s[0].Count != 6 || s[0].LengthMM.String() != "13" {
		t.Errorf("%+v", s)
	}
	var need *buy.NeedError
	doc.Boards[0].Count = 0
	if _, _, err := ripping.NextRack(doc, l, left, "job 7"); !errors.As(err, &need) {
		t.Errorf("a board that is not there: %v", err)
	}
}

// Over invented yards: the next rack reads; it holds no more wood of any kind than the rack and the boards bought did less the
// pieces; and what is counted adds up.
func TestNoWoodComesFromNowhere(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		needs, c, shop := yard.Needs(t), yard.Sheet(t), yard.Keeping()
		if rapid.Bool().Draw(t, "resaw") {
			shop = yard.Resawing()
		}
		doc := rack.Document{Notation: rapid.SampledFrom([]notation.Notation{notation.FeetInchesEighths, notation.Inches, notation.Millimetres, notation.Metres}).Draw(t, "notation"), Boards: []rack.Row{}}
		size := func(mm int64) string {
			l, err := notation.Millimetres.Parse(decimal.NewFromInt(mm).Mul(exact.Dec("25.4")).String())
			if err != nil {
				t.Fatal(err)
			}
			return doc.Notation.Format(l)
		}
		for i := range rapid.IntRange(0, 3).Draw(t, "rows") {
			long := int64(rapid.IntRange(40, 180).Draw(t, "long"))
			row := rack.Row{ID: fmt.Sprint("R", i), Count: int64(rapid.IntRange(0, 3).Draw(t, "count")), Species: "white_oak", Grade: "select", Thickness: "8/4", Width: size(int64(rapid.IntRange(3, 10).Draw(t, "wide"))), Length: size(long)}
			if rapid.Bool().Draw(t, "marked") {
				row.Clear = []rack.Stretch{{From: size(2), To: size(21)}, {From: size(24), To: row.Length}}
			}
			doc.Boards = append(doc.Boards, row)
		}
		in, faults := rack.Read(doc)
		if len(faults) > 0 {
			t.Fatal(faults)
		}
		l, err := buy.WithRack(needs, c, in, shop)
		if err != nil {
			return
		}
		lists, err := ripping.Lists(l, needs, shop)
		if err != nil {
			t.Fatal(err)
		}
		left := ripping.Remaining(l, lists)
		for _, of := range left {
			if !exact.Dec(of.PiecesM3).Add(exact.Dec(of.KeptM3)).Add(exact.Dec(of.OtherM3)).Equal(exact.Dec(of.BoardsM3)) || exact.Dec(of.OtherM3).IsNegative() {
				t.Fatalf("%+v", of)
			}
			if len(of.Undecided) > 0 {
				t.Fatalf("%+v", of.Undecided)
			}
		}
		next, _, err := ripping.NextRack(doc, l, left, "left")
		if err != nil {
			t.Fatal(err)
		}
		after, faults := rack.Read(next)
		if len(faults) > 0 {
			t.Fatalf("%v of %+v", faults, next)
		}
		for _, species := range []string{"white_oak", "douglas_fir"} {
			had := wood(in, species)
			for i, g := range l.Timber {
				if g.Species != species {
					continue
				}
				had = had.Sub(exact.Dec(left[i].PiecesM3)).Add(exact.Dec("0.0001"))
				for _, b := range g.Boards {
					for _, o := range g.Offers {
						if o.ID == b.Offer && o.Rack == nil {
							had = had.Add(o.ThicknessMM.Mul(o.WidthMM).Mul(o.LengthMM).Mul(decimal.NewFromInt(b.Count)).Shift(-9))
						}
					}
				}
			}
			if has := wood(after, species); has.GreaterThan(had) {
				t.Fatalf("%s m3 of %s on the rack, %s m3 can be: %+v", has, species, had, next)
			}
		}
	})
}

// wood is the clear wood of a species on a rack, m3.
func wood(r rack.Rack, species string) decimal.Decimal {
	out := decimal.Zero
	for _, b := range r.Boards {
		if b.Species != species {
			continue
		}
		for _, c := range b.Clear {
			out = out.Add(b.Thickness.MM().Mul(b.Width.MM()).Mul(c.Length()).Mul(decimal.NewFromInt(b.Count)).Shift(-9))
		}
	}
	return out
}

// A strip that is kept gives the same laminate again, shorter, for nothing, in every notation that writes its sizes.
func TestAStripThatIsKeptServesAgain(t *testing.T) {
	c := yard.Prices(t, ",timber,A,C62,90.00,,,white_oak,select,8/4,0-8-0,12-0-0,,\n")
	for _, n := range []notation.Notation{notation.FeetInchesEighths, notation.Inches, notation.Millimetres, notation.Metres} {
		needs := []bill.Line{yard.Laminates(12, boat.Port, 18, 18, "2.600")}
		l, err := buy.New(needs, c, yard.Keeping())
		if err != nil {
			t.Fatal(err)
		}
		lists, err := ripping.Lists(l, needs, yard.Keeping())
		if err != nil {
			t.Fatal(err)
		}
		next, _, err := ripping.NextRack(rack.Document{Notation: n}, l, ripping.Remaining(l, lists), "left")
		if err != nil {
			t.Fatal(err)
		}
		in, faults := rack.Read(next)
		if len(faults) > 0 || len(in.Boards) != 1 || in.Boards[0].Count != 18 {
			t.Fatalf("%v, %+v", faults, next)
		}
		again, err := buy.WithRack([]bill.Line{yard.Laminates(13, boat.Port, 18, 18, "1.000")}, c, in, yard.Keeping())
		if err != nil || !again.Cost.IsZero() {
			t.Errorf("%s: %s, %v of %+v", n, again.Cost, err, next.Boards)
		}
	}
}
