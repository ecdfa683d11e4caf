package takeoff

import (
	"fmt"
	"maps"
	"math"
	"slices"
	"strings"

	"ribband/takeoff/bill"
	"ribband/takeoff/boat"
	"ribband/takeoff/finding"

	"github.com/shopspring/decimal"
)

// along is what was found of a frame from heel to head. Its girth is taken at the high end of its range, to the next
// whole millimetre, so that no finding made along the frame itself falls off its head.
func (b Basis) along(s stand) ([]finding.Stretch, error) {
	girth := math.Ceil(s.shape.Girth * s.shape.GirthHigh)
	return b.Findings.Along(s.frame.Member(), decimal.NewFromFloat(girth))
}

// left is what was found broken or decayed in a frame that nothing is done to: it stays in the boat. It reports whether the
// whole of the frame was sounded.
func (b Basis) left(s stand) (damaged, bool, error) {
	along, err := b.along(s)
	if err != nil {
		return damaged{}, false, err
	}
	return damaged{s.frame.Member(), finding.Bad(along)}, !finding.Any(along, finding.Unknown), nil
}

// where says a stretch of a frame in the findings' notation.
func (b Basis) where(s finding.Stretch) string {
	switch {
	case s.From.IsZero() && s.ToHead:
		return "from heel to head"
	case s.ToHead:
		return "from " + b.Findings.Say(s.From) + " along its girth to the head"
	case s.From.IsZero():
		return "from the heel to " + b.Findings.Say(s.To) + " along its girth"
	}
	return "from " + b.Findings.Say(s.From) + " to " + b.Findings.Say(s.To) + " along its girth"
}

// findingsOfNone are the warnings of findings that are of no frame of the boat.
func (b Basis) findingsOfNone() []bill.Warning {
	had := map[boat.Member]bool{}
	for _, f := range b.Floors {
		had[f.Member()] = true
	}
	for _, f := range b.Frames {
		had[f.Member()] = true
	}
	strays := b.Findings.Strays(func(m boat.Member) bool { return had[m] })
	var out []bill.Warning
	for _, row := range slices.Sorted(maps.Keys(strays)) {
		if m := strays[row]; m.Kind == boat.Floor {
			out = append(out, bill.Warning{Code: "finding_of_no_floor",
				Detail: fmt.Sprintf("Finding %d is of %s, which is not among the floors.", row+1, m),
				Fix:    "Give the finding the number of the floor that was sounded, or enter the floor."})
			continue
		}
		out = append(out, bill.Warning{Code: "finding_of_no_frame",
			Detail: fmt.Sprintf("Finding %d is of %s, which is not among the frames.", row+1, strays[row]),
			Fix:    "Give the finding the number and side of the frame that was sounded, or enter the frame."})
	}
	return out
}

// notSounded is the one warning of frames that are left and of which not all is known.
func notSounded(frames []boat.Member) []bill.Warning {
	if len(frames) == 0 {
		return nil
	}
	const named = 12
	var names []string
	for i, m := range frames {
		if i == named {
			names = append(names, fmt.Sprintf("and %d more", len(frames)-named))
			break
		}
		names = append(names, fmt.Sprintf("%d %s", m.No, m.Side))
	}
	of := "Frames that are left were not sounded all along and count as unknown, not as sound: "
	return []bill.Warning{{Code: "frames_not_sounded", Detail: of + strings.Join(names, ", ") + ".",
		Fix: "Sound them from heel to head and put what was found with the job's findings; until then the work may turn out to be more."}}
}
