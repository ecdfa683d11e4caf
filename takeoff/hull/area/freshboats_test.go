package area_test

import (
	"math"
	"math/rand/v2"
)

// shape is a kind of boat: whole boats of random dimensions.
type shape struct {
	name string
	of   func(r *rand.Rand) form
}

// fresh are shapes of other formulas than those of families: sections, plans, rabbets and sheers. The part of Sure that is
// said of few stations was widened on them.
var fresh = []shape{
	{"double-ended V-bottom with a soft chine", softChine},
	{"full-bodied barge", barge},
	{"deep keel with hollow garboards", hollowGarboards},
	{"raked stem, plumb stern", rakedPlumb},
	{"tumblehome amidships", tumblehome},
	{"sharp bow with flare", flaredBow},
	{"fine canoe, fullest abaft the middle", canoe},
	{"round amidships, wineglass at the transom", wineglassRun},
}

// from gives random numbers between two.
func from(r *rand.Rand, low, high float64) float64 { return low + (high-low)*r.Float64() }

// bend is a ramp that starts at c and is rounded over 1/k: nothing at 0, 1 at 1.
func bend(t, c, k float64) float64 {
	soft := func(v float64) float64 { return math.Log1p(math.Exp(k * v)) }
	return (soft(t-c) - soft(-c)) / (soft(1-c) - soft(-c))
}

func softChine(r *rand.Rand) form {
	l, b, t0 := from(r, 5000, 11000), from(r, 1700, 3200), from(r, 800, 1500)
	rise, flare, skew, full := from(r, .25, .4), from(r, .1, .25), from(r, -.15, .15), from(r, 0, .6)
	c, k := from(r, .45, .6), from(r, 8, 14)
	return form{l, func(x, t float64) (y, z float64) {
		X := 2*x/l - 1
		plan := (1 - X*X) * (1 + full*X*X + skew*X)
		s := bend(t, c, k)
		y = b / 2 * plan * ((1+flare)*t - flare*t*t - (1-flare)*.55*s*(1-t*.2)) / (1 - (1-flare)*.44)
		z = t0*.15*X*X + t0*(1+.12*X*X)*(rise*t+(1-rise)*s)
		return 40 + y, z
	}}
}

func barge(r *rand.Rand) form {
	l, b, t0 := from(r, 9000, 18000), from(r, 3200, 4800), from(r, 1200, 1900)
	p, blunt, rocker := from(r, 2.6, 4), from(r, .45, .7), from(r, .15, .35)
	return form{l, func(x, t float64) (y, z float64) {
		X := 2*x/l - 1
		sn, cs := math.Sincos(t * math.Pi / 2)
		half := b / 2 * (1 - blunt*math.Pow(X*X, 3) - .08*X*X)
		deep := t0 * (1 - rocker*X*X*X*X)
		return 70 + half*math.Pow(sn, 2/p), t0 + .1*t0*X*X - (deep+.1*t0*X*X)*math.Pow(cs, 2/p)
	}}
}

func hollowGarboards(r *rand.Rand) form {
	l, b, t0 := from(r, 8000, 14000), from(r, 2500, 3800), from(r, 1600, 2400)
	hollow, fair, drag, stern := from(r, 1.6, 2.2), from(r, 2, 2.8), from(r, .15, .35), from(r, .15, .4)
	return form{l, func(x, t float64) (y, z float64) {
		v := x / l
		plan := math.Sin(math.Pi*v)*(1-.2*v) + stern*v*v
		low := t0 * drag * (1 - v) * (1 - v)
		high := t0 * (1.05 + .25*(v-.6)*(v-.6))
		return 55 + b/2*plan*(1-math.Pow(1-math.Pow(t, hollow), fair)), low + t*(high-low)
	}}
}

func rakedPlumb(r *rand.Rand) form {
	l, b, t0 := from(r, 5500, 10000), from(r, 1900, 3000), from(r, 900, 1500)
	rake, most, power := from(r, .06, .14), from(r, .5, .65), from(r, 2, 3)
	return form{l, func(x, t float64) (y, z float64) {
		v := (x/l + rake*t) / (1 + rake*t) // level lines begin farther forward the higher they lie
		fore := math.Tanh(v*1.6/most) / math.Tanh(1.6/most)
		plan := fore * (1 - .4*v*v*v)
		return 45 + b/2*plan*(1-math.Pow(1-t, power)), t0 * (.04 + .08*(x/l-.5)*(x/l-.5) + t*(1+.2*(x/l-.6)*(x/l-.6)))
	}}
}

func tumblehome(r *rand.Rand) form {
	l, b, t0 := from(r, 7000, 13000), from(r, 2300, 3600), from(r, 1300, 2100)
	turn, rise, full := from(r, .15, .3), from(r, 1.2, 1.6), from(r, .2, .8)
	return form{l, func(x, t float64) (y, z float64) {
		X := 2*x/l - 1
		plan := (1 - X*X) * (1 + full*X*X)
		low := t0 * (.06 + .2*X*X*X*X)
		high := t0 * (1 + .22*X*X)
		return 50 + b/2*plan*math.Sin(math.Pi/2*t*(1+turn*(1-X*X))), low + (high-low)*math.Pow(t, rise)
	}}
}

