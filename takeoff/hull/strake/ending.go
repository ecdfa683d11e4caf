package strake

import (
	"fmt"
	"math"

	"gonum.org/v1/gonum/interp"

	"ribband/takeoff/hull"
	"ribband/takeoff/hull/area"
)

// HoodError says why strakes cannot be carried on to a line beyond an end station, and what would be right.
type HoodError struct {
	Aft         bool
	Detail, Fix string
}

func (e *HoodError) Error() string { return e.Detail }

// How far a line may stand off; assumptions, no source.
const (
	// lineSlack is how far within the end station a stem may stand, mm, and count as at it: an eighth of an inch, which
	// tables are written to.
	lineSlack = 25.4 / 8
	// nothing is what is so short that no plank is cut to it, mm.
	nothing = 0.5
	// stemReach is how far a stem may stand beyond the end station, of the stations' whole length; transomBays how far a
	// transom may, in bays, for beyond them no parabola tells how planks run.
	stemReach   = 0.5
	transomBays = 2
	// ways is at how many places of the girth or the line an ending is looked at.
	ways = 64
)

// ending is one end of a side to which strakes are carried on, beyond the end station or short of it. Of every u there is a
// ray: it leaves the end station at the surface's slope. To a stem it is a parabola in height that lands on the line, and in
// half-breadth one that closes on the half-breadth of the rabbet; where level lines come in square to the stem, the square
// of the half-breadth is the parabola, as package area has it. Where rays land on the stem lies midway between two ways: as
// they divide the end station's girth, so that hood ends share the rabbet as the strakes share the girth (common practice,
// no source), and where the slope that they leave the station with takes them. The first alone gives planks a hook where
// rabbet and stem are raked, the second alone leaves the uppermost no width there. To a transom a ray runs on as a parabola
// until it meets the line.
type ending struct {
	of            Surface
	aft, transom  bool
	x0, out, bay  float64 // the end station, -1 forward and 1 aft, the end bay
	in            float64 // how far within the end station the last cut square to the boat stands, mm
	line          *area.Line
	low, high     float64 // of the end station
	head, foot    float64 // the line's highest place, the rabbet's half-breadth
	most          float64 // how far out the line stands at most
	round         bool
	straight      bool // rays are straight: what the ranges compare with
	level         bool // heights run straight to where they land, for otherwise rays would cross
	hold          bool // edges keep their share of the girth, for going on as they ran they would cross
	girth, height []float64
	known         map[float64]*ray
	lands         interp.FritschButland
}

// ray is one u carried on; far is how far out of the end station it meets the line, at the height end.
type ray struct {
	hull.Jet
	u, far, end float64
	y2, z2      float64 // second derivatives outwards, of a transom
}

// newEnding is nil where there is no line, or where it stands at the end station itself.
func newEnding(s Surface, a area.Ending) (*ending, error) {
	line, err := area.NewLine(a.Line)
	if err != nil {
		return nil, &HoodError{a.Aft, err.Error(), "give two places of the line or more, from the lowest up"}
	}
	st := s.Stations()
	n := len(st)
	e := &ending{of: s, aft: a.Aft, transom: a.Transom, x0: st[0], out: -1, bay: st[1] - st[0], line: line, known: map[float64]*ray{}}
	if a.Aft {
		e.x0, e.out, e.bay = st[n-1], 1, st[n-1]-st[n-2]
	}
	foot, top := e.jet(0, e.x0), e.jet(1, e.x0)
	e.low, e.high, e.foot, e.head = foot.Z, top.Z, foot.Y, a.Line[len(a.Line)-1].Z
	if !a.Transom {
		err = e.stem(a.Line, st[n-1]-st[0])
	} else {
		err = e.cutOff()
	}
	if err != nil || e.most+e.in < nothing {
		return nil, err
	}
	return e, nil
}

func (e *ending) jet(u, x float64) hull.Jet {
	var one [1]hull.Jet
	e.of.Along(x, []float64{u}, one[:])
	return one[0]
}

func (e *ending) t(x float64) float64 { return (x - e.x0) * e.out }

// standing is how far out the line stands at a height, not within the end station.
func (e *ending) standing(z float64) float64 { x, _ := e.line.At(z); return max(0, e.t(x)) }

