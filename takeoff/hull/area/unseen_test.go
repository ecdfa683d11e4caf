package area_test

import (
	"math"
	"math/rand/v2"
)

// unseen are whole boats of random dimensions, of formulas that neither families nor fresh have. No constant of Sure was
// measured on them, nor changed after they were.
var unseen = []shape{
	{"flat-floored, straight flare, transom", func(r *rand.Rand) form {
		l, b, h := from(r, 3500, 6500), from(r, 1300, 2100), from(r, 480, 800)
		flare, stern, turn := from(r, .15, .3), from(r, .6, .85), from(r, 3, 5)
		return form{l, func(x, t float64) (y, z float64) {
			v := x / l
			plan := (1 - math.Pow(max(0, 1-v), 2.2)) * (1 - (1-stern)*v*v)
			bottom := h * (.35*(1-v)*(1-v) + .12*v*v)
			s := (1 - flare) * (1 - math.Pow(1-t, turn))
			return 30 + b/2*plan*(s+flare*t), bottom + (h*(1.1+.2*(1-v)*(1-v))-bottom)*t*t
		}}
	}},
	{"bluff double-ender", func(r *rand.Rand) form {
		l, b, h := from(r, 7000, 15000), from(r, 2600, 4500), from(r, 1200, 2000)
		round, p := from(r, 1.08, 1.25), from(r, .4, .6)
		return form{l, func(x, t float64) (y, z float64) {
			X := 2*x/l - 1
			plan := math.Sqrt(round-X*X) / math.Sqrt(round)
			return 60 + b/2*plan*math.Pow(1-(1-t)*(1-t), 2*p), h * (.15*X*X*X*X + t*(1+.2*X*X))
		}}
	}},
	{"fullest forward, long run", func(r *rand.Rand) form {
		l, b, h := from(r, 8000, 14000), from(r, 2600, 3900), from(r, 1400, 2100)
		most, k, tail := from(r, .33, .42), from(r, 2, 3.2), from(r, .1, .3)
		return form{l, func(x, t float64) (y, z float64) {
			v := x / l
			w := v / most * math.Exp(1-v/most) // rises steeply and falls away slowly
			low := h * (.12*(1-v) + .1*v*v)
			return 55 + b/2*(w*(1-tail*v))*math.Tanh(k*t)/math.Tanh(k), low + h*t*(1+.18*(v-.5)*(v-.5))
		}}
	}},
	{"cutaway forefoot, slack bilge", func(r *rand.Rand) form {
		l, b, h := from(r, 6500, 11500), from(r, 1900, 3000), from(r, 1300, 1900)
		cut, stern, slack := from(r, .3, .55), from(r, .2, .45), from(r, .75, 1.1)
		return form{l, func(x, t float64) (y, z float64) {
			v := x / l
			low := h * cut * math.Pow(1-v, 3)
			plan := 4*v*(1-v)*(1+.3*(v-.5)) + stern*v*v*v
			return 50 + b/2*plan*math.Sin(t*math.Pi*.45)*math.Pow(t, slack-.5*v), low + (h*(1.05+.25*(v-.7)*(v-.7))-low)*t
		}}
	}},
	{"pram with two transoms", func(r *rand.Rand) form {
		l, b, h := from(r, 2300, 3600), from(r, 1100, 1500), from(r, 380, 560)
		bow, stern, arc := from(r, .35, .55), from(r, .7, .9), from(r, 1.1, 1.5)
		return form{l, func(x, t float64) (y, z float64) {
			v := x / l
			plan := bow + (stern-bow)*v + (2-bow-stern)*2*v*(1-v)
			rocker := h * (.7*math.Pow(1-v, 3) + .25*v*v*v)
			sn, cs := math.Sincos(arc * t)
			return b / 2 * plan * sn / math.Sin(arc), rocker + (h*1.1-.6*rocker)*(1-cs)/(1-math.Cos(arc))
		}}
	}},
	{"launch, plumb stem, flat run", func(r *rand.Rand) form {
		l, b, h := from(r, 6000, 12000), from(r, 1700, 2800), from(r, 900, 1400)
		fine, wide, flat := from(r, 1.4, 2.2), from(r, .65, .85), from(r, .8, 1.3)
		return form{l, func(x, t float64) (y, z float64) {
			v := x / l
			plan := math.Sin(math.Pi/2*math.Pow(v, 1/fine*1.6)) - (1-wide)*v*v*v*v
			return 40 + b/2*plan*math.Sin(math.Pi/2*t), .12*h*v*v + h*(1.15-.25*v)*math.Pow(t, 1+flat*v)
		}}
	}},
}
