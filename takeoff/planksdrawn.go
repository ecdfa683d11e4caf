package takeoff

import (
	"fmt"

	"ribband/takeoff/boat"
	"ribband/takeoff/hull/planking"
	"ribband/takeoff/plank"
)

// RenewedOn is one side's planking with the planks that are renewed of it, from the garboard and from forward; taped are those that only a
// tape knows. laid is nil where nothing says how the side is planked or the boat has no lines. What cannot be renewed as it stands is left
// out: the bill says why.
func (b Basis) RenewedOn(side boat.Side) (laid *planking.Planking, made []planking.Renewed, taped []plank.Plank, err error) {
	var of []plank.Plank
	for _, p := range b.Planks {
		switch {
		case p.Side != side:
		case p.ByHand != nil:
			taped = append(taped, p)
		default:
			of = append(of, p)
		}
	}
	terms, said := b.Planking[side]
	if b.Hull == nil || !said {
		return nil, nil, taped, nil
	}
	if laid, err = planking.Lay(b.Hull, b.bays(side), terms); err != nil {
		return nil, nil, taped, fmt.Errorf("the planking of the %s side: %w", side, err)
	}
	made, _ = laid.Renew(terms, asked(of))
	return laid, made, taped, nil
}

// asked is planks as they are asked of their side's planking.
func asked(of []plank.Plank) []planking.Asked {
	out := make([]planking.Asked, len(of))
	for i, o := range of {
		out[i] = planking.Asked{Strake: o.Strake - 1, From: o.From.InexactFloat64(), To: o.To.InexactFloat64(), Whole: o.Whole}
	}
	return out
}
