package takeoff_test

import (
	"fmt"
	"math"
	"slices"
	"strings"
	"testing"

	"ribband/takeoff"
	"ribband/takeoff/boat"
	"ribband/takeoff/hull/offsets"
	"ribband/takeoff/pattern"
	"ribband/takeoff/rules"

	"github.com/shopspring/decimal"
)

// coarse is a prism with a firm bilge, written to 2 mm, with three frames to a bay; the stations named have only five points
// a side.
func coarse(stations ...int) ship {
	doc := arcs()
	doc.Grain = "2"
	const firm = 2 / 2.8
	for i := range doc.Stations {
		side := &doc.Stations[i].Sides[0]
		for k := range side.Waterlines {
			s, c := math.Sincos(float64(k+1) / float64(len(side.Waterlines)+1) * math.Pi / 2)
			side.Waterlines[k] = offsets.WaterlineOffsets{Height: fmt.Sprintf("%.3f", 1000-1000*math.Pow(c, firm)), HalfBreadth: fmt.Sprintf("%.3f", 40+1000*math.Pow(s, firm))}
		}
		side.Sheer = &offsets.EndOffsets{Height: "1000", HalfBreadth: "1040"}
		if slices.Contains(stations, i) {
			side.Waterlines = []offsets.WaterlineOffsets{side.Waterlines[2], side.Waterlines[6], side.Waterlines[10]}
		}
	}
	s := ship{lines: &doc}
	for no := range 13 {
		for _, side := range boat.Sides {
			r := plainRow(no, side)
			r.X = fmt.Sprint(no*300 + 200)
			s.rows = append(s.rows, r)
		}
	}
	return s
}

// ripsMany is the basis for a yard that rips several thicknesses of which a blank's depth, 53.175 mm, takes more wood of some: 54 mm
// of 2 and 3, 56 of 4 and 8, 58.5 of 6.5, 55 of 11. So the bend's range tells on the timber.
func (s ship) ripsMany(t *testing.T) takeoff.Basis {
	t.Helper()
	b := s.basis(t)
	b.Rules.BendRatio = decimal.NewFromInt(60)
	b.Rules.Rips = nil
	for _, tenths := range []int64{20, 30, 40, 65, 80, 110} {
		b.Rules.Rips = append(b.Rules.Rips, rules.Rip{Thickness: decimal.New(tenths, -1)})
	}
	return b
}

// narrowed is the answer, held against every candidate: none leaves a narrower range, and nothing is said only where none
// narrows it by a hundredth.
func narrowed(t *testing.T, s ship) takeoff.Narrowing {
	t.Helper()
	b := s.ripsMany(t)
	n, err := takeoff.Narrow(b)
	if err != nil {
		t.Fatal(err)
	}
	all, err := takeoff.Candidates(b)
	if err != nil {
		t.Fatal(err)
	}
	width := func(v takeoff.Volumes) float64 { return v.High - v.Low }
	const shown = 2.1e-6 // both ends are rounded to the millionth
	for _, c := range all {
		switch {
		case n.Kind == takeoff.Nothing && width(c.After) < .99*width(n.Now)-shown:
			t.Errorf("nothing is said, and this narrows: %s", c.Detail)
		case n.Kind != takeoff.Nothing && width(c.After) < width(n.After)-shown:
			t.Errorf("%s\nis said, and this narrows more: %s", n.Detail, c.Detail)
		}
	}
	if n.Detail == "" || !(n.Now.Low <= n.Now.High) || !(n.After.Low <= n.After.High) || n.Faults == nil {
		t.Fatalf("%+v", n)
	}
	return n
}

// with adds the point that was asked for to the table, where the curve has it.
func (s ship) with(n takeoff.Narrowing) ship {
	doc := *s.lines
	doc.Stations = slices.Clone(doc.Stations)
	st := &doc.Stations[*n.StationNo]
	side := st.Sides[0]
	side.Waterlines = slices.Clone(side.Waterlines)
	side.Buttocks = append(slices.Clone(side.Buttocks), offsets.ButtockOffsets{HalfBreadth: fmt.Sprintf("%.3f", *n.HalfBreadthMM), Height: fmt.Sprintf("%.3f", *n.HeightMM)})
	st.Sides = []offsets.SideOffsets{side}
	s.lines = &doc
	return s
}

// The boat with one coarse section asks for a point there; measured, it brings what was said; and the same point at any
// other station brings less.
func TestTheMeasurementThatNarrowsMost(t *testing.T) {
	// The point is put where the curve lies already, so nothing but the search's own doing is tested: by how much a real
	// point moves the curve, it cannot know.
	const asSaid = 0.01 // of what the range loses; heights are written to the thousandth
	s := coarse(2)
	n := narrowed(t, s)
	if n.Kind != takeoff.OnePoint || *n.StationNo != 2 || n.Side != boat.Both || !strings.Contains(n.Detail, "on both sides") {
		t.Fatalf("%+v", n)
	}
	now, said := n.Now.High-n.Now.Low, n.After.High-n.After.Low
	if !(said < .9*now) {
		t.Fatalf("it brings next to nothing: %+v", n)
	}
	measured := narrowed(t, s.with(n))
	got := measured.Now.High - measured.Now.Low
	if math.Abs(got-said) > asSaid*(now-said) {
		t.Errorf("said to narrow from %.6f to %.6f, narrows to %.6f", now, said, got)
	}
	h := s.basis(t).Hull
	wanted, err := h.Wanted(boat.Port)
	if err != nil || len(wanted) != 5 {
		t.Fatal(wanted, err)
	}
	for _, w := range wanted {
		if w.Station == 2 {
			continue
		}
		no := w.Station
		other := narrowed(t, s.with(takeoff.Narrowing{StationNo: &no, HalfBreadthMM: &w.Y, HeightMM: &w.Z}))
		if d := other.Now.High - other.Now.Low; d < got {
			t.Errorf("a point at station %d narrows to %.6f, that at station 2 to %.6f", no, d, got)
		}
	}
}

