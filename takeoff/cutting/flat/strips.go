package flat

// strip is a layout of one strip: stacks beside each other, in a group, at a depth of the group's levels.
type strip struct {
	group, level int
	stacks       []stack
}

// stack is n stacks alike: parts, by shape, on top of each other. width has a kerf.
type stack struct {
	n, width int64
	parts    []pick
}

// pricer finds the most that strips can be worth, for all lengths and depths at once.
type pricer interface {
	// run fills the tables for values of classes, at most so many of each in a strip or stack.
	run(values, wanted []int64)
	// worth is the most that a strip can be worth at a level, and stacks how.
	worth(level int, room int64) int64
	stacks(level int, room int64) []stack
	// spent is the work done.
	spent() int64
}

// single prices strips of two stages: one table over the length, shapes going in by depth, read after each depth.
type single struct {
	lay   *lay
	exact bool
	rooms []int64
	sack  *knapsack
	first []int // pass from which a level's strips are made
	last  []int
	most  []map[int64]int64 // by level and room
}

func newSingle(y *lay, exact bool, rooms []int64) *single {
	longest := int64(0)
	for _, r := range rooms {
		longest = max(longest, r)
	}
	return &single{lay: y, exact: exact, rooms: rooms, sack: newKnapsack(longest)}
}

func (s *single) run(values, wanted []int64) {
	s.first, s.last, s.most = s.first[:0], s.last[:0], s.most[:0]
	s.sack.clear()
	i := 0
	for _, level := range s.lay.levels {
		first := 0
		if s.exact {
			first = len(s.sack.passes)
			clear(s.sack.f)
		}
		for ; i < len(s.lay.shapes) && s.lay.shapes[i].deep <= level; i++ {
			h := s.lay.shapes[i]
			s.sack.put(i, h.along, h.n*values[h.class], min(h.most, (wanted[h.class]+h.n-1)/h.n))
		}
		s.first, s.last = append(s.first, first), append(s.last, len(s.sack.passes))
		most := map[int64]int64{}
		for _, r := range s.rooms {
			most[r] = s.sack.f[r]
		}
		s.most = append(s.most, most)
	}
}

func (s *single) worth(level int, room int64) int64 { return s.most[level][room] }

func (s *single) stacks(level int, room int64) []stack {
	var out []stack
	for _, p := range s.sack.fill(room, s.first[level], s.last[level]) {
		out = append(out, stack{p.n, s.lay.shapes[p.thing].along, []pick{{p.thing, 1}}})
	}
	return out
}

func (s *single) spent() int64 { return s.sack.work }
