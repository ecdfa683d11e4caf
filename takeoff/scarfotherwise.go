package takeoff

import (
	"fmt"

	"ribband/takeoff/finding"
	"ribband/takeoff/frame"
	"ribband/takeoff/quantity"
	"ribband/takeoff/scarf"

	"github.com/shopspring/decimal"
)

// ScarfOtherwise is what another slope would have meant: the taper and the glued face of a straight scarf as deep, and what
// would become of the frame's pieces.
type ScarfOtherwise struct {
	Slope   float64 `json:"slope"`
	TaperMM float64 `json:"taper_mm"`
	FaceMM  float64 `json:"face_mm"`
	Means   string  `json:"means"`
}

// slopeStep is from one slope to the next that is told: eight, ten and twelve to one are the ones in use (common practice, no
// source).
var slopeStep = decimal.NewFromInt(2)

// otherwise is what a slope one step off, steeper below and flatter above 0, would have meant for a frame of these parts; nil
// where there is no such slope.
func (b Basis) otherwise(s stand, along []finding.Stretch, parts []frame.Part, steps int64) *ScarfOtherwise {
	slope := b.Rules.Scarf.Slope.Add(slopeStep.Mul(decimal.NewFromInt(steps)))
	f := scarf.Feather{Slope: slope.InexactFloat64(), Depth: s.frame.Moulded.InexactFloat64()}
	if f.Check() != nil {
		return nil
	}
	out := &ScarfOtherwise{Slope: f.Slope, TaperMM: quantity.Thousandth(f.Length()), FaceMM: quantity.Thousandth(f.Face())}
	then, err := frame.Parts(along, slope.Mul(s.frame.Moulded), b.Findings.Say)
	if err != nil {
		out.Means = "It could not be done: " + err.Error() + "."
		return out
	}
	newWood := func(parts []frame.Part) (sum decimal.Decimal, scarfs int) {
		for _, p := range parts {
			sum, scarfs = sum.Add(p.High.Sub(p.LowTip)), scarfs+p.Scarfs()
		}
		return sum, scarfs
	}
	now, has := newWood(parts)
	would, had := newWood(then)
	more, word := would.Sub(now).InexactFloat64(), "more"
	if more < 0 {
		more, word = -more, "less"
	}
	out.Means = fmt.Sprintf("%.0f mm %s of new piece along the girth", more, word)
	if had != has {
		out.Means += fmt.Sprintf(", and %d scarfs in place of %d", had, has)
	}
	out.Means += "."
	return out
}

// told says of the scarfs why they are as steep as they are, and what the next steeper and flatter would have meant.
func (b Basis) told(scarfs []Scarf, steeper, flatter *ScarfOtherwise) {
	rule := b.Rules.Scarf
	for i := range scarfs {
		scarfs[i].Why = fmt.Sprintf("%s to one is the yard's slope (%s).", rule.Slope, rule.Source)
		if s, ok := scarf.StrengthAt(scarfs[i].Slope); ok {
			scarfs[i].Why += " " + s.Say(scarfs[i].Slope)
		}
		scarfs[i].Steeper, scarfs[i].Flatter = steeper, flatter
		scarfs[i].Change = "Another slope in the yard's rules of scarfs."
	}
}
