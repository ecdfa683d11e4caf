package cutting

import (
	"cmp"
	"slices"
)

// run is n strips of one stock that hold the same pieces and have the same room left.
type run struct {
	stock  int
	n      int64
	room   int64
	pieces []Count
}

// with is the run's strips, n of them, with k more pieces.
func (s run) with(n int64, p lump, k, kerf int64) run {
	s.n = n
	if k > 0 {
		s.room -= k * (p.Length + kerf)
		s.pieces = append(slices.Clip(s.pieces), Count{p.ID, k, p.part})
	}
	return s
}

// filling is strips being filled, first-fit decreasing: each piece goes into the first strip that has room, and a new
// strip is opened only when none has. Strips that are alike are kept together, so that ten thousand equal pieces
// cost no more than one.
type filling struct {
	rules  Rules
	stock  []Stock
	left   []int64 // strips still for sale, by stock
	open   []int   // stock in the order in which new strips are opened
	runs   []run
	joints []Joint
	// done are strips in which not even the shortest piece finds room any more.
	done []run
}

// byLength orders pieces longest first, equal lengths by id: the order of the list changes nothing.
func byLength(pieces []Piece) []Piece {
	out := slices.Clone(pieces)
	slices.SortFunc(out, func(a, b Piece) int { return cmp.Or(cmp.Compare(b.Length, a.Length), cmp.Compare(a.ID, b.ID)) })
	return out
}

// fill lays all pieces; ok is false when strips ran out, and then p is the first kind that found no room and short
// how many of it.
func (l *filling) fill(pieces []lump) (p Piece, short int64, ok bool) {
	shortest := pieces[len(pieces)-1].Length + l.rules.Kerf
	for _, p := range pieces {
		q := l.intoOpen(p, p.Qty)
		q = l.intoNew(p, q)
		l.retire(shortest)
		if q > 0 {
			return p.Piece, q, false
		}
	}
	return Piece{}, 0, true
}

// retire puts strips aside that have room for nothing on the list.
func (l *filling) retire(shortest int64) {
	open := l.runs[:0]
	for _, s := range l.runs {
		if s.room < shortest {
			l.done = append(l.done, s)
		} else {
			open = append(open, s)
		}
	}
	l.runs = open
}

func (l *filling) intoOpen(p lump, q int64) int64 {
	size := p.Length + l.rules.Kerf
	next := make([]run, 0, len(l.runs)+2)
	for _, s := range l.runs {
		per := s.room / size
		if per == 0 || q == 0 {
			next = append(next, s)
			continue
		}
		var pieces int64
		next, pieces = l.spread(next, s, p, min(q, per*s.n), per)
		q -= pieces
	}
	l.runs = next
	return q
}

// spread lays q pieces into the strips of a run, per into each until they are used up: full strips, one that takes
// the rest, and those left as they were.
func (l *filling) spread(to []run, s run, p lump, q, per int64) ([]run, int64) {
	full, rest := q/per, q%per
	if full > 0 {
		to = append(to, s.with(full, p, per, l.rules.Kerf))
	}
	if rest > 0 {
		to = append(to, s.with(1, p, rest, l.rules.Kerf))
		full++
	}
	if s.n > full {
		to = append(to, s.with(s.n-full, p, 0, l.rules.Kerf))
	}
	return to, q
}

func (l *filling) intoNew(p lump, q int64) int64 {
	size := p.Length + l.rules.Kerf
	for _, i := range l.open {
		room := l.stock[i].room(l.rules)
		per := room / size
		if q == 0 || per <= 0 || l.left[i] <= 0 {
			continue
		}
		n := min((q+per-1)/per, l.left[i])
		var pieces int64
		l.runs, pieces = l.spread(l.runs, run{stock: i, n: n, room: room}, p, min(q, n*per), per)
		q -= pieces
		l.left[i] -= n
	}
	return q
}

// plan turns the filled strips into boards.
func (l *filling) plan(m Method) (Plan, bool) {
	p := Plan{Method: m, Joints: l.joints}
	for _, j := range l.joints {
		p.Cost += j.Cost
	}
	used := make([]int64, len(l.stock))
	for _, s := range append(l.done, l.runs...) {
		used[s.stock] += s.n
		p.Cuts = append(p.Cuts, Cut{l.stock[s.stock].ID, s.n, s.pieces, max(0, s.room-l.rules.Kerf)})
	}
	for i, s := range l.stock {
		n := s.boards(used[i])
		if n == 0 {
			continue
		}
		if s.Avail >= 0 && n > s.Avail {
			return Plan{}, false
		}
		cost := n * s.Price // the request was refused if this could pass MaxCost
		p.Cost += cost
		p.Bought = append(p.Bought, Lot{s.ID, n, n * s.Strips, used[i], cost})
	}
	return p, true
}

// times is a x b, both at least 0; ok is false above MaxCost.
func times(a, b int64) (int64, bool) {
	if b != 0 && a > MaxCost/b {
		return 0, false
	}
	return a * b, true
}
