package spare

import (
	"ribband/takeoff/bill"
	"ribband/takeoff/derivation"
)

// Item is a line of things bought by the piece, of which the figure net says how many stay in the boat. Its gross is open
// until Items.
func Item(id, net string, l bill.Line, t *derivation.Table) bill.Line {
	l.ID, l.NetFigure, l.GrossFigure, l.Net = id, net, id+"_gross", t.Quantity(net)
	l.Gross = l.Net
	return l
}

// Items shares the gross of fastenings and plugs of a bill over those of one item, with the members in their order.
func Items(of *bill.Bill, t *derivation.Table) error {
	for _, group := range Alike(of.Lines, func(l bill.Line) bool { return l.Material == bill.Fastenings || l.Material == bill.Plugs }) {
		before := ""
		for _, l := range group {
			before = Count(l, before, t)
		}
	}
	return t.Err()
}
