package cutting_test

import (
	"fmt"
	"slices"

	"ribband/takeoff/cutting"
)

// everyCut is the least net of all plans of a list, -1 where there is none: every way to make each single piece, whole or of two
// parts, and every way to share the lengths that come of it among strips.
func everyCut(l list) int64 {
	var single []cutting.Piece
	for _, p := range l.pieces {
		for range p.Qty {
			single = append(single, p)
		}
	}
	best, seen := int64(-1), map[string]int64{}
	var make func(i int, lengths []int64, joints int64)
	make = func(i int, lengths []int64, joints int64) {
		if i < len(single) {
			make(i+1, append(slices.Clip(lengths), single[i].Length), joints)
			for _, two := range everyJoint(l, single[i]) {
				make(i+1, append(slices.Clip(lengths), two[0], two[1]), joints+l.rules.Scarf.Price)
			}
			return
		}
		lengths = slices.Sorted(slices.Values(lengths))
		key := fmt.Sprint(lengths)
		if _, ok := seen[key]; !ok {
			seen[key] = everySharing(l, lengths)
		}
		if net := seen[key]; net >= 0 && (best < 0 || net+joints < best) {
			best = net + joints
		}
	}
	make(0, nil, 0)
	return best
}

// everyJoint are the two parts of a piece at every place where it may be joined: one part is a whole number of steps, as long as a board
// gives, or the least part; neither is shorter than that, nor longer than any board gives.
func everyJoint(l list, p cutting.Piece) (out [][2]int64) {
	s := l.rules.Scarf
	if !p.MayScarf || s == nil {
		return nil
	}
	longest, one := int64(0), []int64{s.Least}
	for _, b := range l.stock {
		one = append(one, b.Length-2*l.rules.TrimEach)
		longest = max(longest, b.Length-2*l.rules.TrimEach)
	}
	for a := int64(0); a <= longest; a += s.Step {
		one = append(one, a)
	}
	for _, a := range one {
		b := p.Length + s.Length - a
		if two := [2]int64{max(a, b), min(a, b)}; two[1] >= s.Least && two[0] <= longest && !slices.Contains(out, two) {
			out = append(out, two)
		}
	}
	return out
}

// worthKept is what a left-over of a length is worth.
func worthKept(l list, length int64) int64 {
	if k := l.rules.Keep; k != nil && length >= k.Least {
		return length / k.Per * k.Rate
	}
	return 0
}

// everySharing is the least net at which lengths come out of strips of at most three kinds of board, -1 where they do not. Of each set of
// lengths it keeps, for all numbers of strips that it can come from, the most that is left of them worth keeping.
func everySharing(l list, lengths []int64) int64 {
	type strips [3]int64
	sets := make([]map[strips]int64, 1<<len(lengths))
	sets[0] = map[strips]int64{{}: 0}
	for set := 1; set < len(sets); set++ {
		sets[set] = map[strips]int64{}
		for on := set; on > 0; on = (on - 1) & set { // what lies on the strip of the shortest of the set
			if on&(set&-set) == 0 {
				continue
			}
			along := int64(0)
			for i, length := range lengths {
				if on&(1<<i) != 0 {
					along += length + l.rules.Kerf
				}
			}
			for k, s := range l.stock {
				left := s.Length - 2*l.rules.TrimEach - along
				if left+l.rules.Kerf < 0 { // the last piece may end with the board, where no cut parts it off
					continue
				}
				for used, kept := range sets[set&^on] {
					used[k]++
					kept += worthKept(l, left)
					if most, ok := sets[set][used]; !ok || kept > most {
						sets[set][used] = kept
					}
				}
			}
		}
	}
	best := int64(-1)
next:
	for used, kept := range sets[len(sets)-1] {
		net := -kept
		for k, s := range l.stock {
			if used[k] == 0 {
				continue
			}
			boards := max((used[k]+s.Strips-1)/s.Strips, s.Least)
			if s.Avail >= 0 && boards > s.Avail {
				continue next
			}
			net += boards*s.Price - (boards*s.Strips-used[k])*worthKept(l, s.Length-2*l.rules.TrimEach)
		}
		if best < 0 || net < best {
			best = net
		}
	}
	return best
}
