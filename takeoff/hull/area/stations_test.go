package area_test

import (
	"fmt"
	"math"
	"testing"

	"ribband/takeoff/boat"
	"ribband/takeoff/hull"
	"ribband/takeoff/hull/area"
)

// R1 at its stations: girths, sections and slanted girths; and how long its sheer runs in space.
func TestStationsOfR1(t *testing.T) {
	const (
		girth   = 2e-6
		section = 4e-6
		// A slope along the boat is known less well than what it is the slope of, and least at the ends.
		slanted, end = 1e-3, 6e-3 // 5.2e-4 seen beside the end
		line         = 5e-6       // that of slopes: 1.7e-6 seen
	)
	f := r1()
	s := surface(t, fitted(t, f.document(table{even(f, 13), 21, false})))
	d := area.New(s, 0)
	for i := range 13 {
		x := f.length * float64(i) / 12
		got, err := d.Strip(x, area.Everything())
		if err != nil {
			t.Fatal(err)
		}
		at := fmt.Sprintf("station %d x=%#.8g", i, x/foot)
		if i == 0 {
			at = "station 0 x=0.0"
		}
		near(t, at+": girth", got.Girth, exact(t, "R1", "half_girth rabbet to sheer", at), girth)
		want := exact(t, "R1", "section area full, rabbet to sheer", at) / 2
		if math.Abs(got.Section-want) > section*9*foot*foot {
			t.Errorf("%s: section %v, want %v", at, got.Section, want)
		}
		limit := slanted
		if i == 0 || i == 12 {
			limit = end
		}
		near(t, at+": slanted girth", got.Slanted, exact(t, "R1", "slant-corrected half girth int sec(frame bevel) ds", at), limit)
	}
	const steps = 2000
	sheer := 0.0
	for i := range steps {
		j := s.Jet(1, f.length*(float64(i)+.5)/steps)
		sheer += f.length / steps * math.Sqrt(1+j.Yx*j.Yx+j.Zx*j.Zx)
	}
	near(t, "sheer", sheer, exact(t, "R1", "sheer line true length, one side (3D)", ""), line)
}

// The half spheroid and the half ellipsoid at their stations: girths, sections, radii at keel and waterline, and bevels.
// At the ends of what was measured the slope along the boat is known worst.
func TestStationsOfEllipsoids(t *testing.T) {
	const (
		girth   = 1e-5
		section = 1e-5
		atEnd   = 0.02 // of a radius at an end of the section: 0.05 is promised
		bevel   = 0.05 // degrees, a bay or more from either end
		beside  = 1.0  // degrees, at the first and the last station
		degree  = math.Pi / 180
		finer   = 4 // spaces of the table to one of the figures
	)
	for id, n := range map[string]int{"E0": 8, "E1": 10} {
		l, b, c := exact(t, id, "L", ""), exact(t, id, "B", ""), exact(t, id, "T", "")
		f := ellipsoid(l, b, c)
		var xs []float64
		for i := finer; i <= finer*(n-1); i++ {
			xs = append(xs, l*float64(i)/float64(finer*n))
		}
		h := fitted(t, f.document(table{xs, 21, false}))
		d := area.New(surface(t, h), 0)
		for i := 1; i < n; i++ {
			x := l * float64(i) / float64(n)
			at := fmt.Sprintf("x=%#.8g from FP", x/metre)
			got, err := d.Strip(x, area.Everything())
			if err != nil {
				t.Fatal(err)
			}
			near(t, id+" "+at+": girth", got.Girth, exact(t, id, "half_girth", at), girth)
			near(t, id+" "+at+": section", got.Section, exact(t, id, "section_area full", at)/2, section)
			s, err := h.Section(x, boat.Port)
			if err != nil {
				t.Fatal(err)
			}
			near(t, id+" "+at+": radius at the keel", 1/s.At(0).Kappa, exact(t, id, "section radius of curvature at keel", at), atEnd)
			near(t, id+" "+at+": radius at the waterline", 1/s.At(1).Kappa, exact(t, id, "section radius of curvature at WL", at), atEnd)
			r := math.Sqrt(1 - (2*x/l-1)*(2*x/l-1))
			us, err := s.AtHeight(c-r*c*math.Sqrt2/2, 0.01)
			if err != nil {
				t.Fatal(err)
			}
			limit := bevel * degree
			if i == 1 || i == n-1 {
				limit = beside * degree
			}
			for quantity, u := range map[string]float64{"frame bevel at parameter 45deg (deg)": us[0], "frame bevel at WL (deg)": 1} {
				got, err := s.BevelAt(u, hull.Abaft)
				if err != nil {
					t.Fatal(err)
				}
				if want := exact(t, id, quantity, at); math.Abs(math.Abs(got.Angle)-want) > limit {
					t.Errorf("%s %s: %s is %.4f degrees, want %.4f", id, at, quantity, got.Angle/degree, want/degree)
				}
			}
		}
	}
}
