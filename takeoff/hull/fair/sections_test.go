package fair_test

import (
	"math"
	"math/rand/v2"
	"sort"
)

// section is a true section, known at close intervals along its girth, in mm
// from the rabbet to the sheer.
type section struct {
	y, z, s, th, k []float64 // place, length along it, tangent angle, curvature
	girth, least   float64
}

// fine is the number of intervals a true section is tabulated on: under 2 mm
// each, and the cubic between them is good to well under a micrometre.
const fine = 1200

func (c *section) finish() {
	c.girth = c.s[len(c.s)-1]
	most := 0.0
	for _, k := range c.k {
		most = max(most, math.Abs(k))
	}
	c.least = 1 / most
}

// at is the place at length s, by the cubic that has the true places and
// tangents at both ends of the interval.
func (c *section) at(s float64) (y, z float64) {
	i := min(max(sort.SearchFloat64s(c.s, s), 1), len(c.s)-1)
	h := c.s[i] - c.s[i-1]
	u := (s - c.s[i-1]) / h
	p0, p1 := (1+2*u)*(1-u)*(1-u), u*u*(3-2*u)
	m0, m1 := h*u*(1-u)*(1-u), h*u*u*(u-1)
	sin0, cos0 := math.Sincos(c.th[i-1])
	sin1, cos1 := math.Sincos(c.th[i])
	return p0*c.y[i-1] + p1*c.y[i] + m0*cos0 + m1*cos1,
		p0*c.z[i-1] + p1*c.z[i] + m0*sin0 + m1*sin1
}

// jet is a number with its first and second derivative by the parameter, so
// that the true curvature is exact.
type jet struct{ v, d, dd float64 }

func num(v float64) jet        { return jet{v: v} }
func (a jet) plus(b jet) jet   { return jet{a.v + b.v, a.d + b.d, a.dd + b.dd} }
func (a jet) less(b jet) jet   { return a.plus(b.by(-1)) }
func (a jet) by(f float64) jet { return jet{f * a.v, f * a.d, f * a.dd} }
func (a jet) pow(p float64) jet {
	return a.of(math.Pow(a.v, p), p*math.Pow(a.v, p-1), p*(p-1)*math.Pow(a.v, p-2))
}
func (a jet) sin() jet { s, c := math.Sincos(a.v); return a.of(s, c, -s) }
func (a jet) cos() jet { s, c := math.Sincos(a.v); return a.of(c, -s, -c) }

func (a jet) times(b jet) jet {
	return jet{a.v * b.v, a.d*b.v + a.v*b.d, a.dd*b.v + 2*a.d*b.d + a.v*b.dd}
}

// of is the chain rule: f has value v and derivatives d and dd at a.
func (a jet) of(v, d, dd float64) jet { return jet{v, d * a.d, dd*a.d*a.d + d*a.dd} }

// drawn tabulates a section given as a function of a parameter.
func drawn(f func(u jet) (y, z jet), u0, u1 float64) *section {
	c := &section{}
	du := (u1 - u0) / fine
	s, last := 0.0, 0.0
	for i := range fine + 1 {
		y, z := f(jet{u0 + du*float64(i), 1, 0})
		speed := math.Hypot(y.d, z.d)
		if i > 0 { // trapezoid with its end correction, order four
			s += du / 2 * (last + speed)
		}
		bow := (y.d*y.dd + z.d*z.dd) / speed
		corrected := s - du*du/12*bow
		c.y, c.z, c.s = append(c.y, y.v), append(c.z, z.v), append(c.s, corrected)
		c.th = append(c.th, math.Atan2(z.d, y.d))
		c.k = append(c.k, (y.d*z.dd-z.d*y.dd)/(speed*speed*speed))
		last = speed
	}
	start := c.s[0]
	for i := range c.s {
		c.s[i] -= start
	}
	c.finish()
	return c
}

// bent tabulates a section given by its curvature along the girth.
func bent(kappa func(s float64) float64, girth, th, y float64) *section {
	c := &section{}
	h, z, k := girth/fine, 0.0, kappa(0)
	for i := range fine + 1 {
		s := h * float64(i)
		c.y, c.z, c.s = append(c.y, y), append(c.z, z), append(c.s, s)
		c.th, c.k = append(c.th, th), append(c.k, k)
		quarter, half, next := kappa(s+h/4), kappa(s+h/2), kappa(s+h)
		mid := th + h/12*(k+4*quarter+half)
		end := th + h/6*(k+4*half+next)
		y += h / 6 * (math.Cos(th) + 4*math.Cos(mid) + math.Cos(end))
		z += h / 6 * (math.Sin(th) + 4*math.Sin(mid) + math.Sin(end))
		th, k = end, next
	}
	c.finish()
	return c
}

func between(r *rand.Rand, a, b float64) float64 { return a + (b-a)*r.Float64() }

const degree = math.Pi / 180

// hump is a bend of radius r that turns by the angle turn in all, spread like
// the bell curve about s = at.
func hump(s, at, r, turn float64) float64 {
	x := (s - at) / (turn * r / math.Sqrt(2*math.Pi))
	return math.Exp(-x*x/2) / r
}

// family is a kind of section with random dimensions: those the figures of
// the fair curve are stated for.
type family struct {
	name string
	draw func(r *rand.Rand) *section
}

