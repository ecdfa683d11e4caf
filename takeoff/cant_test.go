package takeoff_test

import (
	"errors"
	"math"
	"strings"
	"testing"

	"ribband/takeoff"
	"ribband/takeoff/boat"
	"ribband/takeoff/frame"
	"ribband/takeoff/hull"
	"ribband/takeoff/pattern"
)

// Frames that do not stand square across the boat are cut out of the lines in their own plane, whatever their target.
func TestFramesThatCantAndLean(t *testing.T) {
	doc := round(0)
	s := ship{lines: &doc}
	canted, leaning, faired := plainRow(2, boat.Both), plainRow(4, boat.Both), plainRow(5, boat.Port)
	canted.CantDeg, leaning.Lean = "30", "-300"
	faired.CantDeg, faired.Target = "-20", frame.Faired
	s.rows = []frame.Row{plainRow(1, boat.Both), canted, leaning, faired}
	r := s.run(t)
	h := s.basis(t).Hull
	for _, c := range []struct {
		no    int
		plane hull.Plane
	}{
		{1, hull.Plane{X: 1000}}, {2, hull.Plane{X: 2000, Cant: math.Pi / 6}}, {4, hull.Plane{X: 4000, Lean: -300}}, {5, hull.Plane{X: 5000, Cant: -math.Pi / 9}},
	} {
		want, err := h.SectionIn(c.plane, boat.Port)
		if err != nil {
			t.Fatal(err)
		}
		m := measuresOf(t, r, c.no, boat.Port)
		tolerance := .001 // of rounding
		if c.no == 5 {
			tolerance = 1 // the others' lines are not hers by the station left out
		}
		if math.Abs(m.GirthMM-want.Girth.MM) > tolerance || m.GreatestBevelDeg == nil || m.ExtraMouldingMM == nil {
			t.Errorf("frame %d: %+v, girth %v wanted", c.no, m, want.Girth.MM)
			continue
		}
		if b := math.Abs(*m.GreatestBevelDeg) * math.Pi / 180; math.Abs(*m.ExtraMouldingMM-45*math.Tan(b)) > .002 {
			t.Errorf("frame %d: extra moulding of %v mm for a bevel of %v degrees on 45 mm", c.no, *m.ExtraMouldingMM, *m.GreatestBevelDeg)
		}
	}
	square, turned := measuresOf(t, r, 1, boat.Port), measuresOf(t, r, 2, boat.Port)
	if math.Abs(*turned.GreatestBevelDeg) < 20 || turned.GirthMM < square.GirthMM+20 {
		t.Errorf("a cant of 30 degrees leaves %+v", turned)
	}
}

// A pattern of a cant frame is in its own plane: it is the frame's shape, and no section for others to be faired by.
func TestPatternOfACantFrame(t *testing.T) {
	doc := round(0)
	canted, faired := plainRow(3, boat.Port), plainRow(4, boat.Port)
	canted.CantDeg, faired.Target = "25", frame.Faired
	with := ship{lines: &doc, rows: []frame.Row{canted, faired}, patterns: []pattern.Rows{arcOf(3, boat.Port, 1300, 0)}}
	without := ship{lines: &doc, rows: []frame.Row{canted, faired}}
	a, b := with.run(t), without.run(t)
	if m := measuresOf(t, a, 3, boat.Port); m.RestsOn != boat.OnPattern || m.GreatestBevelDeg != nil || math.Abs(m.GirthMM-1950) > 1 {
		t.Errorf("%+v", m)
	}
	if x, y := measuresOf(t, a, 4, boat.Port), measuresOf(t, b, 4, boat.Port); x.GirthMM != y.GirthMM {
		t.Errorf("faired by the pattern of a cant frame: %v, else %v", x.GirthMM, y.GirthMM)
	}
}

func TestCantFramesThatLeaveTheLines(t *testing.T) {
	doc := round(0)
	far := plainRow(6, boat.Port)
	far.CantDeg = "59"
	s := ship{lines: &doc, rows: []frame.Row{plainRow(1, boat.Port), far}}
	_, err := takeoff.Run(s.basis(t))
	var missing *takeoff.UnmeasuredError
	if !errors.As(err, &missing) || len(missing.Members) != 1 || !strings.Contains(missing.Detail(missing.Members[0]), "the frame reaches from about 6") {
		t.Fatalf("%v", err)
	}
	for _, target := range []frame.Target{frame.FromLines, frame.Faired} {
		s.rows[1].Target = target
		s.rows[1].Tape = tapedRow(6, boat.Port, 1000).Tape
		var unknown *takeoff.TargetError
		if _, err := takeoff.Run(s.basis(t)); !errors.As(err, &unknown) || !strings.Contains(unknown.Faults[0].Detail, "reaches from about 6") || unknown.Faults[0].Fix == "" {
			t.Errorf("%s: %v", target, err)
		}
	}
}
