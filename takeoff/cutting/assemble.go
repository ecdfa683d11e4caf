package cutting

import (
	"cmp"
	"slices"
)

// batch is n strips of one layout.
type batch struct {
	layout layout
	n      int64
}

// assemble turns batches into a plan, joints being how many pieces are made of two by each split: each length's pieces are
// given out by id, a piece that is already cut is left off, boards are counted. false when pieces are missing or more boards
// would be needed than are for sale.
func (p *problem) assemble(batches []batch, joints []int64) (Plan, bool) {
	left := make([][]Piece, len(p.items))
	for i, it := range p.items {
		left[i] = slices.Clone(it.ids)
	}
	used := make([]int64, len(p.boards))
	var plan Plan
	if len(p.splits) > 0 {
		plan.Joints = p.join(p.needed(batches, joints), left)
	}
	for _, b := range inOrder(batches) {
		for n := b.n; n > 0; {
			cut, copies := p.strip(b.layout, n, left)
			if copies == 0 {
				break
			}
			plan.Cuts = append(plan.Cuts, cut)
			used[b.layout.board] += copies
			n -= copies
		}
	}
	for i := range left {
		if len(left[i]) > 0 {
			return Plan{}, false
		}
	}
	for k, b := range p.boards {
		n := b.stock.boards(used[k])
		if n == 0 {
			continue
		}
		if b.most >= 0 && n > b.most {
			return Plan{}, false
		}
		cost := n * b.stock.Price
		plan.Cost += cost
		plan.Bought = append(plan.Bought, Lot{b.stock.ID, n, n * b.strips, used[k], cost})
	}
	slices.SortFunc(plan.Bought, func(a, b Lot) int { return cmp.Compare(a.StockID, b.StockID) })
	plan.Method = SeveralBoards
	if len(plan.Bought) == 1 {
		plan.Method = OneBoard
	}
	plan.Cuts = joined(plan.Cuts)
	for _, j := range plan.Joints {
		plan.Cost += j.Cost
	}
	stock := make([]Stock, len(p.boards))
	for k, b := range p.boards {
		stock[k] = b.stock
	}
	plan.Kept = kept(plan, stock, p.rules)
	return plan, true
}

// count is so many of an item of a piece in a cut.
func (p *problem) count(item int, id string, k int64) Count {
	if p.items[item].sort == part {
		return Count{id, k, p.items[item].length}
	}
	return Count{PieceID: id, K: k}
}

// inOrder puts full layouts first, so that what is left over gathers in few strips.
func inOrder(batches []batch) []batch {
	out := slices.Clone(batches)
	slices.SortStableFunc(out, func(a, b batch) int {
		return cmp.Or(cmp.Compare(b.n, a.n), cmp.Compare(a.layout.board, b.layout.board), cmp.Compare(a.layout.key(), b.layout.key()))
	})
	return out
}

// strip is the layout with the ids that come next, and how many strips alike those ids allow; 0 when none of its
// pieces is wanted any more.
func (p *problem) strip(l layout, n int64, left [][]Piece) (Cut, int64) {
	b := p.boards[l.board].stock
	cut := Cut{StockID: b.ID}
	room, copies := b.room(p.rules), n
	for _, c := range l.counts {
		k := c.k
		for j := 0; k > 0 && j < len(left[c.item]); j++ {
			q := left[c.item][j]
			take := min(k, q.Qty)
			k -= take
			room -= take * (q.Length + p.rules.Kerf)
			cut.Pieces = append(cut.Pieces, p.count(c.item, q.ID, take))
			copies = min(copies, q.Qty/take)
		}
		if k > 0 { // too few are wanted: this strip is one of its kind
			copies = min(copies, 1)
		}
	}
	if len(cut.Pieces) == 0 {
		return Cut{}, 0
	}
	at := 0
	for _, c := range l.counts {
		list := left[c.item]
		for j := 0; j < len(list) && at < len(cut.Pieces) && cut.Pieces[at] == p.count(c.item, list[j].ID, cut.Pieces[at].K); j++ {
			list[j].Qty -= cut.Pieces[at].K * copies
			at++
		}
		left[c.item] = slices.DeleteFunc(list, func(q Piece) bool { return q.Qty == 0 })
	}
	cut.N, cut.Offcut = copies, max(0, room-p.rules.Kerf)
	return cut, copies
}

// joined puts cuts that came out alike together, by stock, longest pieces first.
func joined(cuts []Cut) []Cut {
	slices.SortStableFunc(cuts, func(a, b Cut) int {
		return cmp.Or(cmp.Compare(a.StockID, b.StockID), cmp.Compare(a.Offcut, b.Offcut), slices.CompareFunc(a.Pieces, b.Pieces, func(x, y Count) int {
			return cmp.Or(cmp.Compare(x.PieceID, y.PieceID), cmp.Compare(y.Part, x.Part), cmp.Compare(y.K, x.K))
		}))
	})
	var out []Cut
	for _, c := range cuts {
		if n := len(out); n > 0 && out[n-1].StockID == c.StockID && slices.Equal(out[n-1].Pieces, c.Pieces) {
			out[n-1].N += c.N
		} else {
			out = append(out, c)
		}
	}
	return out
}

// better orders plans: the cheaper, then the one with fewer different layouts, then the one with the largest single
// offcut, then the one with fewer boards, then the one whose boards come first by id.
func better(a, b Plan) bool {
	boards := func(p Plan) (n int64) {
		for _, l := range p.Bought {
			n += l.Boards
		}
		return n
	}
	offcut := func(p Plan) (most int64) {
		for _, c := range p.Cuts {
			most = max(most, c.Offcut)
		}
		return most
	}
	return cmp.Or(cmp.Compare(a.Net(), b.Net()), cmp.Compare(len(a.Cuts), len(b.Cuts)), cmp.Compare(offcut(b), offcut(a)),
		cmp.Compare(boards(a), boards(b)), slices.CompareFunc(a.Bought, b.Bought, func(x, y Lot) int {
			return cmp.Or(cmp.Compare(x.StockID, y.StockID), cmp.Compare(x.Boards, y.Boards))
		})) < 0
}
