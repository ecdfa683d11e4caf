package app

import (
	"math"

	"ribband/takeoff/hull"
	"ribband/takeoff/quantity"
)

// LeastBend is the tightest bend of a section at the faying face, with the range that holds nine times in ten.
type LeastBend struct {
	// Straight: the section has no bend to speak of. Doubtful: the fair curve did not settle.
	Straight          bool     `json:"straight"`
	Doubtful          bool     `json:"doubtful"`
	LeastRadiusMM     *float64 `json:"least_radius_mm,omitempty"`
	LeastRadiusLowMM  *float64 `json:"least_radius_low_mm,omitempty"`
	LeastRadiusHighMM *float64 `json:"least_radius_high_mm,omitempty"`
	LeastAtMM         *float64 `json:"least_at_mm,omitempty"`
	Bend              string   `json:"bend,omitempty"`
	// Sharp: the least radius is good to a tenth. NotShownAtMM are places along the girth of bends that lie between points
	// too far apart to show them: no range covers those.
	Sharp        bool      `json:"sharp"`
	NotShownAtMM []float64 `json:"not_shown_at_mm,omitempty"`
}

func leastBend(s *hull.Section) LeastBend {
	out := LeastBend{Doubtful: s.Doubtful, Sharp: s.Sharp}
	for _, u := range s.Unshown {
		out.NotShownAtMM = append(out.NotShownAtMM, quantity.Thousandth(u.Mid))
	}
	least := s.Least()
	r := least.Radius()
	if s.Straight || math.IsInf(r.MM, 0) {
		out.Straight = true
		return out
	}
	of := func(x float64) *float64 { x = quantity.Thousandth(x); return &x }
	out.LeastRadiusMM, out.LeastRadiusLowMM, out.LeastAtMM = of(r.MM), of(r.Low), of(least.S)
	// Where the points do not tell the bend from none there is no high end; the low end stands all the same, as it does
	// for a frame there.
	if !math.IsInf(r.High, 0) {
		out.LeastRadiusHighMM = of(r.High)
	}
	out.Bend = "bilge"
	if least.Hollow {
		out.Bend = "hollow"
	}
	return out
}
