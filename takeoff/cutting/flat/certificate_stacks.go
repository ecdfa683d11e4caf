package flat

import (
	"cmp"
	"fmt"
	"slices"
)

// More depths than this are not worked out.
const mostDepths = 4096

// stacked are the strips of three stages: each width of stack has a table over the depth, each listed depth one over the
// length. all are the pieces that fit, by depth.
func (c Certificate) stacked(l List, s Stock, first First, all []laid) ([]worthy, error) {
	if len(all) == 0 {
		return nil, nil
	}
	room, deepest := s.rooms(l.Rules, first == Along)
	depths := c.Depths[first]
	if deepest == 0 {
		deepest = all[len(all)-1].deep
	}
	if !slices.IsSorted(depths) || len(depths) == 0 || len(depths) > mostDepths || depths[0] < 1 || depths[len(depths)-1] > 3*MaxSide {
		return nil, fmt.Errorf("stock %s: the depths of strips are not in order", s.ID)
	}
	slices.SortStableFunc(all, func(a, b laid) int { return cmp.Compare(a.along, b.along) })
	can, stack := make([]bool, deepest+1), make([]int64, max(deepest, depths[len(depths)-1])+1)
	can[0] = true
	for _, t := range all {
		for x := t.deep; x <= deepest; x++ {
			can[x] = can[x] || can[x-t.deep]
		}
	}
	strips := make([][]int64, len(depths))
	for i, t := range all {
		if i > 0 && l.Rules.Exact && t.along != all[i-1].along {
			clear(stack)
		}
		fill(stack, t.deep, t.value, t.most)
		if i+1 < len(all) && all[i+1].along == t.along {
			continue
		}
		for j, d := range depths {
			if strips[j] == nil {
				strips[j] = make([]int64, room+1)
			}
			fill(strips[j], t.along, stack[d], room)
		}
	}
	var out []worthy
	next := int64(1)
	for j, d := range depths {
		for next <= deepest && !can[next] {
			next++
		}
		if next > min(d, deepest) {
			continue
		}
		out = append(out, worthy{next, strips[j][room]})
		next = d + 1
	}
	for ; next <= deepest; next++ {
		if can[next] {
			return nil, fmt.Errorf("stock %s: a strip can be %d deep, more than the depths listed", s.ID, next)
		}
	}
	return out, nil
}
