package cutting

import "slices"

// tidy betters a plan in the second key, never to a higher cost; what is proved stays. Two layouts of a board become one where
// their pieces can be dealt out evenly; then pieces of a strip that is one of its kind go into the left-overs of other such
// strips, or are exchanged for shorter ones, where the longest left-over of all grows by it. It takes steps in a fixed order, each
// of which makes the plan better, and ends after so many of them, or looks for one, that it takes next to no time.
type tidy struct {
	plan   Plan
	stock  []Stock
	rules  Rules
	length map[string]int64
	looks  int
}

const (
	mostTidied = 300
	mostLooks  = 20_000
)

// tidied is the plan after that.
func tidied(plan Plan, stock []Stock, pieces []Piece, r Rules) Plan {
	t := tidy{plan: plan, stock: stock, rules: r, length: map[string]int64{}}
	for _, p := range pieces {
		t.length[p.ID] = p.Length
	}
	for range mostTidied {
		if !t.merge() && !t.gather() {
			break
		}
	}
	if len(t.plan.Bought) == 1 {
		t.plan.Method = OneBoard
	}
	t.plan.settle()
	return t.plan
}

// size that so many pieces or parts take with their saw cuts.
func (t *tidy) size(c Count) int64 {
	if c.Part > 0 {
		return c.Part + t.rules.Kerf
	}
	return t.length[c.PieceID] + t.rules.Kerf
}

// room is what is left of a strip for further pieces with their kerfs.
func (t *tidy) room(c Cut) int64 {
	i := slices.IndexFunc(t.stock, func(s Stock) bool { return s.ID == c.StockID })
	room := t.stock[i].room(t.rules)
	for _, k := range c.Pieces {
		room -= k.K * t.size(k)
	}
	return room
}

// try takes a changed list of cuts when it makes a better plan.
func (t *tidy) try(cuts []Cut) bool {
	p := t.plan
	p.Cuts = joined(slices.DeleteFunc(cuts, func(c Cut) bool { return len(c.Pieces) == 0 }))
	used := map[string]int64{}
	for _, c := range p.Cuts {
		used[c.StockID] += c.N
	}
	p.Bought, p.Cost = nil, 0
	for _, j := range p.Joints {
		p.Cost += j.Cost
	}
	for _, s := range t.stock {
		if n := s.boards(used[s.ID]); n > 0 { // fewer than before where the limits had left some that were not needed
			p.Bought = append(p.Bought, Lot{s.ID, n, n * s.Strips, used[s.ID], n * s.Price})
			p.Cost += n * s.Price
		}
	}
	p.Kept = kept(p, t.stock, t.rules)
	if p.Net() > t.plan.Net() || !better(p, t.plan) {
		return false
	}
	t.plan = p
	return true
}

// merge makes one layout of two.
func (t *tidy) merge() bool {
	for i, a := range t.plan.Cuts {
		for j := range i {
			b := t.plan.Cuts[j]
			if a.StockID != b.StockID {
				continue
			}
			if t.looks++; t.looks > mostLooks {
				return false
			}
			both, ok := t.dealt(a, b)
			if !ok {
				continue
			}
			cuts := slices.Delete(slices.Clone(t.plan.Cuts), i, i+1)
			if cuts[j] = both; t.try(cuts) {
				return true
			}
		}
	}
	return false
}

// dealt is one layout that gives what two do; ok is false where pieces cannot be dealt out evenly or do not fit.
func (t *tidy) dealt(a, b Cut) (Cut, bool) {
	all := map[Count]int64{}
	for _, c := range []Cut{a, b} {
		for _, k := range c.Pieces {
			all[Count{PieceID: k.PieceID, Part: k.Part}] += k.K * c.N
		}
	}
	out := Cut{StockID: a.StockID, N: a.N + b.N}
	for k, n := range all {
		if n%out.N != 0 {
			return Cut{}, false
		}
		k.K = n / out.N
		out.Pieces = append(out.Pieces, k)
	}
	room := t.arrange(&out)
	return out, room >= 0
}

// arrange puts the pieces of a cut in order, longest first, and gives its room; the left-over follows.
func (t *tidy) arrange(c *Cut) (room int64) {
	slices.SortFunc(c.Pieces, func(x, y Count) int {
		switch a, b := t.size(x), t.size(y); {
		case a > b:
			return -1
		case a < b:
			return 1
		case x.PieceID < y.PieceID:
			return -1
		default:
			return 1
		}
	})
	room = t.room(*c)
	c.Offcut = max(0, room-t.rules.Kerf)
	return room
}

// gather makes the longest left-over longer: of a strip that is one of its kind a piece goes to another such strip, or is
// exchanged for a shorter one there.
func (t *tidy) gather() bool {
	longest := int64(0)
	for _, c := range t.plan.Cuts {
		longest = max(longest, c.Offcut)
	}
	for i, a := range t.plan.Cuts {
		grow := longest - t.room(a) + t.rules.Kerf // a piece given away must be so much longer than what comes back
		if a.N != 1 || t.size(a.Pieces[0]) <= grow {
			continue
		}
		for j, b := range t.plan.Cuts {
			if j == i || b.N != 1 {
				continue
			}
			room := t.room(b)
			for _, p := range a.Pieces {
				for _, q := range append([]Count{{}}, b.Pieces...) {
					if t.looks++; t.looks > mostLooks {
						return false
					}
					back := int64(0)
					if q.K > 0 {
						back = t.size(q)
					}
					if more := t.size(p) - back; more > max(0, grow) && more <= room && t.exchange(i, j, p, q) {
						return true
					}
				}
			}
		}
	}
	return false
}

// exchange puts a piece of cut i into cut j and one of that, if q is one, into i.
func (t *tidy) exchange(i, j int, p, q Count) bool {
	cuts := slices.Clone(t.plan.Cuts)
	from, to := &cuts[i], &cuts[j]
	from.Pieces, to.Pieces = add(from.Pieces, p, -1), add(to.Pieces, p, 1)
	if q.K > 0 {
		from.Pieces, to.Pieces = add(from.Pieces, q, 1), add(to.Pieces, q, -1)
	}
	t.arrange(from)
	t.arrange(to)
	return t.try(cuts)
}

// add is a list with k more of a piece.
func add(list []Count, of Count, k int64) []Count {
	out := slices.Clone(list)
	i := slices.IndexFunc(out, func(c Count) bool { return c.PieceID == of.PieceID && c.Part == of.Part })
	if i < 0 {
		of.K = k
		return append(out, of)
	}
	if out[i].K += k; out[i].K == 0 {
		return slices.Delete(out, i, i+1)
	}
	return out
}
