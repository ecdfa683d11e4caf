package planking_test

import (
	"fmt"
	"math"
	"strings"
	"testing"

	"ribband/takeoff/boat"
	"ribband/takeoff/hull"
	"ribband/takeoff/hull/hulltest"
	"ribband/takeoff/hull/offsets"
	"ribband/takeoff/hull/planking"
	"ribband/takeoff/notation"
)

// corner is a V bottom with a chine and a knuckle above it, at station 0.
var corner = []hull.Point{{Y: 40, Z: 40}, {Y: 800, Z: 240}, {Y: 960, Z: 720}, {Y: 1000, Z: 1000}}

const chinedLength = 4000

// chined is a boat of those straight panels, 4 m long, which at its after end are grow times as large: a prism with 1, a
// piece of a cone of flat panels otherwise.
func chined(t *testing.T, grow float64) *hull.Hull {
	t.Helper()
	d := &offsets.Document{Notation: notation.Millimetres, Grain: "0", Surface: offsets.Inside}
	text := func(v float64) string { return fmt.Sprintf("%.6f", v) }
	for no, x := range []float64{0, 1000, 2000, 4000} {
		k := 1 + (grow-1)*x/chinedLength
		at := func(p hull.Point) *offsets.EndOffsets {
			return &offsets.EndOffsets{Height: text(p.Z * k), HalfBreadth: text(p.Y * k)}
		}
		s := offsets.SideOffsets{Side: boat.Both, Rabbet: at(corner[0]), Sheer: at(corner[3])}
		for i, name := range []string{"chine", "upper"} {
			s.Knuckles = append(s.Knuckles, offsets.KnuckleOffsets{Name: name, Height: at(corner[i+1]).Height, HalfBreadth: at(corner[i+1]).HalfBreadth})
		}
		for i := range corner[1:] {
			p := at(between(corner[i], corner[i+1], .5))
			s.Waterlines = append(s.Waterlines, offsets.WaterlineOffsets{Height: p.Height, HalfBreadth: p.HalfBreadth})
		}
		d.Stations = append(d.Stations, offsets.StationOffsets{No: no, X: text(x), Sides: []offsets.SideOffsets{s}})
	}
	return hulltest.Hull(t, d)
}

func between(a, b hull.Point, t float64) hull.Point {
	return hull.Point{Y: a.Y + t*(b.Y-a.Y), Z: a.Z + t*(b.Z-a.Z)}
}

// Every strake of a panel is a flat trapezium whose corners are known; six strakes stand three on the bottom, two and
// one, no strake wider than it need be.
func TestStrakesOfPanels(t *testing.T) {
	const near = 1e-5 // of a length; the knuckled sections' own fit is good to a few parts in a million
	for _, grow := range []float64{1, 2} {
		p := lay(t, chined(t, grow), nil, planking.Document{Side: boat.Port, Strakes: planking.Division{Count: 6}})
		k := 0
		for i, n := range []int{3, 2, 1} {
			for j := range n {
				a, b := between(corner[i], corner[i+1], float64(j)/float64(n)), between(corner[i], corner[i+1], float64(j+1)/float64(n))
				run := func(q hull.Point) float64 { return math.Hypot(chinedLength, math.Hypot(q.Y, q.Z)*(grow-1)) }
				wide := math.Hypot(b.Y-a.Y, b.Z-a.Z)
				s := p.Strakes[k]
				// The way from one edge to the other along the panel's plane, square to the sections' lines.
				lean := (a.Y*(b.Y-a.Y) + a.Z*(b.Z-a.Z)) / wide * (grow - 1)
				high := math.Sqrt(run(a)*run(a) - lean*lean)
				for _, c := range []struct {
					what      string
					got, want float64
				}{
					{"lower edge", s.LengthLower.MM, run(a)}, {"upper edge", s.LengthUpper.MM, run(b)},
					{"least width", s.WidthLeast.MM, wide}, {"greatest width", s.WidthMost.MM, wide * grow},
					{"area", s.Area.MM / high, wide * (1 + grow) / 2},
				} {
					if math.Abs(c.got-c.want) > near*math.Max(c.want, 1000) {
						t.Errorf("grown %v, strake %d: %s %v, want %v", grow, k+1, c.what, c.got, c.want)
					}
				}
				if s.Mismatch > 0.01 || s.RoundUpper.MM > 0.01 || s.Backing > 0.01 {
					t.Errorf("grown %v, strake %d: mismatch %v, round %v, backing out %v", grow, k+1, s.Mismatch, s.RoundUpper.MM, s.Backing)
				}
				k++
			}
		}
	}
}

// Edges by girth lie on the knuckles, or near enough to be meant for them, at all stations; otherwise it is told where
// the strake lies across.
func TestEdgesOnKnuckles(t *testing.T) {
	h := chined(t, 2)
	doc := func(move map[int]float64) planking.Document {
		d := planking.Document{Side: boat.Port}
		for _, m := range h.Measures() {
			if m.Section.Side == boat.Port {
				ks := m.Section.Knuckles()
				off := move[m.Station]
				d.Strakes.Edges = append(d.Strakes.Edges, planking.EdgeRow{StationNo: m.Station, Girths: []string{
					fmt.Sprintf("%.3f", ks[0].S/2), fmt.Sprintf("%.3f", ks[0].S+off), fmt.Sprintf("%.3f", ks[1].S)}})
			}
		}
		return d
	}
	exact, moved := lay(t, h, nil, doc(nil)), lay(t, h, nil, doc(map[int]float64{1: 3, 2: -3}))
	for k, s := range exact.Strakes {
		if a, b := s.Area.MM, moved.Strakes[k].Area.MM; math.Abs(a/b-1) > 1e-9 {
			t.Errorf("strake %d: %v and, 3 mm off the knuckle, %v", k+1, a, b)
		}
	}
	_, faults := planking.Read(doc(map[int]float64{2: 4}), h, notation.Millimetres)
	if len(faults) != 1 || faults[0].Pointer != "/strakes/edges" || !strings.Contains(faults[0].Detail, "station 2 strake 2 lies across the knuckle") ||
		!strings.Contains(faults[0].Detail, "chine") || !strings.Contains(faults[0].Fix, fmt.Sprintf("%.0f", h.Measures()[4].Section.Knuckles()[0].S)[:3]) {
		t.Errorf("%+v", faults)
	}
	_, faults = planking.Read(planking.Document{Side: boat.Port, Strakes: planking.Division{Count: 2}}, h, notation.Millimetres)
	if len(faults) != 1 || faults[0].Pointer != "/strakes/count" || !strings.Contains(faults[0].Fix, "3 at least") {
		t.Errorf("%+v", faults)
	}
}
