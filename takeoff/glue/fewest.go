package glue

import (
	"cmp"
	"slices"
)

// exactUpTo blanks the fewest batches are searched for among all ways to group them: 3^12 steps.
const exactUpTo = 12

// fewest groups loads, each of which has room alone, into batches of indices in ascending order, batches by their
// first blank. proven is whether fewer cannot do.
//
// Up to exactUpTo blanks the answer is exact. Beyond, blanks are taken in three fixed orders (as given, the longest
// work first, the most clamps first), a batch is closed when the next blank has no room, and the best is kept. Of two
// batches one after the other, the second's first blank had no room in the first, so together they overrun the hands
// or the clamps; so of m batches the work and the clamps, each in rooms, come to more than m/2 - 1/2 together, the
// greater to more than m/4 - 1/4, and no grouping does with fewer batches than that: m is at most four times the
// fewest. In one order this is the best grouping that keeps the order, so that more room never asks for more batches;
// a first-fit search would not promise that.
func fewest(loads []Load, r Room) (batches [][]int, least int, proven bool) {
	if len(loads) == 0 {
		return nil, 0, true
	}
	least = leastBatches(loads, r)
	if len(loads) <= exactUpTo {
		batches = exactly(loads, r)
		return batches, len(batches), true // no set of batches was left out
	}
	batches = ordered(loads, r)
	return sorted(batches), least, len(batches) == least
}

// ordered is the best grouping of the three orders.
func ordered(loads []Load, r Room) (batches [][]int) {
	as := func(less func(a, b Load) int) []int {
		order := make([]int, len(loads))
		for i := range order {
			order[i] = i
		}
		slices.SortStableFunc(order, func(i, j int) int { return less(loads[i], loads[j]) })
		return order
	}
	for _, order := range [][]int{
		as(func(Load, Load) int { return 0 }),
		as(func(a, b Load) int { return cmp.Compare(b.Hands(), a.Hands()) }),
		as(func(a, b Load) int { return cmp.Compare(b.Clamps, a.Clamps) }),
	} {
		if got := inOrder(loads, order, r); batches == nil || len(got) < len(batches) {
			batches = got
		}
	}
	return batches
}

// leastBatches that any grouping has: by the work in all, by the clamps in all, and by the blanks no two of which
// share a batch.
func leastBatches(loads []Load, r Room) int {
	var hands, clamps, halfHands, halfClamps int64
	for _, l := range loads {
		hands += l.Hands()
		clamps += l.Clamps
		if 2*l.Hands() > r.Hands {
			halfHands++
		}
		if 2*l.Clamps > r.Clamps {
			halfClamps++
		}
	}
	up := func(a, b int64) int64 { return (a + b - 1) / b }
	return int(max(up(hands, r.Hands), up(clamps, r.Clamps), halfHands, halfClamps))
}

func inOrder(loads []Load, order []int, r Room) [][]int {
	var out [][]int
	var hands, clamps int64
	for _, i := range order {
		l := loads[i]
		if len(out) == 0 || !r.holds(hands+l.Hands(), clamps+l.Clamps) {
			out, hands, clamps = append(out, nil), 0, 0
		}
		hands, clamps = hands+l.Hands(), clamps+l.Clamps
		out[len(out)-1] = append(out[len(out)-1], i)
	}
	return out
}

// exactly goes over all sets of blanks: the fewest batches of a set are one more than those of what is left of it
// without some batch that its first blank is in.
func exactly(loads []Load, r Room) [][]int {
	all := 1 << len(loads)
	fits := make([]bool, all)
	for set := range fits {
		var hands, clamps int64
		for i, l := range loads {
			if set>>i&1 == 1 {
				hands, clamps = hands+l.Hands(), clamps+l.Clamps
			}
		}
		fits[set] = r.holds(hands, clamps)
	}
	count, first := make([]int, all), make([]int, all)
	for set := 1; set < all; set++ {
		lowest := set & -set
		count[set] = len(loads) + 1
		for rest := set ^ lowest; ; rest = (rest - 1) & (set ^ lowest) {
			if batch := rest | lowest; fits[batch] && count[set^batch]+1 < count[set] {
				count[set], first[set] = count[set^batch]+1, batch
			}
			if rest == 0 {
				break
			}
		}
	}
	var out [][]int
	for set := all - 1; set > 0; set ^= first[set] {
		var batch []int
		for i := range loads {
			if first[set]>>i&1 == 1 {
				batch = append(batch, i)
			}
		}
		out = append(out, batch)
	}
	return out
}

func sorted(batches [][]int) [][]int {
	for _, b := range batches {
		slices.Sort(b)
	}
	slices.SortFunc(batches, func(a, b []int) int { return a[0] - b[0] })
	return batches
}