// stem looks at a stem's line.
func (e *ending) stem(places []area.Profile, length float64) error {
	if !(e.head > e.low) || !(e.high > e.low) {
		return &HoodError{e.aft, fmt.Sprintf("the stem's highest place, %.0f mm, does not lie above the end station's rabbet at %.0f mm", e.head, e.low), "measure the stem up to where the sheer ends"}
	}
	for _, p := range places {
		if t := e.t(p.X); p.Z > e.low && t < -lineSlack {
			return &HoodError{e.aft, fmt.Sprintf("the stem stands %.0f mm within the end station at the height %.0f mm", -t, p.Z), "check the heights and places of the stem's line; the end station stands short of it"}
		}
	}
	e.girth, e.height = make([]float64, ways+1), make([]float64, ways+1)
	was, at := e.jet(0, e.x0), e.standing(e.low)
	for i := 1; i <= ways; i++ {
		v := float64(i) / ways
		j, t := e.jet(v, e.x0), e.standing(e.low+(e.head-e.low)*v)
		e.girth[i] = e.girth[i-1] + math.Hypot(j.Y-was.Y, j.Z-was.Z)
		e.height[i] = e.height[i-1] + math.Hypot(t-at, (e.head-e.low)/ways)
		was, at, e.most = j, t, max(e.most, at, t)
	}
	if !(e.girth[ways] > 0) || math.IsInf(e.girth[ways]+e.height[ways], 0) {
		return &HoodError{e.aft, "the end station has no girth that could be carried on", "check the end station"}
	}
	if !(e.most <= stemReach*length) {
		return &HoodError{e.aft, fmt.Sprintf("the stem stands %.0f mm beyond the end station, of stations %.0f mm long in all", e.most, length), "measure a station nearer to the stem, or check its line"}
	}
	if err := e.land(); err != nil {
		return err
	}
	run, chord := 0.0, 0.0
	for i := range 16 {
		r := e.ray((float64(i) + .5) / 16)
		if y := r.Y - e.foot; r.far > 0 && y > 0 {
			run, chord = run-e.out*r.Yx*r.far, chord+y
		}
	}
	e.round = run < area.RoundBelow*chord
	e.level = e.crossed()
	return nil
}

// crossed says whether rays that rise one above the other at the end station cease to on their way.
func (e *ending) crossed() bool {
	for _, q := range []float64{.25, .5, .75} {
		was, _ := e.at(e.ray(0), q)
		for i := 1; i <= 16; i++ {
			a, b := e.ray(float64(i-1)/16), e.ray(float64(i)/16)
			p, _ := e.at(b, q)
			if b.Z > a.Z && p.z < was.z {
				return true
			}
			was = p
		}
	}
	return false
}

// cutOff looks at a transom's line.
func (e *ending) cutOff() error {
	least := math.Inf(1)
	for i := range ways + 1 {
		r := e.ray(float64(i) / ways)
		if math.IsNaN(r.far) {
			return &HoodError{e.aft, fmt.Sprintf("planks that run on from the end station do not meet the transom within %d bays", transomBays), "check the transom's line, or measure a station nearer to it"}
		}
		least, e.most = min(least, r.far), max(e.most, r.far)
	}
	if least < -nothing {
		e.in = -least + 0.02*e.bay // a little more than the places looked at say
	}
	return nil
}

// ray of a u; they are kept.
func (e *ending) ray(u float64) *ray {
	if r, is := e.known[u]; is {
		return r
	}
	r := &ray{Jet: e.jet(u, e.x0), u: u}
	if e.transom {
		h := e.bay / 2
		a, b := e.jet(u, e.x0-e.out*h), e.jet(u, e.x0-2*e.out*h)
		r.y2, r.z2 = (r.Y-2*a.Y+b.Y)/(h*h), (r.Z-2*a.Z+b.Z)/(h*h)
		r.far = e.meets(r)
	} else {
		r.end = e.landing(u)
		r.far = e.standing(r.end)
	}
	e.known[u] = r
	return r
}

// landings is at how many places of the girth it is worked out where rays land; between them it runs smooth and rising.
const landings = 16

