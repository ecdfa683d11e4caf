package hull

import "math"

// Within are the tightest bends of a stretch of the section, from and to in mm along the girth from the rabbet. Where a
// bend of the whole section lies in the stretch it is that; any other has the range of the section's bend of its kind, as
// a multiple, for the points tell no more of it. A stretch that is none has no bends.
func (s *Section) Within(from, to float64) (bilge, hollow Bend) {
	hollow.Hollow = true
	if !(from < to) {
		return bilge, hollow
	}
	low, high := s.Share(from/s.Girth.MM), s.Share(to/s.Girth.MM)
	return s.within(s.Bilge, 1, low, high), s.within(s.Hollow, -1, low, high)
}

// looks at a stretch in which its tightest place is looked for, to be found by halving after.
const looks = 256

func (s *Section) within(whole Bend, sign, low, high float64) Bend {
	if whole.Kappa == 0 || low <= whole.U && whole.U <= high {
		return whole
	}
	k := func(u float64) float64 { return sign * s.At(u).Kappa }
	out := Bend{Hollow: whole.Hollow}
	best := -1
	for i := range looks + 1 {
		if v := k(low + (high-low)*float64(i)/looks); v > out.Kappa {
			out.Kappa, out.U, best = v, low+(high-low)*float64(i)/looks, i
		}
	}
	if best < 0 {
		return out
	}
	step := (high - low) / looks
	if u, v := peak(k, math.Max(low, out.U-step), math.Min(high, out.U+step)); v > out.Kappa {
		out.U, out.Kappa = u, v
	}
	out.S = s.along(out.U)
	r := whole.Radius()
	out.radius.Low, out.radius.High = r.Low/r.MM/out.Kappa, r.High/r.MM/out.Kappa
	return out
}
