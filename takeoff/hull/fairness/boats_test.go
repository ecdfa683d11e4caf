package fairness_test

import (
	"fmt"
	"math"
	"math/rand/v2"
	"testing"

	"ribband/takeoff/boat"
	"ribband/takeoff/hull"
	"ribband/takeoff/hull/fairness"
	"ribband/takeoff/hull/offsets"
	"ribband/takeoff/notation"
)

const eighth = 25.4 / 8

// section is a true midship section, mm, from the rabbet to the sheer, at close intervals.
type section struct{ y, z []float64 }

const fine = 1500

func drawn(f func(u float64) (y, z float64), a, b float64) section {
	var s section
	for i := range fine + 1 {
		y, z := f(a + (b-a)*float64(i)/fine)
		s.y, s.z = append(s.y, y), append(s.z, z)
	}
	return s
}

// bent is a section by its curvature along the girth, the angle by the middle of each step.
func bent(kappa func(s float64) float64, girth, th, y float64) section {
	var s section
	z, h := 0.0, girth/fine
	for i := range fine + 1 {
		s.y, s.z = append(s.y, y), append(s.z, z)
		mid := th + h/2*kappa(h*(float64(i)+.25))
		y, z = y+h*math.Cos(mid), z+h*math.Sin(mid)
		th += h * kappa(h*(float64(i)+.5))
	}
	return s
}

func between(r *rand.Rand, a, b float64) float64 { return a + (b-a)*r.Float64() }

const degree = math.Pi / 180

func hump(s, at, radius, turn float64) float64 {
	x := (s - at) / (turn * radius / math.Sqrt(2*math.Pi))
	return math.Exp(-x*x/2) / radius
}

// families of sections with random dimensions: those that package fair is studied on.
var families = []struct {
	name string
	draw func(r *rand.Rand) section
}{
	{"circle", func(r *rand.Rand) section {
		radius, turn, start := between(r, 700, 1300), between(r, 70, 95)*degree, between(r, 0, 10)*degree
		return drawn(func(u float64) (float64, float64) { return 20 + radius*math.Sin(u), radius * (1 - math.Cos(u)) }, start, start+turn)
	}},
	{"ellipse", func(r *rand.Rand) section {
		a, b := between(r, 1000, 1400), between(r, 900, 1200)
		return drawn(func(u float64) (float64, float64) { return a * math.Sin(u), b * (1 - math.Cos(u)) }, .03, math.Pi/2)
	}},
	{"superellipse", func(r *rand.Rand) section {
		a, b, m := between(r, 1000, 1400), between(r, 900, 1300), between(r, 2.3, 3.2)
		return drawn(func(u float64) (float64, float64) {
			s, c := math.Sin(u), math.Cos(u)
			ray := math.Pow(math.Pow(s/a, m)+math.Pow(c/b, m), -1/m)
			return ray * s, b - ray*c
		}, .03, math.Pi/2-.002)
	}},
	{"tumblehome", func(r *rand.Rand) section {
		a, b, end := between(r, 1000, 1300), between(r, 600, 800), math.Pi/2+between(r, .5, .8)
		return drawn(func(u float64) (float64, float64) { return a * math.Sin(u), b * (1 - math.Cos(u)) }, .05, end)
	}},
	{"firm bilge", func(r *rand.Rand) section {
		girth, radius, turn := between(r, 1600, 2100), between(r, 300, 550), between(r, 55, 68)*degree
		at, round := girth*between(r, .45, .6), between(r, 0, 1)/5000
		return bent(func(s float64) float64 { return round + hump(s, at, radius, turn) }, girth, between(r, 10, 18)*degree, 60)
	}},
	{"hard bilge", func(r *rand.Rand) section {
		radius, deadrise, topside := between(r, 120, 260), between(r, 6, 14)*degree, between(r, 76, 87)*degree
		bottom, top := between(r, 800, 1200), between(r, 500, 800)
		round := (topside - deadrise) * radius
		return bent(func(s float64) float64 {
			return (math.Tanh((s-bottom)/(.06*round)) - math.Tanh((s-bottom-round)/(.06*round))) / 2 / radius
		}, bottom+round+top, deadrise, 50)
	}},
	{"slack V", func(r *rand.Rand) section {
		bottom, top, radius := between(r, 18, 28)*degree, between(r, 66, 80)*degree, between(r, 250, 500)
		half, lean := (top-bottom)/2, (top+bottom)/2
		a := radius * math.Tan(half)
		return drawn(func(u float64) (float64, float64) {
			v := a * math.Tan(half) * math.Sqrt(1+u*u/(a*a))
			return 1000 + u*math.Cos(lean) - v*math.Sin(lean), 500 + u*math.Sin(lean) + v*math.Cos(lean)
		}, -between(r, 650, 900)*math.Cos(half), between(r, 700, 1000)*math.Cos(half))
	}},
	{"wineglass", func(r *rand.Rand) section {
		girth, hollow, bilge := between(r, 1700, 2200), between(r, 300, 600), between(r, 350, 650)
		in, out := between(r, 35, 50)*degree, between(r, 55, 75)*degree
		atHollow, atBilge, round := girth*between(r, .14, .22), girth*between(r, .56, .68), between(r, 0, 1)/6000
		return bent(func(s float64) float64 { return round - hump(s, atHollow, hollow, in) + hump(s, atBilge, bilge, out) }, girth, between(r, 68, 78)*degree, 60)
	}},
	{"flare", func(r *rand.Rand) section {
		high, wave, phase, radius := between(r, 1100, 1500), between(r, 1.5, 2.4), between(r, 0, 2*math.Pi), between(r, 2500, 5000)
		w, lean := 2*math.Pi/(wave*high), math.Tan(between(r, 20, 35)*degree)
		a := 1 / (radius * w * w)
		return drawn(func(z float64) (float64, float64) { return 60 + z*lean + a*(math.Sin(w*z+phase)-math.Sin(phase)), z }, 0, high)
	}},
	{"parabola", func(r *rand.Rand) section {
		b, high := between(r, 900, 1400), between(r, 1100, 1500)
		return drawn(func(z float64) (float64, float64) { e := 1 - z/high; return b * (1 - e*e), z }, high*between(r, .05, .12), high*between(r, .8, .95))
	}},
	{"cosine", func(r *rand.Rand) section {
		a, high := between(r, 900, 1200), between(r, 1200, 1500)
		return drawn(func(z float64) (float64, float64) { return 60 + a/2*(1-math.Cos(math.Pi*z/high)), z }, 0, high)
	}},
}