// Exact lines leave nothing to narrow.
func TestExactLinesLeaveNothingToNarrow(t *testing.T) {
	s := coarse()
	s.lines.Grain = "0"
	if n := narrowed(t, s); n.Kind != takeoff.Nothing || n.Now != n.After {
		t.Errorf("%+v", n)
	}
}

// One frame between two coarse stations is told most of by its own pattern; one that stands on both sides midway in the widest
// spacing by a station there, which measures both at once.
func TestAPatternOrAStationMayTellMost(t *testing.T) {
	at := func(x string, sides ...boat.Side) ship {
		s := coarse(2, 3)
		s.rows = nil
		for _, side := range sides {
			r := plainRow(7, side)
			r.X = x
			s.rows = append(s.rows, r)
		}
		for i := range s.lines.Stations[3:] {
			s.lines.Stations[3+i].X = fmt.Sprint(1000*(3+i) + 600) // the spacing from 2 to 3 is the widest
		}
		return s
	}
	if n := narrowed(t, at("2300", boat.Port)); n.Kind != takeoff.OnePattern || *n.FrameNo != 7 || n.Side != boat.Port {
		t.Errorf("%+v", n)
	}
	if n := narrowed(t, at("2800", boat.Port, boat.Starboard)); n.Kind != takeoff.OneStation || *n.XMM != 2800 {
		t.Errorf("%+v", n)
	}
}

// Three stations only still give an answer, and something to do about it.
func TestThreeStationsAskForMore(t *testing.T) {
	s := coarse(0, 2, 4)
	doc := *s.lines
	doc.Stations = []offsets.StationOffsets{doc.Stations[0], doc.Stations[2], doc.Stations[4]}
	for i := range doc.Stations {
		doc.Stations[i].No = i
	}
	s.lines = &doc
	if n := narrowed(t, s); n.Kind == takeoff.Nothing || !(n.After.High-n.After.Low < n.Now.High-n.Now.Low) {
		t.Errorf("%+v", n)
	}
}

// A frame that has its pattern is not asked for another; every other that is worked on is.
func TestPatternsAreAskedForOnce(t *testing.T) {
	s := coarse(2)
	s.patterns = []pattern.Rows{arcOf(6, boat.Port, 1000, 0)}
	all, err := takeoff.Candidates(s.ripsMany(t))
	if err != nil {
		t.Fatal(err)
	}
	asked := map[boat.Member]bool{}
	stations := 0
	for _, c := range all {
		switch c.Kind {
		case takeoff.OnePattern:
			asked[boat.Member{Kind: boat.Frame, No: *c.FrameNo, Side: c.Side}] = true
		case takeoff.OneStation:
			stations++
		}
	}
	if stations != 1 || len(asked) != 25 {
		t.Errorf("%d stations and %d patterns asked for", stations, len(asked))
	}
	for _, side := range boat.Sides {
		if m := (boat.Member{Kind: boat.Frame, No: 6, Side: side}); asked[m] != (side == boat.Starboard) {
			t.Errorf("%s: asked for %t", m, asked[m])
		}
	}
}

// The range holds what the takeoff itself asks for, which takes the high end of every girth and the thicknesses chosen for the
// boat by bends as tight as they may be: the frames beside the coarse station decide those of all.
func TestTheRangeIsOfTheBoatsOwnChoice(t *testing.T) {
	b := coarse(2).ripsMany(t)
	r := runs(t, b)
	if len(r.Ripping.Thicknesses) != 1 {
		t.Fatalf("%+v", r.Ripping.Thicknesses)
	}
	gross := 0.0
	for _, l := range r.Bill.Lines {
		if p := l.Pieces; p != nil {
			gross += l.Gross.Value().Mul(p.Thickness).Mul(p.Siding).Mul(p.Length.Value()).Shift(-6).InexactFloat64()
		}
	}
	n := narrowed(t, coarse(2))
	const shown = 1.1e-6 // ends are rounded to the millionth
	if gross < n.Now.Low-shown || gross > n.Now.High+shown {
		t.Errorf("the takeoff asks for %.6f m3, and the range is %+v", gross, n.Now)
	}
	// a yard that rips nothing but what was chosen is left with the girths' ranges, of which the takeoff takes the high ends
	only := b
	only.Rules.Rips = []rules.Rip{{Thickness: r.Ripping.Thicknesses[0]}}
	if one, err := takeoff.Narrow(only); err != nil || math.Abs(gross-one.Now.High) > shown {
		t.Errorf("the takeoff asks for %.6f m3, and of that thickness the range is %+v, %v", gross, one.Now, err)
	}
	// one more different thickness lets the other frames be as they would without that station
	b.Rules.DifferentLaminates = 2
	two, err := takeoff.Narrow(b)
	if err != nil {
		t.Fatal(err)
	}
	if two.Now == n.Now {
		t.Errorf("with two thicknesses the range stays %+v", two.Now)
	}
}

// BenchmarkNarrow is the search beside the takeoff that it is for.
func BenchmarkNarrow(b *testing.B) {
	basis := demoBasis(b, 1)
	b.Run("takeoff", func(b *testing.B) {
		for b.Loop() {
			if _, err := takeoff.Run(basis); err != nil {
				b.Fatal(err)
			}
		}
	})
	b.Run("narrow", func(b *testing.B) {
		for b.Loop() {
			if _, err := takeoff.Narrow(basis); err != nil {
				b.Fatal(err)
			}
		}
	})
}
