package hull

import (
	"fmt"
	"math"

	"ribband/takeoff/boat"
	"ribband/takeoff/hull/fair"
	"ribband/takeoff/quantity"
)

// Laid is the line of a bent frame that lies flat on the planking: its heel at X, its head Run farther aft, and between
// them as far aft as it has gone up the girth, by the u of Section.At. It bends and twists with the planks, so nothing is
// left to bevel.
type Laid struct {
	X, Run float64 // mm
	Side   boat.Side
	// Near, Points, Sharp, Doubtful and Unshown are as of a Section: what stations it rests on, and how well.
	Near     []int
	Points   int
	Sharp    bool
	Doubtful bool
	Unshown  []Unshown
	Length   Reading // its own, along the planks from heel to head
	// Bilge and Hollow are the tightest bends of its laminates: the curvature of the planking along the line, which is that
	// of its plane section times the cosine of the bevel. Their S is along the line.
	Bilge, Hollow Bend
	Straight      bool
	// Twist is how far its faying face turns about the line from heel to head, radians, positive where it comes to look
	// aft. The turn at a knuckle is none of it.
	Twist float64
	// Sweep is how much wider than the frame a straight blank has to be, mm: how far the line, with the planking unrolled
	// to the flat, stands off the straight from heel to head, both ways together. A laminate does not bend edgewise.
	Sweep float64
	// Knuckles of the planking that it crosses, with the angle that it turns there.
	Knuckles []Knuckle

	surface     *surface
	first, last int    // of the surface's stations
	spots       []spot // at every cut
}

// Laid is the line of a frame that lies flat on one side. Without run it follows the square section at x, and bends less
// than that by the cosine of the bevel. Errors are *OutsideError, *ReachError, *SideError, and a *PlaneError for one that
// runs along the planks rather than across them.
func (h *Hull) Laid(x, run float64, side boat.Side) (*Laid, error) {
	f, err := h.side(side)
	if err != nil {
		return nil, err
	}
	w := f.weights
	forward, aft := w.x[0], w.x[len(w.x)-1]
	_, _, within := w.near(x)
	switch {
	case !within || math.IsNaN(x):
		return nil, &OutsideError{x, forward, aft}
	case math.IsNaN(run) || math.IsInf(run, 0):
		return nil, &PlaneError{fmt.Sprintf("a run of %v mm is no length", run)}
	}
	low, high := min(x, x+run), max(x, x+run)
	if low < forward-samePlace || high > aft+samePlace {
		return nil, &ReachError{low, high, forward, aft}
	}
	l := &Laid{X: x, Run: run, Side: side, surface: f}
	for k := range f.grid.last() + 1 {
		l.spots = append(l.spots, l.spot(f.at(k, w.counting(x+run*f.grid.u(k)))))
	}
	l.Length.MM = l.to(f.grid.pieces())
	if math.Abs(run) > l.Length.MM*math.Sin(MaxLean) {
		return nil, &PlaneError{"a frame whose head is run so far along the boat lies along the planks rather than across them"}
	}
	first, _, _ := w.near(low)
	_, last, _ := w.near(high)
	l.rests(h, first, last)
	l.ranges(first, last)
	l.corners()
	l.unroll()
	return l, nil
}

// rests notes what stations it rests on, as a section between them.
func (l *Laid) rests(h *Hull, first, last int) {
	s := Section{surface: l.surface}
	s.rests(h, first, last)
	l.Near, l.Points, l.Sharp, l.Doubtful, l.Unshown = s.Near, s.Points, s.Sharp, s.Doubtful, s.Unshown
	l.first, l.last = first, last
}

// spot is a place of the line: the speed, mm to one of u; the curvature across the planking, positive where the centre
// lies inboard, and that in the planking, positive where it turns aft, 1/mm; and how fast the faying face turns aft, 1/mm.
type spot struct{ speed, bend, edge, twist float64 }

// spot of a place of the surface. With v = r_u + run r_x along the line and w square to it in the surface, as long and
// aft of it, the curvatures are r" . n and r" . w / |v| over v2, and the normal turns by -II(v, w) / v2.
func (l *Laid) spot(p place2) spot {
	c := l.Run
	e, f, g := p.Yu*p.Yu+p.Zu*p.Zu, p.Yu*p.Yx+p.Zu*p.Zx, 1+p.Yx*p.Yx+p.Zx*p.Zx
	v2 := e + 2*c*f + c*c*g
	area := math.Sqrt(max(0, e*g-f*f))
	if !(area > 0) || !(v2 > 0) {
		return spot{speed: math.Sqrt(max(0, v2)), bend: math.Inf(1)} // no timber bends to a point
	}
	_, ny, nz := p.Normal()
	uu, ux, xx := ny*p.Yuu+nz*p.Zuu, ny*p.Yux+nz*p.Zux, ny*p.Yxx+nz*p.Zxx
	wu, wx := -(f+c*g)/area, (e+c*f)/area
	y2, z2 := p.Yuu+c*(2*p.Yux+c*p.Yxx), p.Zuu+c*(2*p.Zux+c*p.Zxx)
	return spot{
		speed: math.Sqrt(v2),
		bend:  -(uu + c*(2*ux+c*xx)) / v2,
		edge:  (y2*(wu*p.Yu+wx*p.Yx) + z2*(wu*p.Zu+wx*p.Zx)) / (v2 * math.Sqrt(v2)),
		twist: -(uu*wu + ux*(wx+c*wu) + xx*c*wx) / v2,
	}
}

