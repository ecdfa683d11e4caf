package area

import "math"

// Strip is what one place along the boat has: lengths and areas to one mm of x.
type Strip struct {
	Girth   float64 // mm
	Slanted float64 // the girth with the slant of the surface: the integral of the secant of the bevel along it, mm
	Section float64 // from the curve to the centreline, mm²
	MomentZ float64 // of the section about the baseline, mm³
	SecondZ float64 // its second moment about the same, mm⁴
}

// Strip of the window at x, whose bounds along the boat do not count; x is taken to the nearer end of the side.
func (d *Side) Strip(x float64, w Window) (Strip, error) {
	forward, aft := d.of.Reach()
	w.Forward, w.Aft = x, x
	if math.IsNaN(x) {
		return Strip{}, &WindowError{"x", x, x}
	}
	w, err := w.within(math.Inf(-1), math.Inf(1))
	if err != nil {
		return Strip{}, err
	}
	x = max(forward, min(aft, x))
	d.clip(x, w)
	return d.sum(x), nil
}

// sum is the strip over d.spans at x.
func (d *Side) sum(x float64) Strip {
	d.divide()
	jets := d.jets[:len(d.us)]
	for _, r := range d.runs {
		if d.whole != nil && r.panel != noPanel {
			d.whole.Along(x, r.panel*len(across.at), jets[r.from:r.to])
		} else {
			d.of.Along(x, d.us[r.from:r.to], jets[r.from:r.to])
		}
	}
	var out Strip
	for k := range jets {
		j, w := &jets[k], d.share[k]
		out.Girth += w * math.Sqrt(j.Yu*j.Yu+j.Zu*j.Zu)
		out.Slanted += w * j.AreaFactor()
		out.Section += w * j.Y * j.Zu
		out.MomentZ += w * j.Y * j.Z * j.Zu
		out.SecondZ += w * j.Y * j.Z * j.Z * j.Zu
	}
	return out
}
