package hull_test

import (
	"encoding/csv"
	"math"
	"os"
	"strconv"
	"testing"

	"ribband/takeoff/boat"
	"ribband/takeoff/hull"
	"ribband/takeoff/hull/hulltest"
)

// wigley is a hull of the parabolic form: half-breadth (B/2)(1 - X^2)(1 - ((T - z)/T)^2), X from -1 to 1 along the
// boat, z up from the keel. Its sections are parabolas of closed girth and radius.
type wigley struct{ length, breadth, draught float64 } // mm

func (w wigley) k(x float64) float64 {
	xx := 2*x/w.length - 1
	return w.breadth * (1 - xx*xx) / (w.draught * w.draught)
}

func (w wigley) half(x, z float64) float64 {
	d := w.draught - z
	return w.k(x) / 2 * (w.draught*w.draught - d*d)
}

func (w wigley) girth(x float64) float64 {
	k, t := w.k(x), w.draught
	if k == 0 {
		return t
	}
	return (t*math.Sqrt(1+k*k*t*t) + math.Asinh(k*t)/k) / 2
}

// radius is the least, at the waterline.
func (w wigley) radius(x float64) float64 { return 1 / w.k(x) }

func (w wigley) hull(t *testing.T, stations, waterlines int) *hull.Hull {
	tb := exactTable()
	for i := range stations {
		x := w.length * float64(i) / float64(stations-1)
		tb.station(x, byHeight(boat.Both, func(z float64) float64 { return w.half(x, z) }, 0, w.draught, waterlines))
	}
	return hulltest.Hull(t, &tb.doc)
}

// Computed figures of two hulls of the form, see testdata/published/wigley-form-computed/SOURCE.md.
func TestWigleyStations(t *testing.T) {
	const (
		girthTolerance = 1e-6 // for 20 waterlines
		endRadius      = 0.05 // the least radius lies at the end of the section, which a batten reads high
	)
	f, err := os.Open("../../testdata/published/wigley-form-computed/sections.csv")
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	rows, err := csv.NewReader(f).ReadAll()
	if err != nil {
		t.Fatal(err)
	}
	num := func(s string) float64 {
		v, err := strconv.ParseFloat(s, 64)
		if err != nil {
			t.Fatal(err)
		}
		return v
	}
	hulls := map[string]*hull.Hull{}
	checked := 0
	for _, r := range rows[1:] {
		unit := map[string]float64{"m": 1000, "ft": 304.8}[r[1]]
		w := wigley{num(r[2]) * unit, num(r[3]) * unit, num(r[4]) * unit}
		if hulls[r[0]] == nil {
			// Only the fore half of the second hull is tabulated; it is symmetrical.
			hulls[r[0]] = w.hull(t, 13, 20)
		}
		s := section(t, hulls[r[0]], num(r[6])*unit, boat.Port)
		if len(s.Near) != 1 {
			continue // a station of the table that is none of this hull's: TestWigleyBetween
		}
		checked++
		near(t, r[0]+" girth at "+r[6], s.Girth.MM, num(r[7])*unit, girthTolerance)
		if r[8] == "" {
			if !s.Straight {
				t.Errorf("%s at %s: the end is not straight", r[0], r[6])
			}
			continue
		}
		near(t, r[0]+" least radius at "+r[6], s.Least().Radius().MM, num(r[8])*unit, endRadius)
		if s.Least().U != 1 {
			t.Errorf("%s at %s: the least radius lies at %v of the girth, not at the waterline", r[0], r[6], s.Least().U)
		}
	}
	if checked < 7 {
		t.Errorf("only %d stations checked", checked)
	}
}

// Between stations girth and radius come from the neighbours' curves by the spline in x. The form is not a cubic in
// x at equal girth fraction, so this is a true test; the error falls at order 3 or better as stations double.
func TestWigleyBetween(t *testing.T) {
	w := wigley{24 * 304.8, 8 * 304.8, 3 * 304.8}
	worst := func(stations int, from, to float64) (girth, radius float64) {
		h := w.hull(t, stations, 20)
		for i := range 101 {
			x := w.length * (from + (to-from)*float64(i)/100)
			s := section(t, h, x, boat.Starboard)
			girth = max(girth, math.Abs(s.Girth.MM/w.girth(x)-1))
			if k := w.k(x); k > 0 && !s.Straight {
				radius = max(radius, math.Abs(s.Least().Radius().MM/w.radius(x)-1))
			}
		}
		return girth, radius
	}
	for _, c := range []struct {
		stations      int
		from, to      float64
		girth, radius float64 // seen: 4.3e-4 and 17 %, 1.0e-4 and 3.9 %, 7.5e-7 and 3.9 %
	}{
		{13, 0, 1, 6e-4, 0.2}, // towards the ends the section goes straight and its radius without bound
		{13, .2, .8, 1.5e-4, 0.05},
		{25, .2, .8, 2e-6, 0.05},
	} {
		g, r := worst(c.stations, c.from, c.to)
		if g > c.girth || r > c.radius {
			t.Errorf("%d stations, %v to %v: girth out by %.2g, radius by %.2g", c.stations, c.from, c.to, g, r)
		}
	}
	g13, _ := worst(13, 0, 1)
	g49, _ := worst(49, 0, 1)
	if order := math.Log2(g13/g49) / 2; order < 3 {
		t.Errorf("the girth's error falls only at order %.2f as stations double", order)
	}
}
