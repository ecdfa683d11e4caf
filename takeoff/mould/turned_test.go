package mould_test

import (
	"math"
	"strings"
	"testing"

	"ribband/takeoff/boat"
	"ribband/takeoff/frame"
	"ribband/takeoff/mould"
	"ribband/takeoff/notation"
)

// A frame that cants or leans is laid down in its own plane: its marks are places of the boat, found again from the plane,
// and the mould says how it stands.
func TestAMouldInItsOwnPlane(t *testing.T) {
	const placed = 1e-3 // mm
	for _, c := range []struct {
		name, cant, lean, says string
	}{
		{"cant", "12", "", "cants by 12.0 degrees, running aft"},
		{"the other way", "-8", "", "cants by 8.0 degrees, running forward"},
		{"lean", "", "300", "its head standing 300 abaft its heel"},
		{"both", "10", "-250", "250 forward of its heel"},
		{"square", "", "", ""},
	} {
		t.Run(c.name, func(t *testing.T) {
			b := basis(t)
			frames, wrong := frame.Read(frame.Document{Notation: notation.Millimetres, MouldingFace: frame.Forward,
				Frames: []frame.Row{{No: 1, Side: boat.Port, X: "4000", Siding: "45", Moulded: "60", CantDeg: c.cant, Lean: c.lean}}})
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
