package hull

import "ribband/takeoff/hull/fair"

// Girth from rabbet to sheer, mm.
func (c *Chain) Girth() float64 { return c.girth }

// girthRange adds the pieces' own ranges end to end, as if all erred the same way: no less than nine in ten, whatever
// they have in common, and too wide where they err apart. A chain of one piece has that piece's.
func (c *Chain) girthRange() fair.Range {
	if len(c.pieces) == 1 {
		return c.pieces[0].quality.Girth
	}
	var sum fair.Range
	for i := range c.pieces {
		p := &c.pieces[i]
		sum.Low += p.quality.Girth.Low * p.scale
		sum.High += p.quality.Girth.High * p.scale
	}
	return sum
}

// radius is the range of the tightest of the bends that of picks in each piece: any piece may hold it, so each end is
// the least of the pieces' ends.
func (c *Chain) radius(of func(*fair.Quality) fair.Range) fair.Range {
	r := of(c.pieces[0].quality)
	for i := range c.pieces[1:] {
		o := of(c.pieces[i+1].quality)
		r.Low, r.High = min(r.Low, o.Low), min(r.High, o.High)
	}
	return r
}

func ofBilge(q *fair.Quality) fair.Range  { return q.Bilge.Radius }
func ofHollow(q *fair.Quality) fair.Range { return q.Hollow.Radius }
func ofLeast(q *fair.Quality) fair.Range  { return q.Least.Radius }

// straight says that every piece is.
func (c *Chain) straight() bool {
	for i := range c.pieces {
		if !c.pieces[i].curve.Straight() {
			return false
		}
	}
	return true
}

func (c *Chain) settled() bool {
	for i := range c.pieces {
		if !c.pieces[i].curve.Settled() {
			return false
		}
	}
	return true
}

// sharp says that the least radius is good to a tenth: that of the tightest piece is, and no other may be tighter.
func (c *Chain) sharp() bool {
	tightest := 0
	for i := range c.pieces {
		if c.pieces[i].quality.Least.Radius.High < c.pieces[tightest].quality.Least.Radius.High {
			tightest = i
		}
	}
	q := c.pieces[tightest].quality
	for i := range c.pieces {
		o := c.pieces[i].quality
		if !o.Sharp && (i == tightest || o.Least.Radius.Low < q.Least.Radius.High) {
			return false
		}
	}
	return true
}

// unshown are the bends of a station that its points do not show, and the pieces of which only the ends are known.
func (c *Chain) unshown(station int) []Unshown {
	var out []Unshown
	for i := range c.pieces {
		p := &c.pieces[i]
		switch q := p.quality; {
		case q.Few == 2:
			out = append(out, Unshown{Station: station, Mid: p.before + p.girth/2, Straight: between(c.name(i-1), c.name(i))})
		case q.Least.Unresolved():
			mid := q.Least.Mid
			if p.moved {
				mid = p.before + mid*p.scale
			}
			out = append(out, Unshown{Station: station, Mid: mid})
		}
	}
	return out
}

// Heard adds what every piece says of how its points were read.
func (c *Chain) Heard(r *fair.Reading) {
	for i := range c.pieces {
		r.Add(c.pieces[i].quality)
	}
}
