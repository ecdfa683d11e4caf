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
	Each   string `json:"each,omitempty"`
	Source string `json:"source"`
}

// Fastening is FasteningRule read. Each is 0 where PerCrossing decides.
type Fastening struct {
	Screw, Plug, Source string
	PerCrossing         fastening.PerCrossing
	Each                decimal.Decimal
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
	return out
}

// Screws of a plank so wide, mm, on one frame, and where that is from.
func (f Fastening) Screws(width decimal.Decimal) (each decimal.Decimal, source string, err error) {
	if f.PerCrossing == OwnNumber {
		return f.Each, f.Source, nil
	}
	each, err = f.PerCrossing.Screws(width)
	return each, f.PerCrossing.Source(), err
}
