package cutting_test

import (
	"errors"
	"slices"
	"testing"

	"ribband/takeoff/cutting"

	"pgregory.net/rapid"
)

// draws says what a tiny list may have: pieces that may be scarfed, left-overs that are kept, and lengths in which unit.
type draws struct {
	scarf, keep bool
	unit        int64
}

// The units of tiny lists: the least there is; one of forty, as a millimetre is where saw cuts are in inches; one past every table, so
// that lengths have no common step.
const (
	least     = 1
	ofForty   = 40
	unstepped = 100_000_003
)

// tinyList draws a list for everyCut, in numbers so small that much fits exactly or fails by one: boards that cost next to nothing, few
// or none for sale, several strips of each, least orders, also such as cannot be met; pieces none of which is wanted, pieces that no board
// gives whole.
func tinyList(t *rapid.T, with draws) list {
	n := func(label string, least, most int64) int64 { return rapid.Int64Range(least, most).Draw(t, label) }
	one, hair, off := with.unit, func() int64 { return 0 }, func() int64 { return 0 } // of boards and pieces, and of the saw and boards
	switch one {
	case ofForty:
		off = func() int64 { return n("off", -1, 1) * rapid.SampledFrom([]int64{0, 1, 7}).Draw(t, "by") }
	case unstepped:
		hair = func() int64 { return n("hair", -2, 2) * n("hairs", 1, 200_000) }
	}
	l := list{rules: cutting.Rules{Kerf: max(0, n("kerf", 0, 2)*one+off()), TrimEach: n("trim", 0, 2) * one}}
	for i := range n("boards", 1, 3) {
		s := cutting.Stock{ID: string(rune('A' + i)), Length: n("long", 8, 24)*one + hair() + off(), Price: 1, Strips: n("strips", 1, 3),
			Avail: rapid.SampledFrom([]int64{-1, -1, -1, 0, 1, 2, 3}).Draw(t, "avail"), Least: rapid.SampledFrom([]int64{0, 0, 1, 2, 3}).Draw(t, "least")}
		if with.keep || rapid.Bool().Draw(t, "paid") { // left-overs of a board that costs nothing are worth nothing
			s.Price = n("price", 1, 30) * rapid.SampledFrom([]int64{1, 1, 10}).Draw(t, "tens")
		}
		l.stock = append(l.stock, s)
	}
	most := int64(5)
	if with.scarf {
		most = 4
		l.rules.Scarf = &cutting.Scarf{Price: n("joint", 0, 8), Length: n("overlap", 0, 3) * one, Step: n("step", 2, 8) * one}
		l.rules.Scarf.Least = l.rules.Scarf.Length + n("part", 1, 4)*one
	}
	for i := range n("kinds", 1, most) {
		p := cutting.Piece{ID: string(rune('a' + i)), Length: n("length", 1, 20)*one + hair(), Qty: min(most, n("qty", 0, 3))}
		if most -= p.Qty; with.scarf && rapid.Bool().Draw(t, "scarf") {
			p.MayScarf = true
			p.Length += rapid.SampledFrom([]int64{0, 0, 4, 12}).Draw(t, "longer") * one
		}
		l.pieces = append(l.pieces, p)
	}
	if with.keep {
		l.rules.Keep = &cutting.Keep{Least: n("kept from", 1, 10) * one, Per: n("per", 1, 5) * one}
		top := int64(1 << 30) // at which a strip uncut would be worth its board's price
		for _, s := range l.stock {
			if m := (s.Length - 2*l.rules.TrimEach) / l.rules.Keep.Per; m > 0 {
				top = min(top, (s.Price-1)/s.Strips/m)
			}
		}
		l.rules.Keep.Rate = top * n("fifths", 0, 5) / 5
	}
	return l
}

// anyTiny draws a tiny list of any sort with the least net of its plans, and leaves out those with too much to try.
func anyTiny(t *rapid.T) (l list, want int64, with draws) {
	with = draws{rapid.Bool().Draw(t, "scarfs"), rapid.Bool().Draw(t, "keeps"), rapid.SampledFrom([]int64{least, least, least, least, ofForty, ofForty, ofForty, unstepped}).Draw(t, "unit")}
	l = tinyList(t, with)
	lengths, ways := int64(0), 1
	for _, p := range l.pieces {
		lengths += p.Qty
		if places := len(everyJoint(l, p)); places > 0 {
			lengths += p.Qty
			for range p.Qty {
				ways *= places + 1
			}
		}
	}
	if lengths > 8 || ways > 300 {
		t.Skip("too many ways to try")
	}
	return l, everyCut(l), with
}

// Whatever the limits are and on grids too, no plan is cheaper than the cheapest of all, no floor above it, and none called proven that is
// dearer; every plan is valid and its certificate holds. Within the usual limits every list with a common step is proved, and one
// that has a plan is never refused. What a refusal says would do does.
func TestTinyListsAgainstEveryCut(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		l, want, with := anyTiny(t)
		for i, limits := range []cutting.Limits{cutting.Usual, {}, {Work: 20_000, Pivots: 20, Nodes: 1, Layouts: 5}, {Work: 200_000, Pivots: 200, Nodes: 5, Layouts: 20}} {
			_, err := cutting.SolveWithin(l.stock, l.pieces, l.rules, limits)
			var short *cutting.ShortError
			if errors.As(err, &short) && want < 0 && i == 0 {
				wouldDo(t, l, short)
			}
			if errors.As(err, &short) && (want < 0 || i > 0 || with.unit == unstepped) {
				continue
			}
			if err != nil || want < 0 {
				t.Fatalf("limits %d: least %d, got %v", i, want, err)
			}
			p := solveWithin(t, l.stock, l.pieces, l.rules, limits)
			if i == 0 && with.unit != unstepped && !p.Proven() {
				t.Fatalf("not proven: %d to %d, the least is %d", p.Bound, p.Net(), want)
			}
			onGrids := cutting.OnGrids(p, l.stock, l.pieces, l.rules)
			if err := errors.Join(cutting.Check(onGrids, l.stock, l.pieces, l.rules), cutting.CheckCertificate(onGrids.Certificate, l.stock, l.pieces, l.rules)); err != nil {
				t.Fatal(err)
			}
			for _, p := range []cutting.Plan{p, onGrids} {
				if p.Net() < want || p.Bound > want || p.Certificate.Floor > want || p.Proven() && p.Net() != want {
					t.Fatalf("limits %d: least %d, got %d, bound %d, floor %d, %s", i, want, p.Net(), p.Bound, p.Certificate.Floor, p.Proof)
				}
			}
		}
	})
}

// wouldDo tries what a refusal says: a longer board, with which that piece is no longer what stands in the way, or more boards.
func wouldDo(t *rapid.T, l list, short *cutting.ShortError) {
	stock := slices.Clone(l.stock)
	if short.NeedsLength > 0 {
		stock = append(stock, cutting.Stock{ID: "longer", Length: short.NeedsLength, Price: 1_000_000, Strips: 1, Avail: -1})
		_, err := cutting.Solve(stock, l.pieces, l.rules)
		var again *cutting.ShortError
		if errors.As(err, &again) && again.Piece == short.Piece {
			t.Fatalf("%v; then %v", short, err)
		}
		return
	}
	for i := range stock {
		if stock[i].ID == short.StockID {
			stock[i].Avail += short.Boards
		}
	}
	if _, err := cutting.Solve(stock, l.pieces, l.rules); err != nil {
		t.Fatalf("%v; then %v", short, err)
	}
}
