package hull_test

import (
	"fmt"
	"math"
	"testing"

	"ribband/takeoff/boat"
	"ribband/takeoff/hull"
	"ribband/takeoff/hull/hulltest"
	"ribband/takeoff/hull/offsets"
)

// bilged is a hull whose sections bend most in the bilge: curvature along the girth is even but for a bell, so the least
// radius is known exactly. All are functions of X, -1 at the first station to 1 at the last.
type bilged struct {
	length float64                  // mm
	girth  func(X float64) float64  // mm
	rise   func(X float64) float64  // of the section at the rabbet, radians
	turn   func(X float64) float64  // from rabbet to sheer, radians
	bilge  func(X float64) float64  // where the bell stands, fraction of the girth
	wide   func(X float64) float64  // of the bell, fraction of the girth
	share  float64                  // of the turn in the bell
	drawn  map[float64][]hull.Point // sections once summed
}

const steps = 2000 // of the girth of a bilged section

func (b bilged) along(x float64) float64 { return 2*x/b.length - 1 }

// bends is the curvature at each step of the girth, 1/mm.
func (b bilged) bends(x float64) []float64 {
	X := b.along(x)
	var out []float64
	sum := 0.0
	for i := range steps {
		d := ((float64(i)+.5)/steps - b.bilge(X)) / b.wide(X)
		out = append(out, 1-b.share+b.share*math.Exp(-d*d)/b.wide(X)/math.Sqrt(math.Pi))
		sum += out[i] / steps
	}
	for i := range out {
		out[i] *= b.turn(X) / sum / b.girth(X)
	}
	return out
}

func (b bilged) least(x float64) float64 {
	most := 0.0
	for _, k := range b.bends(x) {
		most = max(most, k)
	}
	return 1 / most
}

// point at a step of the girth, summed from chords.
func (b bilged) point(x float64, step int) hull.Point {
	if b.drawn[x] == nil {
		chord, angle := b.girth(b.along(x))/steps, b.rise(b.along(x))
		p := hull.Point{Y: 40}
		line := []hull.Point{p}
		for _, k := range b.bends(x) {
			s, c := math.Sincos(angle + k*chord/2)
			p = hull.Point{Y: p.Y + c*chord, Z: p.Z + s*chord}
			line, angle = append(line, p), angle+k*chord
		}
		b.drawn[x] = line
	}
	return b.drawn[x][step]
}

// hull of so many stations of fifteen points, buttocks in the bottom and waterlines above.
func (b bilged) hull(t *testing.T, stations int, grain float64) *hull.Hull {
	t.Helper()
	const n = 14
	tb := exactTable()
	written := func(v float64) string {
		if grain > 0 {
			v = math.Round(v/grain) * grain
		}
		return mm(v)
	}
	if grain > 0 {
		tb.doc.Grain = fmt.Sprint(grain)
	}
	for no := range stations {
		x := b.length * float64(no) / float64(stations-1)
		side := offsets.SideOffsets{Side: boat.Both}
		for k := range n + 1 {
			p := b.point(x, steps*k/n)
			switch end := (&offsets.EndOffsets{Height: written(p.Z), HalfBreadth: written(p.Y)}); {
			case k == 0:
				side.Rabbet = end
			case k == n:
				side.Sheer = end
			case k < n*45/100:
				side.Buttocks = append(side.Buttocks, offsets.ButtockOffsets{HalfBreadth: mm(p.Y), Height: written(p.Z)})
			default:
				side.Waterlines = append(side.Waterlines, offsets.WaterlineOffsets{Height: mm(p.Z), HalfBreadth: written(p.Y)})
			}
		}
		tb.station(x, side)
	}
	return hulltest.Hull(t, &tb.doc)
}

// Forms with a bilge of several hardnesses.
func bilgedForms() map[string]bilged {
	type f = func(X float64) float64
	even := func(v float64) f { return func(float64) float64 { return v } }
	four := func(X float64) float64 { return X * X * X * X }
	return map[string]bilged{
		"launch": {8000, func(X float64) float64 { return 2000 - 300*X*X }, func(X float64) float64 { return .15 + .3*X*X }, even(1.2),
			even(.5), func(X float64) float64 { return .25 + .1*X*X }, .6, map[float64][]hull.Point{}},
		"sloop": {10000, func(X float64) float64 { return 2400 - 600*X*X }, func(X float64) float64 { return .3 + .3*X*X - .1*X },
			func(X float64) float64 { return 1.1 - .3*X*X }, func(X float64) float64 { return .5 + .1*X }, even(.28), .6, map[float64][]hull.Point{}},
		"full": {6000, func(X float64) float64 { return 1700 - 500*four(X) }, func(X float64) float64 { return .1 + .4*four(X) },
			func(X float64) float64 { return 1.45 - .5*four(X) }, even(.45), even(.25), .75, map[float64][]hull.Point{}},
		"long run": {9000, func(X float64) float64 { return 2100 + 200*math.Sin(2*X) }, func(X float64) float64 { return .25 - .1*math.Sin(2*X) },
			func(X float64) float64 { return 1.1 + .2*math.Cos(2*X) }, func(X float64) float64 { return .5 - .05*math.Sin(2*X) },
			func(X float64) float64 { return .3 + .04*math.Sin(2*X) }, .65, map[float64][]hull.Point{}},
	}
}
