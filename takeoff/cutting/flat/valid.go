package flat

import "fmt"

// Check looks over a plan from nothing but its own figures and the request: every piece is cut as often as it is asked
// for (where a pair is cut, at most one more), pieces keep within their stack, stacks within their strip and strips
// within their sheet with a kerf between each, no more is bought than is for sale, what is cut is bought, and the cost
// is what it costs. It shares no code with Solve.
func Check(p Plan, l List) error {
	c := checking{list: l, pieces: map[string]Piece{}, stock: map[string]Stock{}, cut: map[string]int64{}, pairs: map[string]bool{}, used: map[string]int64{}}
	for _, q := range l.Pieces {
		c.pieces[q.ID] = q
	}
	for _, s := range l.Stock {
		c.stock[s.ID] = s
	}
	for i, y := range p.Layout {
		if err := c.layout(y); err != nil {
			return fmt.Errorf("layout %d of stock %s: %w", i, y.StockID, err)
		}
	}
	for _, q := range l.Pieces {
		if over := c.cut[q.ID] - q.Qty; over != 0 && !(over == 1 && c.pairs[q.ID]) {
			return fmt.Errorf("piece %s: %d cut of %d", q.ID, c.cut[q.ID], q.Qty)
		}
	}
	return c.bought(p)
}

type checking struct {
	list   List
	pieces map[string]Piece
	stock  map[string]Stock
	cut    map[string]int64
	pairs  map[string]bool
	used   map[string]int64
}

func (c checking) layout(y Layout) error {
	s, ok := c.stock[y.StockID]
	if !ok || y.N < 1 || len(y.Strips) == 0 {
		return fmt.Errorf("%d of it with %d strips", y.N, len(y.Strips))
	}
	r := c.list.Rules
	length, depth := s.Width-2*r.TrimEach, s.Length-2*r.TrimEach
	if y.First == Along {
		length, depth = depth, length
	}
	if y.First != Across && y.First != Along || s.Roll() && y.First != Across || !s.Roll() && r.First != Either && r.First != y.First {
		return fmt.Errorf("the first cut runs %q", y.First)
	}
	taken := int64(0)
	for i, t := range y.Strips {
		if t.N < 1 || t.Depth < 1 || len(t.Stacks) == 0 {
			return fmt.Errorf("strip %d: %d of it, %d deep", i, t.N, t.Depth)
		}
		taken += t.N * (t.Depth + r.Kerf)
		if err := c.goes(t, s, y.First); err != nil {
			return fmt.Errorf("strip %d: %w", i, err)
		}
		if err := c.strip(t, length, y.First == Along, y.N*t.N); err != nil {
			return fmt.Errorf("strip %d: %w", i, err)
		}
	}
	if !s.Roll() && taken-r.Kerf > depth {
		return fmt.Errorf("strips and kerfs are %d deep of %d", taken-r.Kerf, depth)
	}
	for i, t := range y.Strips {
		if most := c.atOnce(s); s.Roll() && t.Depth > most {
			return fmt.Errorf("strip %d is %d deep, the longest cut off at once is %d", i, t.Depth, most)
		}
	}
	if s.Roll() {
		c.used[s.ID] += y.N * taken
	} else {
		c.used[s.ID] += y.N
	}
	return nil
}

// goes looks whether the stock is as thick as every piece of a strip, and its first cuts run as they must.
func (c checking) goes(t Strip, s Stock, first First) error {
	for _, k := range t.Stacks {
		for _, q := range k.Pieces {
			if p := c.pieces[q.PieceID]; p.Thickness > s.Thickness || p.AlongOnly && first != Along {
				return fmt.Errorf("piece %s is %d thick, the stock %d; first cut %s", p.ID, p.Thickness, s.Thickness, first)
			}
		}
	}
	return nil
}

