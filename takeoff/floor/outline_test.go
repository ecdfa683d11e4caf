package floor_test

import (
	"errors"
	"fmt"
	"math"
	"testing"

	"ribband/takeoff/boat"
	"ribband/takeoff/floor"
	"ribband/takeoff/hull"
	"ribband/takeoff/hull/hulltest"
	"ribband/takeoff/hull/offsets"
	"ribband/takeoff/notation"

	"github.com/shopspring/decimal"
)

func dec(s string) decimal.Decimal { return decimal.RequireFromString(s) }

func fromFloat(x float64) decimal.Decimal { return decimal.NewFromFloat(x) }

// hullOf has four stations a metre apart, each side through these points of it, from the rabbet to the sheer.
func hullOf(t *testing.T, points func(x float64) []hull.Point) *hull.Hull {
	t.Helper()
	text := func(v float64) string { return fmt.Sprintf("%.4f", v) }
	doc := &offsets.Document{Notation: notation.Millimetres, Grain: "0.01", Surface: offsets.Inside}
	for no := range 4 {
		x := float64(no) * 1000
		pts := points(x)
		side := offsets.SideOffsets{Side: boat.Both,
			Rabbet: &offsets.EndOffsets{Height: text(pts[0].Z), HalfBreadth: text(pts[0].Y)},
			Sheer:  &offsets.EndOffsets{Height: text(pts[len(pts)-1].Z), HalfBreadth: text(pts[len(pts)-1].Y)}}
		for _, p := range pts[1 : len(pts)-1] {
			side.Waterlines = append(side.Waterlines, offsets.WaterlineOffsets{Height: text(p.Z), HalfBreadth: text(p.Y)})
		}
		doc.Stations = append(doc.Stations, offsets.StationOffsets{No: no, X: text(x), Sides: []offsets.SideOffsets{side}})
	}
	return hulltest.Hull(t, doc)
}

func lies(t *testing.T, h *hull.Hull, x, depth float64) (port, starboard floor.Lie) {
	t.Helper()
	var out [2]floor.Lie
	for i, side := range boat.Sides {
		s, err := h.Section(x, side)
		if err != nil {
			t.Fatal(err)
		}
		out[i] = floor.Lie{Section: s, Depth: depth}
	}
	return out[0], out[1]
}

// near, mm: what a fair curve through points good to a hundredth of a millimetre, and 800 looks along an arm, leave.
const near = 0.1

func holds(t *testing.T, what string, got, want, within float64) {
	t.Helper()
	if !(math.Abs(got-want) <= within) {
		t.Errorf("%s is %v, %v wanted", what, got, want)
	}
}

// vee rises 30 degrees from a rabbet 60 mm out and 400 up; it widens by wider mm to a metre of length.
func vee(wider float64) func(x float64) []hull.Point {
	return func(x float64) []hull.Point {
		var out []hull.Point
		for i := range 9 {
			s := 150 * float64(i)
			out = append(out, hull.Point{Y: 60 + x/1000*wider + s*math.Cos(math.Pi/6), Z: 400 + s*math.Sin(math.Pi/6)})
		}
		return out
	}
}

