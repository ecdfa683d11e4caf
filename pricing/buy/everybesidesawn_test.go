package buy_test

import (
	"slices"

	"ribband/pricing/buy"
	"ribband/pricing/rack"
	"ribband/pricing/ripping"
	"ribband/takeoff/bill"

	"github.com/shopspring/decimal"
	"pgregory.net/rapid"
)

func times(n int64, each decimal.Decimal) decimal.Decimal { return each.Mul(decimal.NewFromInt(n)) }

// sawn cuts the boards of a list as its ripping lists say, in exact millimetres: each comes out of what is there with a kerf beside it, what is
// said to be left too, every board is taken up as often as it is bought and every plank is cut as often as it is needed; and the rack afterwards reads.
func (d *drawnBeside) sawn(rt *rapid.T, l buy.List) {
	lists, err := ripping.Lists(l, d.needs, d.rules)
	if err != nil {
		rt.Fatal(err)
	}
	cut := map[string]int64{}
	for i, list := range lists {
		taken := map[string]int64{}
		for _, b := range list.Boards {
			n := b.Last - b.First + 1
			taken[b.Offer] += n
			o, _ := l.Timber[i].Offer(b.Offer)
			d.board(rt, b, o, l.Timber[i], n, cut)
		}
		for _, b := range l.Timber[i].Boards {
			if taken[b.Offer] != b.Count {
				rt.Fatalf("%d of %+v are taken up\n%s", taken[b.Offer], b, d)
			}
		}
	}
	for i, n := range d.needs {
		if cut[n.ID] != d.planksBy[i] {
			rt.Fatalf("%d cut of %d of %s\n%s\n%s", cut[n.ID], d.planksBy[i], n.ID, d, toldOf(l))
		}
	}
	left := ripping.Remaining(l, lists)
	for _, of := range left {
		if dec(of.OtherM3).IsNegative() {
			rt.Fatalf("%+v\n%s", of, d)
		}
	}
	next, _, err := ripping.NextRack(d.doc, l, left, "left")
	if err != nil {
		rt.Fatal(err)
	}
	if _, bad := rack.Read(next); len(bad) > 0 {
		rt.Fatalf("%v: %+v", bad, next)
	}
}

// board cuts one board, of n alike.
func (d *drawnBeside) board(rt *rapid.T, b ripping.Board, o buy.Offer, g buy.Timber, n int64, cut map[string]int64) {
	kerf, long := d.rules.Kerf, o.Clear()
	if !o.Marked() {
		long = long.Sub(d.rules.EndTrim).Sub(d.rules.EndTrim)
	}
	fail := func(why string) {
		rt.Fatalf("%s: %+v of %+v\n%s\n%s", why, b, o, d, toldOf(buy.List{Timber: []buy.Timber{g}}))
	}
	// of each place, the whole board or a length of it, how many there are, how long they are, and how wide all in one is ripped
	many, lengths := []int64{1}, []decimal.Decimal{long}
	wide := make([]decimal.Decimal, 1+len(b.Lengths))
	along := decimal.Zero
	for _, of := range b.Lengths {
		many, lengths = append(many, of.Count), append(lengths, of.LengthMM)
		along = along.Add(times(of.Count, of.LengthMM.Add(kerf)))
	}
	for _, s := range b.Strips {
		if len(s.Pieces) == 0 {
			continue
		}
		if (len(b.Lengths) > 0) != (s.OfLength > 0) || s.Count%many[s.OfLength] != 0 {
			fail("strips out of no length")
		}
		across := s.WidthMM
		if across.IsZero() {
			across = g.Thickness.Add(g.Planing)
		}
		wide[s.OfLength] = wide[s.OfLength].Add(times(s.Count/many[s.OfLength], across.Add(kerf)))
		used := s.Over.Value().Shift(3)
		if used.IsZero() {
			used = kerf.Neg()
		}
		for _, p := range s.Pieces {
			need := d.needs[slices.IndexFunc(d.needs, func(n bill.Line) bool { return n.ID == p.Line })].Pieces
			own := need.Thickness.Add(need.Planing)
			if is := p.WidthMM; need.Siding.Add(need.Planing).GreaterThan(o.ThicknessMM) || own.GreaterThan(across) || is.Sign() > 0 && !is.Equal(own) || !p.Length.Equal(need.Length) {
				fail("a plank too large for its strip")
			}
			used = used.Add(times(p.Count, need.Length.Value().Shift(3).Add(kerf)))
			cut[p.Line] += n * s.Count * p.Count
		}
		if used.GreaterThan(lengths[s.OfLength]) {
			fail("pieces longer than their strip")
		}
	}
	free := make([]bool, len(wide))
	for _, r := range b.Rest {
		at := 0 // lengths alike may be ripped differently: the next of them that it goes in
		for k := range b.Lengths {
			if at == 0 && lengths[k+1].Equal(r.LengthMM) && many[k+1] == r.Count && !free[k+1] && !wide[k+1].Add(r.WidthMM).GreaterThan(o.WidthMM) {
				at = k + 1
			}
		}
		switch {
		case len(b.Lengths) > 0 && r.WidthMM.Equal(o.WidthMM): // what is left of the length
			along = along.Add(r.LengthMM).Add(kerf)
		case len(b.Lengths) == 0 && r.LengthMM.Equal(o.Clear()):
			wide[0], free[0] = wide[0].Add(r.WidthMM), true
		case at > 0:
			wide[at], free[at] = wide[at].Add(r.WidthMM), true
		default:
			fail("a rest of nothing")
		}
	}
	for k, w := range wide {
		if !free[k] {
			w = w.Sub(kerf)
		}
		if w.GreaterThan(o.WidthMM) {
			fail("strips wider than the board")
		}
	}
	if len(b.Lengths) > 0 && along.Sub(kerf).GreaterThan(long) {
		fail("lengths longer than the board")
	}
}