func flaredBow(r *rand.Rand) form {
	l, b, t0 := from(r, 6000, 12000), from(r, 2000, 3300), from(r, 1100, 1700)
	bow, stern, wide := from(r, 1.3, 1.8), from(r, .5, .6), from(r, .65, .85)
	return form{l, func(x, t float64) (y, z float64) {
		v := x / l
		plan := 1 - (1-v)*(1-v)*(1-v) - (1-wide)*v*v*v*v
		ease := v * v * (3 - 2*v)
		rise := bow + (stern-bow)*ease
		return 40 + b/2*plan*math.Pow(t, 2*rise), t0*(.1*(1-v)*(1-v)) + t0*(1.25-.5*v+.25*v*v)*t*t
	}}
}

func canoe(r *rand.Rand) form {
	l, b, t0 := from(r, 4500, 8000), from(r, 900, 1700), from(r, 380, 700)
	aft, end, arc := from(r, 1.05, 1.3), from(r, 1.2, 1.6), from(r, 1, 1.4)
	return form{l, func(x, t float64) (y, z float64) {
		plan := math.Pow(math.Sin(math.Pi*math.Pow(x/l, aft)), end)
		X := 2*x/l - 1
		sn, cs := math.Sincos(t * arc)
		snAll, csAll := math.Sincos(arc)
		deep := t0 * (1 + .35*X*X*X*X)
		return 20 + b/2*plan*sn/snAll, .12*t0*X*X + deep*(1-cs)/(1-csAll)
	}}
}

func wineglassRun(r *rand.Rand) form {
	l, b, t0 := from(r, 6000, 11000), from(r, 2100, 3200), from(r, 1000, 1600)
	stern, tuck, power := from(r, .45, .7), from(r, .6, 1), from(r, 1.3, 1.8)
	return form{l, func(x, t float64) (y, z float64) {
		v := x / l
		plan := math.Sin(math.Pi*math.Pow(v, .85)*.5*1.35) + (stern-math.Sin(math.Pi*.5*1.35))*math.Pow(v, 4)
		mix := tuck * v * v * v
		section := (1-mix)*math.Sin(t*math.Pi/2) + mix*(1-math.Cos(math.Pi*math.Pow(t, .9)))/2
		low := t0 * (.05*(1-v) + .12*v*v*v)
		high := t0 * (1.05 + .3*(v-.6)*(v-.6))
		return 50 + b/2*plan*section, low + (high-low)*math.Pow(t, power)
	}}
}

// dense is area and volume of a form by Gauss's three places in each of many pieces, straight on its formula, with
// differences for its slopes: no curve, station or spline of the code under test comes into it. Places are closer at the
// ends of girth and boat, where a formula may run like a root.
func dense(f form) (area, volume float64) { return denseBelow(f, math.Inf(1)) }

// denseBelow is dense up to the height z, which every section passes once or never.
func denseBelow(f form, level float64) (area, volume float64) {
	const along, around, e = 60, 50, 1e-6
	for i := range 3 * along {
		x, dx := closer(i, along)
		x, dx = x*f.length, dx*f.length
		h := e * x * (1 - x/f.length)
		top := 1.0
		if _, z := f.at(x, 1); z > level {
			low := 0.0
			for range 50 {
				mid := (low + top) / 2
				if _, z := f.at(x, mid); z < level {
					low = mid
				} else {
					top = mid
				}
			}
		}
		for k := range 3 * around {
			t, dt := closer(k, around)
			t, dt = t*top, dt*top
			d := e * t * (1 - t)
			y0, z0 := f.at(x-h, t)
			y1, z1 := f.at(x+h, t)
			yx, zx := (y1-y0)/(2*h), (z1-z0)/(2*h)
			y0, z0 = f.at(x, t-d)
			y1, z1 = f.at(x, t+d)
			yt, zt := (y1-y0)/(2*d), (z1-z0)/(2*d)
			cross := yx*zt - zx*yt
			area += dx * dt * math.Sqrt(yt*yt+zt*zt+cross*cross)
			volume += dx * dt * (y0 + y1) / 2 * zt
		}
	}
	return area, volume
}

// closer is the i-th of Gauss's places in so many pieces from 0 to 1 when both ends are drawn together, and its share.
func closer(i, pieces int) (at, share float64) {
	side := float64(i%3) - 1
	s := (float64(i/3) + .5 + side*math.Sqrt(.15)) / float64(pieces)
	weight := (8. - 3*side*side) / 18 / float64(pieces)
	return s * s * (3 - 2*s), 6 * s * (1 - s) * weight
}
