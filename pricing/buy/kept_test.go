package buy_test

import (
	"fmt"
	"slices"
	"testing"

	"ribband/pricing/buy"
	"ribband/pricing/rack"
	"ribband/pricing/ripping"
	"ribband/pricing/sheet"
	"ribband/takeoff/bill"

	"github.com/shopspring/decimal"
	"pgregory.net/rapid"
)

// What the yard keeps changes no list; nothing is told as left over that was cut, and the rack afterwards holds what was not taken of it and
// what is kept: over yards with boards in hand, whole and with stretches marked, of laminates resawn or not, and of planks that may be scarfed.
func TestWhatIsKeptWasNotCut(t *testing.T) {
	rapid.Check(t, func(rt *rapid.T) {
		var needs []bill.Line
		var c sheet.Content
		var hand rack.Document
		r := sawn
		if rapid.Bool().Draw(rt, "planks") {
			var planks []scarfPlank
			planks, _, _, c, hand = drawScarfable(rt, 150, 90)
			var sizes [][3]string
			for _, p := range planks {
				sizes = append(sizes, [3]string{fmt.Sprint(p.wide), "30", fmt.Sprint(p.long)})
			}
			needs, r = mayScarf(planksOf(t, sizes...)), scarfing("0.25", "0")
			c.Items = append(c.Items, hands(t, 2000).Items...)
		} else {
			d := drawSaw(rt)
			needs, c, hand, r = d.needs, d.sheet, d.hand, d.rules
		}
		for i := range hand.Boards {
			if b := &hand.Boards[i]; rapid.IntRange(0, 2).Draw(rt, "two stretches") == 0 {
				b.Clear = []rack.Stretch{{From: "0", To: "950"}, {From: "960", To: b.Length}}
			}
		}
		held, bad := rack.Read(hand)
		if len(bad) > 0 {
			rt.Fatal(bad)
		}
		r.LeastShort = decimal.Zero
		all, err := buy.WithRack(needs, c, held, r)
		if err != nil {
			return
		}
		r.LeastShort = decimal.NewFromInt(rapid.SampledFrom([]int64{1, 300, 600, 1500}).Draw(rt, "kept"))
		l, err := buy.WithRack(needs, c, held, r)
		if err != nil || toldOf(l) != toldOf(all) || l.Cost != all.Cost || l.Bound != all.Bound {
			rt.Fatalf("%v, kept from %s mm: %s\nand else %s", err, r.LeastShort, toldOf(l), toldOf(all))
		}
		lists, err := ripping.Lists(l, needs, r)
		if err != nil {
			rt.Fatal(err)
		}
		for i, list := range lists {
			for _, b := range list.Boards {
				notCutTwice(rt, b, l.Timber[i], r)
			}
		}
		left := ripping.Remaining(l, lists)
		next, dropped, err := ripping.NextRack(hand, l, left, "kept")
		if err != nil || dropped > 0 {
			rt.Fatal(err, dropped)
		}
		afterwards := held3(rt, hand)
		for _, g := range l.Timber {
			for _, b := range g.Boards {
				if o, _ := g.Offer(b.Offer); o.Rack != nil {
					afterwards = afterwards.Sub(o.ThicknessMM.Mul(o.WidthMM).Mul(o.Clear()).Mul(decimal.NewFromInt(b.Count)))
				}
			}
		}
		for _, of := range left {
			for _, k := range of.Kept {
				if k.LengthMM.LessThan(r.LeastShort) {
					rt.Fatalf("%+v is kept from %s mm", k, r.LeastShort)
				}
				afterwards = afterwards.Add(k.ThicknessMM.Mul(k.WidthMM).Mul(k.LengthMM).Mul(decimal.NewFromInt(k.Count)))
			}
			if dec(of.OtherM3).IsNegative() {
				rt.Fatalf("more left than there was: %+v", of)
			}
		}
		if now := held3(rt, next); !now.Equal(afterwards) {
			rt.Fatalf("%s mm3 on the rack, %s are left: %+v, then %+v\n%s", now, afterwards, hand, next, toldOf(l))
		}
	})
}

// held3 is what lies on a rack, mm3, of marked boards their stretches.
func held3(t *rapid.T, of rack.Document) decimal.Decimal {
	sum := decimal.Zero
	for _, b := range of.Boards {
		long := dec(b.Length)
		if len(b.Clear) > 0 {
			long = decimal.Zero
		}
		for _, c := range b.Clear {
			long = long.Add(dec(c.To)).Sub(dec(c.From))
		}
		sum = sum.Add(dec(b.Thickness).Mul(dec(b.Width)).Mul(long).Mul(decimal.NewFromInt(b.Count)))
	}
	if sum.IsNegative() {
		t.Fatalf("%+v", of)
	}
	return sum
}

// notCutTwice: the strips of a board and what stays of it are no more than the board across, and along a strip what is cut and what is over
// no more than it gives.
func notCutTwice(t *rapid.T, b ripping.Board, g buy.Timber, r buy.Rules) {
	o, ok := g.Offer(b.Offer)
	if !ok {
		t.Fatalf("%s is not offered", b.Offer)
	}
	across := decimal.Zero
	for _, s := range b.Strips {
		if len(s.Pieces) == 0 {
			continue
		}
		thick, wide := b.Way.Strip()
		if s.WidthMM.Sign() > 0 {
			wide, thick = s.WidthMM, o.ThicknessMM
		}
		across = across.Add(wide.Mul(thick).Mul(decimal.NewFromInt(s.Count)))
		full := decimal.Zero
		for _, p := range s.Pieces {
			full = full.Add(p.Length.Value().Shift(3).Add(r.Kerf).Mul(decimal.NewFromInt(p.Count)))
		}
		over := s.Over.Value().Shift(3)
		if over.IsZero() {
			full = full.Sub(r.Kerf)
		}
		if full.Add(over).GreaterThan(b.LengthMM.Sub(b.EndTrim).Sub(b.EndTrim)) {
			t.Fatalf("%s mm cut and %s over of %+v", full, over, b)
		}
		if keep := over.GreaterThanOrEqual(r.LeastShort); over.Sign() > 0 && (s.Keep == nil || *s.Keep != keep) {
			t.Fatalf("%s over is kept %v from %s", over, s.Keep, r.LeastShort)
		}
	}
	for _, rest := range b.Rest {
		across = across.Add(rest.ThicknessMM.Mul(rest.WidthMM).Mul(decimal.NewFromInt(rest.Count)))
	}
	if across.GreaterThan(o.ThicknessMM.Mul(o.WidthMM)) {
		t.Fatalf("%s mm2 cut and left of %s x %s: %+v", across, o.ThicknessMM, o.WidthMM, b)
	}
	if i := slices.IndexFunc(g.Boards, func(x buy.Boards) bool { return x.Offer == b.Offer }); i < 0 {
		t.Fatalf("%s is not bought", b.Offer)
	}
}