var families = []family{
	{"circle", circle}, {"ellipse", ellipse}, {"superellipse", superellipse}, {"tumblehome", tumblehome},
	{"firm bilge", firmBilge}, {"hard bilge", hardBilge}, {"slack V", slackV}, {"wineglass", wineglass},
	{"flare", flare}, {"parabola", parabola}, {"cosine", cosine},
}

func circle(r *rand.Rand) *section {
	radius, turn, start := between(r, 700, 1300), between(r, 70, 95)*degree, between(r, 0, 10)*degree
	return drawn(func(u jet) (y, z jet) {
		return num(20).plus(u.sin().by(radius)), num(radius).less(u.cos().by(radius))
	}, start, start+turn)
}

func ellipse(r *rand.Rand) *section {
	a, b := between(r, 1000, 1400), between(r, 900, 1200)
	return drawn(func(u jet) (y, z jet) { return u.sin().by(a), num(b).less(u.cos().by(b)) }, 0.03, math.Pi/2)
}

func superellipse(r *rand.Rand) *section {
	a, b, m := between(r, 1000, 1400), between(r, 900, 1300), between(r, 2.3, 3.2)
	return drawn(func(u jet) (y, z jet) {
		s, c := u.sin(), u.cos()
		ray := s.by(1 / a).pow(m).plus(c.by(1 / b).pow(m)).pow(-1 / m)
		return ray.times(s), num(b).less(ray.times(c))
	}, 0.03, math.Pi/2-0.002)
}

func tumblehome(r *rand.Rand) *section {
	a, b := between(r, 1000, 1300), between(r, 600, 800)
	end := math.Pi/2 + between(r, 0.5, 0.8)
	return drawn(func(u jet) (y, z jet) { return u.sin().by(a), num(b).less(u.cos().by(b)) }, 0.05, end)
}

func firmBilge(r *rand.Rand) *section {
	girth, radius, turn := between(r, 1600, 2100), between(r, 300, 550), between(r, 55, 68)*degree
	at, round := girth*between(r, 0.45, 0.6), between(r, 0, 1)/5000
	return bent(func(s float64) float64 { return round + hump(s, at, radius, turn) },
		girth, between(r, 10, 18)*degree, 60)
}

func hardBilge(r *rand.Rand) *section {
	radius, deadrise, topside := between(r, 120, 260), between(r, 6, 14)*degree, between(r, 76, 87)*degree
	bottom, side := between(r, 800, 1200), between(r, 500, 800)
	round := (topside - deadrise) * radius
	soft := 0.06 * round
	return bent(func(s float64) float64 {
		return (math.Tanh((s-bottom)/soft) - math.Tanh((s-bottom-round)/soft)) / 2 / radius
	}, bottom+round+side, deadrise, 50)
}

// slackV is a branch of a hyperbola: nearly straight bottom and side.
func slackV(r *rand.Rand) *section {
	bottom, side, radius := between(r, 18, 28)*degree, between(r, 66, 80)*degree, between(r, 250, 500)
	half, lean := (side-bottom)/2, (side+bottom)/2
	a := radius * math.Tan(half)
	b := a * math.Tan(half)
	in, out := -between(r, 650, 900)*math.Cos(half), between(r, 700, 1000)*math.Cos(half)
	return drawn(func(u jet) (y, z jet) {
		v := num(1).plus(u.times(u).by(1 / (a * a))).pow(0.5).by(b)
		return num(1000).plus(u.by(math.Cos(lean))).less(v.by(math.Sin(lean))),
			num(500).plus(u.by(math.Sin(lean))).plus(v.by(math.Cos(lean)))
	}, in, out)
}

func wineglass(r *rand.Rand) *section {
	girth := between(r, 1700, 2200)
	hollow, bilge := between(r, 300, 600), between(r, 350, 650)
	turnIn, turnOut := between(r, 35, 50)*degree, between(r, 55, 75)*degree
	atHollow, atBilge := girth*between(r, 0.14, 0.22), girth*between(r, 0.56, 0.68)
	th, round := between(r, 68, 78)*degree, between(r, 0, 1)/6000
	return bent(func(s float64) float64 {
		return round - hump(s, atHollow, hollow, turnIn) + hump(s, atBilge, bilge, turnOut)
	}, girth, th, 60)
}

// flare is a flaring bow section: a straight line with a slow wave on it.
func flare(r *rand.Rand) *section {
	height, wave := between(r, 1100, 1500), between(r, 1.5, 2.4)
	phase, radius := between(r, 0, 2*math.Pi), between(r, 2500, 5000)
	w := 2 * math.Pi / (wave * height)
	a, lean := 1/(radius*w*w), math.Tan(between(r, 20, 35)*degree)
	return drawn(func(u jet) (y, z jet) {
		return num(60 - a*math.Sin(phase)).plus(u.by(lean)).plus(u.by(w).plus(num(phase)).sin().by(a)), u
	}, 0, height)
}

func parabola(r *rand.Rand) *section {
	breadth, height := between(r, 900, 1400), between(r, 1100, 1500)
	return drawn(func(u jet) (y, z jet) {
		e := num(1).less(u.by(1 / height))
		return num(breadth).less(e.times(e).by(breadth)), u
	}, height*between(r, 0.05, 0.12), height*between(r, 0.8, 0.95))
}

func cosine(r *rand.Rand) *section {
	a, height := between(r, 900, 1200), between(r, 1200, 1500)
	return drawn(func(u jet) (y, z jet) {
		return num(60 + a/2).less(u.by(math.Pi / height).cos().by(a / 2)), u
	}, 0, height)
}
