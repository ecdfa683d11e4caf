package rules

import (
	"strconv"

	"ribband/takeoff/scarf"

	"github.com/shopspring/decimal"
)

// PlankScarfRule is how a plank is made of two lengths or more, glued end to end by feather scarfs across its thickness: the
// taper's length to one of the board's thickness. What is longer than any board is; what is not, where it costs less than a long
// board.
type PlankScarfRule struct {
	Slope Sourced `json:"slope"`
	// LeastPart is the shortest length that a plank is made up with, in the rules' notation; empty takes twice the taper.
	LeastPart string `json:"least_part,omitempty"`
	// OnlyLonger: only planks that no board gives whole are scarfed, whatever long boards cost.
	OnlyLonger bool `json:"only_longer,omitempty"`
}

// PlankScarf is PlankScarfRule read; Least is 0 where the yard does not say.
type PlankScarf struct {
	Slope      decimal.Decimal
	Source     string
	Least      decimal.Decimal
	OnlyLonger bool
}

// leastTapers is how many tapers the shortest part has where the yard does not say: as long again as what is cut away of it. An
// assumption, no source.
const leastTapers = 2

// LeastPart is the shortest part with such a taper, mm: longer than the taper itself.
func (s PlankScarf) LeastPart(taper decimal.Decimal) decimal.Decimal {
	if s.Least.GreaterThan(taper) {
		return s.Least
	}
	return taper.Mul(decimal.NewFromInt(leastTapers))
}

func (r *reader) plankScarf(d *PlankScarfRule) *PlankScarf {
	const p = "/plank_scarf/slope"
	if d == nil {
		return nil
	}
	s := &PlankScarf{Slope: r.positive(p+"/value", d.Slope.Value), Source: d.Slope.Source, OnlyLonger: d.OnlyLonger}
	if s.Slope.LessThan(decimal.NewFromInt(scarf.LeastSlope)) || s.Slope.GreaterThan(decimal.NewFromInt(scarf.MostSlope)) {
		r.faults.Add(p+"/value", "the taper's length to one of thickness, from "+strconv.Itoa(scarf.LeastSlope)+" to "+strconv.Itoa(scarf.MostSlope)+", for example 12", "a scarf of %s to one", s.Slope)
	}
	if d.LeastPart != "" {
		s.Least = r.length("/plank_scarf/least_part", d.LeastPart, true)
	}
	r.named(p+"/source", d.Slope.Source)
	return s
}
