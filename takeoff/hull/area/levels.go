package area

import (
	"math"

	"ribband/takeoff/hull"
)

// levels are the level lines at one end of a side. t is how far out of the end station a place lies, mm, negative within
// the first bay.
type levels struct {
	of      *Side
	end     float64 // x of the end station
	out     float64 // -1 forward, 1 aft
	bay     float64 // mm
	line    *Line
	transom bool
	round   bool
	// straight takes level lines straight from the end station to the line, or on from the first bay.
	straight bool

	low, sheer  float64 // of the end station
	head, reach float64 // the line's highest place: height, and how far out it lies
	foot        float64 // the rabbet's half-breadth

	// Of one height: how far out the line lies, and its slope; the half-breadths at t = 0, -bay/2, -bay and how they grow
	// with height, or their squares.
	far, farZ float64
	w, wz     [3]float64
}

func (d *Side) levels(e Ending) (*levels, error) {
	line, err := NewLine(e.Line)
	if err != nil {
		return nil, err
	}
	n := len(d.stations)
	l := &levels{of: d, end: d.stations[0], out: -1, bay: d.stations[1] - d.stations[0], line: line, transom: e.Transom}
	if e.Aft {
		l.end, l.out, l.bay = d.stations[n-1], 1, d.stations[n-1]-d.stations[n-2]
	}
	rabbet, sheer := d.at(0, l.end), d.at(1, l.end)
	l.low, l.sheer, l.foot = rabbet.Z, sheer.Z, rabbet.Y
	last := e.Line[len(e.Line)-1]
	l.head, l.reach = max(l.low, last.Z), l.t(last.X)
	if !(l.sheer > l.low) {
		return nil, &LineError{"the end station's sheer does not lie above its rabbet, so no level lines run from it"}
	}
	return l, nil
}

func (l *levels) t(x float64) float64 { return (x - l.end) * l.out }
func (l *levels) x(t float64) float64 { return l.end + t*l.out }

// bounds are how far in and out the level line at z runs, within the sheer's straight line. For a transom to may be less
// than from.
func (l *levels) bounds(z float64) (from, to float64) {
	to = l.far
	switch {
	case z > l.sheer && l.head > l.sheer:
		from = l.reach * (z - l.sheer) / (l.head - l.sheer)
	case z > l.head && l.sheer > l.head:
		to = min(to, l.reach*(l.sheer-z)/(l.sheer-l.head))
	}
	return from, to
}

// set takes the level lines at the height z.
func (l *levels) set(z float64) {
	x, slope := l.line.At(z)
	l.far, l.farZ = l.t(x), slope*l.out
	for i := range l.w {
		y, yz := l.half(l.x(-l.bay*float64(i)/2), z)
		l.w[i], l.wz[i] = y, yz
		if !l.transom {
			l.w[i] -= l.foot
		}
		if l.round && !l.straight {
			l.wz[i] *= 2 * l.w[i]
			l.w[i] *= l.w[i]
		}
	}
}

// half is the half-breadth at the height z in the section at x, where the section passes it last, and how it grows with
// height. Above the sheer the section runs on straight, below its lowest place the half-breadth is that of the rabbet.
func (l *levels) half(x, z float64) (y, slope float64) {
	d := l.of
	d.look(x)
	if z < d.heights[looks] {
		for i := looks - 1; i >= 0; i-- {
			if d.heights[i] <= z {
				j := d.at(d.pass(x, i, z), x)
				return j.Y, steep(&j)
			}
		}
		return d.at(0, x).Y, 0
	}
	top := d.at(1, x)
	slope = steep(&top)
	return top.Y + slope*(z-top.Z), slope
}

// steep is how the half-breadth grows with height; flat sections have no such figure, and are held at a great one.
func steep(j *hull.Jet) float64 {
	const flat = 1e4
	s := j.Yu / j.Zu
	if math.IsNaN(s) {
		return 0
	}
	return max(-flat, min(flat, s))
}

// place is the half-breadth at t on the level line set, and its slopes outwards and upwards.
func (l *levels) place(t float64) (y, yt, yz float64) {
	h := l.bay / 2
	if l.straight {
		return l.chord(t)
	}
	// Lagrange's polynomials of the three places within, and their slopes.
	base := [3]float64{(t + h) * (t + 2*h) / (2 * h * h), -t * (t + 2*h) / (h * h), t * (t + h) / (2 * h * h)}
	rise := [3]float64{(2*t + 3*h) / (2 * h * h), -(2*t + 2*h) / (h * h), (2*t + h) / (2 * h * h)}
	if l.transom {
		for i := range base {
			y, yt, yz = y+base[i]*l.w[i], yt+rise[i]*l.w[i], yz+base[i]*l.wz[i]
		}
		return y, yt, yz
	}
	// Through the line too: a factor that is nothing there and 1 at each place within.
	var w, wt, wz float64
	for i := range base {
		gap := -h*float64(i) - l.far
		f := (t - l.far) / gap
		fz := l.farZ * (-1/gap + (t-l.far)/(gap*gap))
		w += base[i] * f * l.w[i]
		wt += (rise[i]*f + base[i]/gap) * l.w[i]
		wz += base[i] * (f*l.wz[i] + fz*l.w[i])
	}
	if !l.round {
		return l.foot + w, wt, wz
	}
	r := math.Sqrt(max(w, 1e-12))
	return l.foot + r, wt / (2 * r), wz / (2 * r)
}

// chord is place on a straight line.
func (l *levels) chord(t float64) (y, yt, yz float64) {
	if l.transom {
		h := l.bay / 2
		return l.w[0] + (l.w[0]-l.w[1])*t/h, (l.w[0] - l.w[1]) / h, l.wz[0] + (l.wz[0]-l.wz[1])*t/h
	}
	f := 1 - t/l.far
	return l.foot + f*l.w[0], -l.w[0] / l.far, f*l.wz[0] + t*l.farZ/(l.far*l.far)*l.w[0]
}

// judge decides whether the ending is round, by all heights weighed with their breadth, and gives how far out the line
// lies at most, in the greatest of the stations' spacings.
func (l *levels) judge() (far float64) {
	const heights = 16
	run, chord, wide := 0.0, 0.0, l.bay
	for i, x := range l.of.stations[1:] {
		wide = max(wide, x-l.of.stations[i])
	}
	for i := range heights {
		z := l.low + (l.sheer-l.low)*(float64(i)+0.5)/heights
		l.set(z)
		far = max(far, l.far/wide)
		if l.far <= 0 {
			continue
		}
		h := l.bay / 2
		run -= (3*l.w[0] - 4*l.w[1] + l.w[2]) / (2 * h) * l.far
		chord += l.w[0]
	}
	l.round = run < RoundBelow*chord
	return far
}
