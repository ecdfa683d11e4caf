package flat

import (
	"cmp"
	"fmt"
	"slices"
)

// plan writes down what a packing holds. false when some piece is not cut.
func (k *packing) plan() (Plan, bool) {
	k.sheets = slices.DeleteFunc(k.sheets, func(s *sheet) bool { return len(s.strips) == 0 })
	k.cheaper()
	left := make([][]Piece, len(k.classes))
	for i, c := range k.classes {
		left[i] = slices.Clone(c.ids)
	}
	used := make([]int64, len(k.stock))
	var plan Plan
	seen := map[string]int{}
	for _, s := range k.sheets {
		f := k.forms[s.form]
		st := k.stock[f.stock]
		out := k.layout(s, left)
		if len(out.Strips) == 0 {
			continue
		}
		if st.Roll() {
			for _, t := range out.Strips {
				used[f.stock] += t.N * (t.Depth + k.list.Rules.Kerf)
			}
		} else {
			used[f.stock]++
		}
		key := fmt.Sprint(out)
		if i, ok := seen[key]; ok {
			plan.Layout[i].N++
			continue
		}
		seen[key] = len(plan.Layout)
		plan.Layout = append(plan.Layout, out)
	}
	for _, list := range left {
		for _, q := range list {
			if q.Qty > 0 {
				return Plan{}, false
			}
		}
	}
	for i, s := range k.stock {
		if used[i] == 0 {
			continue
		}
		lot := Lot{StockID: s.ID, N: used[i], Cost: used[i] * s.Price}
		if s.Roll() {
			lot = Lot{StockID: s.ID, Length: used[i], Cost: (used[i]*s.Price + s.Per - 1) / s.Per}
		}
		if s.Avail >= 0 && used[i] > s.Avail {
			return Plan{}, false
		}
		plan.Cost += lot.Cost
		plan.Bought = append(plan.Bought, lot)
	}
	slices.SortStableFunc(plan.Layout, func(a, b Layout) int {
		return cmp.Or(cmp.Compare(a.StockID, b.StockID), cmp.Compare(b.N, a.N), cmp.Compare(a.Left, b.Left))
	})
	return plan, true
}

// layout writes a sheet down, giving out the pieces that are still wanted.
func (k *packing) layout(s *sheet, left [][]Piece) Layout {
	f := k.forms[s.form]
	g := k.groups[f.group]
	out := Layout{StockID: k.stock[f.stock].ID, N: 1, First: Across}
	if k.lays[g.lay].along {
		out.First = Along
	}
	free := f.deep
	for _, m := range s.strips {
		t := k.strip(m, g.room, left)
		if len(t.Stacks) == 0 {
			continue
		}
		free -= t.Depth + k.list.Rules.Kerf
		if i := slices.IndexFunc(out.Strips, t.alike); i >= 0 {
			out.Strips[i].N++
		} else {
			out.Strips = append(out.Strips, t)
		}
	}
	if !k.stock[f.stock].Roll() {
		out.Left = max(0, free-k.list.Rules.Kerf)
	}
	slices.SortStableFunc(out.Strips, func(a, b Strip) int { return cmp.Or(cmp.Compare(b.Depth, a.Depth), cmp.Compare(a.Offcut, b.Offcut)) })
	return out
}

func (t Strip) alike(u Strip) bool {
	return t.Depth == u.Depth && slices.EqualFunc(t.Stacks, u.Stacks, func(a, b Stack) bool {
		return a.N == b.N && a.Width == b.Width && slices.Equal(a.Pieces, b.Pieces)
	})
}

// strip writes a strip down, only as deep as its pieces.
func (k *packing) strip(m *made, room int64, left [][]Piece) Strip {
	kerf := k.list.Rules.Kerf
	out := Strip{N: 1}
	for _, s := range m.stacks {
		for range s.n {
			parts, width, deep := k.parts(m.lay, s, left)
			if len(parts) == 0 {
				continue
			}
			room -= width + kerf
			out.Depth = max(out.Depth, deep-kerf)
			if n := len(out.Stacks); n > 0 && out.Stacks[n-1].Width == width && slices.Equal(out.Stacks[n-1].Pieces, parts) {
				out.Stacks[n-1].N++
			} else {
				out.Stacks = append(out.Stacks, Stack{1, width, parts})
			}
		}
	}
	out.Offcut = max(0, room-kerf)
	return out
}

// parts gives the pieces of one stack, as far as they are wanted.
func (k *packing) parts(lay int, s stack, left [][]Piece) (out []Part, width, deep int64) {
	for _, p := range s.parts {
		h := k.lays[lay].shapes[p.thing]
		list := left[h.class]
		for n := p.n; n > 0 && len(list) > 0; {
			q := &list[0]
			take := min(n, (q.Qty+h.n-1)/h.n)
			q.Qty -= min(q.Qty, take*h.n)
			n -= take
			out = append(out, Part{q.ID, take, h.turned, h.paired})
			width, deep = max(width, h.along-k.list.Rules.Kerf), deep+take*h.deep
			if q.Qty == 0 {
				list = list[1:]
			}
		}
		left[h.class] = list
	}
	return out, width, deep
}

// better orders plans: the cheaper, then fewer different layouts, then fewer different strips, then the largest piece
// left over.
func better(a, b Plan) bool {
	strips := func(p Plan) (n int) {
		for _, l := range p.Layout {
			n += len(l.Strips)
		}
		return n
	}
	offcut := func(p Plan) (most int64) {
		for _, l := range p.Layout {
			most = max(most, l.Left)
		}
		return most
	}
	return cmp.Or(cmp.Compare(a.Cost, b.Cost), cmp.Compare(len(a.Layout), len(b.Layout)), cmp.Compare(strips(a), strips(b)), cmp.Compare(offcut(b), offcut(a))) < 0
}
