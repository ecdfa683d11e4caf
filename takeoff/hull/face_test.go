package hull_test

import (
	"encoding/csv"
	"math"
	"os"
	"strconv"
	"strings"
	"testing"

	"ribband/takeoff/boat"
	"ribband/takeoff/hull"
	"ribband/takeoff/hull/hulltest"
	"ribband/takeoff/hull/offsets"
)

// laid reads a document and lays its marks to a face.
func laid(t *testing.T, doc *offsets.Document, face string) (from, to *offsets.Table) {
	t.Helper()
	from = hulltest.Read(t, doc)
	to, err := hull.ToFace(from, face)
	if err != nil {
		t.Fatal(err)
	}
	return from, to
}

// Planks on a cone: both their faces are cones of one axis and one angle, so the inside lies the thickness times the
// secant of the half-angle nearer the axis, at the end stations too.
func TestPlankOnACone(t *testing.T) {
	// What 15 points written to a millionth of a millimetre leave of the fit, mm.
	const within = 2e-3
	const thickness = 25.0
	tb := exactTable()
	tb.doc.Surface, tb.doc.PlankThickness = offsets.Outside, mm(thickness)
	for _, x := range []float64{1000, 1500, 2700, 3300, 4000} {
		tb.station(x, arc(boat.Both, 0, 2000, x/4, 0.1, 1.5, 15))
	}
	from, to := laid(t, &tb.doc, offsets.Inside)
	for i := range to.Stations {
		s := &to.Stations[i]
		want := s.X.MM()/4 - thickness*math.Hypot(1, 0.25)
		for k, m := range s.Port {
			if r := math.Hypot(m.Y.MM(), m.Z.MM()-2000); math.Abs(r-want) > within {
				t.Errorf("station %d %s: %.6f mm from the axis, want %.6f", s.No, m.Cell, r, want)
			}
			a, was := math.Atan2(m.Y.MM(), 2000-m.Z.MM()), from.Stations[i].Port[k]
			if b := math.Atan2(was.Y.MM(), 2000-was.Z.MM()); math.Abs(a-b) > 1e-5 {
				t.Errorf("station %d %s: moved round the section by %g rad", s.No, m.Cell, a-b)
			}
		}
	}
	h := hulltest.Fit(t, from)
	near(t, "girth of the inside", section(t, h, 2000, boat.Port).Girth.MM, 1.4*(500-thickness*math.Hypot(1, 0.25)), 1e-5)
	outer, err := hull.FitFace(from, offsets.Outside)
	if err != nil {
		t.Fatal(err)
	}
	near(t, "girth of the outside", section(t, outer, 2000, boat.Port).Girth.MM, 1.4*500, 1e-5)
}

// planked is a Wigley hull with her outside written at as many stations and thirteen heights.
func planked(w wigley, face string, thickness float64, stations int) *offsets.Document {
	tb := exactTable()
	tb.doc.Surface, tb.doc.PlankThickness = face, mm(thickness)
	for i := range stations {
		x := w.length * float64(i) / float64(stations-1)
		tb.station(x, byHeight(boat.Both, func(z float64) float64 { return w.half(x, z) }, 0, w.draught, 11))
	}
	return &tb.doc
}

