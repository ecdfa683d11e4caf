package buy_test

import (
	"errors"
	"fmt"
	"math/big"
	"slices"
	"testing"

	"ribband/pricing/buy"
	"ribband/pricing/ripping"
	"ribband/pricing/sheet"
	"ribband/takeoff/bill"

	"pgregory.net/rapid"
)

// sticks are so many pieces alike, mm; flat may lie flat in a board.
type sticks struct {
	thick, side, long, count int64
	flat                     bool
}

// sawnBoard is a board, mm, with its price at numbers; a stretch marked as clear loses no end.
type sawnBoard struct {
	thick, wide, long, trim int64
	article
}

// strips are how many strips of a board a piece's come to, with a kerf of 3 and 2 of planing: on edge or flat, ripped as it comes or, with a
// bandsaw, in layers. Cuts are the bandsaw's in a board sawn the way that gives most, with fewest layers, on edge first, side by side
// how many strips a layer gives.
func (b sawnBoard) strips(p sticks, saw *bandsaw) (most, cuts, side int64) {
	fewest := int64(1 << 40)
	take := func(layers, tall, wide int64) {
		if n := layers * ((b.wide + 3) / (wide + 2 + 3)); n > most || n == most && n > 0 && layers < fewest {
			most, fewest, cuts, side = n, layers, 0, n/layers
			if layers > 1 {
				cuts = layers - 1
				if layers*(tall+saw.planing)+cuts*saw.kerf < b.thick {
					cuts++
				}
			}
		}
	}
	for _, flat := range []bool{false, true} {
		tall, wide := p.side, p.thick
		if flat {
			tall, wide = p.thick, p.side
		}
		if flat && !p.flat {
			continue
		}
		if saw != nil {
			if n := (b.thick + saw.kerf) / (tall + saw.planing + saw.kerf); n > 1 {
				take(n, tall, wide)
				continue // more than as it comes
			}
		}
		if b.thick >= tall+2 && (!flat || b.thick <= 2*(tall+2)) {
			take(1, tall, wide)
		}
	}
	return most, cuts, side
}

// everySawing is the least that boards for all pieces cost, one board sawn for pieces of one kind; -1 where there is none.
func everySawing(all []sticks, boards []sawnBoard, saw *bandsaw) int64 {
	best := int64(-1)
	count := make([]int64, len(boards))
	var walk func(g, i int, left, n int64)
	walk = func(g, i int, left, n int64) {
		if left <= 0 || i == len(boards) {
			if left > 0 {
				return
			}
			if g+1 < len(all) {
				walk(g+1, 0, all[g+1].count, 0)
				return
			}
			sum := int64(0)
			for k, b := range boards {
				least, sold := b.least(count[k])
				if !sold {
					return
				}
				sum += least
			}
			if best < 0 || sum < best {
				best = sum
			}
			return
		}
		walk(g, i+1, left, 0)
		b := boards[i]
		strips, _, _ := b.strips(all[g], saw)
		if holds := strips * ((b.long - 2*b.trim + 3) / (all[g].long + 3)); holds > 0 && (b.avail < 0 || count[i] < b.avail) {
			count[i]++
			walk(g, i, left-holds, 0)
			count[i]--
		}
	}
	walk(0, 0, all[0].count, 0)
	return best
}

