package fastening_test

import (
	"errors"
	"slices"
	"testing"

	"ribband/takeoff/document"
	"ribband/takeoff/fastening"
	"ribband/takeoff/notation"
)

// Four silicon-bronze rods of 3/4 in by 24 in: pi/4 x 19.05^2 x 609.6 mm3 at 8530 kg/m3 is 1.482 kg each (computed). Inches and
// millimetres weigh the same.
func TestRodsOfAQuestion(t *testing.T) {
	inch, err := fastening.RodDocument{Notation: notation.Inches, Metal: fastening.SiliconBronze, Rods: []fastening.RodRow{{4, "3/4", "24"}, {1, "1", "12"}}}.Weigh()
	if err != nil {
		t.Fatal(err)
	}
	same(t, "each", inch.Rods[0].EachKg, "1.482")
	same(t, "four", inch.Rods[0].Kg, "5.928")
	mm, err := fastening.RodDocument{Notation: notation.Millimetres, Metal: fastening.SiliconBronze, Rods: []fastening.RodRow{{4, "19.05", "609.6"}, {1, "25,4", "304.8"}}}.Weigh()
	if err != nil || !mm.Kg.Equal(inch.Kg) || !mm.Lb.Equal(inch.Lb) || mm.Source == "" {
		t.Errorf("%+v and %+v, %v", inch, mm, err)
	}
}

func TestFaultsOfRods(t *testing.T) {
	for _, c := range []struct {
		doc fastening.RodDocument
		at  []string
	}{
		{fastening.RodDocument{Notation: "cubits", Metal: "tin"}, []string{"/metal", "/notation", "/rods"}},
		{fastening.RodDocument{Notation: notation.Inches, Metal: fastening.Copper, Rods: []fastening.RodRow{{0, "0", "long"}, {1, "9", "24"}}}, []string{"/rods/0/count", "/rods/0/diameter", "/rods/0/length", "/rods/1/diameter"}},
	} {
		_, err := c.doc.Weigh()
		var f document.Faults
		if !errors.As(err, &f) {
			t.Fatal(err)
		}
		var at []string
		for _, x := range f {
			if at = append(at, x.Pointer); x.Fix == "" {
				t.Errorf("%+v", x)
			}
		}
		if !slices.Equal(at, c.at) {
			t.Errorf("faults at %v, want %v", at, c.at)
		}
	}
}

// Whatever is written: a weight, or faults with what would do.
func FuzzRods(f *testing.F) {
	f.Add(1, "3/4", "24", int64(4))
	f.Add(2, "NaN", "1e9", int64(-1))
	f.Fuzz(func(t *testing.T, n int, diameter, length string, count int64) {
		a, err := fastening.RodDocument{Notation: notation.Notations[(n%4+4)%4], Metal: fastening.Monel, Rods: []fastening.RodRow{{count, diameter, length}}}.Weigh()
		var faults document.Faults
		if errors.As(err, &faults) {
			for _, x := range faults {
				if x.Fix == "" || x.Pointer == "" {
					t.Fatalf("%+v", x)
				}
			}
			return
		}
		if err != nil || a.Kg.IsNegative() {
			t.Fatalf("%+v %v", a, err)
		}
	})
}
