package hull

// OnBoat is where the fraction u of the girth lies: aft of station 0, half-breadth and height, mm.
func (l *Laid) OnBoat(u float64) (x, y, z float64) {
	u = max(0, min(1, u))
	x = l.X + l.Run*u
	j := (&Surface{l.surface}).Jet(u, x)
	return x, j.Y, j.Z
}

// Share is the u at which the line has passed a share of its length, read straight between the cuts of the girth.
func (l *Laid) Share(share float64) float64 {
	g, want := l.surface.grid, share*l.Length.MM
	if !(want > 0) {
		return 0
	}
	before := 0.0
	for k := range g.pieces() {
		v, apart := l.piece(k, func(s spot) float64 { return s.speed })
		c := cumulated(v, apart)
		for i := 1; i < len(c); i++ {
			if from, to := before+c[i-1], before+c[i]; to >= want && to > from {
				return g.at(k, i-1) + apart*(want-from)/(to-from)
			}
		}
		before += c[len(c)-1]
	}
	return 1
}
