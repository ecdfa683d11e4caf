package hull_test

import (
	"fmt"
	"math"
	"math/rand/v2"
	"testing"

	"ribband/takeoff/boat"
	"ribband/takeoff/hull"
	"ribband/takeoff/hull/hulltest"
	"ribband/takeoff/hull/offsets"
	"ribband/takeoff/notation"
)

// A section by its formula, t from 0 at the rabbet to 1 at the sheer.
type sectionLine func(t float64) (y, z float64)

func (f sectionLine) area() float64 {
	const n = 20000
	sum := 0.0
	y0, z0 := f(0)
	for i := 1; i <= n; i++ {
		y, z := f(float64(i) / n)
		sum += (y + y0) / 2 * (z - z0)
		y0, z0 = y, z
	}
	return sum
}

// The forms of random dimensions that the range of the sectional area was measured on.
var sectionForms = map[string]func(r *rand.Rand) sectionLine{
	"ellipse": func(r *rand.Rand) sectionLine {
		b, d := 700+800*r.Float64(), 700+600*r.Float64()
		return func(t float64) (y, z float64) {
			s, c := math.Sincos(t * math.Pi / 2)
			return 50 + b*s, d * (1 - c)
		}
	},
	"superellipse": func(r *rand.Rand) sectionLine {
		b, d, p := 700+800*r.Float64(), 700+600*r.Float64(), 2+1.5*r.Float64()
		return func(t float64) (y, z float64) {
			s, c := math.Sincos(t * math.Pi / 2)
			return 50 + b*math.Pow(s, 2/p), d * (1 - math.Pow(c, 2/p))
		}
	},
	"tumblehome": func(r *rand.Rand) sectionLine {
		b, d, over := 700+800*r.Float64(), 700+600*r.Float64(), 1.6+.25*r.Float64()
		return func(t float64) (y, z float64) {
			s, c := math.Sincos(t * over)
			return 50 + b*s, d * (1 - c)
		}
	},
	"wine glass": func(r *rand.Rand) sectionLine {
		b, d := 700+800*r.Float64(), 900+600*r.Float64()
		return func(t float64) (y, z float64) { return 50 + b*(1-math.Cos(math.Pi*math.Pow(t, .8)))/2, d * t }
	},
	"slack": func(r *rand.Rand) sectionLine {
		b, d, k := 700+800*r.Float64(), 700+600*r.Float64(), .2+.6*r.Float64()
		return func(t float64) (y, z float64) { return 50 + b*(t+k*t*(1-t)), d * (t - k*t*(1-t)/2) }
	},
}

// The range of the sectional area holds at least nine times in ten at each number of points, over all forms, points to an
// eighth of an inch. Seeds are fixed.
func TestSectionalAreaHolds(t *testing.T) {
	trials := 40
	if testing.Short() {
		trials = 10
	}
	for _, n := range []int{5, 7, 9, 13, 20} {
		held, of, wide := 0, 0, 0.0
		for _, name := range []string{"ellipse", "superellipse", "tumblehome", "wine glass", "slack"} {
			r := rand.New(rand.NewPCG(0x5ec711, uint64(n)))
			for range trials {
				f := sectionForms[name](r)
				h := hulltest.Hull(t, inEighths(f, n))
				a, want := section(t, h, 1000, boat.Port).Area(3.175), f.area()
				of++
				wide += (a.High - a.Low) / a.MM
				if a.Low <= want && want <= a.High {
					held++
				}
			}
		}
		t.Logf("%d points: %d of %d, mean width %.2f %%", n, held, of, 100*wide/float64(of))
		if 10*held < 9*of {
			t.Errorf("%d points: the range holds %d times of %d", n, held, of)
		}
	}
}

