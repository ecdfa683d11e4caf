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

	"github.com/shopspring/decimal"
)

// A frame that lies flat is as long, bent, swept and twisted as its line on the planking, and its blank is wide enough.
func TestFramesThatLieFlat(t *testing.T) {
	doc := round(0)
	flat, plain := plainRow(2, boat.Both), plainRow(4, boat.Both)
	flat.Run = "700"
	s := ship{lines: &doc, rows: []frame.Row{flat, plain}}
	b := s.basis(t)
	r, err := takeoff.Run(b)
	if err != nil {
		t.Fatal(err)
	}
	l, err := b.Hull.Laid(2000, 700, boat.Port)
	if err != nil {
		t.Fatal(err)
	}
	m, other := measuresOf(t, r, 2, boat.Port), measuresOf(t, r, 4, boat.Port)
	if other.LengthMM != nil || other.SweepMM != nil || other.TwistDeg != nil || other.BlankSidingMM != nil {
		t.Errorf("a frame in its plane: %+v", other)
	}
	if m.LengthMM == nil || m.SweepMM == nil || m.TwistDeg == nil || m.BlankSidingMM == nil || m.LeastRadiusMM == nil {
		t.Fatalf("%+v", m)
	}
	const near = .00051 // of rounding
	if math.Abs(*m.LengthMM-l.Length.MM) > near || m.GirthMM != *m.LengthMM || math.Abs(*m.SweepMM-l.Sweep) > near ||
		math.Abs(*m.TwistDeg-l.Twist*180/math.Pi) > near || math.Abs(*m.LeastRadiusMM*l.Least().Kappa-1) > 1e-5 || math.Abs(*m.BlankSidingMM-45-l.Sweep) > near {
		t.Errorf("%+v, of the line %+v", m, l)
	}
	if *m.GreatestBevelDeg != 0 || *m.ExtraMouldingMM != 0 {
		t.Errorf("a bevel is left: %v", *m.GreatestBevelDeg)
	}
	section, err := b.Hull.Section(2000, boat.Port)
	if err != nil {
		t.Fatal(err)
	}
	if *m.LengthMM < section.Girth.MM+50 || *m.SweepMM <= 0 || *m.TwistDeg == 0 {
		t.Errorf("a run of 700 mm leaves %+v of a girth of %v", m, section.Girth.MM)
	}
	wide := decimal.NewFromInt(45).Add(decimal.NewFromFloat(l.Sweep)).Add(b.Rules.CleaningUp)
	found := 0
	for _, line := range r.Bill.Lines {
		if line.Pieces == nil {
			continue
		}
		want := decimal.NewFromInt(45)
		if line.Member.No == 2 {
			want = wide
		}
		found++
		if d := line.Pieces.Siding.Sub(want).Abs(); d.GreaterThan(decimal.New(2, -3)) { // the sweep and the sum are both rounded up
			t.Errorf("%s: laminates %s wide, want %s", line.Member, line.Pieces.Siding, want)
		}
	}
	if found != 4 {
		t.Errorf("%d lines of laminates", found)
	}
}

func TestFramesThatCannotLieFlat(t *testing.T) {
	doc := round(0)
	flat := plainRow(3, boat.Port)
	flat.Run = "100"
	_, err := takeoff.Run(ship{lines: &doc, rows: []frame.Row{flat}, patterns: []pattern.Rows{arcOf(3, boat.Port, 1300, 0)}}.basis(t))
	var target *takeoff.TargetError
	if !errors.As(err, &target) || len(target.Faults) != 1 || !strings.HasPrefix(target.Faults[0].Detail, "frame 3 port: it lies flat") {
		t.Errorf("with a pattern: %v", err)
	}
	var missing *takeoff.UnmeasuredError
	var beyond *hull.ReachError
	flat.Run = "20000"
	_, err = takeoff.Run(ship{lines: &doc, rows: []frame.Row{flat}}.basis(t))
	if !errors.As(err, &missing) || !errors.As(missing.Why[missing.Members[0]], &beyond) {
		t.Errorf("beyond the stern: %v", err)
	}
	if _, err = takeoff.Run(ship{rows: []frame.Row{flat}}.basis(t)); !errors.As(err, &missing) || missing.Lines {
		t.Errorf("without lines: %v", err)
	}
	flat.Run = "100"
	var none *takeoff.UnshapedError
	if _, _, err := (ship{lines: &doc, rows: []frame.Row{flat}}.basis(t)).Shaped(boat.Member{Kind: boat.Frame, No: 3, Side: boat.Port}); !errors.As(err, &none) {
		t.Errorf("drawn in one plane: %v", err)
	}
}
