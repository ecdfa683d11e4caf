package buy

import (
	"ribband/pricing/sawing"
	"ribband/pricing/sheet"
	"ribband/takeoff/bill"

	"github.com/shopspring/decimal"
)

// Boards of random width are sold by what they hold, and how wide they come is known when they lie in the yard. Each is reckoned as
// the board that wastes most: of those between the narrowest and the widest with as few strips side by side as the
// narrowest, the widest. Other boards give more strips for what they hold. For with strips a wide and a kerf k
// every width from n (a + k) - k to (n + 1) (a + k) - k gives n of them, and the upper end of that for a strip, a + k + a / n, falls
// with n. So whatever widths come, what is ordered suffices, and most often something stays over. Strips of two kinds out of one stack
// come of what is ordered for both where the rest of the board that the first kind is complete with goes on to the second: one wide board
// may be all that comes. Computed.

// reckoned is a row for such pieces with the way strips come out of its boards; that of boards of random width is reckoned so, and
// strips of wider ones lie as in the narrowest.
func reckoned(it sheet.Item, p bill.Pieces, flat bool, r Rules) (sheet.Item, sawing.Way) {
	w := sawing.Best(it.Thickness.MM(), it.Width.MM(), p, flat, r.Kerf, r.Resaw)
	if !it.RandomWidth() || w.Strips() < 1 {
		return it, w
	}
	next := w.Used(w.Across+1, r.Kerf).Sub(r.Kerf) // one strip more from here on
	return it.At(decimal.Min(next, it.Widest.MM())), w
}

// RandomWidth says that the board is one of random width.
func (o Offer) RandomWidth() bool { return o.Widest != "" }
