package hull

import "math"

// length is the girth of piece k of the section up to its step n, an even number, by Simpson's first rule on the
// tabulated speed: exact at a station, where the speed is one all along the piece.
func (s *Section) length(k, n int) float64 {
	g := s.surface.grid
	row := s.row[g.first[k]:]
	sum := 0.0
	for i := 0; i+2 <= n; i += 2 {
		sum += row[i].speed() + 4*row[i+1].speed() + row[i+2].speed()
	}
	return sum * g.width(k) / float64(3*g.n[k])
}

// before is the girth below piece k, mm.
func (s *Section) before(k int) float64 {
	sum := 0.0
	for i := range k {
		sum += s.length(i, s.surface.grid.n[i])
	}
	return sum
}

// along is the girth from the rabbet to the fraction u, mm.
func (s *Section) along(u float64) float64 {
	g := s.surface.grid
	k := g.below(u)
	n := max(0, min(g.n[k], int((u-g.knots[k])/g.width(k)*float64(g.n[k]))/2*2))
	from := g.at(k, n)
	mid, end := s.jetIn(k, (from+u)/2), s.jetIn(k, u)
	return s.before(k) + s.length(k, n) + (u-from)*(s.row[g.first[k]+n].speed()+4*mid.speed()+end.speed())/6
}

// tightest are the bends of the greatest curvature of each sign. The curvature between stations is smooth but for
// corners at the cells of the stations' curves; the greatest tabulated value is bettered by a golden-section search
// between its neighbours, which needs no smoothness.
func (s *Section) tightest() (bilge, hollow Bend) {
	var most, least float64
	mostAt, leastAt := -1, -1
	for i := range s.row {
		k := s.row[i].kappa()
		if k > most {
			most, mostAt = k, i
		}
		if k < least {
			least, leastAt = k, i
		}
	}
	hollow.Hollow = true
	s.sharpen(&bilge, 1, most, mostAt)
	s.sharpen(&hollow, -1, -least, leastAt)
	return bilge, hollow
}

// sharpen finds the very peak near the cut at; there is none where at is negative.
func (s *Section) sharpen(b *Bend, sign, kappa float64, at int) {
	if at < 0 {
		return
	}
	g := s.surface.grid
	in := g.of(at)
	step := at - g.first[in]
	b.Kappa, b.U = kappa, g.at(in, step)
	if !math.IsInf(kappa, 0) {
		k := func(u float64) float64 { j := s.jetIn(in, u); return sign * j.kappa() }
		if u, v := peak(k, g.at(in, max(0, step-1)), g.at(in, min(g.n[in], step+1))); v > kappa {
			b.Kappa, b.U = v, u
		}
	}
	b.S = s.along(b.U)
}

// peak is where f is greatest between a and b, to a ten-thousandth of a cut, if it rises to one place and falls.
func peak(f func(float64) float64, a, b float64) (at, value float64) {
	const golden = 0.6180339887498949
	p, q := b-golden*(b-a), a+golden*(b-a)
	fp, fq := f(p), f(q)
	for range 20 {
		if fp > fq {
			b, q, fq = q, p, fp
			p = b - golden*(b-a)
			fp = f(p)
		} else {
			a, p, fp = p, q, fq
			q = a + golden*(b-a)
			fq = f(q)
		}
	}
	if fp > fq {
		return p, fp
	}
	return q, fq
}