// Of a V with straight sides every measure is a closed form.
func TestAVee(t *testing.T) {
	h := hullOf(t, vee(0))
	cos, sin := math.Cos(math.Pi/6), math.Sin(math.Pi/6)
	f := floor.Floor{No: 1, Siding: dec("70"), Depth: dec("150"), ArmEnd: dec("50"), Port: floor.Reach{Girth: dec("500")}, Starboard: floor.Reach{Girth: dec("500")}}
	port, starboard := lies(t, h, 1500, 0)
	o, err := floor.Draw(f, port, starboard, math.NaN())
	if err != nil {
		t.Fatal(err)
	}
	holds(t, "across", o.Across(), 2*(60+500*cos), near)
	holds(t, "height", o.Height(), 500*sin+50*cos, near)
	holds(t, "along", o.Along, 2*500+120, near)
	holds(t, "turn, degrees,", o.Turn*180/math.Pi, 60, 0.01)
	holds(t, "the port arm ends out", o.Port.HalfBreadth, 60+500*cos, near)
	// half of it: under the keel's half-breadth, then between the line to the corner of the arm and the planking
	corner := hull.Point{Y: 60 + 500*cos - 50*sin, Z: 500*sin + 50*cos}
	area := polygon([]hull.Point{{Y: 0, Z: 0}, {Y: 60, Z: 0}, {Y: 60 + 500*cos, Z: 500 * sin}, corner, {Y: 0, Z: 150}})
	holds(t, "area, mm2,", o.Area, 2*area, 100)

	// An arm by height is the same as by girth; arms that differ are each of their own side.
	f.Port, f.Starboard = floor.Reach{Height: dec("250")}, floor.Reach{Height: dec("100")}
	if o, err = floor.Draw(f, port, starboard, math.NaN()); err != nil {
		t.Fatal(err)
	}
	holds(t, "the port arm's girth", o.Port.Girth, 500, near)
	holds(t, "to port", -o.Left, 60+500*cos, near)
	holds(t, "to starboard", o.Right, 60+200*cos, near)

	// Over frames of 60 mm the lower face lies that far inboard.
	f.Port, f.Starboard = floor.Reach{Girth: dec("500")}, floor.Reach{Girth: dec("500")}
	port.Depth, starboard.Depth = 60, 60
	if o, err = floor.Draw(f, port, starboard, math.NaN()); err != nil {
		t.Fatal(err)
	}
	holds(t, "across over frames", o.Across(), 2*(60+500*cos-60*sin), near)
	holds(t, "along over frames", o.Along, 2*500+2*(60-60*sin), near)
	// A keel below the rabbet lets it down, one above does not lift its arms.
	port.Depth, starboard.Depth = 0, 0
	f.Seat = dec("-40")
	if o, err = floor.Draw(f, port, starboard, math.NaN()); err != nil {
		t.Fatal(err)
	}
	holds(t, "height with the keel below", o.Height(), 500*sin+50*cos+40, near)
	f.Seat, f.Depth = dec("30"), dec("400")
	if o, err = floor.Draw(f, port, starboard, math.NaN()); err != nil {
		t.Fatal(err)
	}
	holds(t, "height of a deep one", o.Height(), 430, near)

	f.Starboard = floor.Reach{Height: dec("601")}
	var past *floor.ReachError
	if _, err = floor.Draw(f, port, starboard, math.NaN()); !errors.As(err, &past) || past.Side != boat.Starboard || math.Abs(past.Girth-1200) > 1 || math.Abs(past.Height-600) > 1 {
		t.Errorf("%+v, %v", past, err)
	}
	f.Starboard = floor.Reach{Girth: dec("1202")}
	if _, err = floor.Draw(f, port, starboard, math.NaN()); !errors.As(err, &past) {
		t.Error(err)
	}
}

func polygon(pts []hull.Point) float64 {
	a := 0.0
	for i, p := range pts {
		q := pts[(i+1)%len(pts)]
		a += (p.Y*q.Z - q.Y*p.Z) / 2
	}
	return math.Abs(a)
}

// A section that is an arc of a metre's radius from a level floor.
func TestAnArc(t *testing.T) {
	const r = 1000.0
	h := hullOf(t, func(float64) []hull.Point {
		var out []hull.Point
		for i := range 17 {
			s, c := math.Sincos(float64(i) / 16 * 80 * math.Pi / 180)
			out = append(out, hull.Point{Y: 50 + r*s, Z: 300 + r*(1-c)})
		}
		return out
	})
	f := floor.Floor{No: 1, Siding: dec("70"), Depth: dec("180"), ArmEnd: dec("60"), Port: floor.Reach{Girth: dec("700")}, Starboard: floor.Reach{Girth: dec("700")}}
	port, starboard := lies(t, h, 1200, 0)
	o, err := floor.Draw(f, port, starboard, math.NaN())
	if err != nil {
		t.Fatal(err)
	}
	s, c := math.Sincos(0.7)
	holds(t, "across", o.Across(), 2*(50+r*s), near)
	holds(t, "height", o.Height(), r*(1-c)+60*c, near)
	holds(t, "along", o.Along, 2*700+100, near)
	holds(t, "turn, degrees,", o.Turn*180/math.Pi, 0, 0.2)
	// over frames of 70 mm: concentric
	port.Depth, starboard.Depth = 70, 70
	if o, err = floor.Draw(f, port, starboard, math.NaN()); err != nil {
		t.Fatal(err)
	}
	holds(t, "along over frames", o.Along, 2*0.7*(r-70)+100, near)
	holds(t, "across over frames", o.Across(), 2*(50+(r-70)*s), near)
}
