package flat

import "slices"

// With three stages a strip may be as deep as any stack; more depths than the work on a table allows are thinned out, and
// a strip between two of them counts as worth what the deeper one is worth. Plans are looked for with coarse levels, the
// floor is worked out once more with fine ones.
const (
	coarse = 2_000_000 // cells of all levels' tables over the length of strips
	fine   = 40_000_000
)

// mostLevels is how many depths are kept.
func (p *problem) mostLevels(at int) int {
	room := int64(1)
	for _, g := range p.groups {
		if g.lay == at {
			room = max(room, g.room)
		}
	}
	return int(min(2000, max(40, p.cells/room/int64(len(p.lays[at].shapes)+1))))
}

// setLevels gives the depths of strips: with two stages those of the shapes, with three those that stacks add up to.
func (p *problem) setLevels(at int) {
	y, deepest := &p.lays[at], int64(0)
	for _, f := range p.forms {
		if p.groups[f.group].lay != at {
			continue
		}
		deepest = max(deepest, f.deep)
	}
	for _, s := range y.shapes {
		if s.deep <= deepest {
			y.levels = append(y.levels, s.deep)
		}
	}
	slices.Sort(y.levels)
	y.levels = slices.Compact(y.levels)
	can := y.levels
	if p.list.Rules.Stages == 3 && len(y.levels) > 0 {
		can = sums(y.shapes, deepest)
		y.levels = thin(can, y.levels, p.mostLevels(at))
	}
	y.least = leasts(can, y.levels)
}

// leasts gives for each level the least of the possible depths above the level before.
func leasts(can, levels []int64) []int64 {
	out := make([]int64, len(levels))
	for i := range levels {
		j := 0
		if i > 0 {
			j, _ = slices.BinarySearch(can, levels[i-1]+1)
		}
		out[i] = can[j]
	}
	return out
}

// sums are the depths up to most that stacks of the shapes can have.
func sums(shapes []shape, most int64) []int64 {
	can := make([]bool, most+1)
	can[0] = true
	for _, s := range shapes {
		for x := s.deep; x <= most; x++ {
			can[x] = can[x] || can[x-s.deep]
		}
	}
	var out []int64
	for x := int64(1); x <= most; x++ {
		if can[x] {
			out = append(out, x)
		}
	}
	return out
}

// thin leaves about so many of the depths, and always those kept.
func thin(all, kept []int64, most int) []int64 {
	if len(all) <= most {
		return all
	}
	var out []int64
	every := len(all)/most + 1
	for i, x := range all {
		if _, ok := slices.BinarySearch(kept, x); ok || i%every == every-1 || i == len(all)-1 {
			out = append(out, x)
		}
	}
	return out
}
