package hull_test

import (
	"fmt"
	"math"
	"testing"

	"ribband/takeoff/boat"
	"ribband/takeoff/hull"
	"ribband/takeoff/hull/offsets"
	"ribband/takeoff/notation"
)

// mm writes a length so exactly that what is lost (half a millionth of a millimetre) is far below every tolerance.
func mm(v float64) string { return fmt.Sprintf("%.6f", v) }

// table builds documents with exact lengths in millimetres.
type table struct{ doc offsets.Document }

func exactTable() *table {
	return &table{offsets.Document{Notation: notation.Millimetres, Grain: "0", Surface: offsets.Inside}}
}

// station adds a station with the sides given.
func (t *table) station(x float64, sides ...offsets.SideOffsets) {
	t.doc.Stations = append(t.doc.Stations, offsets.StationOffsets{No: len(t.doc.Stations), X: mm(x), Sides: sides})
}

func end(y, z float64) *offsets.EndOffsets {
	return &offsets.EndOffsets{Height: mm(z), HalfBreadth: mm(y)}
}

// byHeight is a side whose half-breadth is a function of the height, written at n waterlines between the ends.
func byHeight(side boat.Side, half func(z float64) float64, low, high float64, n int) offsets.SideOffsets {
	s := offsets.SideOffsets{Side: side, Rabbet: end(half(low), low), Sheer: end(half(high), high)}
	for i := range n {
		z := low + (high-low)*float64(i+1)/float64(n+1)
		s.Waterlines = append(s.Waterlines, offsets.WaterlineOffsets{Height: mm(z), HalfBreadth: mm(half(z))})
	}
	return s
}

// arc is a circular side of radius r about (y0, z0), from angle a to b after straight down: n points, the lower
// half of the turn by buttocks and the upper by waterlines, as a section is measured.
func arc(side boat.Side, y0, z0, r, a, b float64, n int) offsets.SideOffsets {
	at := func(t float64) (y, z float64) { return y0 + r*math.Sin(t), z0 - r*math.Cos(t) }
	y, z := at(a)
	s := offsets.SideOffsets{Side: side, Rabbet: end(y, z)}
	y, z = at(b)
	s.Sheer = end(y, z)
	for i := 1; i+1 < n; i++ {
		t := a + (b-a)*float64(i)/float64(n-1)
		y, z := at(t)
		if t < math.Pi/4 {
			s.Buttocks = append(s.Buttocks, offsets.ButtockOffsets{HalfBreadth: mm(y), Height: mm(z)})
		} else {
			s.Waterlines = append(s.Waterlines, offsets.WaterlineOffsets{Height: mm(z), HalfBreadth: mm(y)})
		}
	}
	return s
}

func section(t testing.TB, h *hull.Hull, x float64, side boat.Side) *hull.Section {
	t.Helper()
	s, err := h.Section(x, side)
	if err != nil {
		t.Fatal(err)
	}
	return s
}

// near checks got against want to a relative tolerance.
func near(t testing.TB, what string, got, want, rel float64) {
	t.Helper()
	if !(math.Abs(got-want) <= rel*math.Abs(want)) {
		t.Errorf("%s is %.9g, want %.9g (out by %.2g of it, %.2g allowed)", what, got, want, got/want-1, rel)
	}
}
