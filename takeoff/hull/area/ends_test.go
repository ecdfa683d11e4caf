package area_test

import (
	"errors"
	"math"
	"testing"

	"ribband/takeoff/hull/area"
)

// bow is a V-shaped bow with a raked and curved stem: its stations begin at the forefoot.
type bow struct{ length, breadth, depth, rake float64 }

func (b bow) stem(z float64) float64 { s := z / b.depth; return b.rake * (1 - s*(1.3-.3*s)) }

func (b bow) half(x, z float64) float64 {
	if x < b.stem(z) {
		return 0
	}
	s := (x - b.stem(z)) / (b.length - b.stem(z))
	return b.breadth / 2 * s * (2 - s) * math.Pow(z/b.depth, .9)
}

// truth is area and volume by strips of the formula between two lines x(z), from low up to high.
func truth(half func(x, z float64) float64, from, to func(z float64) float64, low, high float64) (area, volume float64) {
	const n, m = 500, 500
	for i := range n {
		v := (float64(i) + .5) / n
		z := low + (high-low)*v*v
		dz := (high - low) * 2 * v / n
		a, b := from(z), to(z)
		for k := range m {
			s := (float64(k) + .5) / m
			x := a + (b-a)*s*s
			dx := (b - a) * 2 * s / m
			const e = 1e-4
			h := half(x, z)
			yx := (half(x+e, z) - half(x-e, z)) / (2 * e)
			yz := (half(x, z+e) - half(x, z-e)) / (2 * e)
			area += dx * dz * math.Sqrt(1+yx*yx+yz*yz)
			volume += dx * dz * h
		}
	}
	return area, volume
}

func TestRakedBow(t *testing.T) {
	b := bow{6000, 2000, 1000, 700}
	f := form{b.length, func(x, t float64) (y, z float64) { z = b.depth * t; return b.half(x, z), z }}
	wantA, wantV := truth(b.half, b.stem, func(float64) float64 { return b.length }, 0, b.depth)
	var line []area.Profile
	for i := range 8 {
		z := b.depth * float64(i) / 7
		line = append(line, area.Profile{Z: z, X: b.stem(z)})
	}
	for _, n := range []int{7, 13} {
		at := make([]float64, n)
		for i := range at {
			at[i] = b.rake + (b.length-b.rake)*float64(i)/float64(n-1)
		}
		d := area.New(surface(t, fitted(t, f.document(table{at, 15, false}))), 0)
		e, err := d.End(area.Ending{Line: line}, math.Inf(1))
		if err != nil {
			t.Fatal(err)
		}
		p := d.Whole().Plus(e.Part, 1)
		near(t, "area", p.Area, wantA, 2e-4)
		near(t, "volume", p.Volume, wantV, 2e-4)
		if e.Round || e.Coarse || e.Area < 0.05*p.Area {
			t.Errorf("%+v", e)
		}
		// Up to a level, and the rest above it.
		low, err := d.End(area.Ending{Line: line}, 400)
		if err != nil {
			t.Fatal(err)
		}
		lowA, lowV := truth(b.half, b.stem, func(float64) float64 { return b.rake }, 0, 400)
		near(t, "area below", low.Area, lowA, 4e-3) // of a hundredth of the side
		near(t, "volume below", low.Volume, lowV, 4e-3)
		// Turned end for end the ending is the same.
		turned := form{f.length, func(x, t float64) (y, z float64) { return f.at(f.length-x, t) }}
		back, mirror := make([]float64, n), make([]area.Profile, len(line))
		for i := range at {
			back[n-1-i] = f.length - at[i]
		}
		for i := range line {
			mirror[i] = area.Profile{Z: line[i].Z, X: f.length - line[i].X}
		}
		o, err := area.New(surface(t, fitted(t, turned.document(table{back, 15, false}))), 0).End(area.Ending{Aft: true, Line: mirror}, math.Inf(1))
		if err != nil {
			t.Fatal(err)
		}
		near(t, "turned: area", o.Area, e.Area, 1e-7)
		near(t, "turned: place", f.length-o.MomentX/o.Volume, e.MomentX/e.Volume, 1e-7)
	}
}

