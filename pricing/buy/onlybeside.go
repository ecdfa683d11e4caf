package buy

import (
	"errors"

	"ribband/pricing/money"
)

// onlyBeside looks, where too few boards are for sale for planks of each group by itself, whether they suffice side by side. Groups that are no
// planks take their boards first. The fault stays where they do not.
func (g groups) onlyBeside(fault error, from source, r Rules) ([]Timber, error) {
	var short *ShortBoardsError
	if !errors.As(fault, &short) {
		return nil, fault
	}
	out, planks, rest := make([]Timber, len(g.timber)), []int{}, []int{}
	others := groups{needs: g.needs}
	for i, t := range g.timber {
		if g.planks(t) {
			planks = append(planks, i)
			out[i] = Timber{Lines: g.ids(t.lines), Cost: money.Zero(from.sheet.Currency), Bound: money.Zero(from.sheet.Currency)}
			continue
		}
		rest, others.timber = append(rest, i), append(others.timber, t)
	}
	if len(planks) < 2 {
		return nil, fault
	}
	if len(rest) > 0 {
		planned, err := others.oneWood(from, r)
		if err != nil {
			return nil, fault
		}
		for k, i := range rest {
			out[i] = planned[k]
		}
	}
	l, ok, err := g.lay(planks, out, out, from, r)
	if err != nil {
		return nil, err
	}
	if !ok || !l.taken {
		return nil, fault
	}
	for _, i := range planks {
		out[i] = Timber{}
	}
	out[planks[0]] = l.out
	return out, nil
}
