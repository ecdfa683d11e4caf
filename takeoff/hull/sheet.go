package hull

// Sheet is a surface read at set fractions of the girth: once at every station, with how it changes along the boat there.
// Between two stations all of it is a cubic, which these give, so a place costs the same however many stations there are.
type Sheet struct {
	weights *weights
	us      []float64
	// at and slope of each fraction at each station: the jet without what is along x, and its derivative by x.
	at, slope [][]jet
}

// Sheet of the surface at the fractions us, each taken to the nearer end beyond 0 and 1.
func (s *Surface) Sheet(us []float64) *Sheet {
	f := s.of
	out := &Sheet{weights: f.weights, us: append([]float64(nil), us...)}
	for _, c := range f.curves {
		at := make([]jet, len(us))
		for k, u := range us {
			u = max(0, min(1, u))
			at[k] = f.grid.jet(c, f.grid.piece(u), u)
		}
		out.at = append(out.at, at)
	}
	for _, x := range f.weights.x {
		slope := make([]jet, len(us))
		for i := range f.curves {
			_, w := f.weights.one(i, x)
			for k := range slope {
				slope[k].add(w, &out.at[i][k])
			}
		}
		out.slope = append(out.slope, slope)
	}
	return out
}

// Along fills out with the jets at x, taken to the nearer end, and the sheet's fractions from number first on, as many as
// there is room for. Where x is no number the jets are none either.
func (s *Sheet) Along(x float64, first int, out []Jet) {
	out = out[:max(0, min(len(out), len(s.us)-first))]
	w := s.weights
	x = max(w.x[0], min(w.x[len(w.x)-1], x))
	i := w.spanAt(x)
	h := w.x[i+1] - w.x[i]
	t := (x - w.x[i]) / h
	// Hermite's cubic, and its derivative by x
	p, q := (1+2*t)*(1-t)*(1-t), t*t*(3-2*t)
	r, v := h*t*(1-t)*(1-t), h*t*t*(t-1)
	d := 6 * t * (1 - t) / h
	e, f := (1-t)*(1-3*t), t*(3*t-2)
	at, next, slope, slopeNext := s.at[i][first:], s.at[i+1][first:], s.slope[i][first:], s.slope[i+1][first:]
	for k := range out {
		a, b, c, g := &at[k], &next[k], &slope[k], &slopeNext[k]
		out[k] = Jet{
			Y:  p*a.y + q*b.y + r*c.y + v*g.y,
			Z:  p*a.z + q*b.z + r*c.z + v*g.z,
			Yu: p*a.yu + q*b.yu + r*c.yu + v*g.yu, Zu: p*a.zu + q*b.zu + r*c.zu + v*g.zu,
			Yuu: p*a.yuu + q*b.yuu + r*c.yuu + v*g.yuu, Zuu: p*a.zuu + q*b.zuu + r*c.zuu + v*g.zuu,
			Yx: d*(b.y-a.y) + e*c.y + f*g.y,
			Zx: d*(b.z-a.z) + e*c.z + f*g.z,
		}
	}
}
