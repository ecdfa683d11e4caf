package flat

import (
	"cmp"
	"math"
	"slices"
)

// lister lists the strips of two stages that a plan cheaper than the best could use: each strip that costs more for its
// slot than its pieces are worth adds that to the program's cost, and where it passes the gap to the best plan the strip
// cannot stand in a cheaper one. The program's duals decide, so the list serves finding plans and proves nothing.
type lister struct {
	*search
	y      []float64
	gap    float64
	group  int
	shapes []int // that fit, longest first
	counts []pick
	most   int
	steps  int
	found  []strip
}

// listStrips gives the strips for a gap; false when they are more than most.
func (s *search) listStrips(gap float64, most int) ([]strip, bool) {
	l := &lister{search: s, y: s.lp.Duals(0), gap: gap, most: most}
	for g, group := range s.groups {
		l.group = g
		l.shapes = l.shapes[:0]
		shapes := s.lays[group.lay].shapes
		levels := s.lays[group.lay].levels
		for j := range shapes {
			if len(levels) > 0 && shapes[j].along <= group.room && shapes[j].deep <= levels[len(levels)-1] {
				l.shapes = append(l.shapes, j)
			}
		}
		slices.SortStableFunc(l.shapes, func(a, b int) int { return cmp.Compare(shapes[b].along, shapes[a].along) })
		if !l.walk(0, group.room, 0, -1) {
			return l.found, false
		}
	}
	return l.found, true
}

// slot is what a slot of a level costs now.
func (l *lister) slot(level int) float64 {
	if level < 0 {
		return 0
	}
	return -l.y[l.base[l.group]+level]
}

// walk adds shapes from i on; level is that of the deepest so far.
func (l *lister) walk(i int, room int64, worth float64, level int) bool {
	l.steps++
	if l.steps > 200*l.most || len(l.found) > l.most {
		return false
	}
	if len(l.counts) > 0 && l.slot(level)-worth <= l.gap && !l.grows(room, level) {
		l.found = append(l.found, l.strip(level))
	}
	g := l.groups[l.group]
	y := l.lays[g.lay]
	for ; i < len(l.shapes); i++ {
		h := y.shapes[l.shapes[i]]
		if h.along > room || !l.goes(h, level) {
			continue
		}
		if l.exceeds(i, room, worth, level) {
			return true
		}
		value := float64(h.n) * l.y[h.class]
		depth := len(l.counts)
		for k := int64(1); k <= h.most && k*h.along <= room; k++ {
			l.counts = append(l.counts[:depth], pick{l.shapes[i], k})
			if !l.walk(i+1, room-k*h.along, worth+float64(float64(k)*value), max(level, levelOf(y, h.deep))) {
				return false
			}
		}
		l.counts = l.counts[:depth]
	}
	return true
}

// goes reports whether a shape may lie in a strip whose deepest is of a level.
func (l *lister) goes(h shape, level int) bool {
	return level < 0 || !l.list.Rules.Exact || h.deep == l.lays[l.groups[l.group].lay].levels[level]
}

// exceeds reports whether shapes from i on, at their best worth for their length, cannot bring the strip within the gap.
func (l *lister) exceeds(i int, room int64, worth float64, level int) bool {
	shapes := l.lays[l.groups[l.group].lay].shapes
	rate := 0.0
	for _, j := range l.shapes[i:] {
		if h := shapes[j]; h.along <= room {
			rate = math.Max(rate, float64(h.n)*l.y[h.class]/float64(h.along))
		}
	}
	return l.slot(level)-worth-float64(rate*float64(room)) > l.gap
}

// grows reports whether a shape no deeper than the level still goes in.
func (l *lister) grows(room int64, level int) bool {
	y := l.lays[l.groups[l.group].lay]
	for _, j := range l.shapes {
		h := y.shapes[j]
		if h.along > room || h.deep > y.levels[level] || !l.goes(h, level) {
			continue
		}
		n := int64(0)
		for _, c := range l.counts {
			if c.thing == j {
				n = c.n
			}
		}
		if n < h.most {
			return true
		}
	}
	return false
}

// levelOf is the level of a depth; every shape's is one.
func levelOf(y lay, deep int64) int {
	i, _ := slices.BinarySearch(y.levels, deep)
	return i
}

// strip is what the counts make.
func (l *lister) strip(level int) strip {
	t := strip{group: l.group, level: level}
	shapes := l.lays[l.groups[l.group].lay].shapes
	for _, c := range l.counts {
		t.stacks = append(t.stacks, stack{c.n, shapes[c.thing].along, []pick{{c.thing, 1}}})
	}
	return t
}
