package ripping_test

import (
	"errors"
	"testing"

	"ribband/pricing/buy"
	"ribband/pricing/internal/exact"
	"ribband/pricing/internal/published"
	"ribband/pricing/internal/yard"
	"ribband/pricing/ripping"
	"ribband/pricing/sheet"
	"ribband/takeoff/bill"
	"ribband/takeoff/boat"
	"ribband/takeoff/notation"

	"github.com/shopspring/decimal"
	"pgregory.net/rapid"
)

// Over invented yards: the boards of a ripping list are those bought, none gives more strips than it has, every strip of
// the plan is cut once, pieces with their kerfs fit between the trimmed ends, longer pieces come before shorter ones, and a
// left-over is kept exactly when it is long enough.
func TestRippingListsCutWhatThePlanCuts(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		needs, c := yard.Needs(t), yard.Sheet(t)
		r := yard.Keeping()
		l, err := buy.New(needs, c, r)
		if err != nil {
			return
		}
		lists, err := ripping.Lists(l, needs, r)
		if err != nil || len(lists) != len(l.Timber) {
			t.Fatalf("%d lists of %d groups, %v", len(lists), len(l.Timber), err)
		}
		for i, list := range lists {
			ripped(t, list, l.Timber[i], r)
		}
	})
}

func ripped(t *rapid.T, list ripping.List, of buy.Timber, r buy.Rules) {
	boards, strips, pieces := map[string]int64{}, map[string]int64{}, map[string]int64{}
	each := map[string]int64{}
	for _, b := range of.Boards {
		each[b.Offer] = b.Strips / b.Count
	}
	next, before := int64(1), decimal.New(1, 9)
	for _, b := range list.Boards {
		if b.First != next || b.Last < b.First {
			t.Fatalf("boards %d to %d after %d", b.First, b.Last, next-1)
		}
		n, on, longest := b.Last-b.First+1, int64(0), decimal.Zero
		next += n
		boards[b.Offer] += n
		for _, s := range b.Strips {
			on += s.Count
			longest = decimal.Max(longest, whole(t, s, b, list))
			if s.Keep != nil && *s.Keep != !s.Over.Value().Shift(3).LessThan(r.LeastShort) || s.Keep == nil && !s.Over.IsZero() {
				t.Fatalf("%s left, keep %v", s.Over, s.Keep)
			}
			if len(s.Pieces) > 0 {
				strips[b.Offer] += n * s.Count
			}
			for _, p := range s.Pieces {
				pieces[p.Line] += n * s.Count * p.Count
			}
		}
		if on != each[b.Offer] || longest.GreaterThan(before) {
			t.Fatalf("board %d: %d strips of %d, longest piece %s after %s", b.First, on, each[b.Offer], longest, before)
		}
		before = longest
	}
	for _, b := range of.Boards {
		if boards[b.Offer] != b.Count || strips[b.Offer] != b.Used {
			t.Fatalf("%s: %d boards of %d, %d strips of %d", b.Offer, boards[b.Offer], b.Count, strips[b.Offer], b.Used)
		}
	}
	for _, cut := range of.Cuts {
		for _, p := range cut.Pieces {
			pieces[p.Line] -= cut.Strips * p.Count
		}
	}
	for line, n := range pieces {
		if n != 0 {
			t.Fatalf("%s: %d pieces more than planned", line, n)
		}
	}
}

// whole checks that a strip holds its pieces, longest first, and gives the longest.
func whole(t *rapid.T, s ripping.Strip, b ripping.Board, list ripping.List) decimal.Decimal {
	along, longest, last := decimal.Zero, decimal.Zero, decimal.New(1, 9)
	for _, p := range s.Pieces {
		mm := p.Length.Value().Shift(3)
		if mm.GreaterThan(last) {
			t.Fatalf("%s after %s", mm, last)
		}
		last, longest = mm, decimal.Max(longest, mm)
		along = along.Add(mm.Add(list.Kerf).Mul(decimal.NewFromInt(p.Count)))
	}
	room := b.LengthMM.Sub(b.EndTrim.Mul(decimal.NewFromInt(2))).Add(list.Kerf)
	if along.GreaterThan(room) {
		t.Fatalf("pieces and kerfs take %s mm of %s", along, room)
	}
	return longest
}

