package takeoff

import (
	"errors"
	"fmt"
	"slices"

	"ribband/takeoff/boat"
	"ribband/takeoff/frame"
	"ribband/takeoff/hull"
)

// Unweighed are measurements of one kind that could be taken, and why it is not known what they would bring.
type Unweighed struct {
	Kind string `json:"kind"`
	// Of are the places: "station 3 port", "frame 12 starboard".
	Of  []string `json:"of"`
	Why string   `json:"why"`
}

// Why a measurement is not weighed.
const (
	whyKnuckles = "its section has knuckles, and is fitted piece by piece"
	whyTaped    = "it was taped: a tape tells girth and bilge, and no line that a pattern could be tried on"
	whyFlat     = "it lies flat on the planking, in no plane that a pattern is taken in"
	whyCanted   = "it does not stand square across the boat, and what a pattern of it would tell is not reckoned"
	whyMirrored = "it is built as the other side has it, so a pattern of this side would tell nothing"
	whyFaired   = "it is built faired by the sections beside it, so a pattern of it as found would tell nothing"
	whyLines    = "it is built as the lines have it, so a pattern of it as found would tell nothing"
)

// drop notes a measurement that is not weighed; those of a kind and a reason stand together.
func (n *narrower) drop(kind, of, why string) {
	for i := range n.unweighed {
		if u := &n.unweighed[i]; u.Kind == kind && u.Why == why {
			if !slices.Contains(u.Of, of) {
				u.Of = append(u.Of, of)
			}
			return
		}
	}
	n.unweighed = append(n.unweighed, Unweighed{kind, []string{of}, why})
}

// unwanted drops the stations beside worked frames that no further point is looked for at; straight ones have no bend that
// one could tell of.
func (n *narrower) unwanted(side boat.Side, wanted []hull.Wanted) {
	for _, m := range n.b.Hull.Measures() {
		if m.Section.Side != side || m.Section.Straight || len(m.Section.Knuckles()) == 0 ||
			slices.ContainsFunc(wanted, func(w hull.Wanted) bool { return w.Station == m.Station }) {
			continue
		}
		if slices.ContainsFunc(n.worked, func(s stand) bool { return s.frame.Side == side && slices.Contains(s.near(), m.Station) }) {
			n.drop(OnePoint, stationAt(m.Station, side), whyKnuckles)
		}
	}
}

// noPattern is why nobody can say what a pattern of a worked frame would bring; empty where it can be said, or where it has
// one.
func (s stand) noPattern() string {
	switch {
	case s.laid != nil:
		return whyFlat
	case s.target == nil:
		return whyTaped
	case s.frame.Wanted() == frame.BetterSideMirrored:
		return whyMirrored
	case s.frame.Wanted() == frame.Faired:
		return whyFaired
	case s.frame.Wanted() == frame.FromLines:
		return whyLines
	case s.target.RestsOn == boat.OnPattern:
		return ""
	case !s.frame.Square():
		return whyCanted
	}
	return ""
}

func stationAt(no int, side boat.Side) string {
	if side == boat.Both {
		return fmt.Sprintf("station %d both sides", no)
	}
	return fmt.Sprintf("station %d %s", no, side)
}

// noCurve is why a fit failed.
func noCurve(err error) string {
	var knuckles *hull.KnucklesError
	if errors.As(err, &knuckles) {
		return whyKnuckles
	}
	return "no fair curve follows it: " + err.Error()
}

// tooDeep is why a section cannot be built, where that is what the error says.
func tooDeep(err error) string {
	var deep *hull.DepthError
	if errors.As(err, &deep) {
		return "the frame is deeper there than its bend: " + deep.Error()
	}
	return ""
}