// crosses is v where the section first passes u = at.
func crosses(u, v []float64, at float64) (float64, bool) {
	for i := 1; i < len(u); i++ {
		if (u[i-1] < at) != (u[i] < at) {
			return v[i-1] + (v[i]-v[i-1])*(at-u[i-1])/(u[i]-u[i-1]), true
		}
	}
	return 0, false
}

const stations = 9

// written is a boat of one family at nine stations, to eighths.
func written(family int, r *rand.Rand) *offsets.Document {
	return writtenAt(family, r, stations, "0-0-1")
}

// writtenAt is a boat of one family: its section narrows to the ends and runs up to them, on a length of 9 m, and is written
// to a grain at so many stations on eight waterlines and a buttock, both sides alike. The rule's zero is drawn at random, so
// that the rounding is a fresh draw.
func writtenAt(family int, r *rand.Rand, stations int, to string) *offsets.Document {
	grain, err := notation.FeetInchesEighths.Parse(to)
	if err != nil {
		panic(err)
	}
	step := grain.MM()
	mid := families[family].draw(r)
	fullness, end, rise, sheer := between(r, 2, 3), between(r, .15, .35), between(r, 50, 250), between(r, .05, .25)
	middle := between(r, .45, .55)
	zero := between(r, 0, step)
	write := func(v float64) string {
		l, _ := notation.FromMM(math.Round((v+zero)/step) * step)
		return notation.FeetInchesEighths.Format(l)
	}
	low, high := 0.0, 0.0
	for _, z := range mid.z {
		low, high = math.Min(low, z), math.Max(high, z)
	}
	apart := math.Round((high-low)/9/25.4) * 25.4
	doc := &offsets.Document{Notation: notation.FeetInchesEighths, Grain: to, Surface: offsets.Inside}
	for i := range stations {
		x := float64(i) / float64(stations-1)
		t := (x - middle) / math.Max(middle, 1-middle)
		narrow := 1 - (1-end)*math.Pow(math.Abs(t), fullness)
		y, z := make([]float64, len(mid.y)), make([]float64, len(mid.z))
		for k := range y {
			y[k] = 30 + (mid.y[k]-mid.y[0])*narrow
			z[k] = 300 + rise*t*t + (mid.z[k]-mid.z[0])*(1+sheer*t*t)
		}
		last := len(y) - 1
		s := offsets.SideOffsets{Side: boat.Both, Rabbet: &offsets.EndOffsets{Height: write(z[0]), HalfBreadth: write(y[0])},
			Sheer: &offsets.EndOffsets{Height: write(z[last]), HalfBreadth: write(y[last])}}
		for k := range 10 {
			at := 304.8 + float64(k)*apart
			if at < z[0]+2*step || at > z[last]-2*step {
				continue
			}
			if v, ok := crosses(z, y, at); ok {
				l, _ := notation.FromMM(at)
				s.Waterlines = append(s.Waterlines, offsets.WaterlineOffsets{Height: notation.FeetInchesEighths.Format(l), HalfBreadth: write(v)})
			}
		}
		const buttock = 304.8
		if v, ok := crosses(y, z, buttock); ok && buttock > y[0] && buttock < y[last] {
			s.Buttocks = append(s.Buttocks, offsets.ButtockOffsets{HalfBreadth: "1-0-0", Height: write(v)})
		}
		doc.Stations = append(doc.Stations, offsets.StationOffsets{No: i, X: write(9144*x - zero), Sides: []offsets.SideOffsets{s}})
	}
	return doc
}

// judged reads, fits and judges; false where the table is refused, which is then told on reading.
func judged(doc *offsets.Document) (*fairness.Report, bool) {
	table, faults := offsets.Read(doc)
	if len(faults) > 0 {
		return nil, false
	}
	h, err := hull.Fit(table)
	if err != nil {
		return nil, false
	}
	multiple, _, _ := h.ReadWorse()
	return fairness.Judge(table, multiple), true
}

func sound(t testing.TB, doc *offsets.Document) *fairness.Report {
	t.Helper()
	r, ok := judged(doc)
	if !ok {
		_, faults := offsets.Read(doc)
		t.Fatalf("the table is refused: %v", faults)
	}
	return r
}

func name(o fairness.Offset) string {
	return fmt.Sprintf("station %d %s %s", o.Station, o.Side, o.Cell)
}