// Against every choice of boards for few kinds of piece, resawn or not, sold from a number on, cheaper by the number or in few, and boards in
// hand: no floor is above the cheapest, none that is called proven costs more, what is bought gives the strips, the bandsaw's hours are
// those of its cuts, and where nothing is found nothing would do.
func TestResawingAgainstEveryChoice(t *testing.T) {
	rapid.Check(t, func(rt *rapid.T) {
		d := drawSaw(rt)
		best := everySawing(d.all, d.boards, d.saw)
		said := fmt.Sprintf("%+v of %+v, saw %+v, %s h at %d", d.all, d.boards, d.saw, d.metre.FloatString(2), d.rate)
		l, err := buy.WithRack(d.needs, d.sheet, d.rack, d.rules)
		var short *buy.ShortBoardsError
		var missing *sheet.MissingPriceError
		if errors.As(err, &short) || errors.As(err, &missing) {
			if best >= 0 && len(d.all) == 1 {
				rt.Fatalf("%v, and %d is possible: %s", err, best, said)
			}
			return
		}
		if err != nil {
			rt.Fatalf("%v: %s", err, said)
		}
		sums(rt, l)
		proven := !slices.ContainsFunc(l.Timber, func(g buy.Timber) bool { return !g.Proven })
		if best < 0 || l.Cost.Minor() < 100*best || l.Bound.Minor() > 100*best || proven && l.Cost.Minor() > 100*best {
			rt.Fatalf("%s, none below %s, proven %v, and %d is the least: %s\n%s", l.Cost, l.Bound, proven, best, said, toldOf(l))
		}
		weighed := d.weighed(rt, l)
		if d.rate == 0 {
			return
		}
		if plain := everySawing(d.all, d.boards, nil); plain >= 0 && len(d.all) == 1 && weighed > 100*plain {
			rt.Fatalf("%d with the hours, %d ripped as they come: %s\n%s", weighed, plain, said, toldOf(l))
		}
		without := d.rules
		without.Labour = buy.Labour{}
		wood, err := buy.WithRack(d.needs, d.sheet, d.rack, without)
		if err != nil || wood.Bound != l.Bound {
			rt.Fatalf("%v, none below %s, without hours %s: %s", err, l.Bound, wood.Bound, said)
		}
		if by := d.weighed(rt, wood); weighed > by {
			rt.Fatalf("%d with the hours, %d by wood alone: %s\n%s", weighed, by, said, toldOf(l))
		}
	})
}

// weighed is what a list costs with the bandsaw's hours, worked out from its boards, minor units; it looks over the boards as well.
func (d *drawnSaw) weighed(t *rapid.T, l buy.List) int64 {
	bought, paid := make([]int64, len(d.boards)), make([]int64, len(d.boards))
	mm := int64(0)
	for _, g := range l.Timber {
		k := slices.IndexFunc(d.needs, func(n bill.Line) bool { return n.ID == g.Lines[0] })
		p, cut := d.all[k], int64(0)
		for _, b := range g.Boards {
			o, _ := g.Offer(b.Offer)
			name := o.Supplier
			if o.Rack != nil {
				name = o.Rack.ID
			}
			i := slices.Index(d.ids, name)
			bought[i], paid[i] = bought[i]+b.Count, paid[i]+b.Cost.Minor()
			strips, cuts, side := d.boards[i].strips(p, d.saw)
			if o.Way.Layers == 1 {
				strips, _, _ = d.boards[i].strips(p, nil)
				cuts = 0
			}
			if b.Strips != b.Count*strips || b.Used > b.Strips {
				t.Fatalf("%+v of %d: %+v", b, strips, d)
			}
			if d.height > 0 && d.boards[i].wide > d.height { // each strip by itself
				cuts *= side
			}
			if strips > 0 {
				mm += cuts * d.boards[i].long * ((b.Used + strips - 1) / strips)
			}
		}
		for _, c := range g.Cuts {
			i := slices.Index(d.ids, "R1")
			if o, _ := g.Offer(c.Offer); o.Rack == nil {
				i = slices.Index(d.ids, o.Supplier)
			}
			if c.Pieces[0].Count*(p.long+3) > d.boards[i].long-2*d.boards[i].trim+3 {
				t.Fatalf("%+v of %+v", c, d.boards[i])
			}
			cut += c.Strips * c.Pieces[0].Count
		}
		if cut != p.count {
			t.Fatalf("%d of %d cut: %s", cut, p.count, toldOf(l))
		}
	}
	for i, n := range bought {
		if price, sold := d.boards[i].each(n); n > 0 && (!sold || paid[i] < 100*n*price) {
			t.Fatalf("%d of %+v bought for %d", n, d.boards[i], paid[i])
		}
	}
	if _, err := ripping.Lists(l, d.needs, d.rules); err != nil {
		t.Fatal(err)
	}
	// 0.01 h of all metres, at the rate
	hours := new(big.Rat).Mul(d.metre, big.NewRat(mm, 1000))
	cents := d.rate * roundHalfUp(hours.Mul(hours, big.NewRat(100, 1)))
	if told := l.ResawLabour.Minor(); len(d.rules.Labour.Steps.Steps) > 0 && len(l.ResawLabour.Currency()) > 0 && told != cents {
		t.Fatalf("%d for the bandsaw, %d of %d mm: %+v\n%s", told, cents, mm, d, toldOf(l))
	}
	return l.Cost.Minor() + cents
}
