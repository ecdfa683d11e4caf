package flat

import "slices"

// With three stages a strip may be as deep as any stack; more depths than this are thinned out, and a strip between
// two of them counts as worth what the deeper one is worth.
const mostLevels = 160

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
		y.levels = thin(can, y.levels)
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

// thin leaves about mostLevels of the depths, always those kept.
func thin(all, kept []int64) []int64 {
	if len(all) <= mostLevels {
		return all
	}
	var out []int64
	every := len(all)/mostLevels + 1
	for i, x := range all {
		if _, ok := slices.BinarySearch(kept, x); ok || i%every == every-1 || i == len(all)-1 {
			out = append(out, x)
		}
	}
	return out
}
