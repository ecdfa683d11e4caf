package cutting

// lister lists every layout of fixed numbers of boards that loses no more than all strips together can lose. Only
// layouts to which no further piece can be added are listed: a plan's strips can be filled up to those without costing
// more.
type lister struct {
	*search
	values []int64
	board  int
	least  int64 // what a layout must be worth
	tables [][]int64
	stride int
	counts []count
	found  []layout
	most   int
	steps  int64
}

// Memory for the tables that show what the remaining pieces can still add, in entries.
const mostEntries = 1 << 23

// list gives the layouts of boards with strips that lose at most gap of the most they can hold; false when they are
// more than most.
func (s *search) list(v values, gap int64, strips []int64, most int) ([]layout, bool) {
	l := s.lister
	if l == nil || &l.values[0] != &v.items[0] { // else the tables stand
		var before [][]int64
		if l != nil {
			before = l.tables
		}
		l = &lister{search: s, values: v.items}
		l.fill(before)
		s.lister = l
	}
	l.most, l.steps, l.found = most, 0, nil
	for k, b := range s.boards {
		if strips[k] == 0 {
			continue
		}
		// f is the same table for all boards
		l.board, l.least = k, v.strip[k]+b.uncut*s.scale-gap
		l.counts = l.counts[:0]
		if !l.walk(0, b.room, 0, b.room+1) {
			return l.found, false
		}
	}
	return l.found, true
}

// fill makes the tables: tables[j] is the most that items from j x stride on can add. Those made before lend their memory.
func (l *lister) fill(before [][]int64) {
	s := l.search
	m := len(s.items)
	l.stride = 1 + m*(s.cells+1)/mostEntries
	if l.tables = before; l.tables == nil {
		l.tables = make([][]int64, m/l.stride+1)
	}
	// one run, copied each time enough items have gone in; the last copy is the whole table
	s.sack.runWatched(l.values, func(i int) {
		if i%l.stride == 0 {
			l.tables[i/l.stride] = append(l.tables[i/l.stride][:0], s.sack.f...)
		}
	})
}

// rest is an upper bound of what items from i on can add in a room.
func (l *lister) rest(i, room int) int64 {
	if i >= len(l.items) {
		if l.sack.base != nil {
			return l.sack.base[room]
		}
		return 0
	}
	return l.tables[i/l.stride][room]
}

// walk goes through the items from i on, longest first; tight is the shortest piece that could still be added
// earlier on, so that the room left in the end must be below it. false when too much was found or done.
func (l *lister) walk(i, room int, value int64, tight int) bool {
	l.steps++
	l.work += 8
	if len(l.found) > l.most || l.steps > int64(l.most)*200 {
		return false
	}
	for i < len(l.items) && l.items[i].size > room {
		i++
	}
	if i == len(l.items) {
		if l.sack.base != nil {
			value, tight = value+l.sack.base[room], room+1 // a shorter left-over may be worth less
		}
		if room < tight && value >= l.least && len(l.counts) > 0 {
			l.found = append(l.found, layout{l.board, append([]count{}, l.counts...)})
		}
		return true
	}
	if value+l.rest(i, room) < l.least {
		return true
	}
	it := l.items[i]
	full := l.sack.most[i]
	depth := len(l.counts)
	for k := min(full, int64(room/it.size)); k >= 0; k-- {
		left, worth, short := room-int(k)*it.size, value+k*l.values[i], tight
		if k < full {
			short = min(short, it.size)
		}
		if worth+l.rest(i+1, left) < l.least {
			continue
		}
		if k > 0 {
			l.counts = append(l.counts[:depth], count{i, k})
		} else {
			l.counts = l.counts[:depth]
		}
		if !l.walk(i+1, left, worth, short) {
			return false
		}
	}
	l.counts = l.counts[:depth]
	return true
}
