package flat

import (
	"cmp"
	"slices"
)

// Solve finds the cheapest stock for the pieces within the usual limits. The order of stock and pieces changes nothing.
//
// A *RequestError when a number is out of range; a *LargeError for a piece that nothing gives, with the nearest that
// would do; a *ShortError when too little is for sale.
func Solve(l List) (Plan, error) { return SolveWithin(l, Usual) }

// SolveWithin is Solve with limits of the caller's.
func SolveWithin(l List, limits Limits) (Plan, error) {
	p, err := prepare(l)
	if err != nil || p == nil {
		return nothing(), err
	}
	best, short := p.shelves()
	if p.list.Rules.Stages == 3 {
		best = p.simpler(limits, best)
	}
	s := newSearch(p, limits, best)
	s.run()
	if s.best == nil {
		return Plan{}, p.shortage(short)
	}
	plan := *s.best
	plan.Certificate = s.certificate()
	if f := s.finer(); f != nil && f.proved > s.proved {
		plan.Certificate = f.certificate()
	}
	plan.Bound = plan.Certificate.Floor
	plan.Proven = plan.Bound == plan.Cost
	return plan, nil
}

// simpler is the best plan of two stages, which is one of three as well: each stack holds one piece.
func (p *problem) simpler(limits Limits, best *Plan) *Plan {
	l := p.list
	l.Rules.Stages, l.Rules.Exact = 2, false
	limits.Work /= 3
	s := newSearch(reduce(l, coarse), limits, best)
	s.run()
	return s.best
}

// finer is the floor of the program's values with finer levels; nil where the levels are all there are.
func (s *search) finer() *search {
	if s.list.Rules.Stages != 3 || s.settled() || s.last == nil {
		return nil
	}
	f := newSearch(reduce(s.list, fine), s.limits, s.best)
	for at := range f.lays {
		if len(f.lays[at].levels) != len(s.lays[at].levels) {
			f.scale = s.scale
			f.price(s.last)
			return f
		}
	}
	return nil
}

// nothing is the plan for no pieces.
func nothing() Plan {
	return Plan{Bought: []Lot{}, Layout: []Layout{}, Proven: true, Certificate: Certificate{Unit: 1, Scale: 1, Values: []Value{}}}
}

// prepare checks a list and reduces it; nil when there is nothing to cut.
func prepare(l List) (*problem, error) {
	if err := check(l); err != nil {
		return nil, err
	}
	l.Pieces = slices.DeleteFunc(slices.Clone(l.Pieces), func(p Piece) bool { return p.Qty == 0 })
	l.Stock = slices.Clone(l.Stock)
	slices.SortFunc(l.Stock, func(a, b Stock) int { return cmp.Compare(a.ID, b.ID) })
	size := func(p Piece) int64 { return p.Width * p.Length }
	slices.SortFunc(l.Pieces, func(a, b Piece) int {
		return cmp.Or(cmp.Compare(size(b), size(a)), cmp.Compare(b.Length, a.Length), cmp.Compare(a.ID, b.ID))
	})
	if len(l.Pieces) == 0 {
		return nil, nil
	}
	for _, q := range l.Pieces {
		if !slices.ContainsFunc(l.Stock, func(s Stock) bool { return s.Takes(q, l.Rules) }) {
			return nil, nearest(l, q)
		}
	}
	p := reduce(l, coarse)
	for i, c := range p.classes {
		if !p.served(int64(i)) {
			return nil, l.more(&ShortError{Piece: c.ids[0], Short: c.ids[0].Qty})
		}
	}
	return p, nil
}

// Takes reports whether a stock of which enough were for sale gives a piece.
func (s Stock) Takes(q Piece, r Rules) bool {
	w, l := s.Width-2*r.TrimEach, s.Length-2*r.TrimEach
	if s.Roll() {
		l = s.Length
	}
	fits := func(a, b int64) bool { return a <= w && (b <= l || s.Roll() && s.Length == 0) }
	if q.AlongOnly && (s.Roll() || r.First == Across) {
		return false
	}
	return q.Thickness <= s.Thickness && (fits(q.Width, q.Length) || q.MayTurn && fits(q.Length, q.Width))
}

// served reports whether some form for sale gives a class.
func (p *problem) served(class int64) bool {
	for _, f := range p.forms {
		g := p.groups[f.group]
		for _, h := range p.lays[g.lay].shapes {
			if h.class == class && h.n == 1 && h.along <= g.room && h.deep <= f.deep {
				return true
			}
		}
	}
	return false
}

// depths are those that a certificate of three stages is worked out at.
func (p *problem) depths() map[First][]int64 {
	if p.list.Rules.Stages == 2 {
		return nil
	}
	out := map[First][]int64{}
	for _, y := range p.lays {
		first := Across
		if y.along {
			first = Along
		}
		out[first] = append(out[first], y.levels...) // finer than each thickness of stock asks for
		slices.Sort(out[first])
		out[first] = slices.Compact(out[first])
	}
	return out
}
