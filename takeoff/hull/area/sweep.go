package area

import "sort"

// Part of the side that lies within the window. Errors are *WindowError and *OutsideError.
func (d *Side) Part(w Window) (Part, error) {
	w, err := w.within(d.of.Reach())
	if err != nil {
		return Part{}, err
	}
	var p Part
	d.sweep(w, func(x, dx float64) { p.take(x, dx, d.sum(x)) })
	return p, nil
}

// Whole is the whole side.
func (d *Side) Whole() Part {
	p, err := d.Part(Everything())
	if err != nil {
		return Part{} // the whole side is always a window
	}
	return p
}

// Waterplane of the side at the height z: the breadth between the section's own passings of it. Where the sheer lies
// below z there is no water plane; a boat is open there. A sheer no more than the grain below z counts as reaching it.
func (d *Side) Waterplane(z float64) (Plane, error) {
	w, err := Below(z).within(d.of.Reach())
	if err != nil {
		return Plane{}, err
	}
	var p Plane
	d.sweep(w, func(x, dx float64) {
		b, any := d.breadth(x, z)
		p.Area += dx * b
		p.Moment += dx * x * b
		p.Second += dx * x * x * b
		if any {
			p.Length += dx
		}
	})
	return p, nil
}

// breadth is that of the water plane at z in the section at x, whose spans below z d.spans are, mm, and whether it has one.
func (d *Side) breadth(x, z float64) (b float64, any bool) {
	for _, s := range d.spans {
		if s.from > 0 {
			b, any = b-d.at(s.from, x).Y, true
		}
		if s.to < 1 || d.at(1, x).Z >= z-d.grain {
			b, any = b+d.at(s.to, x).Y, true
		}
	}
	return b, any
}

// looksAlong is at how many places from station to station the shape of what is clipped is looked at.
const looksAlong = 6

// leastPieces is into how many pieces at least the boat is split, whatever its stations: with three stations a bay is
// half of her.
const leastPieces = 8

// sweep calls strip with every Gauss point of x and its share, d.spans being those of the window there.
func (d *Side) sweep(w Window, strip func(x, dx float64)) {
	d.split(w)
	for i := 0; i+1 < len(d.cuts); i++ {
		a, b := d.cuts[i], d.cuts[i+1]
		if !(a < b) {
			continue
		}
		each := func(t, weight float64) {
			x := a + (b-a)*t
			d.clip(x, w)
			strip(x, (b-a)*weight)
		}
		for k, t := range along.at {
			if w.unbounded() {
				each(t, along.weight[k])
				continue
			}
			// Where a height meets an end of the girth the clipped part may grow as a root does.
			for half := range 2 {
				s := (float64(half) + t) / 2
				share, slope := eased(s)
				each(share, slope*along.weight[k]/2)
			}
		}
	}
}

// split fills d.cuts: the window's ends, the stations within it, and where the shape of what is clipped changes.
func (d *Side) split(w Window) {
	d.cuts = append(d.cuts[:0], w.Forward)
	for i := 0; i+1 < len(d.stations); i++ {
		a, b := max(w.Forward, d.stations[i]), min(w.Aft, d.stations[i+1])
		if !(a < b) {
			continue
		}
		pieces := (leastPieces + len(d.stations) - 2) / (len(d.stations) - 1)
		for k := 1; k <= pieces; k++ {
			d.changes(w, a+(b-a)*float64(k-1)/float64(pieces), a+(b-a)*float64(k)/float64(pieces))
		}
		d.cuts[len(d.cuts)-1] = b // without what dividing lost
	}
	sort.Float64s(d.cuts)
}

// changes adds the places from a to b at which the shape changes, and b.
func (d *Side) changes(w Window, a, b float64) {
	if !w.unbounded() {
		was, from := d.clip(a, w), a
		for k := 1; k <= looksAlong; k++ {
			to := a + (b-a)*float64(k)/looksAlong
			is := d.clip(to, w)
			if is != was {
				d.cuts = append(d.cuts, d.change(w, from, to, was))
			}
			was, from = is, to
		}
	}
	d.cuts = append(d.cuts, b)
}

// change is where between a and b the shape stops being was, by halving.
func (d *Side) change(w Window, a, b float64, was int) float64 {
	for range 36 {
		mid := (a + b) / 2
		if d.clip(mid, w) == was {
			a = mid
		} else {
			b = mid
		}
	}
	return (a + b) / 2
}
