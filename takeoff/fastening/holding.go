package fastening

import "github.com/shopspring/decimal"

// Bounds of specific gravity, on oven-dry weight and volume, of woods.
var (
	leastGravity = dec("0.1")
	mostGravity  = dec("1.4")
)

func checkGravity(g decimal.Decimal) error {
	if g.LessThan(leastGravity) || g.GreaterThan(mostGravity) {
		return fault("from 0.1 to 1.4", "a specific gravity of %s is no wood's", g)
	}
	return nil
}

const formulas = "civil-engineering formulas, ch. 6, undated"

// HoldingSource is where the loads below are from.
const HoldingSource = formulas

var withdrawalFactor = decimal.NewFromInt(2850)

// Withdrawal is what a screw may be pulled with, pounds an inch of thread in side grain: p = 2850 G2 D, G the specific gravity
// on oven-dry weight and volume, D the shank, inches. An allowable load, about 5.5 below what breaks it (from memory).
func Withdrawal(gravity, shank decimal.Decimal) (decimal.Decimal, error) {
	if err := checkGravity(gravity); err != nil {
		return decimal.Zero, err
	}
	if shank.Sign() <= 0 {
		return decimal.Zero, fault("a shank above 0", "a shank of %s in", shank)
	}
	return withdrawalFactor.Mul(gravity).Mul(gravity).Mul(shank), nil
}

// Group of woods by how they hold a load across the screw, from the densest.
type Group string

// The groups.
const (
	GroupI   Group = "I"
	GroupII  Group = "II"
	GroupIII Group = "III"
	GroupIV  Group = "IV"
)

var lateralFactors = map[Group]decimal.Decimal{GroupI: decimal.NewFromInt(4800), GroupII: decimal.NewFromInt(3960), GroupIII: decimal.NewFromInt(3240), GroupIV: decimal.NewFromInt(2520)}

// Lateral is what a screw may be loaded with across it, pounds: p = C D2.
func Lateral(group Group, shank decimal.Decimal) (decimal.Decimal, error) {
	c, ok := lateralFactors[group]
	if !ok {
		return decimal.Zero, fault("I, II, III or IV", "the group %q of woods is not known", string(group))
	}
	if shank.Sign() <= 0 {
		return decimal.Zero, fault("a shank above 0", "a shank of %s in", shank)
	}
	return c.Mul(shank).Mul(shank), nil
}

// Lead is a lead hole for a screw that is pulled: its share of the root.
type Lead struct {
	ShareOfRoot decimal.Decimal
	Source      string
}

var (
	dense, denser = dec("0.5"), dec("0.6")
	denseShare    = dec("0.70")
	denserShare   = dec("0.90")
)

// LeadFor a wood's specific gravity: 70 % of the root above 0.5 and below 0.6, 90 % from 0.6 on. For lighter woods no figure was
// seen: a *RangeError.
func LeadFor(gravity decimal.Decimal) (Lead, error) {
	if err := checkGravity(gravity); err != nil {
		return Lead{}, err
	}
	switch {
	case !gravity.LessThan(denser):
		return Lead{denserShare, leadSource}, nil
	case gravity.GreaterThan(dense):
		return Lead{denseShare, leadSource}, nil
	}
	return Lead{}, fault("a wood of more than 0.5, or a lead tried in a piece of the same wood", "no lead hole is published for a specific gravity of %s", gravity)
}

const leadSource = "Civil Engineering X, on wood screws, undated"
