package strake_test

import (
	"fmt"
	"testing"

	"ribband/takeoff/boat"
	"ribband/takeoff/hull"
	"ribband/takeoff/hull/hulltest"
	"ribband/takeoff/hull/offsets"
	"ribband/takeoff/hull/strake"
	"ribband/takeoff/notation"
)

// sides of a Wigley hull of 13 stations, by a table of offsets, 34 frames and 12 strakes.
func sides(b testing.TB) (out []*hull.Surface, xs []float64) {
	b.Helper()
	const length, breadth, draught = 24 * 304.8, 8 * 304.8, 3 * 304.8
	doc := &offsets.Document{Notation: notation.Millimetres, Grain: "0", Surface: offsets.Inside}
	f := wigley(length, breadth, draught)
	for i := range 13 {
		x := length * float64(i) / 12
		at := func(u float64) (string, string) {
			j := f.jet(u, x)
			return fmt.Sprintf("%.6f", j.Z), fmt.Sprintf("%.6f", j.Y)
		}
		s := offsets.SideOffsets{Side: boat.Both}
		for k := range 13 {
			z, y := at(float64(k) / 12)
			switch k {
			case 0:
				s.Rabbet = &offsets.EndOffsets{Height: z, HalfBreadth: y}
			case 12:
				s.Sheer = &offsets.EndOffsets{Height: z, HalfBreadth: y}
			default:
				s.Waterlines = append(s.Waterlines, offsets.WaterlineOffsets{Height: z, HalfBreadth: y})
			}
		}
		doc.Stations = append(doc.Stations, offsets.StationOffsets{No: i, X: fmt.Sprintf("%.6f", x), Sides: []offsets.SideOffsets{s}})
	}
	h := hulltest.Hull(b, doc)
	for _, side := range boat.Sides {
		s, err := h.Surface(side)
		if err != nil {
			b.Fatal(err)
		}
		out = append(out, s)
	}
	for i := range 34 {
		xs = append(xs, 100+(length-200)*float64(i)/33)
	}
	return out, strake.Places(out[0], 32, xs...)
}

// BenchmarkSurface is the surface alone at all the places that BenchmarkLay asks for: its ratio to that is what laying
// out costs.
func BenchmarkSurface(b *testing.B) {
	of, xs := sides(b)
	us, jets := make([]float64, 25), make([]hull.Jet, 25)
	for k := range us {
		us[k] = float64(k) / 24
	}
	for b.Loop() {
		for _, s := range of {
			for _, x := range xs {
				s.Along(x, us, jets)
			}
		}
	}
}

// BenchmarkLay is twelve strakes on 34 frames, both sides.
func BenchmarkLay(b *testing.B) {
	of, xs := sides(b)
	e := equal(b, 12)
	b.ReportAllocs()
	for b.Loop() {
		for _, s := range of {
			if _, err := strake.Lay(s, e, xs); err != nil {
				b.Fatal(err)
			}
		}
	}
}

// A measured hull's strakes are its side, and its girths' ranges theirs.
func TestHullStrakes(t *testing.T) {
	of, xs := sides(t)
	want := surfaceArea(wigley(24*304.8, 8*304.8, 3*304.8))
	sums := make([]float64, 2)
	for i, s := range of {
		all, err := strake.Lay(s, equal(t, 12), xs)
		if err != nil {
			t.Fatal(err)
		}
		for _, p := range all {
			sums[i] += p.Area.MM
			if !(p.Area.Low < p.Area.MM && p.Area.MM < p.Area.High) {
				t.Errorf("%v", p.Area)
			}
		}
	}
	// 13 stations give the area to a thousandth (computed: 1e-4 of the girth between them).
	near(t, "area", sums[0], want, 1e-3*want)
	near(t, "the other side", sums[1], sums[0], 1e-9*want)
	t.Logf("area %.2g off", sums[0]/want-1)
}

// Laying out allocates for what it gives back, not for every place: eight times the places, each with 12 strakes, cost no
// more than the few growths of the outlines that are put into rectangles.
func TestAllocations(t *testing.T) {
	of, xs := sides(t)
	e, dense := equal(t, 12), strake.Places(of[0], 400, xs...)
	count := func(xs []float64) float64 {
		return testing.AllocsPerRun(2, func() {
			if _, err := strake.Lay(of[0], e, xs); err != nil {
				t.Fatal(err)
			}
		})
	}
	if few, more := count(xs), count(dense); more > few+12*5 {
		t.Errorf("%v allocations at %d places, %v at %d", few, len(xs), more, len(dense))
	}
}
