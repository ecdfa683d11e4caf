package hull

import "math"

// length is the girth up to the cut n, an even number, by Simpson's first rule on the tabulated speed: exact at a
// station, where the speed is the girth all along.
func (s *Section) length(n int) float64 {
	sum := 0.0
	for i := 0; i+2 <= n; i += 2 {
		sum += s.row[i].speed() + 4*s.row[i+1].speed() + s.row[i+2].speed()
	}
	return sum / (3 * cuts)
}

// along is the girth from the rabbet to the fraction u, mm.
func (s *Section) along(u float64) float64 {
	n := min(cuts, int(u*cuts)/2*2)
	from := float64(n) / cuts
	mid := s.jet((from + u) / 2).speed()
	return s.length(n) + (u-from)*(s.row[n].speed()+4*mid+s.jet(u).speed())/6
}

// tightest is the bend of the greatest curvature of one sign: 1 for a bilge, -1 for a hollow. The curvature
// between stations is smooth but for corners at the cells of the stations' curves; the greatest tabulated value is
// bettered by a golden-section search between its neighbours, which needs no smoothness.
func (s *Section) tightest(sign float64) Bend {
	best, at := 0.0, -1
	for i := range s.row {
		if k := sign * s.row[i].kappa(); k > best {
			best, at = k, i
		}
	}
	if at < 0 {
		return Bend{}
	}
	b := Bend{Kappa: best, U: float64(at) / cuts}
	if !math.IsInf(best, 0) {
		k := func(u float64) float64 { return sign * s.jet(u).kappa() }
		if u, v := peak(k, float64(max(0, at-1))/cuts, float64(min(cuts, at+1))/cuts); v > b.Kappa {
			b.Kappa, b.U = v, u
		}
	}
	b.S = s.along(b.U)
	return b
}

// peak is where f is greatest between a and b, to a millionth of a cut, if it rises to one place and falls.
func peak(f func(float64) float64, a, b float64) (at, value float64) {
	const golden = 0.6180339887498949
	p, q := b-golden*(b-a), a+golden*(b-a)
	fp, fq := f(p), f(q)
	for range 24 {
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
