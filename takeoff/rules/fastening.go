package rules

import (
	"ribband/takeoff/fastening"

	"github.com/shopspring/decimal"
)

// FasteningRule is how planks are fastened to new frames: what the price sheet calls the screws and the plugs over their heads,
// and how many a plank takes on each frame.
type FasteningRule struct {
	Screw string `json:"screw"`
	// Plug is left out where heads are not plugged, but puttied or left.
	Plug        string                `json:"plug,omitempty"`
	PerCrossing fastening.PerCrossing `json:"per_crossing"`
	// Each is the yard's own number of a crossing, instead of a rule.
	Each string `json:"each,omitempty"`
	// HoodEnd is how many a plank takes at a hood end, on the stem, the stern or the transom; left out as many as on a frame.
	HoodEnd string `json:"each_hood_end,omitempty"`
	Source  string `json:"source"`
}

// Fastening is FasteningRule read. Each is 0 where PerCrossing decides, HoodEnd where a hood end takes as many as a frame.
type Fastening struct {
	Screw, Plug, Source string
	PerCrossing         fastening.PerCrossing
	Each, HoodEnd       decimal.Decimal
}

// OwnNumber is the rule of a yard that has a number of its own for every crossing.
const OwnNumber fastening.PerCrossing = "own_number"

// mostEach is more screws than any plank takes on a frame.
const mostEach = 12

func (r *reader) fastening(d *FasteningRule) *Fastening {
	const p = "/plank_fastenings"
	if d == nil {
		return nil
	}
	out := &Fastening{Screw: d.Screw, Plug: d.Plug, Source: d.Source, PerCrossing: d.PerCrossing}
	r.named(p+"/screw", d.Screw)
	r.named(p+"/source", d.Source)
	switch {
	case d.PerCrossing == OwnNumber:
		if out.Each = r.positive(p+"/each", d.Each); out.Each.GreaterThan(decimal.NewFromInt(mostEach)) {
			r.faults.Add(p+"/each", "a number above 0 and at most 12", "%s screws of a plank on a frame", out.Each)
		}
	case !d.PerCrossing.Known():
		r.faults.Add(p+"/per_crossing", "composite_1891, two_or_three or own_number", "the rule %q of fastenings is not known", string(d.PerCrossing))
	case d.Each != "":
		r.faults.Add(p+"/each", "nothing, or the rule own_number", "the rule %s has its own numbers", d.PerCrossing)
	}
	if d.HoodEnd != "" {
		if out.HoodEnd = r.positive(p+"/each_hood_end", d.HoodEnd); !out.HoodEnd.IsInteger() || out.HoodEnd.GreaterThan(decimal.NewFromInt(mostEachEnd)) {
			r.faults.Add(p+"/each_hood_end", "a whole number from 1 to 40", "%s screws in a hood end", out.HoodEnd)
		}
	}
	return out
}

// AtHood is how many screws a plank so wide, mm, takes at a hood end, and where that is from.
func (f Fastening) AtHood(width decimal.Decimal) (each decimal.Decimal, source string, err error) {
	if f.HoodEnd.IsPositive() {
		return f.HoodEnd, f.Source, nil
	}
	each, source, err = f.Screws(width)
	return each, "as on a frame (common practice, no source): " + source, err
}

// Screws of a plank so wide, mm, on one frame, and where that is from.
func (f Fastening) Screws(width decimal.Decimal) (each decimal.Decimal, source string, err error) {
	if f.PerCrossing == OwnNumber {
		return f.Each, f.Source, nil
	}
	each, err = f.PerCrossing.Screws(width)
	return each, f.PerCrossing.Source(), err
}
