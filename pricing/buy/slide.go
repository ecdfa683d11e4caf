package buy

import (
	"cmp"
	"slices"

	"ribband/takeoff/cutting"
)

// A list in which every joint has a place on a grid gives a floor, and its own plan, in which planks of two parts come out a little short,
// says which parts lie in which strips. Often the joints can be slid along until every part has its length: what one strip has too
// much of goes over a joint into the strip with the other part, and on from there. The plan then costs as little as the other.

// mostSlid is how many strips joints are slid between.
const mostSlid = 400

// slid is the cheaper of a plan and one with joints anywhere.
func slid(plan cutting.Plan, stock []cutting.Stock, pieces []cutting.Piece, r cutting.Rules, memo *memo) cutting.Plan {
	if r.Scarf == nil {
		return plan
	}
	for _, evenly := range []bool{false, true} {
		down, rules := anywhere(stock, pieces, r, evenly)
		short, err := memo.strips(stock, down, rules)
		if err != nil { // too many parts
			continue
		}
		if short.Cost < plan.Cost {
			if full, ok := slide(short, stock, pieces, r); ok {
				plan = full
			}
		}
		if short.Bound >= plan.Cost {
			break
		}
	}
	return plan
}

// slidStrip is one strip: whole pieces in it, and how much more is in it than it gives, a kerf with every piece.
type slidStrip struct {
	stock  string
	whole  []cutting.Count
	over   int64
	length int64
}

// slidJoint is a piece of two parts, in strips so, that are so long.
type slidJoint struct {
	piece string
	in    [2]int
	part  [2]int64
}

// sliding is a plan whose joints are being slid.
type sliding struct {
	strips []slidStrip
	joints []slidJoint
	rules  cutting.Rules
	long   map[string]int64
}

// slide is the plan of a list with shorter planks, with every plank in its length; false where its joints cannot be slid so.
func slide(short cutting.Plan, stock []cutting.Stock, pieces []cutting.Piece, r cutting.Rules) (cutting.Plan, bool) {
	s := sliding{rules: r, long: map[string]int64{}}
	for _, p := range pieces {
		s.long[p.ID] = p.Length
	}
	if !s.begin(short, stock) {
		return cutting.Plan{}, false
	}
	for k := range s.strips {
		for s.strips[k].over > 0 {
			if !s.ease(k) {
				return cutting.Plan{}, false
			}
		}
	}
	full := s.plan(short)
	return full, cutting.Check(full, stock, pieces, r) == nil
}

// begin lays whole pieces and parts in their strips, each part as long as in the plan or as the least, and what its piece lacks with the first.
func (s *sliding) begin(short cutting.Plan, stock []cutting.Stock) bool {
	in := map[cutting.Count][]int{} // strips with such a part, K left out
	for _, c := range short.Cuts {
		i := slices.IndexFunc(stock, func(b cutting.Stock) bool { return b.ID == c.StockID })
		if i < 0 || int64(len(s.strips))+c.N > mostSlid {
			return false
		}
		room := stock[i].Length - 2*s.rules.TrimEach
		for range c.N {
			strip := slidStrip{stock: c.StockID, over: -room - s.rules.Kerf, length: room}
			for _, k := range c.Pieces {
				if k.Part == 0 {
					strip.whole = append(strip.whole, k)
					strip.over += k.K * (s.long[k.PieceID] + s.rules.Kerf)
					continue
				}
				for range k.K {
					key := cutting.Count{PieceID: k.PieceID, Part: k.Part}
					in[key] = append(in[key], len(s.strips))
				}
			}
			s.strips = append(s.strips, strip)
		}
	}
	for _, j := range short.Joints {
		for range j.N {
			h := slidJoint{piece: j.PieceID}
			for k, part := range []int64{j.First, j.Second} {
				key := cutting.Count{PieceID: j.PieceID, Part: part}
				if len(in[key]) == 0 {
					return false
				}
				h.in[k], in[key] = in[key][0], in[key][1:]
				h.part[k] = max(part, s.rules.Scarf.Least)
			}
			lacks := s.long[j.PieceID] + s.rules.Scarf.Length - h.part[0] - h.part[1]
			if h.part[0] += lacks; h.part[0] < s.rules.Scarf.Least {
				return false
			}
			for k := range h.in {
				s.strips[h.in[k]].over += h.part[k] + s.rules.Kerf
			}
			s.joints = append(s.joints, h)
		}
	}
	return true
}

