package takeoff

import (
	"fmt"

	"ribband/takeoff/bill"
	"ribband/takeoff/frame"
)

// unplaced are the warnings of blanks whose joints keep clear of a bend that was taped, so that nobody knows where along the
// girth it lies.
func unplaced(all []frame.MadeUp) []bill.Warning {
	var out []bill.Warning
	for _, made := range all {
		if !made.BendUnplaced {
			continue
		}
		m := made.Member
		out = append(out, bill.Warning{Code: "bend_not_placed", Member: &m,
			Detail: fmt.Sprintf("Frame %d %s: the joints of its laminates keep clear of its bend, and a tape does not tell where that lies; halfway up the girth stands for it.", m.No, m.Side),
			Fix:    "Take its pattern, points from heel to head, or hold the joints against the frame before they are cut."})
	}
	return out
}
