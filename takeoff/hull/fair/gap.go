package fair

import "slices"

// Gap says how well the points show the tightest bend.
type Gap struct {
	// Turn is how far the curve would turn, at its tightest, over the widest of
	// the three spans between points round the tightest place, radians. Above
	// Unresolved the points do not show the bend, whatever radius they give.
	Turn float64
	// Mid is the middle of that span, mm along the curve from the first foot:
	// where one more point would tell most.
	Mid float64

	span float64 // its width, mm
}

// Unresolved is the turn between neighbouring points above which a bend is
// drawn by the batten and not by the points.
const Unresolved = 0.7

// Gap finds the widest span beside the tightest place. A straight section has
// none that matters: its Turn is 0.
func (c *Curve) Gap() Gap {
	if c.Straight() {
		return c.gapAt(Peak{})
	}
	bilge, hollow := c.Peaks()
	if hollow.Kappa > bilge.Kappa {
		bilge = hollow
	}
	return c.gapAt(bilge)
}

// gapAt finds the widest span beside a bend.
func (c *Curve) gapAt(p Peak) Gap {
	apart := c.apart()
	i := 0
	for i+2 < len(apart) && apart[i+1] <= p.S {
		i++
	}
	gap := Gap{}
	for j := max(0, i-1); j <= min(len(apart)-2, i+1); j++ {
		if w := apart[j+1] - apart[j]; w > gap.span {
			gap.span, gap.Mid = w, (apart[j]+apart[j+1])/2
		}
	}
	gap.Turn = gap.span * p.Kappa
	return gap
}

// apart are the feet of the points in order; points nearer than a fifth of the
// mean spacing count as one.
func (c *Curve) apart() []float64 {
	feet := slices.Clone(c.feet)
	slices.Sort(feet)
	together := 0.2 * c.Girth() / float64(len(feet)-1)
	apart := feet[:1]
	for _, s := range feet[1:] {
		if s-apart[len(apart)-1] > together {
			apart = append(apart, s)
		}
	}
	return apart
}
