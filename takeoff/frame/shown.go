package frame

import (
	"math"

	"ribband/takeoff/boat"
	"ribband/takeoff/hull"
	"ribband/takeoff/quantity"
)

// Shown is what of a frame's measures tells how well its shape is known, beside the ranges of girth and least radius.
type Shown struct {
	// TightestRadiusMM is that of the tightest laminate of a frame so deep as moulded: the innermost of a bilge, in a hollow
	// the one at the faying face, whichever has the lower low end. It is absent of a straight frame, where no piece so deep
	// can follow the bend, and where the points tell no such bend; the low end then stands by itself.
	TightestRadiusMM     *float64 `json:"tightest_radius_mm,omitempty"`
	TightestRadiusLowMM  *float64 `json:"tightest_radius_low_mm,omitempty"`
	TightestRadiusHighMM *float64 `json:"tightest_radius_high_mm,omitempty"`
	// TightestBend says bilge or hollow, and TightestAtMM where along the girth from the rabbet; a tape does not tell where.
	TightestBend string   `json:"tightest_bend,omitempty"`
	TightestAtMM *float64 `json:"tightest_at_mm,omitempty"`
	// Sharp: the least radius is good to a tenth, at every section that the frame rests on. Absent of a taped frame.
	Sharp *bool `json:"sharp,omitempty"`
	// NotShownAtMM are places along the frame's girth of bends that lie between points too far apart to show them: no range
	// covers those.
	NotShownAtMM []float64 `json:"not_shown_at_mm,omitempty"`
	// OneMorePoint is where one more would tell most of the tightest bend, where that is not sharp or not shown.
	OneMorePoint *OneMorePoint `json:"one_more_point,omitempty"`
	// The ends of the greatest bevel's range, at its place, and of what they ask of the blank. Absent of taped frames, of
	// flat ones, and where the lines fore and aft of the frame are not known.
	GreatestBevelLowDeg  *float64 `json:"greatest_bevel_low_deg,omitempty"`
	GreatestBevelHighDeg *float64 `json:"greatest_bevel_high_deg,omitempty"`
	ExtraMouldingLowMM   *float64 `json:"extra_moulding_low_mm,omitempty"`
	ExtraMouldingHighMM  *float64 `json:"extra_moulding_high_mm,omitempty"`
}

// OneMorePoint is a place to measure at the section that the frame rests on: the station's where it has a number, else the
// pattern's that stands at x; along that section's girth from the rabbet, and where its line runs there now.
type OneMorePoint struct {
	StationNo     *int      `json:"station_no,omitempty"`
	Side          boat.Side `json:"side"`
	XMM           float64   `json:"x_mm"`
	AtMM          float64   `json:"at_mm"`
	HalfBreadthMM float64   `json:"half_breadth_mm"`
	HeightMM      float64   `json:"height_mm"`
}

// Tightest puts the tightest laminate of a bend. Where the radius is so long that it counts as no bend its low end stands
// by itself.
func (s *Shown) Tightest(b hull.Bend, r hull.Reading, noBend float64) {
	s.TightestBend = bendName(b.Hollow)
	s.TightestRadiusLowMM = thousandth(r.Low)
	if !(r.MM < noBend) {
		return
	}
	s.TightestRadiusMM, s.TightestAtMM = thousandth(r.MM), thousandth(b.S)
	if !math.IsInf(r.High, 0) {
		s.TightestRadiusHighMM = thousandth(r.High)
	}
}

// taped puts the tightest laminate of a taped bilge, that at the depth moulded; none where it is tighter than that.
func (s *Shown) taped(b Bend, moulded float64) {
	if !(b.Radius > moulded) {
		return
	}
	s.TightestBend = bendName(false)
	s.TightestRadiusMM, s.TightestRadiusLowMM = thousandth(b.Radius-moulded), thousandth(max(0, b.Radius*b.Low-moulded))
	if high := b.Radius*b.High - moulded; !math.IsInf(high, 0) {
		s.TightestRadiusHighMM = thousandth(high)
	}
}

// Bevel puts the ends of the greatest bevel's range, radians, and what they ask of a blank sided so much, mm.
func (s *Shown) Bevel(low, high, sided float64) {
	s.GreatestBevelLowDeg, s.GreatestBevelHighDeg = thousandth(low*180/math.Pi), thousandth(high*180/math.Pi)
	a, b := hull.Bevel{Angle: low}.Extra(sided), hull.Bevel{Angle: high}.Extra(sided)
	least := min(a, b)
	if low < 0 && high > 0 {
		least = 0
	}
	s.ExtraMouldingLowMM, s.ExtraMouldingHighMM = thousandth(least), thousandth(max(a, b))
}

func thousandth(x float64) *float64 { x = quantity.Thousandth(x); return &x }

func bendName(hollow bool) string {
	if hollow {
		return "hollow"
	}
	return "bilge"
}