// atOnce is the longest that is cut off a roll at once.
func (c checking) atOnce(s Stock) int64 {
	if s.Length > 0 {
		return s.Length
	}
	most := int64(0)
	for _, p := range c.list.Pieces {
		sizes := []Size{{p.Width, p.Length}}
		if p.Pair != nil {
			sizes = append(sizes, *p.Pair)
		}
		for _, q := range sizes {
			most = max(most, q.Length)
			if p.MayTurn {
				most = max(most, q.Width)
			}
		}
	}
	return most
}

func (c checking) strip(t Strip, length int64, along bool, n int64) error {
	r, taken := c.list.Rules, int64(0)
	for i, k := range t.Stacks {
		if k.N < 1 || k.Width < 1 || len(k.Pieces) == 0 {
			return fmt.Errorf("stack %d: %d of it, %d wide", i, k.N, k.Width)
		}
		taken += k.N * (k.Width + r.Kerf)
		high, count := int64(0), int64(0)
		for _, q := range k.Pieces {
			p, ok := c.pieces[q.PieceID]
			if !ok || q.K < 1 || q.Turned && !p.MayTurn || q.Paired && p.Pair == nil {
				return fmt.Errorf("stack %d: %d of piece %q, turned %t, paired %t", i, q.K, q.PieceID, q.Turned, q.Paired)
			}
			w, h, gives := p.Width, p.Length, int64(1)
			if q.Paired {
				w, h, gives = p.Pair.Width, p.Pair.Length, 2
				c.pairs[p.ID] = true
			}
			if q.Turned != along {
				w, h = h, w
			}
			if w > k.Width || r.Exact && r.Stages == 3 && w < k.Width || r.Exact && r.Stages == 2 && h < t.Depth {
				return fmt.Errorf("stack %d: piece %s is %d x %d, the stack %d wide, the strip %d deep", i, p.ID, w, h, k.Width, t.Depth)
			}
			high += q.K * (h + r.Kerf)
			count += q.K
			c.cut[p.ID] += n * k.N * q.K * gives
		}
		if high-r.Kerf > t.Depth || r.Stages == 2 && count != 1 {
			return fmt.Errorf("stack %d: %d pieces and their kerfs are %d deep of %d", i, count, high-r.Kerf, t.Depth)
		}
	}
	if taken-r.Kerf > length {
		return fmt.Errorf("stacks and kerfs take %d of %d", taken-r.Kerf, length)
	}
	return nil
}

func (c checking) bought(p Plan) error {
	cost, have := int64(0), map[string]bool{}
	for _, lot := range p.Bought {
		s, ok := c.stock[lot.StockID]
		n, price := lot.N, lot.N*s.Price
		if s.Roll() {
			n, price = lot.Length, (lot.Length*s.Price+s.Per-1)/s.Per
		}
		switch {
		case !ok || have[lot.StockID] || n < 1 || s.Roll() && lot.N != 0 || !s.Roll() && lot.Length != 0:
			return fmt.Errorf("stock %q: %d and a length of %d bought, listed before %t", lot.StockID, lot.N, lot.Length, have[lot.StockID])
		case s.Avail >= 0 && n > s.Avail:
			return fmt.Errorf("stock %s: %d bought, %d for sale", s.ID, n, s.Avail)
		case n != c.used[s.ID]:
			return fmt.Errorf("stock %s: %d bought, %d cut", s.ID, n, c.used[s.ID])
		case lot.Cost != price:
			return fmt.Errorf("stock %s: cost %d, not %d", s.ID, lot.Cost, price)
		}
		have[s.ID] = true
		cost += lot.Cost
	}
	for id := range c.used {
		if !have[id] {
			return fmt.Errorf("stock %s is cut and not bought", id)
		}
	}
	if cost != p.Cost || p.Bound > p.Cost || p.Proven != (p.Bound == p.Cost) {
		return fmt.Errorf("cost %d, what is bought %d, bound %d, proven %t", p.Cost, cost, p.Bound, p.Proven)
	}
	return nil
}
