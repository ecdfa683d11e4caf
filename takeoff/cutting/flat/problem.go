package flat

import (
	"cmp"
	"slices"
)

// class is all pieces of one size that may be cut alike, from the same stock: thick is that of the thickest pieces which the thinnest such
// stock gives.
type class struct {
	ids    []Piece
	demand int64
	thick  int64
}

// shape is one way for a class to lie in a strip: along it and across it, each with a kerf. It gives n pieces.
type shape struct {
	class, n       int64
	along, deep    int64
	most           int64 // in one strip
	turned, paired bool
}

// lay is one direction of strips on stock that gives the same pieces for its thickness: shapes by depth, the depths of strips that are
// reckoned with, and for each the least that a strip can have which is deeper than the one before.
type lay struct {
	along  bool
	thick  int64 // of the thickest pieces that the stock gives
	shapes []shape
	levels []int64
	least  []int64
}

// group is strips of one direction and length; the same strip may come from any stock that gives such.
type group struct {
	lay  int
	room int64
}

// form is a stock with the first cuts one way: what its layouts are made of.
type form struct {
	stock, group int
	deep         int64 // room for strips, each with a kerf; of a roll what is cut off at once
}

// stock that serves; price in units of the problem, of a sheet or of 1 length of roll.
type stock struct {
	Stock
	price int64
}

// problem is a list reduced: equal sizes together, in both directions where first cuts may run both ways.
type problem struct {
	list    List
	classes []class
	lays    []lay
	groups  []group
	forms   []form
	stock   []stock
	per     int64 // costs are in unit/per of a minor unit
	unit    int64
	pieces  int64
	cells   int64 // that tables of strips of three stages may have
}

// reduce gives the problem of a checked list in which every piece has a number above 0.
func reduce(l List, cells int64) *problem {
	p := &problem{list: l, per: 1, cells: cells}
	for _, s := range l.Stock {
		p.per = max(p.per, s.Per)
	}
	for _, q := range l.Pieces {
		thick := l.thinnest(q)
		same := func(c class) bool { return c.thick == thick && sameSize(c.ids[0], q) }
		if i := slices.IndexFunc(p.classes, same); i >= 0 {
			p.classes[i].ids = append(p.classes[i].ids, q)
			p.classes[i].demand += q.Qty
		} else {
			p.classes = append(p.classes, class{[]Piece{q}, q.Qty, thick})
		}
		p.pieces += q.Qty
	}
	for _, s := range l.Stock {
		if s.Avail == 0 {
			continue
		}
		price := s.Price
		if !s.Roll() {
			price *= p.per
		}
		p.unit = gcd(p.unit, price)
		p.stock = append(p.stock, stock{s, price})
	}
	for k := range p.stock {
		p.stock[k].price /= max(1, p.unit)
	}
	for _, along := range []bool{false, true} {
		if along && l.Rules.First != Across || !along && l.Rules.First != Along || !along && slices.ContainsFunc(l.Stock, Stock.Roll) {
			for _, thick := range p.thicknesses() {
				p.addLay(along, thick)
			}
		}
	}
	return p
}

// sameSize reports whether two pieces are cut alike where the same stock gives them.
func sameSize(a, b Piece) bool {
	return a.Width == b.Width && a.Length == b.Length && a.MayTurn == b.MayTurn && a.AlongOnly == b.AlongOnly && a.Pair == nil && b.Pair == nil
}

// addLay enters what strips of one direction need, of stock that gives pieces so thick.
func (p *problem) addLay(along bool, thick int64) {
	at, kerf := len(p.lays), p.list.Rules.Kerf
	y := lay{along: along, thick: thick}
	longest := int64(0)
	for k, s := range p.stock {
		if p.list.thickest(s.Stock) != thick || s.Roll() && along || !s.Roll() && (along && p.list.Rules.First == Across || !along && p.list.Rules.First == Along) {
			continue
		}
		room, deep := s.rooms(p.list.Rules, along)
		if room <= kerf || deep <= kerf && (!s.Roll() || s.Length > 0) {
			continue
		}
		longest = max(longest, room)
		g := slices.Index(p.groups, group{at, room})
		if g < 0 {
			g = len(p.groups)
			p.groups = append(p.groups, group{at, room})
		}
		p.forms = append(p.forms, form{k, g, deep})
	}
	for i, c := range p.classes {
		if c.thick > thick || c.ids[0].AlongOnly && !along {
			continue
		}
		for _, s := range shapes(p.classes[i].ids[0], along) {
			s.class, s.along, s.deep = int64(i), s.along+kerf, s.deep+kerf
			s.most = min((p.classes[i].demand+s.n-1)/s.n, longest/s.along)
			if s.most > 0 {
				y.shapes = append(y.shapes, s)
			}
		}
	}
	slices.SortStableFunc(y.shapes, func(a, b shape) int { return cmp.Or(cmp.Compare(a.deep, b.deep), cmp.Compare(a.along, b.along)) })
	p.lays = append(p.lays, y)
	for i, f := range p.forms {
		if g := p.groups[f.group]; g.lay == at && f.deep == 0 {
			p.forms[i].deep = deepest(y.shapes, g.room)
		}
	}
	p.setLevels(at)
}

// rooms are what a stock gives for strips of one direction: along each and, for all strips, across them; a kerf counts
// with every piece and strip, so that one more than the saw makes is allowed. Of a roll without a length the depth is 0.
func (s Stock) rooms(r Rules, along bool) (room, deep int64) {
	w, l := s.Width-2*r.TrimEach+r.Kerf, s.Length-2*r.TrimEach+r.Kerf
	switch {
	case s.Roll() && s.Length > 0:
		return w, s.Length + r.Kerf
	case s.Roll():
		return w, 0
	case along:
		return l, w
	}
	return w, l
}

// deepest is the depth of the deepest shape that goes in strips of a length.
func deepest(shapes []shape, room int64) (most int64) {
	for _, h := range shapes {
		if h.along <= room {
			most = max(most, h.deep)
		}
	}
	return most
}

// shapes are the ways a piece may lie in strips of one direction, without kerfs.
func shapes(p Piece, along bool) []shape {
	var out []shape
	add := func(n, w, l int64, turned bool) {
		if turned {
			w, l = l, w
		}
		if along {
			w, l = l, w
		}
		if turned && w == l {
			return
		}
		out = append(out, shape{n: n, along: w, deep: l, turned: turned, paired: n == 2})
	}
	for _, turned := range []bool{false, true} {
		if turned && !p.MayTurn {
			break
		}
		add(1, p.Width, p.Length, turned)
		if p.Pair != nil && p.Qty > 1 {
			add(2, p.Pair.Width, p.Pair.Length, turned)
		}
	}
	return out
}

func gcd(a, b int64) int64 {
	for b != 0 {
		a, b = b, a%b
	}
	return a
}
