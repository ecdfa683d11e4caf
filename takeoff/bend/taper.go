package bend

import "github.com/shopspring/decimal"

// Taper is a frame that grows lighter from heel to head: what its laminates have to make at either end, the depth falling
// evenly along its length, and its siding there.
type Taper struct {
	Length                 decimal.Decimal
	HeelDepth, HeadDepth   decimal.Decimal
	HeelSiding, HeadSiding decimal.Decimal
}

// Laminate of a tapering frame: it runs from the heel so far, and is as wide as the frame is at its heel.
type Laminate struct {
	Length, Siding decimal.Decimal
}

// Laminates of the frame from the one that runs through to the shortest, and how many there are at the head. A laminate is
// dropped where those left make the depth without it, and the step is faired off; it is ripped parallel at the siding of its
// wider end, and the siding dressed to its taper (common practice, no source). A frame heavier at the head is refused.
func (t Taper) Laminates(thickness decimal.Decimal) (all []Laminate, atHead int64, err error) {
	for what, d := range map[string]decimal.Decimal{"length of the frame": t.Length, "siding at the heel": t.HeelSiding, "siding at the head": t.HeadSiding,
		"depth at the heel": t.HeelDepth, "depth at the head": t.HeadDepth, "thickness of a laminate": thickness} {
		if err := above0(what, d); err != nil {
			return nil, 0, err
		}
	}
	heel, atHead := Laminates(t.HeelDepth, thickness), Laminates(t.HeadDepth, thickness)
	if t.HeadDepth.GreaterThan(t.HeelDepth) {
		return nil, 0, &RangeError{"depth at the head", t.HeadDepth.String(), "not above that at the heel, " + t.HeelDepth.String()}
	}
	if heel > mostOfTaper {
		return nil, 0, &RangeError{"number of laminates", decimal.NewFromInt(heel).String(), "at most " + decimal.NewFromInt(mostOfTaper).String()}
	}
	siding := decimal.Max(t.HeelSiding, t.HeadSiding)
	for i := int64(1); i <= heel; i++ {
		l := Laminate{t.Length, siding}
		if i > atHead {
			// i laminates are wanted while the depth is above i-1 of them
			left := t.HeelDepth.Sub(thickness.Mul(decimal.NewFromInt(i - 1)))
			l.Length = left.Mul(t.Length).DivRound(t.HeelDepth.Sub(t.HeadDepth), divisionPlaces)
		}
		all = append(all, l)
	}
	return all, atHead, nil
}

// mostOfTaper is how many laminates are told one by one.
const mostOfTaper = 2000
