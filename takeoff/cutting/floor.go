package cutting

// sum adds whole numbers and notices when it leaves its range; what has left it proves nothing.
type sum struct {
	v    int64
	past bool
}

// Sums stay within this.
const bigSum = int64(1) << 60

func (s *sum) add(v int64) {
	if s.v += v; s.v > bigSum || s.v < -bigSum {
		s.v, s.past = 0, true
	}
}

// addProduct adds a x b.
func (s *sum) addProduct(a, b int64) {
	if f := float64(a) * float64(b); f > 1<<60 || f < -(1<<60) {
		s.past = true
		return
	}
	s.add(a * b)
}

// addExtra takes off so many units of money for joints and for cutting into strips.
func (s *sum) addExtra(of *search, units int64) { s.addProduct(-units, of.scale) }

// affords is what a plan cheaper than the best may pay for joints and for cutting into strips beside these boards, in units.
func (s *search) affords(boards []int64) int64 {
	if s.extra == 0 || s.best == nil {
		return s.extra
	}
	left := s.target() / s.scale
	for k, n := range boards {
		left -= n * s.boards[k].price
	}
	return max(0, min(s.extra, left))
}

// target is the most, in unit/scale, that a plan cheaper than the best may cost, or the ceiling under which one is looked for.
func (s *search) target() int64 {
	most := bigSum
	if s.best != nil {
		most = (s.best.Net()/s.unit - 1) * s.scale
	}
	if s.ceiling > 0 {
		most = min(most, s.ceiling)
	}
	return most
}

// values is one set of whole values of the items, with what the table says of it: what all pieces are worth, and the
// most that a strip of each board can hold.
type values struct {
	items []int64
	all   int64
	strip []int64
}

// valued takes the values whose table was filled last; ok is false where they are out of range.
func (s *search) valued(items []int64) (v values, ok bool) {
	var all sum
	for i, it := range s.items {
		all.addProduct(items[i], it.demand)
	}
	v = values{items: items, all: all.v, strip: make([]int64, len(s.boards))}
	for k := range s.boards {
		v.strip[k] = s.holds(k)
	}
	return v, !all.past
}

// floor of a region, in unit/scale: the pieces' worth, and for each board what it costs above the worth of its strips
// times the number of it at which that is least.
func (v *values) floor(s *search, r *region) int64 {
	f := sum{v: v.all}
	for k, b := range s.boards {
		over := sum{v: b.price * s.scale}
		over.addProduct(-v.strip[k], b.strips)
		n := r.lo[k]
		if over.v < 0 {
			n = r.hi[k]
		}
		f.addProduct(over.v, n)
		f.past = f.past || over.past
	}
	if f.past {
		return 0
	}
	return f.v
}

// gap is how much more all strips of fixed numbers of boards can hold than the pieces are worth, with what may be paid for
// joints and for cutting into strips; ok is false where it is out of range.
func (v *values) gap(of *search, strips []int64, extra int64) (gap int64, ok bool) {
	f := sum{v: -v.all}
	f.addExtra(of, -extra)
	for k, n := range strips {
		f.addProduct(v.strip[k], n)
	}
	return f.v, !f.past
}
