package takeoff

import (
	"fmt"

	"ribband/takeoff/bill"
	"ribband/takeoff/boat"
	"ribband/takeoff/frame"
	"ribband/takeoff/hull"
)

// doubts are the warnings that a frame's section gives: bends which the points do not show, and curves that did not
// settle. The ranges do not cover what was not measured. A tape has none of its own.
func (s stand) doubts() []bill.Warning {
	on, ok := s.rests()
	if !ok {
		return nil
	}
	m, side := s.frame.Member(), on.side
	name := fmt.Sprintf("Frame %d %s", m.No, m.Side)
	var out []bill.Warning
	warn := func(code, detail, fix string) {
		out = append(out, bill.Warning{Code: code, Member: &m, Detail: name + ": " + detail, Fix: fix})
	}
	const (
		unshown   = "do not show its tightest bend; the bend, and the girth with it, may be far from what is reckoned."
		unsettled = "its bends may be off by more than their range."
	)
	of := "its pattern"
	if side != m.Side { // mirrored
		of = fmt.Sprintf("the pattern of frame %d %s", m.No, side)
	}
	for _, u := range on.unshown {
		if u.Straight != "" {
			near := "a section beside it"
			if s.frame.Wanted() != frame.Faired {
				near = fmt.Sprintf("station %d %s", u.Station, side)
			}
			warn("panel_taken_straight", u.Straight+" only the ends were measured at "+near+", so the section is taken straight there; it may turn by half a radian, and the girth be longer with it.",
				fmt.Sprintf("Measure points between them, one of them about %.0f mm along the girth from the rabbet.", u.Mid))
			continue
		}
		switch {
		case s.frame.Wanted() == frame.Faired:
			warn("bend_not_shown", "the points of a section beside it "+unshown, "Measure one more point in the tightest bend of the sections next to this frame.")
			continue
		case on.from != boat.OnPattern:
			of = fmt.Sprintf("station %d %s", u.Station, side)
			warn("bend_not_shown", "the points at "+of+" "+unshown, fmt.Sprintf("Measure one more point at %s, about %.0f mm along the girth from the rabbet.", of, u.Mid))
		default:
			warn("bend_not_shown", "the points of "+of+" "+unshown, fmt.Sprintf("Pick up one more point of %s, about %.0f mm along the girth from the heel.", of, u.Mid))
		}
	}
	if on.doubtful {
		switch {
		case s.frame.Wanted() == frame.Faired:
			warn("curve_not_settled", "no fair curve settled on the points of a section beside it; "+unsettled, "Check the sections next to this frame, and measure more points round the bend.")
		case on.from == boat.OnPattern:
			warn("curve_not_settled", "no fair curve settled on the points of "+of+"; "+unsettled, "Check the points of "+of+", and pick up more round the bend.")
		default:
			warn("curve_not_settled", "no fair curve settled on the points of station "+stations(on.near)+"; "+unsettled,
				fmt.Sprintf("Check the offsets of station %s %s, and measure more points round the bend.", stations(on.near), side))
		}
	}
	return out
}

// rests is what a shape was measured from, and how well.
type rests struct {
	side     boat.Side
	from     boat.RestsOn
	near     []int
	doubtful bool
	unshown  []hull.Unshown
}

// rests of the shape that a frame is to have; not ok of a taped one.
func (s stand) rests() (rests, bool) {
	switch {
	case s.laid != nil:
		return rests{s.laid.Side, boat.OnStations, s.laid.Near, s.laid.Doubtful, s.laid.Unshown}, true
	case s.target != nil:
		return rests{s.target.Side, s.target.RestsOn, s.target.Near, s.target.Doubtful, s.target.Unshown}, true
	}
	return rests{}, false
}

// ReadWorse is the one warning of a table that was read worse than it was written. The ranges reckon with it already.
func ReadWorse(h *hull.Hull) []bill.Warning {
	if h == nil {
		return nil
	}
	multiple, grain, surely := h.ReadWorse()
	if !surely {
		return nil
	}
	return []bill.Warning{{
		Code: "table_read_worse",
		Detail: fmt.Sprintf("The table of offsets was read worse than it was written: its points scatter by about %.1f times what its grain of %s allows. Girths and bends are reckoned with that error, so their ranges are wider.",
			multiple, grainSaid(h.Notation(), grain)),
		Fix: fmt.Sprintf("Check the offsets against the boat and take them again to the grain; or declare a grain of about %s, which is what they are worth.", aboutSaid(h.Notation(), multiple*grain)),
	}}
}

func stations(near []int) string {
	out := fmt.Sprint(near[0])
	for i, no := range near[1:] {
		if i == len(near)-2 {
			out += " or "
		} else {
			out += ", "
		}
		out += fmt.Sprint(no)
	}
	return out
}
