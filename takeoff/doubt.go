package takeoff

import (
	"fmt"

	"ribband/takeoff/bill"
	"ribband/takeoff/boat"
	"ribband/takeoff/hull"
)

// doubts are the warnings that a section gives for a frame that stands on it: bends which the points do not show, and
// curves that did not settle. The ranges do not cover what was not measured.
func doubts(s *hull.Section, m boat.Member) []bill.Warning {
	var out []bill.Warning
	name := fmt.Sprintf("Frame %d %s", m.No, m.Side)
	for _, u := range s.Unshown {
		out = append(out, bill.Warning{
			Code: "bend_not_shown", Member: &m,
			Detail: fmt.Sprintf("%s: the points at station %d %s do not show its tightest bend; the bend, and the girth with it, may be far from what is reckoned.", name, u.Station, m.Side),
			Fix:    fmt.Sprintf("Measure one more point at station %d %s, about %.0f mm along the girth from the rabbet.", u.Station, m.Side, u.Mid),
		})
	}
	if s.Doubtful {
		out = append(out, bill.Warning{
			Code: "curve_not_settled", Member: &m,
			Detail: fmt.Sprintf("%s: no fair curve settled on the points of station %s; its bends may be off by more than their range.", name, stations(s.Near)),
			Fix:    fmt.Sprintf("Check the offsets of station %s %s, and measure more points round the bend.", stations(s.Near), m.Side),
		})
	}
	return out
}

// readWorse is the one warning of a table that was read worse than it was written. The ranges reckon with it already.
func readWorse(h *hull.Hull) []bill.Warning {
	multiple, grain, surely := h.ReadWorse()
	if !surely {
		return nil
	}
	return []bill.Warning{{
		Code: "table_read_worse",
		Detail: fmt.Sprintf("The table of offsets was read worse than it was written: its points scatter by about %.1f times what its grain of %.1f mm allows. Girths and bends are reckoned with that error, so their ranges are wider.",
			multiple, grain),
		Fix: fmt.Sprintf("Check the offsets against the boat and take them again to the grain; or declare a grain of about %.1f mm, which is what they are worth.", multiple*grain),
	}}
}

func stations(near []int) string {
	if len(near) == 2 {
		return fmt.Sprintf("%d or %d", near[0], near[1])
	}
	return fmt.Sprint(near[0])
}
