package flat

import "slices"

// Stock gives pieces that are no thicker than itself. Stock that gives the same pieces shares its strips, whatever its own thickness, and
// pieces that the same stock gives are cut alike: so thickness counts by that of the thickest piece which a stock gives.

// thickest is how thick the thickest piece is that a stock gives for its thickness; 0 where it gives none.
func (l List) thickest(s Stock) (most int64) {
	for _, q := range l.Pieces {
		if q.Qty > 0 && q.Thickness <= s.Thickness {
			most = max(most, q.Thickness)
		}
	}
	return most
}

// thinnest is that of the thinnest stock for sale that gives a piece; the piece's own where there is none.
func (l List) thinnest(q Piece) int64 {
	least := int64(-1)
	for _, s := range l.Stock {
		if t := l.thickest(s); s.Avail != 0 && t >= q.Thickness && (least < 0 || t < least) {
			least = t
		}
	}
	if least < 0 {
		return q.Thickness
	}
	return least
}

// thicknesses are those of stock for sale, thin first, by the thickest piece.
func (p *problem) thicknesses() (out []int64) {
	for _, s := range p.stock {
		out = append(out, p.list.thickest(s.Stock))
	}
	slices.Sort(out)
	return slices.Compact(out)
}

// bothWays says that first cuts may run along stock and across it.
func (p *problem) bothWays() bool {
	return slices.ContainsFunc(p.lays, func(y lay) bool { return y.along != p.lays[0].along })
}
