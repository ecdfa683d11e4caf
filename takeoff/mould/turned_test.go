package mould_test

import (
	"math"
	"strings"
	"testing"

	"ribband/takeoff"
	"ribband/takeoff/boat"
	"ribband/takeoff/frame"
	"ribband/takeoff/hull"
	"ribband/takeoff/mould"
	"ribband/takeoff/notation"
)

// turned is a frame of the tests' boat that cants or leans, with its section and its mould.
func turned(t *testing.T, cant, lean string) (takeoff.Basis, frame.Frame, *hull.Section, mould.Mould) {
	t.Helper()
	b := basis(t)
	frames, wrong := frame.Read(frame.Document{Notation: notation.Millimetres, MouldingFace: frame.Forward,
		Frames: []frame.Row{{No: 1, Side: boat.Port, X: "4000", Siding: "45", Moulded: "60", CantDeg: cant, Lean: lean}}})
	if len(wrong) > 0 {
		t.Fatal(wrong)
	}
	b.Frames = frames
	f, s, err := b.Shaped(frames[0].Member())
	if err != nil {
		t.Fatal(err)
	}
	m, err := mould.Of(mould.Given{Frame: f, Section: s, Notation: notation.Millimetres, Slack: 3.175})
	if err != nil {
		t.Fatal(err)
	}
	return b, f, s, m
}

// A frame that cants or leans is laid down in its own plane: its marks are places of the boat, found again from the plane,
// and the mould says how it stands.
func TestAMouldInItsOwnPlane(t *testing.T) {
	const placed = 1e-3 // mm
	for _, c := range []struct {
		name, cant, lean, says string
	}{
		{"cant", "12", "", "cants by 12.0 degrees, running aft"},
		{"its plumb line", "12", "", "The plumb line at 0 stands on the centreline, 4000 aft of station 0"},
		{"line at the heel", "", "300", "meets the centreline at the height of the heel, 4000 aft of station 0. The baseline meets the plane"},
		{"the other way", "-8", "", "cants by 8.0 degrees, running forward"},
		{"lean", "", "300", "its head standing 300 abaft its heel"},
		{"both", "10", "-250", "250 forward of its heel"},
		{"square", "", "", ""},
	} {
		t.Run(c.name, func(t *testing.T) {
			_, f, s, m := turned(t, c.cant, c.lean)
			said := strings.Join(m.Cautions, " ")
			if c.says == "" && (strings.Contains(said, "own plane") || !strings.HasPrefix(m.Uprights[0].Name, "half-breadth")) {
				t.Errorf("of a square frame: %s, %s", said, m.Uprights[0].Name)
			}
			if !strings.Contains(said, c.says) {
				t.Errorf("%q does not say %q", said, c.says)
			}
			if len(m.Levels) < 3 {
				t.Fatalf("%d levels", len(m.Levels))
			}
			p := f.Plane()
			_, _, heel := s.OnBoat(0)
			_, _, head := s.OnBoat(1)
			for _, l := range m.Levels {
				at := -1
				for i, k := range m.Marks {
					if k.Name == l.Name {
						at = i
					}
				}
				if at < 0 {
					t.Fatalf("no mark at %s", l.Name)
				}
				k := m.Marks[at]
				if math.Abs(k.At.Z-l.MM) > placed {
					t.Errorf("%s: the level stands at %v, its mark at %v", l.Name, l.MM, k.At.Z)
				}
				// the height of the boat that the name has, from the place up the plane
				want, err := notation.Millimetres.Parse(strings.TrimPrefix(l.Name, "height "))
				if err != nil {
					t.Fatal(err)
				}
				up := k.At.Z
				if p.Lean != 0 {
					// the plane rises by its lean between heel and head
					up = heel + (k.At.Z-m.Marks[0].At.Z)*(head-heel)/(m.Marks[len(m.Marks)-1].At.Z-m.Marks[0].At.Z)
				}
				if math.Abs(up-want.MM()) > placed {
					t.Errorf("%s lies at a height of %v", l.Name, up)
				}
			}
		})
	}
}

// The mould of a frame that stands otherwise has the frame's true shape: every point of its faying face, carried from the
// mould's plane to the boat by nothing but cant, lean and the heel, lies on the square section of the boat at the place along
// her where it comes to lie. So do baseline and centreline as they are marked.
func TestTrueShapeInItsOwnPlane(t *testing.T) {
	const on = 0.2 // mm: straight pieces of 0.05 off each of two curves, and the steps that the square section is looked at in
	for _, c := range []struct{ cant, lean string }{{"12", ""}, {"-8", ""}, {"", "300"}, {"10", "-250"}} {
		b, f, s, m := turned(t, c.cant, c.lean)
		// Two axes of the plane that every turned frame is laid down by, by vectors: out is level, up is square to it.
		p := f.Plane()
		_, _, low := s.OnBoat(0)
		_, _, head := s.OnBoat(1)
		a, slope := math.Tan(p.Cant), p.Lean/(head-low)
		out := [3]float64{a, 1, 0} // x, y, z
		n := [3]float64{1, -a, -slope}
		up := [3]float64{n[1]*out[2] - n[2]*out[1], n[2]*out[0] - n[0]*out[2], n[0]*out[1] - n[1]*out[0]}
		unit := func(v *[3]float64) {
			l := math.Sqrt(v[0]*v[0] + v[1]*v[1] + v[2]*v[2])
			for i := range v {
				v[i] /= l
			}
		}
		unit(&out)
		unit(&up)
		onBoat := func(y, z float64) (float64, float64, float64) {
			return p.X + y*out[0] + (z-low)*up[0], y*out[1] + (z-low)*up[1], low + y*out[2] + (z-low)*up[2]
		}
		for i := 0; i < len(m.Faying); i += max(1, len(m.Faying)/12) {
			x, y, z := onBoat(m.Faying[i].Y, m.Faying[i].Z)
			square, err := b.Hull.Section(x, boat.Port)
			if err != nil {
				t.Fatal(err)
			}
			least := math.Inf(1)
			for _, q := range square.Line(8001) {
				least = min(least, math.Hypot(q.Y-y, q.Z-z))
			}
			if least > on {
				t.Errorf("cant %s, lean %s: point %d comes to %.1f aft, %.1f out and %.1f up, %.3f mm off the boat", c.cant, c.lean, i, x, y, z, least)
			}
		}
		if _, _, z := onBoat(0, m.Base.MM); math.Abs(z) > 1e-6 {
			t.Errorf("cant %s, lean %s: the baseline is marked at a height of %v", c.cant, c.lean, z)
		}
		if _, y, _ := onBoat(0, head); c.cant == "" != (math.Abs(y) < 1e-9) && c.lean != "" {
			t.Errorf("cant %s, lean %s: the line at 0 lies %v off the centreline up there", c.cant, c.lean, y)
		}
	}
}
