package scarf

import (
	"fmt"
	"math"
)

// Strength is how much of the solid wood's strength in tension a glued joint keeps, at a slope that was tried.
type Strength struct {
	Slope    float64 // to one; 0 for a butt, end grain to end grain
	SharePct int
	Source   string
}

const (
	handbook = "Wood Handbook, FPL-GTR-190, USDA Forest Products Laboratory, 2010, ch. 10"
	birming  = "R. Birmingham, Boat Building Techniques, as quoted in a ship modellers' log, second-hand"
	trials   = "trials of plain scarfs by the Forest Products Laboratory, from memory"
)

// strengths from the weakest.
var strengths = [...]Strength{
	{0, 25, handbook},
	{4, 65, birming},
	{5, 65, trials},
	{8, 80, trials},
	{10, 85, trials},
	{12, 90, trials},
}

// StrengthAt is the strength at the flattest slope tried that is no flatter than slope, so that it is never told too high;
// false for what is not above 0.
func StrengthAt(slope float64) (Strength, bool) {
	if !(slope > 0) || math.IsInf(slope, 0) {
		return Strength{}, false
	}
	out := strengths[0]
	for _, s := range strengths {
		if s.Slope <= slope {
			out = s
		}
	}
	return out, true
}

// ClearWood is how many times the piece's section the glued face must be for a clear piece's strength, and FlattestAsked the
// slope that the highest strength asks for: Wood Handbook, FPL-GTR-190, 2010, ch. 10.
const (
	ClearWood     = 10
	FlattestAsked = 12
)

// FaceRatio is the glued face over the section that it joins.
func (f Feather) FaceRatio() float64 { return f.Face() / f.Depth }

// Say tells the strength in a sentence for a joint of a slope.
func (s Strength) Say(slope float64) string {
	switch {
	case s.Slope == 0:
		return fmt.Sprintf("No figure is known as steep as this; a butt of end grain keeps about %d %% of the solid wood's strength in tension (%s).", s.SharePct, s.Source)
	case s.Slope < slope:
		return fmt.Sprintf("A glued scarf of %g to one, the flattest tried that is no flatter, keeps about %d %% of the solid wood's strength (%s).", s.Slope, s.SharePct, s.Source)
	}
	return fmt.Sprintf("A glued scarf as flat as this keeps about %d %% of the solid wood's strength (%s).", s.SharePct, s.Source)
}
