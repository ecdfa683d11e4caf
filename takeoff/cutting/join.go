package cutting

import (
	"cmp"
	"math"
	"slices"

	"ribband/takeoff/cutting/internal/simplex"
)

// halvings choose where a piece that no board gives is joined when nothing has been searched yet: one part as long as it goes,
// or both as equal as may be.
var halvings = []func(places []int64) int64{
	func(places []int64) int64 { return places[0] },
	func(places []int64) int64 { return places[len(places)-1] },
}

// join fixes how many pieces are made of two before any layout is fixed: whole parts of the program's answer, then the split
// nearest to one more, or none more of it where its pieces go whole and it is nearer to that. false when no plan within the
// aim can come of it.
func (d *dive) join() bool {
	d.joints = make([]int64, len(d.splits))
	for !d.spent() {
		x := d.lp.Values()
		best, at := nearWhole, -1
		for i, j := range d.splitCol {
			n := math.Floor(x[j] + nearWhole)
			lo, hi := d.lp.Bounds(j)
			d.lp.SetBounds(j, math.Max(lo, n), hi)
			if over := x[j] - n; over > best && lo < hi {
				best, at = over, i
			}
		}
		if at < 0 {
			d.settleJoints(x)
			return true
		}
		n := math.Floor(x[d.splitCol[at]] + nearWhole)
		if best < 0.5 && d.items[d.splits[at].item].size <= d.cells {
			d.lp.SetBounds(d.splitCol[at], n, n)
		} else {
			_, hi := d.lp.Bounds(d.splitCol[at])
			d.lp.SetBounds(d.splitCol[at], n+1, hi)
		}
		d.lp.Fresh()
		if d.lp.Dual(4*len(d.items)+200, math.Inf(1)) != simplex.Optimal || !d.solve() {
			return false
		}
	}
	return false
}

// settleJoints makes parts of the pieces that are made of two.
func (d *dive) settleJoints(x []float64) {
	for i, j := range d.splitCol {
		n := int64(math.Round(x[j]))
		d.joints[i] = n
		d.lp.SetBounds(j, float64(n), float64(n))
		s := d.splits[i]
		d.wanted[s.item] -= n
		d.wanted[s.long] += n
		d.wanted[s.short] += n
	}
	d.lp.Fresh()
}

// needed are the joints without those that the batches make needless, because they cut the pieces whole.
func (p *problem) needed(batches []batch, joints []int64) []int64 {
	short := make([]int64, len(p.items))
	for i, it := range p.items {
		short[i] = it.demand
	}
	for _, b := range batches {
		for _, c := range b.layout.counts {
			short[c.item] -= b.n * c.k
		}
	}
	out := make([]int64, len(p.splits))
	for i, n := range joints {
		s := p.splits[i]
		out[i] = max(0, min(n, short[s.item]))
		short[s.item] -= out[i]
	}
	return out
}

// join takes the pieces that are made of two off what is left to cut and puts their parts to it.
func (p *problem) join(joints []int64, left [][]Piece) []Joint {
	var out []Joint
	for i, n := range joints {
		s := p.splits[i]
		for n > 0 && len(left[s.item]) > 0 {
			list := left[s.item]
			q := &list[len(list)-1] // the last by id, since the first are cut whole
			k := min(n, q.Qty)
			n -= k
			j := p.rules.Scarf.jointOf(q.ID, k, q.Length, p.items[s.long].length)
			out = append(out, j)
			for _, to := range []int{s.long, s.short} {
				left[to] = put(left[to], q.ID, p.items[to].length, k)
			}
			if q.Qty -= k; q.Qty == 0 {
				left[s.item] = list[:len(list)-1]
			}
		}
	}
	slices.SortFunc(out, func(a, b Joint) int { return cmp.Or(cmp.Compare(a.PieceID, b.PieceID), cmp.Compare(b.First, a.First)) })
	return out
}

// put adds k parts of a piece to a list of them by id.
func put(list []Piece, id string, length, k int64) []Piece {
	at, found := slices.BinarySearchFunc(list, id, func(q Piece, id string) int { return cmp.Compare(q.ID, id) })
	if found {
		list[at].Qty += k
		return list
	}
	return slices.Insert(list, at, Piece{ID: id, Length: length, Qty: k})
}
