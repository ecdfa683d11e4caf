package takeoff

import (
	"fmt"
	"strings"

	"ribband/takeoff/bill"
	"ribband/takeoff/boat"
	"ribband/takeoff/hull"
)

// mostCrossed is how many marks are named; a table with more has a wrong thickness, or is of the other face.
const mostCrossed = 10

// Crossed are the warnings of marks that the plank's thickness laid across the centreline, each named as the table does.
func Crossed(h *hull.Hull) []bill.Warning {
	if h == nil {
		return nil
	}
	var out []bill.Warning
	marks := h.Crossed()
	for i, c := range marks {
		if i == mostCrossed {
			out = append(out, bill.Warning{Code: "mark_across_centreline",
				Detail: fmt.Sprintf("%d more marks come to lie across the centreline.", len(marks)-i), Fix: "Check plank_thickness, and which face of the plank the offsets are to."})
			break
		}
		side := string(c.Side)
		if c.Side == boat.Both {
			side = "both sides"
		}
		name := c.Cell
		if at, ok := strings.CutPrefix(name, "wl:"); ok {
			name = "waterline " + at
		} else {
			name = strings.Replace(name, ":", " ", 1)
		}
		out = append(out, bill.Warning{Code: "mark_across_centreline",
			Detail: fmt.Sprintf("Station %d %s, %s: laid in by the thickness of the plank it comes %.1f mm across the centreline, and is put on it.", c.Station, side, name, c.Over),
			Fix:    "Check this offset and plank_thickness; where the planks of both sides meet here, measure the rabbet itself, to the inside of plank."})
	}
	return out
}