// The thickness in the body plan against computed figures, which are right to the first order of the thickness; and the
// distance to the surface itself, which is the thickness. Source: testdata/published/wigley-form-computed/SOURCE.md.
func TestPlankInTheBodyPlan(t *testing.T) {
	const (
		firstOrder = 0.004 // of the deduction: an inch of plank on a hull that turns in some feet
		within     = 0.05  // mm, all of it at the station beside the bow, where the section springs from nothing
		foot       = 304.8
	)
	f, err := os.Open("../../testdata/published/wigley-form-computed/bevels.csv")
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	rows, err := csv.NewReader(f).ReadAll()
	if err != nil {
		t.Fatal(err)
	}
	w := wigley{24 * foot, 8 * foot, 3 * foot}
	from, to := laid(t, planked(w, offsets.Outside, foot/12, 13), offsets.Inside)
	checked := 0
	for _, row := range rows[1:] {
		no, _ := strconv.Atoi(row[1])
		depth, _ := strconv.ParseFloat(row[3], 64)
		want, _ := strconv.ParseFloat(row[8], 64)
		for k, was := range from.Stations[no].Port {
			if math.Abs(w.draught-was.Z.MM()-depth*foot) > 0.01 {
				continue
			}
			is := to.Stations[no].Port[k]
			got := math.Hypot(is.Y.MM()-was.Y.MM(), is.Z.MM()-was.Z.MM())
			near(t, "station "+row[1]+" "+was.Cell+" deduction", got, want*foot, firstOrder)
			if d := w.distance(from.Stations[no].X.MM(), is.Y.MM(), is.Z.MM()); math.Abs(d-foot/12) > within {
				t.Errorf("station %s %s: %.5f mm from the outside, want %.5f", row[1], was.Cell, d, foot/12)
			}
			checked++
		}
	}
	if checked != 16 {
		t.Errorf("%d places checked", checked)
	}
}

// distance from a place to the surface, by steps that shrink round the nearest place found.
func (w wigley) distance(x, y, z float64) float64 {
	far := func(a, b float64) float64 {
		return math.Sqrt((a-x)*(a-x) + (b-z)*(b-z) + (w.half(a, b)-y)*(w.half(a, b)-y))
	}
	a, b, least := x, z, far(x, z)
	for step := 16.0; step > 1e-6; {
		moved := false
		for _, d := range [][2]float64{{step, 0}, {-step, 0}, {0, step}, {0, -step}, {step, step}, {-step, -step}, {step, -step}, {-step, step}} {
			if v := far(a+d[0], b+d[1]); v < least {
				a, b, least, moved = a+d[0], b+d[1], v, true
			}
		}
		if !moved {
			step /= 2
		}
	}
	return least
}

// From the inside to the outside and in again every mark comes back to where it was, but at the end stations, where the
// bevel is that of another face, and beside the centreline, which no mark passes.
func TestThereAndBack(t *testing.T) {
	const within = 0.05 // mm on a boat of 7 m in inch plank: splines run through stations laid off a little unlike
	w := wigley{7300, 2400, 900}
	in := planked(w, offsets.Inside, 25, 13)
	from, out := laid(t, in, offsets.Outside)
	back, err := hull.ToFace(out, offsets.Inside)
	if err != nil {
		t.Fatal(err)
	}
	moved := 0.0
	for i := 2; i < 11; i++ {
		for k, m := range back.Stations[i].Starboard {
			was := from.Stations[i].Starboard[k]
			if d := math.Hypot(m.Y.MM()-was.Y.MM(), m.Z.MM()-was.Z.MM()); d > within {
				t.Errorf("station %d %s: %.4f mm from where it was", i, m.Cell, d)
			}
			o := out.Stations[i].Starboard[k]
			moved = max(moved, math.Hypot(m.Y.MM()-o.Y.MM(), m.Z.MM()-o.Z.MM()))
		}
	}
	if moved < 25 {
		t.Errorf("nothing moved by the plank: %v mm at most", moved)
	}
}

// A plank that the bend has no room for is told of with its station, side and cell.
func TestPlankTooThick(t *testing.T) {
	tb := exactTable()
	tb.doc.Surface, tb.doc.PlankThickness = offsets.Outside, "60"
	for _, x := range []float64{0, 1000, 2000} {
		tb.station(x, arc(boat.Both, 300, 1000, 50, 0.1, 1.5, 9))
	}
	o := hulltest.Read(t, &tb.doc)
	_, err := hull.Fit(o)
	if err == nil || !strings.Contains(err.Error(), "3 faults") || !strings.Contains(err.Error(), "Station 0 both sides rabbet: a plank 60 mm thick is thicker than the bend here leaves room for") {
		t.Errorf("%v", err)
	}
	tb.doc.PlankThickness, tb.doc.Surface = "", offsets.Inside
	o = hulltest.Read(t, &tb.doc)
	if _, err := hull.FitFace(o, offsets.Outside); err == nil || !strings.Contains(err.Error(), "Station 0 plank_thickness: it is missing") {
		t.Errorf("%v", err)
	}
}
