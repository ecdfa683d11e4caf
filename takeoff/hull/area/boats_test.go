package area_test

import (
	"encoding/csv"
	"fmt"
	"math"
	"os"
	"strconv"
	"testing"

	"ribband/takeoff/boat"
	"ribband/takeoff/hull"
	"ribband/takeoff/hull/area"
	"ribband/takeoff/hull/hulltest"
	"ribband/takeoff/hull/offsets"
	"ribband/takeoff/notation"
)

const (
	foot  = 304.8
	metre = 1000.0
)

// form is a hull with a formula: at x (mm) its section runs from t = 0 at the rabbet to 1 at the sheer.
type form struct {
	length float64
	at     func(x, t float64) (y, z float64)
}

// wigley is the parabolic form, z up from the keel.
func wigley(length, breadth, draught float64) form {
	return form{length, func(x, t float64) (y, z float64) {
		xx := 2*x/length - 1
		return breadth / 2 * (1 - xx*xx) * (1 - (1-t)*(1-t)), draught * t
	}}
}

// halfWigley begins at its transom.
func halfWigley(length, breadth, draught float64) form {
	return form{length, func(x, t float64) (y, z float64) {
		xx := x / length
		return breadth / 2 * (1 - xx*xx) * (1 - (1-t)*(1-t)), draught * t
	}}
}

// r1 is the hull with curved rabbet and sheer, see testdata/published/computed-rabbet-sheer-hull-r1.
func r1() form {
	length, breadth, h := 26*foot, 8.5*foot, 4.5*foot
	return form{length, func(x, t float64) (y, z float64) {
		xx := (2*x/length - 1) * (2*x/length - 1)
		low, high := h*(0.05+0.10*xx), h*(0.80+0.20*xx)
		z = low + t*(high-low)
		d := (h - z) / h
		return breadth / 2 * (1 - xx) * (1 - d*d), z
	}}
}

// cone has quarter circles for sections.
func cone(length, r1, r2 float64) form {
	return form{length, func(x, t float64) (y, z float64) {
		r := r1 + (r2-r1)*x/length
		sn, cs := math.Sincos(t * math.Pi / 2)
		return r * sn, r2 - r*cs
	}}
}

// table is how a form is written: its stations, how many points a side, and to what.
type table struct {
	stations []float64
	points   int
	eighths  bool
}

// even are n stations over the length.
func even(f form, n int) []float64 {
	out := make([]float64, n)
	for i := range out {
		out[i] = f.length * float64(i) / float64(n-1)
	}
	return out
}

func (f form) document(tb table) offsets.Document {
	doc := offsets.Document{Notation: notation.Millimetres, Grain: "0", Surface: offsets.Inside}
	write := func(v float64) string { return fmt.Sprintf("%.6f", v) }
	if tb.eighths {
		doc.Notation, doc.Grain = notation.FeetInchesEighths, "0-0-1"
		write = func(v float64) string {
			l, err := notation.FromMM(math.Round(v/3.175) * 3.175)
			if err != nil {
				panic(err)
			}
			return notation.FeetInchesEighths.Format(l)
		}
	}
	for i, x := range tb.stations {
		s := offsets.SideOffsets{Side: boat.Both}
		end := func(t float64) *offsets.EndOffsets {
			y, z := f.at(x, t)
			return &offsets.EndOffsets{Height: write(z), HalfBreadth: write(y)}
		}
		s.Rabbet, s.Sheer = end(0), end(1)
		for k := 1; k+1 < tb.points; k++ {
			t := float64(k) / float64(tb.points-1)
			y, z := f.at(x, t)
			y2, z2 := f.at(x, t+1e-4)
			if y2-y > z2-z { // flat: a buttock tells more
				if tb.eighths { // the line that is written lies at a written place; the crossing is measured
					y, z = f.crossing(x, math.Round(y/3.175)*3.175, true)
				}
				s.Buttocks = append(s.Buttocks, offsets.ButtockOffsets{HalfBreadth: write(y), Height: write(z)})
				continue
			}
			if tb.eighths {
				y, z = f.crossing(x, math.Round(z/3.175)*3.175, false)
			}
			s.Waterlines = append(s.Waterlines, offsets.WaterlineOffsets{Height: write(z), HalfBreadth: write(y)})
		}
		doc.Stations = append(doc.Stations, offsets.StationOffsets{No: i, X: write(x), Sides: []offsets.SideOffsets{s}})
	}
	return doc
}

// crossing is where the section passes the half-breadth or the height v.
func (f form) crossing(x, v float64, buttock bool) (y, z float64) {
	a, b := 0.0, 1.0
	for range 60 {
		m := (a + b) / 2
		y, z = f.at(x, m)
		if buttock && y < v || !buttock && z < v {
			a = m
		} else {
			b = m
		}
	}
	return y, z
}

func fitted(t testing.TB, doc offsets.Document) *hull.Hull {
	t.Helper()
	return hulltest.Hull(t, &doc)
}

func surface(t testing.TB, h *hull.Hull) *hull.Surface {
	t.Helper()
	s, err := h.Surface(boat.Port)
	if err != nil {
		t.Fatal(err)
	}
	return s
}

// side of a form with so many exact points at each of so many even stations.
func side(t testing.TB, f form, stations, points int) *area.Side {
	t.Helper()
	return area.New(surface(t, fitted(t, f.document(table{even(f, stations), points, false}))), 0)
}

// exact is a figure of testdata/published, in millimetres of whatever power its unit has.
func exact(t testing.TB, id, quantity, at string) float64 {
	t.Helper()
	for _, path := range []string{"analytic-hulls-computed/hulls.csv", "computed-rabbet-sheer-hull-r1/exact.csv"} {
		f, err := os.Open("../../../testdata/published/" + path)
		if err != nil {
			t.Fatal(err)
		}
		rows, err := csv.NewReader(f).ReadAll()
		_ = f.Close()
		if err != nil {
			t.Fatal(err)
		}
		for _, r := range rows {
			if r[0][:2] == id && r[1] == quantity && r[2] == at {
				v, err := strconv.ParseFloat(r[3], 64)
				if err != nil {
					t.Fatal(err)
				}
				unit := map[string]float64{"m": metre, "ft": foot, "m^2": metre * metre, "ft^2": foot * foot,
					"m^3": metre * metre * metre, "ft^3": foot * foot * foot, "-": 1, "deg": math.Pi / 180}[r[4]]
				if unit == 0 {
					t.Fatal("unit", r[4])
				}
				return v * unit
			}
		}
	}
	t.Fatalf("no figure %s %s %s", id, quantity, at)
	return 0
}

// near checks got against want to a relative tolerance.
func near(t testing.TB, what string, got, want, rel float64) {
	t.Helper()
	if !(math.Abs(got-want) <= rel*math.Abs(want)) {
		t.Errorf("%s is %.9g, want %.9g (out by %.2g of it, %.2g allowed)", what, got, want, got/want-1, rel)
	}
}

// ellipsoid is the lower half of one.
func ellipsoid(length, breadth, draught float64) form {
	return form{length, func(x, t float64) (y, z float64) {
		xx := 2*x/length - 1
		r := math.Sqrt(1 - xx*xx)
		sn, cs := math.Sincos(t * math.Pi / 2)
		return r * breadth / 2 * sn, draught - r*draught*cs
	}}
}
