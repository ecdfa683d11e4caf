package hull

// place2 is a place of the surface with all its first and second derivatives.
type place2 struct {
	Jet
	Yux, Zux, Yxx, Zxx float64
}

// counting is how much a station counts at a place, and the first and second derivatives of that by x.
type counting struct{ at, slope, second float64 }

// counting of every station at x.
func (w *weights) counting(x float64) []counting {
	out := make([]counting, len(w.x))
	for i := range out {
		out[i].at, out[i].slope = w.one(i, x)
		out[i].second = w.second(i, x)
	}
	return out
}

// sum is the surface's place at which stations count so much, of the jets that their own curves have at one fraction of
// the girth.
func sum(count []counting, of func(i int) *jet) place2 {
	var p place2
	for i, c := range count {
		j := of(i)
		p.Y += c.at * j.y
		p.Z += c.at * j.z
		p.Yu += c.at * j.yu
		p.Zu += c.at * j.zu
		p.Yuu += c.at * j.yuu
		p.Zuu += c.at * j.zuu
		p.Yx += c.slope * j.y
		p.Zx += c.slope * j.z
		p.Yux += c.slope * j.yu
		p.Zux += c.slope * j.zu
		p.Yxx += c.second * j.y
		p.Zxx += c.second * j.z
	}
	return p
}

// at is the surface's place at the cut k where stations count so much.
func (f *surface) at(k int, count []counting) place2 {
	return sum(count, func(i int) *jet { return &f.rows[i][k] })
}

// second is the second derivative by x of the weight of station i, per mm2. On one span the slope is a parabola, which its
// values at both ends and in the middle give exactly.
func (w *weights) second(i int, x float64) float64 {
	if w.spline == nil {
		v := 2.0
		for j := range w.x {
			if j != i {
				v /= w.x[i] - w.x[j]
			}
		}
		return v
	}
	k := w.spanAt(x)
	l, r := w.in(w.x[k]), w.in(w.x[k+1])
	p, slope := (w.in(x)-l)/(r-l), w.spline[i].PredictDerivative
	return ((4*p-3)*slope(l) + (4-8*p)*slope((l+r)/2) + (4*p-1)*slope(r)) / ((r - l) * w.scale * w.scale)
}

// spanAt is the station at or forward of x, and never the last.
func (w *weights) spanAt(x float64) int {
	k := 0
	for k+2 < len(w.x) && w.x[k+1] <= x {
		k++
	}
	return k
}