func TestRoundEnds(t *testing.T) {
	for _, id := range []string{"E0", "E1"} {
		l, b, c := exact(t, id, "L", ""), exact(t, id, "B", ""), exact(t, id, "T", "")
		f := ellipsoid(l, b, c)
		want := exact(t, id, "wetted_surface (half ellipsoid, both sides)", "") / 2
		wantV := exact(t, id, "volume", "") / 2
		stem := func(aft bool, x0 float64) []area.Profile { return ellipsoidEnd(l, c, x0, aft) }
		for _, extra := range []bool{false, true} {
			h := l / 12
			var at []float64
			if extra {
				at = append(at, h/8, h/2)
			}
			for i := 1; i < 12; i++ {
				at = append(at, h*float64(i))
			}
			if extra {
				at = append(at, l-h/2, l-h/8)
			}
			d := area.New(surface(t, fitted(t, f.document(table{at, 15, false}))), 0)
			p := d.Whole()
			for _, aft := range []bool{false, true} {
				x0 := at[0]
				if aft {
					x0 = at[len(at)-1]
				}
				e, err := d.End(area.Ending{Aft: aft, Line: stem(aft, x0)}, math.Inf(1))
				if err != nil {
					t.Fatal(err)
				}
				p = p.Plus(e.Part, 1)
				if !e.Round || e.Coarse == extra {
					t.Errorf("%s, further sections %v: round %v, coarse %v", id, extra, e.Round, e.Coarse)
				}
			}
			near(t, id+" area", p.Area, want, 3e-4)
			near(t, id+" volume", p.Volume, wantV, 3e-4)
			if whole := d.Whole(); whole.Area > 0.997*want {
				t.Errorf("%s: without its ends the side has %v of its area", id, whole.Area/want)
			}
		}
	}
}

// A plumb stem a bay forward of the first station: the parabolic form without its first two stations.
func TestPlumbStem(t *testing.T) {
	w := wigley(24*foot, 8*foot, 3*foot)
	d := area.New(surface(t, fitted(t, w.document(table{even(w, 13)[1:], 15, false}))), 0)
	e, err := d.End(area.Ending{Line: []area.Profile{{Z: 0, X: 0}, {Z: 3 * foot, X: 0}}}, math.Inf(1))
	if err != nil {
		t.Fatal(err)
	}
	p := d.Whole().Plus(e.Part, 1)
	near(t, "area", p.Area, exact(t, "W2", "wetted_surface both sides", "")/2, 1e-4)
	near(t, "volume", p.Volume, exact(t, "W2", "volume", "")/2, 3e-4)
	if e.Round {
		t.Error("a plumb stem is called round")
	}
}

// A raked transom, beyond the last station at the sheer and short of it at the rabbet, or the other way round.
func TestRakedTransom(t *testing.T) {
	length, breadth, depth := 16*foot, 6.5*foot, 2.25*foot
	half := func(x, z float64) float64 {
		xx := (length - x) / length * (1 - .1*x/length) // the transom end is aft
		d := (depth - z) / depth
		return breadth / 2 * (1 - xx*xx) * (1 - d*d)
	}
	f := form{length, func(x, t float64) (y, z float64) { z = depth * t; return half(x, z), z }}
	const n = 13
	bay := length / (n - 1)
	d := area.New(surface(t, fitted(t, f.document(table{even(f, n), 15, false}))), 0)
	for _, rake := range []float64{.1, -.1, .4} {
		edge := func(z float64) float64 { return length + rake*bay*(2*z/depth-1) }
		wantA, wantV := truth(half, func(float64) float64 { return 0 }, edge, 0, depth)
		e, err := d.End(area.Ending{Aft: true, Transom: true, Line: []area.Profile{{Z: 0, X: edge(0)}, {Z: depth, X: edge(depth)}}}, math.Inf(1))
		if err != nil {
			t.Fatal(err)
		}
		p := d.Whole().Plus(e.Part, 1)
		near(t, "area", p.Area, wantA, 2e-4)
		near(t, "volume", p.Volume, wantV, 2e-4)
		if (e.Volume > 0) != (rake > 0) { // the breadth is above
			t.Errorf("rake %v of a bay adds %v", rake, e.Volume)
		}
	}
}

func TestLinesThatAreNone(t *testing.T) {
	d := side(t, r1(), 3, 7)
	for _, line := range [][]area.Profile{nil, {{0, 0}}, {{0, 0}, {0, 1}}, {{1, 0}, {0, 1}}, {{0, math.NaN()}, {1, 1}}, {{0, 0}, {math.Inf(1), 1}}} {
		var e *area.LineError
		if _, err := d.End(area.Ending{Line: line}, math.Inf(1)); !errors.As(err, &e) || e.Error() == "" {
			t.Error(line, err)
		}
	}
	var e *area.WindowError
	if _, err := d.End(area.Ending{Line: []area.Profile{{0, 0}, {1, 1}}}, math.NaN()); !errors.As(err, &e) {
		t.Error(err)
	}
}
