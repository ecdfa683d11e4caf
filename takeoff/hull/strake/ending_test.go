package strake_test

import (
	"errors"
	"math"
	"testing"

	"ribband/takeoff/hull"
	"ribband/takeoff/hull/area"
	"ribband/takeoff/hull/strake"
)

// carried is all strakes of a form out to lines.
func carried(t *testing.T, f form, e *strake.Edges, lines ...area.Ending) []*strake.Shape {
	t.Helper()
	out, err := strake.Lay(f, e, strake.Places(f, 32), lines...)
	if err != nil {
		t.Fatal(err)
	}
	return out
}

// A cylinder cut off by a plane transom, x = a + b z, beyond her last station or within it: rolled out, an edge at the
// share u of the quarter ring ends at a - b r cos(u pi/2), and the strake's area is the girth times the mean of that, by
// integral in closed form.
func TestCylinderCutOff(t *testing.T) {
	const r, length, n = 700., 6000., 8
	f := cone(r, r, length)
	for _, c := range []struct{ a, b float64 }{{6700, .5}, {6300, -.3}, {6100, .5}, {5500, -.4}} {
		line := area.Ending{Aft: true, Transom: true, Line: []area.Profile{{Z: -r, X: c.a - c.b*r}, {Z: 0, X: c.a}}}
		for k, s := range carried(t, f, equal(t, n), line) {
			q := math.Pi / 2
			u0, u1 := float64(k)/n, float64(k+1)/n
			end := func(u float64) float64 { return c.a - c.b*r*math.Cos(u*q) }
			near(t, "lower edge", s.LengthLower.MM, end(u0), 0.01)
			near(t, "upper edge", s.LengthUpper.MM, end(u1), 0.01)
			want := r*q*(u1-u0)*c.a - c.b*r*r*(math.Sin(u1*q)-math.Sin(u0*q))
			near(t, "area", s.Area.MM, want, 2e-4*want) // the hood end is laid straight from edge to edge: r² turn³/12 of it is cut off
			if len(s.Hoods) != 1 || math.Abs(s.Hoods[0].UpperX-end(u1)) > 1e-3 || s.Hoods[0].LowerZ != -r*math.Cos(u0*q) && math.Abs(s.Hoods[0].LowerZ+r*math.Cos(u0*q)) > 1e-6 {
				t.Errorf("%v, strake %d: %+v, want the end at %v", c, k+1, s.Hoods, end(u1))
			}
			// Laid flat, the hood end is as long as the edges stand apart askew.
			near(t, "hood end", s.Hoods[0].Width.MM, math.Hypot(end(u1)-end(u0), r*q*(u1-u0)), 0.5)
		}
	}
}

// A straight-sided bow: y = slope (x - stem(z)) with a straight stem and a level keel, a plane that closes on
// the middle line. Its planes can be laid flat, and its area is known.
func TestPlaneBowWithARakedStem(t *testing.T) {
	const slope, rake, length, depth, n = .25, .6, 4000., 1000., 6
	f := form{length: length, jet: func(u, x float64) hull.Jet {
		z := depth * u
		return hull.Jet{Y: slope * (x + rake*z), Z: z, Yu: slope * rake * depth, Zu: depth, Yx: slope}
	}}
	line := area.Ending{Line: []area.Profile{{Z: 0, X: 0}, {Z: depth, X: -rake * depth}}}
	sec := math.Sqrt(1 + slope*slope*(1+rake*rake))
	sum, end := 0.0, 0.0
	for k, s := range carried(t, f, equal(t, n), line) {
		h := s.Hoods[0]
		// Level edges: both ways of landing are one, and nothing differs from straight planks.
		near(t, "landing", h.UpperZ, depth*float64(k+1)/n, 1e-6)
		near(t, "end of the edge", h.UpperX, -rake*h.UpperZ, 1e-6)
		near(t, "added to the upper edge", h.LengthUpper.MM, rake*h.UpperZ*math.Hypot(1, slope), 1e-3)
		near(t, "added to the lower edge", h.LengthLower.MM, rake*h.LowerZ*math.Hypot(1, slope), 1e-3)
		near(t, "width along the stem", h.Width.MM, depth/n*math.Hypot(1, rake), 1e-3)
		near(t, "open of the length", h.LengthUpper.High-h.LengthUpper.Low, 0, 1e-3)
		near(t, "rounds", s.RoundUpper.MM, 0, 1e-3)
		near(t, "mismatch", s.Mismatch, 0, 1e-3)
		sum, end = sum+s.Area.MM, end+h.Area.MM
	}
	near(t, "area of the end", end, sec*rake*depth*depth/2, 1)
	near(t, "area", sum, sec*(length*depth+rake*depth*depth/2), 1)
}