// inEighths is a prism of the section, its points at steps of t written to eighths of an inch: waterlines, all of them.
func inEighths(f sectionLine, n int) *offsets.Document {
	eighth := func(x float64) string { return fmt.Sprintf("%.3f", math.Round(x/3.175)*3.175) }
	side := offsets.SideOffsets{Side: boat.Both}
	for i := range n {
		y, z := f(float64(i) / float64(n-1))
		switch i {
		case 0:
			side.Rabbet = &offsets.EndOffsets{Height: eighth(z), HalfBreadth: eighth(y)}
		case n - 1:
			side.Sheer = &offsets.EndOffsets{Height: eighth(z), HalfBreadth: eighth(y)}
		default:
			// a buttock where the section runs out, a waterline where it runs up: each point is written along one line
			y0, z0 := f(float64(i)/float64(n-1) - 1e-4)
			if math.Abs(y-y0) > math.Abs(z-z0) {
				side.Buttocks = append(side.Buttocks, offsets.ButtockOffsets{HalfBreadth: fmt.Sprintf("%.6f", y), Height: eighth(z)})
			} else {
				side.Waterlines = append(side.Waterlines, offsets.WaterlineOffsets{Height: fmt.Sprintf("%.6f", z), HalfBreadth: eighth(y)})
			}
		}
	}
	doc := &offsets.Document{Notation: notation.Millimetres, Grain: "3.175", Surface: offsets.Inside}
	for no := range 3 {
		doc.Stations = append(doc.Stations, offsets.StationOffsets{No: no, X: fmt.Sprint(1000 * no), Sides: []offsets.SideOffsets{side}})
	}
	return doc
}

// Exact points: the parabolic sections of the Wigley form have the area 2/3 of half-breadth times draught (computed), a
// prism of flat panels that of its polygon; both between stations too.
func TestSectionalAreaExact(t *testing.T) {
	const sectional = 1e-6 // of the area: 20 waterlines
	w := wigley{9000, 2600, 1100}
	h := w.hull(t, 13, 20)
	for _, x := range []float64{750, 3000, 4100, 4500} {
		want := 2. / 3 * w.half(x, w.draught) * w.draught
		a := section(t, h, x, boat.Port).Area(0)
		if d := math.Abs(a.MM/want - 1); !(d <= 10*sectional) || !(a.Low <= a.MM && a.MM <= a.High) {
			t.Errorf("x %v: %+v, want %v (%.2g)", x, a, want, d)
		}
	}
	h = hulltest.Hull(t, chined(quarters, 4, func(float64) panels { return v }))
	want := 0.0
	for i := range v[1:] {
		want += (v[i].Y + v[i+1].Y) / 2 * (v[i+1].Z - v[i].Z)
	}
	if a := section(t, h, 1500, boat.Starboard).Area(0); !(math.Abs(a.MM/want-1) <= sectional) {
		t.Errorf("%+v, want %v", a, want)
	}
}

// A section whose points all lie too far out by as much as their mean may be out by its grain still has the true area in its
// range: flat panels, whose girth tells nothing of that.
func TestSectionalAreaOfPointsThatAllLieOut(t *testing.T) {
	const grain = 3.175
	prism := func(out float64) *offsets.Document {
		side := offsets.SideOffsets{Side: boat.Both, Rabbet: &offsets.EndOffsets{Height: "0", HalfBreadth: mm(400 + out)}, Sheer: &offsets.EndOffsets{Height: "1200", HalfBreadth: mm(1000 + out)}}
		for z := 150.0; z < 1200; z += 150 {
			side.Waterlines = append(side.Waterlines, offsets.WaterlineOffsets{Height: mm(z), HalfBreadth: mm(400 + z/2 + out)})
		}
		doc := &offsets.Document{Notation: notation.Millimetres, Grain: "0", Surface: offsets.Inside}
		for no := range 3 {
			doc.Stations = append(doc.Stations, offsets.StationOffsets{No: no, X: fmt.Sprint(1000 * no), Sides: []offsets.SideOffsets{side}})
		}
		return doc
	}
	of := func(out float64) hull.Reading {
		return section(t, hulltest.Hull(t, prism(out)), 1000, boat.Port).Area(grain)
	}
	const points = 9
	want, out := 700.*1200, grain/math.Sqrt(12*points)
	for _, off := range []float64{out, -out} {
		if a := of(off); !(a.Low <= want && want <= a.High) || math.Abs(a.MM-want-off*1200) > 1 {
			t.Errorf("all points %v mm out: %+v, and the area is %v", off, a, want)
		}
	}
	if a := of(4 * out); a.Low <= want && want <= a.High {
		t.Errorf("all points out four times as much: %+v still holds %v, so the range says little", a, want)
	}
}