// in is the spot at u taken in piece k.
func (l *Laid) in(k int, u float64) spot {
	f := l.surface
	js := make([]jet, len(f.curves))
	for i, c := range f.curves {
		js[i] = f.grid.jet(c, k, u)
	}
	return l.spot(sum(f.weights.counting(l.X+l.Run*u), func(i int) *jet { return &js[i] }))
}

// piece of the line between two knuckles, a value at each of its cuts; apart is their distance in u.
func (l *Laid) piece(k int, of func(spot) float64) (values []float64, apart float64) {
	g := l.surface.grid
	for _, s := range l.spots[g.first[k] : g.first[k]+g.n[k]+1] {
		values = append(values, of(s))
	}
	return values, g.width(k) / float64(g.n[k])
}

// to is the length below piece k, mm.
func (l *Laid) to(k int) float64 {
	sum := 0.0
	for i := range k {
		v, apart := l.piece(i, func(s spot) float64 { return s.speed })
		c := cumulated(v, apart)
		sum += c[len(c)-1]
	}
	return sum
}

// cumulated is the integral up to every one of values so far apart, an odd number of three or more: each span by the
// parabola through its ends and the next value, and together Simpson's rule.
func cumulated(v []float64, apart float64) []float64 {
	out := make([]float64, len(v))
	for i := 0; i+2 < len(v); i += 2 {
		out[i+1] = out[i] + apart*(5*v[i]+8*v[i+1]-v[i+2])/12
		out[i+2] = out[i] + apart*(v[i]+4*v[i+1]+v[i+2])/3
	}
	return out
}

// ranges finds the bends, with the ranges that the stations from first to last give.
func (l *Laid) ranges(first, last int) {
	l.Hollow.Hollow = true
	l.tightest(&l.Bilge, 1)
	l.tightest(&l.Hollow, -1)
	length := l.Length.MM
	l.Length.Low, l.Length.High = length, length
	for i := first; i <= last; i++ {
		c := l.surface.curves[i]
		r := c.girthRange()
		l.Length.Low, l.Length.High = min(l.Length.Low, length*r.Low/c.girth), max(l.Length.High, length*r.High/c.girth)
		bilge, hollow := c.peaks()
		l.Bilge.take(bilge.kappa, c.radius(ofBilge))
		l.Hollow.take(hollow.kappa, c.radius(ofHollow))
	}
	for _, b := range [...]*Bend{&l.Bilge, &l.Hollow} {
		b.leave(l.surface.bendBetween(b.U, l.X+l.Run*b.U), len(l.surface.curves))
	}
	between := 0.0
	for _, x := range [...]float64{l.X, l.X + l.Run/2, l.X + l.Run} {
		between = max(between, l.surface.girthBetween(x))
	}
	l.Length.Low, l.Length.High = max(0, l.Length.Low-between), l.Length.High+between
	l.Straight = quantity.Snap(max(l.Bilge.Kappa, l.Hollow.Kappa)*length) < straight
}

func (l *Laid) tightest(b *Bend, sign float64) {
	g, at := l.surface.grid, -1
	for i, s := range l.spots {
		if sign*s.bend > b.Kappa {
			b.Kappa, at = sign*s.bend, i
		}
	}
	if at >= 0 {
		k := g.of(at)
		step := at - g.first[k]
		b.U = g.at(k, step)
		if !math.IsInf(b.Kappa, 0) {
			of := func(u float64) float64 { return sign * l.in(k, u).bend }
			if u, v := peak(of, g.at(k, max(0, step-1)), g.at(k, min(g.n[k], step+1))); v > b.Kappa {
				b.Kappa, b.U = v, u
			}
		}
		b.S = l.along(k, b.U)
	}
	b.radius = exactly(b.Kappa)
}

// along is the length up to u in piece k, mm.
func (l *Laid) along(k int, u float64) float64 {
	g := l.surface.grid
	v, apart := l.piece(k, func(s spot) float64 { return s.speed })
	n := max(0, min(g.n[k], int((u-g.knots[k])/apart)))
	from := g.at(k, n)
	return l.to(k) + cumulated(v, apart)[n] + (u-from)*(v[n]+4*l.in(k, (from+u)/2).speed+l.in(k, u).speed)/6
}

// Least is the tightest bend of either way, as Section.Least.
func (l *Laid) Least() Bend {
	if l.Straight {
		return Bend{radius: fair.Range{Low: min(l.Bilge.radius.Low, l.Hollow.radius.Low), High: math.Inf(1)}}
	}
	if l.Hollow.Kappa > l.Bilge.Kappa {
		return l.Hollow
	}
	return l.Bilge
}
