package rules

import (
	"ribband/takeoff/notation"
	"ribband/takeoff/quantity"

	"github.com/shopspring/decimal"
)

// ButtBlockRule is what backs a butt of two planks between frames: the block's wood, how it is sized, and what fastens the
// planks' ends to it. Its grain runs as theirs.
type ButtBlockRule struct {
	Species string `json:"species"`
	Grade   string `json:"grade"`
	// Thickness of the block; left out it is that of the planks.
	Thickness string `json:"thickness,omitempty"`
	// Laps is how far it reaches past either edge of the plank, onto the strakes above and below.
	Laps string `json:"laps"`
	// Clear is what is left open between either of its ends and the frame there, for water to drain past.
	Clear string `json:"clear"`
	// Screw and Plug are what the price sheet calls the screws and what closes the wood over their heads; without a plug heads are
	// puttied or left. ScrewsEachEnd is how many an end of a plank takes.
	Screw         string `json:"screw"`
	Plug          string `json:"plug,omitempty"`
	ScrewsEachEnd string `json:"screws_each_end"`
	Source        string `json:"source"`
}

// ButtBlock is ButtBlockRule read, mm. Thickness is 0 where it is that of the planks.
type ButtBlock struct {
	Species, Grade, Screw, Plug, Source string
	Thickness, Laps, Clear, Each        decimal.Decimal
}

// mostEachEnd is more screws than any plank's end takes on its block.
const mostEachEnd = 40

func (r *reader) buttBlock(d *ButtBlockRule) *ButtBlock {
	const p = "/butt_blocks"
	if d == nil {
		return nil
	}
	b := &ButtBlock{Species: d.Species, Grade: d.Grade, Screw: d.Screw, Plug: d.Plug, Source: d.Source, Laps: r.length(p+"/laps", d.Laps, false), Clear: r.length(p+"/clear", d.Clear, false)}
	if d.Thickness != "" {
		b.Thickness = r.length(p+"/thickness", d.Thickness, true)
	}
	r.named(p+"/species", d.Species)
	r.named(p+"/grade", d.Grade)
	r.named(p+"/screw", d.Screw)
	r.named(p+"/source", d.Source)
	each, err := quantity.ParseDecimal(d.ScrewsEachEnd)
	if err != nil || !each.IsInteger() || each.Sign() <= 0 || each.GreaterThan(decimal.NewFromInt(mostEachEnd)) {
		r.faults.Add(p+"/screws_each_end", "a whole number from 1 to 40", "%s is no number of screws in the end of a plank", notation.Quote(d.ScrewsEachEnd))
		return b
	}
	b.Each = each
	return b
}