// land finds where rays land.
func (e *ending) land() error {
	us, zs := make([]float64, landings+1), make([]float64, landings+1)
	run := e.low
	for i := range us {
		us[i] = float64(i) / landings
		j := e.jet(us[i], e.x0)
		run = max(run, e.other(&j))
		switch i {
		case 0:
			run = e.low
		case landings:
			run = e.head
		}
		zs[i] = (e.shared(us[i]) + run) / 2
	}
	if err := e.lands.Fit(us, zs); err != nil {
		return &HoodError{e.aft, "no fair run of hood ends: " + err.Error(), "check the end station and the line of the stem"}
	}
	return nil
}

// landing is the height at which a ray lands on a stem.
func (e *ending) landing(u float64) float64 {
	return max(e.low, min(e.head, e.lands.Predict(max(0, min(1, u)))))
}

// shared is the height on the stem that divides it as u divides the end station's girth.
func (e *ending) shared(u float64) float64 {
	v := max(0, min(1, u)) * ways
	i := min(ways-1, int(v))
	share := (e.girth[i] + (e.girth[i+1]-e.girth[i])*(v-float64(i))) / e.girth[ways] * e.height[ways]
	k := 1
	for k < ways && e.height[k] < share {
		k++
	}
	part := (share - e.height[k-1]) / (e.height[k] - e.height[k-1])
	return e.low + (e.head-e.low)*(float64(k-1)+part)/ways
}

// other is where a ray would land if it kept the slope that it leaves the end station with; where that meets no line,
// as high between foot and head as it is between rabbet and sheer.
func (e *ending) other(r *hull.Jet) float64 {
	g := func(t float64) float64 { return t - e.standing(r.Z+e.out*r.Zx*t) }
	if to := e.most; g(to) >= 0 {
		t := halve(g, 0, to)
		if z := r.Z + e.out*r.Zx*t; z >= e.low && z <= e.head {
			return z
		}
	}
	return e.low + (e.head-e.low)*max(0, min(1, (r.Z-e.low)/(e.high-e.low)))
}

// meets is how far out a ray meets a transom, NaN where it does not.
func (e *ending) meets(r *ray) float64 {
	g := func(t float64) float64 {
		_, z := e.on(r, t)
		x, _ := e.line.At(z)
		return t - e.t(x)
	}
	lo, hi := -transomBays*e.bay, transomBays*e.bay
	forward, aft := e.of.Reach()
	lo = max(lo, -(aft-forward)/2)
	if !(g(lo) < 0 && g(hi) > 0) {
		return math.NaN()
	}
	return halve(g, lo, hi)
}

// halve is where g stops being below 0 between a and b.
func halve(g func(float64) float64, a, b float64) float64 {
	for range 60 {
		if m := (a + b) / 2; g(m) < 0 {
			a = m
		} else {
			b = m
		}
	}
	return (a + b) / 2
}

// on is a transom's ray at t out of the end station.
func (e *ending) on(r *ray, t float64) (y, z float64) {
	if t < 0 {
		j := e.jet(r.u, e.x0+e.out*t)
		return j.Y, j.Z
	}
	bend := t * t / 2
	if e.straight {
		bend = 0
	}
	return r.Y + e.out*r.Yx*t + r.y2*bend, r.Z + e.out*r.Zx*t + r.z2*bend
}

// steepest a ray may fall faster than its chord to the line, so that it does not run through the middle line.
const steepest = 0.9

// at is the place of a ray at the part q of its way to the line, and how far out of the end station it stands.
func (e *ending) at(r *ray, q float64) (p point3, t float64) {
	t = (r.far+e.in)*q - e.in
	if e.transom {
		y, z := e.on(r, t)
		return point3{e.x0 + e.out*t, y, z}, t
	}
	w, yt, zt := r.Y-e.foot, e.out*r.Yx*r.far, e.out*r.Zx*r.far
	z := r.Z + (r.end-r.Z)*q
	if !e.straight && !e.level {
		z = r.Z + zt*q + (r.end-r.Z-zt)*q*q
	}
	switch {
	case e.straight:
		w *= 1 - q
	case e.round && w > 0:
		w = w * math.Sqrt((1-q)*(1+max(-steepest, 1+2*yt/w)*q))
	default:
		w = (1 - q) * (w + within(w+yt, w)*q)
	}
	return point3{e.x0 + e.out*t, e.foot + w, z}, t
}

// within holds v above what takes a ray through the middle line.
func within(v, w float64) float64 {
	if w > 0 {
		return max(v, -steepest*w)
	}
	return v
}