// ease takes some of what a strip has too much to the nearest strip with room, over one joint after another; false where none can be reached.
func (s *sliding) ease(from int) bool {
	type step struct{ joint, side int } // over which joint a strip was reached, and its side there
	by := map[int]step{from: {-1, 0}}
	for queue := []int{from}; len(queue) > 0; queue = queue[1:] {
		at := queue[0]
		if s.strips[at].over < 0 {
			move := min(s.strips[from].over, -s.strips[at].over)
			for k := at; k != from; {
				b := by[k]
				h := s.joints[b.joint]
				move = min(move, h.part[1-b.side]-s.rules.Scarf.Least)
				k = h.in[1-b.side]
			}
			for k := at; k != from; {
				b := by[k]
				h := &s.joints[b.joint]
				h.part[b.side] += move
				h.part[1-b.side] -= move
				k = h.in[1-b.side]
			}
			s.strips[from].over -= move
			s.strips[at].over += move
			return true
		}
		for i, h := range s.joints {
			for side := range h.in {
				if _, seen := by[h.in[side]]; !seen && h.in[1-side] == at && h.part[1-side] > s.rules.Scarf.Least {
					by[h.in[side]] = step{i, side}
					queue = append(queue, h.in[side])
				}
			}
		}
	}
	return false
}

// plan is the strips with their parts as they are now, those alike together.
func (s *sliding) plan(short cutting.Plan) cutting.Plan {
	out := short
	out.Cuts, out.Joints = nil, nil
	for k, strip := range s.strips {
		c := cutting.Cut{StockID: strip.stock, N: 1, Pieces: slices.Clone(strip.whole), Offcut: strip.length}
		for _, h := range s.joints {
			for side := range h.in {
				if h.in[side] == k {
					c.Pieces = counted(c.Pieces, cutting.Count{PieceID: h.piece, K: 1, Part: h.part[side]})
				}
			}
		}
		long := func(p cutting.Count) int64 { return cmp.Or(p.Part, s.long[p.PieceID]) }
		slices.SortStableFunc(c.Pieces, func(a, b cutting.Count) int { return cmp.Compare(long(b), long(a)) })
		for _, p := range c.Pieces {
			c.Offcut -= p.K * (long(p) + s.rules.Kerf)
		}
		c.Offcut = max(0, c.Offcut)
		if i := slices.IndexFunc(out.Cuts, func(o cutting.Cut) bool { return o.StockID == c.StockID && slices.Equal(o.Pieces, c.Pieces) }); i >= 0 {
			out.Cuts[i].N++
			continue
		}
		out.Cuts = append(out.Cuts, c)
	}
	for _, h := range s.joints {
		first, second := max(h.part[0], h.part[1]), min(h.part[0], h.part[1])
		i := slices.IndexFunc(out.Joints, func(j cutting.Joint) bool { return j.PieceID == h.piece && j.First == first })
		if i < 0 {
			i = len(out.Joints)
			out.Joints = append(out.Joints, cutting.Joint{PieceID: h.piece, First: first, Second: second, From: s.long[h.piece] - second, To: first})
		}
		out.Joints[i].N++
		out.Joints[i].Cost += s.rules.Scarf.Price
	}
	return out
}

// counted adds a part to those alike.
func counted(all []cutting.Count, one cutting.Count) []cutting.Count {
	for i, p := range all {
		if p.PieceID == one.PieceID && p.Part == one.Part {
			all[i].K += one.K
			return all
		}
	}
	return append(all, one)
}
