package flat

import (
	"cmp"
	"slices"
)

// stacked prices strips of three stages: a table over the depth, shapes going in by width, gives what a stack of each
// width is worth at each depth; from those a table over the length for each level.
type stacked struct {
	lay    *lay
	exact  bool
	rooms  []int64
	order  []int // shapes by width
	widths []int64
	stack  *knapsack
	first  []int
	last   []int
	value  [][]int64 // by width, at each level
	strips []*knapsack
}

func newStacked(y *lay, exact bool, rooms []int64) *stacked {
	s := &stacked{lay: y, exact: exact, rooms: rooms}
	for i := range y.shapes {
		s.order = append(s.order, i)
	}
	width := func(i int) int64 { return y.shapes[i].along }
	slices.SortStableFunc(s.order, func(a, b int) int { return cmp.Compare(width(a), width(b)) })
	for _, i := range s.order {
		if n := len(s.widths); n == 0 || s.widths[n-1] != width(i) {
			s.widths = append(s.widths, width(i))
		}
	}
	longest := int64(0)
	for _, r := range rooms {
		longest = max(longest, r)
	}
	if len(y.levels) > 0 {
		s.stack = newKnapsack(y.levels[len(y.levels)-1])
	} else {
		s.stack = newKnapsack(0)
	}
	for range y.levels {
		s.strips = append(s.strips, newKnapsack(longest))
	}
	return s
}

func (s *stacked) run(values, wanted []int64) {
	s.first, s.last, s.value = s.first[:0], s.last[:0], s.value[:0]
	s.stack.clear()
	i := 0
	for _, w := range s.widths {
		first := 0
		if s.exact {
			first = len(s.stack.passes)
			clear(s.stack.f)
		}
		for ; i < len(s.order) && s.lay.shapes[s.order[i]].along <= w; i++ {
			h := s.lay.shapes[s.order[i]]
			s.stack.put(s.order[i], h.deep, h.n*values[h.class], (wanted[h.class]+h.n-1)/h.n)
		}
		s.first, s.last = append(s.first, first), append(s.last, len(s.stack.passes))
		at := make([]int64, len(s.lay.levels))
		for level, depth := range s.lay.levels {
			at[level] = s.stack.f[depth]
		}
		s.value = append(s.value, at)
	}
	for level, k := range s.strips {
		k.clear()
		for j, w := range s.widths {
			if v := s.value[j][level]; j == 0 || s.exact || v > s.value[j-1][level] {
				k.put(j, w, v, int64(len(k.f)))
			}
		}
	}
}

func (s *stacked) worth(level int, room int64) int64 { return s.strips[level].f[room] }

func (s *stacked) stacks(level int, room int64) []stack {
	k := s.strips[level]
	var out []stack
	for _, p := range k.fill(room, 0, len(k.passes)) {
		parts := s.stack.fill(s.lay.levels[level], s.first[p.thing], s.last[p.thing])
		out = append(out, stack{p.n, s.widths[p.thing], parts})
	}
	return out
}

func (s *stacked) spent() int64 {
	work := s.stack.work
	for _, k := range s.strips {
		work += k.work
	}
	return work
}

// one is the best stacks for a strip of one level and length, from what is still wanted.
func (s *stacked) one(level int, room int64, values, wanted []int64) []stack {
	depth := s.lay.levels[level]
	down, along := newKnapsack(depth), newKnapsack(room)
	var first, last []int
	i, before := 0, int64(0)
	for j, w := range s.widths {
		start := 0
		if s.exact {
			start, before = len(down.passes), 0
			clear(down.f)
		}
		for ; i < len(s.order) && s.lay.shapes[s.order[i]].along <= w; i++ {
			h := s.lay.shapes[s.order[i]]
			down.put(s.order[i], h.deep, h.n*values[h.class], (wanted[h.class]+h.n-1)/h.n)
		}
		first, last = append(first, start), append(last, len(down.passes))
		if v := down.f[depth]; v > before {
			along.put(j, w, v, room)
			before = v
		}
	}
	s.stack.work += down.work + along.work
	var out []stack
	for _, p := range along.fill(room, 0, len(along.passes)) {
		out = append(out, stack{p.n, s.widths[p.thing], down.fill(depth, first[p.thing], last[p.thing])})
	}
	return out
}
