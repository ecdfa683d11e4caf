package glue

import (
	"fmt"
	"slices"
	"strings"
)

// tell says why the batch of the members that part names is as large as it is, and what one more would have meant.
func (b *grouped) tell(y Layup, r Room, g group, part []int) {
	taken := fmt.Sprintf("%d of %d min and %d of %d clamps.", b.Minutes, r.Hands/y.Hands/60, b.Clamps, r.Clamps)
	if len(part) == len(g.loads) {
		b.Why = "All that may share it are in it: it takes " + taken
		return
	}
	b.Why = "It takes " + taken
	least := -1
	for i, l := range g.loads {
		if !slices.Contains(part, i) && (least < 0 || l.Hands() < g.loads[least].Hands()) {
			least = i
		}
	}
	hands, clamps := b.hands+g.loads[least].Hands(), b.Clamps+g.loads[least].Clamps
	b.OneMore = &OneMore{g.fit[least].Path, up(hands, 60*y.Hands), clamps, r.holds(hands, clamps)}
}

// change is what would do to have one batch fewer than these: clamps, hands or a cooler place, each alone. Each is shown to
// do by a grouping that does with it; less might do where that was not found. Empty where none would.
func (p *planner) change(place Place, y Layup, r Room, loads []Load, batches int) string {
	if batches < 2 {
		return ""
	}
	var hands, clamps int64
	for _, l := range loads {
		hands, clamps = hands+l.Hands(), clamps+l.Clamps
	}
	fewer := func(r Room) bool { return len(ordered(loads, r)) < batches }
	var out []string
	if n, ok := first(r.Clamps+1, clamps, func(n int64) bool { return fewer(Room{r.Hands, n}) }); ok {
		out = append(out, fmt.Sprintf("%d clamps", n))
	}
	each := r.Hands / y.Hands // seconds
	if each > 0 {
		if n, ok := first(y.Hands+1, up(hands, each), func(n int64) bool { return fewer(Room{n * each, r.Clamps}) }); ok {
			out = append(out, fmt.Sprintf("%d hands", n))
		}
	}
	if longest := y.Room(1<<40).Hands / y.Hands; longest > each {
		if s, ok := first(each+1, min(longest, up(hands, y.Hands)), func(s int64) bool { return fewer(Room{s * y.Hands, r.Clamps}) }); ok {
			if c, ok := p.times.Coolest(s); ok {
				out = append(out, fmt.Sprintf("a %s at %s C", place.word(), c))
			}
		}
	}
	if len(out) == 0 {
		return ""
	}
	return "One batch fewer of these would take " + strings.Join(out, "; or ") + "."
}

// first number from low to high that will do, where all after it do too.
func first(low, high int64, does func(int64) bool) (int64, bool) {
	if low > high || !does(high) {
		return 0, false
	}
	for low < high {
		mid := low + (high-low)/2
		if does(mid) {
			high = mid
		} else {
			low = mid + 1
		}
	}
	return low, true
}