// Edges that drift along her go on as they ran, ever less so, and never cross.
func TestDriftingEdges(t *testing.T) {
	f := cone(300, 900, 4000)
	at := f.Stations()
	e, err := strake.Given(at, [][]float64{{.02, .04}, {.2, .4}, {.3, .6}, {.3, .6}, {.3, .6}})
	if err != nil {
		t.Fatal(err)
	}
	for _, reach := range []float64{100, 800, 1700} {
		for _, s := range carried(t, f, e, area.Ending{Line: []area.Profile{{Z: -300, X: -reach}, {Z: 50, X: -reach * 1.1}}}) {
			h := s.Hoods[0]
			if !(h.UpperZ > h.LowerZ && h.Width.MM > 0 && s.Area.MM > 0 && h.Area.High < 1e9) {
				t.Errorf("%v: %+v", reach, h)
			}
		}
	}
}

// Lines that strakes cannot be carried on to are told of, and none makes a panic.
func TestLinesThatAreNone(t *testing.T) {
	f := cone(400, 900, 4000)
	var no *strake.HoodError
	nan, inf := math.NaN(), math.Inf(1)
	for _, line := range []area.Ending{
		{}, {Line: []area.Profile{{Z: 0, X: 0}}}, {Line: []area.Profile{{Z: -400, X: 0}, {Z: -400, X: -50}}},
		{Line: []area.Profile{{Z: -400, X: nan}, {Z: 0, X: -50}}}, {Line: []area.Profile{{Z: -400, X: -50}, {Z: inf, X: -50}}},
		{Line: []area.Profile{{Z: -400, X: -50}, {Z: -100, X: 200}, {Z: 0, X: -80}}}, // within the station
		{Line: []area.Profile{{Z: -900, X: -50}, {Z: -500, X: -80}}},                 // all of it under the rabbet
		{Line: []area.Profile{{Z: -400, X: -9000}, {Z: 0, X: -9000}}},                // far off
		{Aft: true, Transom: true, Line: []area.Profile{{Z: -900, X: 9000}, {Z: 0, X: 9000}}},
		{Aft: true, Transom: true, Line: []area.Profile{{Z: -900, X: 100}, {Z: 0, X: 100}}},
		{Aft: true, Transom: true, Line: []area.Profile{{Z: -900, X: nan}, {Z: 0, X: 4100}}},
	} {
		if _, err := strake.Lay(f, equal(t, 5), strake.Places(f, 16), line); !errors.As(err, &no) || no.Fix == "" || no.Error() == "" || no.Aft != line.Aft {
			t.Errorf("%+v: %v", line, err)
		}
	}
	good := area.Ending{Line: []area.Profile{{Z: -400, X: -100}, {Z: 0, X: -200}}}
	if _, err := strake.Lay(f, equal(t, 5), strake.Places(f, 16), good, good); !errors.As(err, &no) {
		t.Error(err)
	}
	wild := f
	wild.jet = func(u, x float64) hull.Jet { return hull.Jet{Y: nan, Z: u} }
	if _, err := strake.Lay(wild, equal(t, 5), strake.Places(f, 16), good); err == nil {
		t.Error("a surface of no numbers is laid out")
	}
	// A stem at the station itself adds nothing, to the last digit.
	at := area.Ending{Line: []area.Profile{{Z: -400, X: 0}, {Z: 0, X: 0}}}
	for k, s := range carried(t, f, equal(t, 5), at) {
		o := carried(t, f, equal(t, 5))[k]
		if len(s.Hoods) != 0 || s.Figures != o.Figures {
			t.Errorf("strake %d: %+v, without the line %+v", k+1, s.Figures, o.Figures)
		}
	}
}
