package buy_test

import (
	"strings"
	"testing"

	"ribband/pricing/buy"
	"ribband/takeoff/bill"
	"ribband/takeoff/boat"
)

// bothSides are the patterns of both sides of a frame, tapering from width to end over length, mm; turned, the two lie beside each
// other in about width + end.
func bothSides(frame int, width, length, end int64) []bill.Line {
	one := func(width, length int64) bill.Line {
		l := cut(frame, bill.Pattern, "ply", 1, width, length, true)
		l.Rectangles.Outline = &bill.Outline{Room: dec("4"), Points: [][2]int64{{0, 0}, {length, 0}, {length, end}, {0, width}}}
		return l
	}
	a, b := one(width, length), one(width+3, length-5)
	b.Member.Side = boat.Starboard
	b.ID = b.Member.Path() + "/ply"
	return []bill.Line{a, b}
}

// Four patterns of about 650 x 2000 mm go one to a sheet of 1219 x 2438 mm; two pairs of about 763 x 2000 mm take two sheets. Each of
// the four has its share of them to the cent, and both sides are named together. A saw wider than the room between the two,
// a pair that goes on no sheet and a pair of which one side is not bought leave them lone.
func TestPatternsOfBothSidesAreCutAsOne(t *testing.T) {
	needs := append(bothSides(1, 650, 2000, 110), bothSides(2, 650, 2000, 110)...)
	l, err := buy.New(needs, prices(t, bySize), shop)
	if err != nil {
		t.Fatal(err)
	}
	p := l.Packs[0]
	laidWhole(t, l, p)
	if p.Bought[0].Count != 2 || !p.Proven || p.Cost.String() != "52.48" || len(p.Sheets.Pairs) != 2 || p.Sheets.Laid == nil || len(p.Sheets.Laid.Pieces) != 2 {
		t.Errorf("%d sheets, %s, %+v", p.Bought[0].Count, p.Cost, p.Sheets.Pairs)
	}
	for _, two := range p.Sheets.Pairs {
		if !two.Turned || two.Room.String() != "4" {
			t.Errorf("%s: turned %v, room %s", two.Called, two.Turned, two.Room)
		}
		for _, piece := range p.Sheets.Laid.Pieces {
			for _, q := range append(append([][2]int64{}, two.Outlines[0]...), two.Outlines[1]...) {
				if q[0] < 0 || q[1] < 0 || q[0] > piece.Length || q[1] > piece.Width {
					t.Errorf("%s: %v is outside of %d x %d", two.Called, q, piece.Length, piece.Width)
				}
			}
		}
	}
	if len(l.Shares) != 4 || l.Shares[0].Cost.IsZero() || l.Shares[1].Cost.IsZero() {
		t.Errorf("%+v", l.Shares)
	}
	says := ""
	for _, c := range p.Sheets.Layouts[0].Cuts {
		says += c.Says
	}
	if !strings.Contains(says, "for frame 1, both sides, laid into each other.") {
		t.Errorf("%q", says)
	}
	thick := shop
	thick.Kerf = dec("4.5")
	wide := append(bothSides(1, 650, 2000, 610), bothSides(2, 650, 2000, 610)...)
	bad := append(bothSides(1, 650, 2000, 110), bothSides(2, 650, 2000, 110)...)
	bad[0].Rectangles.Outline.Points = [][2]int64{{0, 0}, {1 << 62, 0}}
	bad[2].Rectangles.Outline.Points = make([][2]int64, 41)
	bad[3].Rectangles.Outline = nil
	before := append(bothSides(1, 650, 2000, 110), bothSides(2, 650, 2000, 110)...)
	for i := range before {
		before[i].Rectangles.Outline = nil
	}
	away := bothSides(2, 650, 2000, 110)[0]
	away.Member.Kind = boat.Floor
	for name, x := range map[string]struct {
		needs []bill.Line
		rules buy.Rules
		count int64
	}{
		"a wide saw": {needs, thick, 4}, "on no sheet": {wide, shop, 4}, "none": {bad, shop, 4}, "a bill without outlines": {before, shop, 4}, "one side of frames far apart": {[]bill.Line{needs[0], away}, shop, 2},
		"dearer so": {bothSides(1, 600, 1200, 500), shop, 1},
	} {
		l, err := buy.New(x.needs, prices(t, bySize), x.rules)
		if err != nil {
			t.Fatal(err)
		}
		laidWhole(t, l, l.Packs[0])
		if q := l.Packs[0]; len(q.Sheets.Pairs) > 0 || q.Bought[0].Count != x.count {
			t.Errorf("%s: %d sheets, %+v", name, q.Bought[0].Count, q.Sheets.Pairs)
		}
	}
}

// Hand-worked. The port sides of two neighbouring frames, 650 x 2000 mm each, go one to a sheet of 1219 x 2438 mm and laid into
// each other, in 760 x 2000 mm, both on one. Of three the middle one is laid into one of its neighbours. Floor and plan hold for
// every pair laid together or apart, so that one sheet for two is proved; turning the needs about changes nothing.
func TestNeighbouringFramesAreLaidIntoEachOther(t *testing.T) {
	side := func(frames ...int) []bill.Line {
		var out []bill.Line
		for _, f := range frames {
			out = append(out, bothSides(f, 650, 2000, 110)[0])
		}
		return out
	}
	for _, x := range []struct {
		frames []int
		sheets int64
		pairs  int
	}{{[]int{4, 5}, 1, 1}, {[]int{5, 4}, 1, 1}, {[]int{4, 5, 6}, 2, 1}, {[]int{4, 5, 6, 7}, 2, 2}, {[]int{4, 6}, 1, 1}} {
		l, err := buy.New(side(x.frames...), prices(t, bySize), shop)
		if err != nil {
			t.Fatal(err)
		}
		p := l.Packs[0]
		laidWhole(t, l, p)
		if p.Bought[0].Count != x.sheets || len(p.Sheets.Pairs) != x.pairs || !p.Proven {
			t.Errorf("%v: %d sheets, proven %t, %+v", x.frames, p.Bought[0].Count, p.Proven, p.Sheets.Pairs)
		}
	}
}