// Seven frames of three laminates on boards of four strips: worked out by hand.
func TestRippingListByHand(t *testing.T) {
	c, err := sheet.FromRows("USD", notation.Millimetres, []sheet.Row{{Kind: "timber", Species: "white_oak", Grade: "select", Unit: "C62", Price: "40", Thickness: "51", Width: "40", StockLength: "3000"}})
	if err != nil {
		t.Fatal(err)
	}
	l := yard.Laminates(12, boat.Port, 21, 21, "2.200")
	l.Pieces.Thickness, l.Pieces.Siding, l.Pieces.Planing = exact.Dec("6"), exact.Dec("44"), exact.Dec("1.5")
	r := buy.Rules{Kerf: exact.Dec("3"), EndTrim: exact.Dec("50"), LeastShort: exact.Dec("600")}
	needs := []bill.Line{l}
	list, err := buy.New(needs, c, r)
	if err != nil {
		t.Fatal(err)
	}
	lists, err := ripping.Lists(list, needs, r)
	if err != nil {
		t.Fatal(err)
	}
	// floor((40 + 3) / (7.5 + 3)) = 4 strips; 21 = 5 boards of four and one of one, whose other three strips stay whole
	got := lists[0].Boards
	if len(got) != 2 || got[0].First != 1 || got[0].Last != 5 || got[1].First != 6 || got[1].Last != 6 {
		t.Fatalf("%+v", got)
	}
	// 3000 - 2 x 50 - 2200 - 3 = 697 left, long enough to keep
	one, last := got[0].Strips, got[1].Strips
	if len(one) != 1 || one[0].Count != 4 || one[0].Over.String() != "0.697" || !*one[0].Keep {
		t.Errorf("%+v", one)
	}
	if len(last) != 2 || last[0].Count != 1 || last[1].Count != 3 || len(last[1].Pieces) != 0 || last[1].Over.String() != "3.000" || !*last[1].Keep {
		t.Errorf("%+v", last)
	}
	r.LeastShort = exact.Dec("697.001")
	if lists, err = ripping.Lists(list, needs, r); err != nil || *lists[0].Boards[0].Strips[0].Keep {
		t.Errorf("a left-over shorter than what is kept is kept, %v", err)
	}
	r.LeastShort = decimal.Zero
	if lists, err = ripping.Lists(list, needs, r); err != nil || lists[0].Boards[0].Strips[0].Keep != nil {
		t.Errorf("kept or not where nothing is said, %v", err)
	}
	var need *buy.NeedError
	list.Timber[0].Offers = nil
	if _, err := ripping.Lists(list, needs, r); !errors.As(err, &need) {
		t.Errorf("a board that is not offered: %v", err)
	}
}

// Strips of a board as published and computed (testdata/published/strips-2003): a board 5 1/2 in wide gives so many of 1/4 in.
func TestStripsOfABoardAsPublished(t *testing.T) {
	inch := exact.Dec("25.4")
	for _, r := range published.Table(t, "strips-2003", "strips.csv") {
		need := yard.Laminates(12, boat.Port, 1, 1, "2")
		need.Pieces.Thickness, need.Pieces.Planing, need.Pieces.Siding = exact.Dec(r["strip_in"]).Mul(inch), exact.Dec("0"), exact.Dec("15")
		rules := yard.Shop
		rules.Kerf = exact.Dec(r["kerf_in"]).Mul(inch)
		l, err := buy.New([]bill.Line{need}, yard.Prices(t, ",timber,A,BFT,10,,,white_oak,select,4/4,0-5-4,8-0-0,,\n"), rules)
		if err != nil {
			t.Fatal(err)
		}
		got := l.Timber[0].Offers[0].Strips
		if least, most := exact.Dec(r["least"]).IntPart(), exact.Dec(r["most"]).IntPart(); got < least || got > most {
			t.Errorf("%s: %d strips, want %d to %d", r["row"], got, least, most)
		}
	}
}
