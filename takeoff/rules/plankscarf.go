package rules

import (
	"strconv"

	"ribband/takeoff/scarf"

	"github.com/shopspring/decimal"
)

// PlankScarfRule is how a plank that is longer than any board is made of two lengths or more, glued end to end by feather scarfs
// across its thickness: the taper's length to one of the board's thickness.
type PlankScarfRule struct {
	Slope Sourced `json:"slope"`
}

// PlankScarf is PlankScarfRule read.
type PlankScarf struct {
	Slope  decimal.Decimal
	Source string
}

func (r *reader) plankScarf(d *PlankScarfRule) *PlankScarf {
	const p = "/plank_scarf/slope"
	if d == nil {
		return nil
	}
	s := &PlankScarf{Slope: r.positive(p+"/value", d.Slope.Value), Source: d.Slope.Source}
	if s.Slope.LessThan(decimal.NewFromInt(scarf.LeastSlope)) || s.Slope.GreaterThan(decimal.NewFromInt(scarf.MostSlope)) {
		r.faults.Add(p+"/value", "the taper's length to one of thickness, from "+strconv.Itoa(scarf.LeastSlope)+" to "+strconv.Itoa(scarf.MostSlope)+", for example 12", "a scarf of %s to one", s.Slope)
	}
	r.named(p+"/source", d.Slope.Source)
	return s
}
