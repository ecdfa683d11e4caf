package sheet

import (
	"math/big"

	"ribband/takeoff/quantity"
)

// Unit is a code of UN/ECE Recommendation 20 that goods or time are sold in: "BFT", "GLL", "HUR".
type Unit string

// Dimension is what a unit measures. Only units of one dimension convert into each other.
type Dimension string

// The dimensions of what a yard buys. A set and a working day convert into nothing else.
const (
	ByCount  Dimension = "count"
	BySet    Dimension = "set"
	ByLength Dimension = "length"
	ByArea   Dimension = "area"
	ByVolume Dimension = "volume"
	ByMass   Dimension = "mass"
	ByTime   Dimension = "time"
	ByDay    Dimension = "working day"
)

type unitFact struct {
	name      string
	dimension Dimension
	factor    string
}

// unitFacts: the units read in a price sheet and their exact factors to one piece, m, m2, m3, kg or s.
//
// Source: UN/ECE Recommendation 20, revision 12e (2016), as printed in the UBL code list. The list prints some
// factors to seven digits; the exact ones follow from 1 in = 25.4 mm, 1 lb = 0.45359237 kg and 1 US gal = 231 in3.
// BFT and MBF have no factor in the list: derived from 1/12 ft3. GLI is from memory (4.54609 l; the list prints
// 4.546092). LM and LF have no factor in the list and are taken by their names. DAY is printed there as 86400 s;
// here it is a working day, whose hours the yard decides, and converts into nothing.
var unitFacts = map[Unit]unitFact{
	"C62": {"one", ByCount, "1"},
	"EA":  {"each", ByCount, "1"},
	"H87": {"piece", ByCount, "1"},
	"PR":  {"pair", ByCount, "2"},
	"DZN": {"dozen", ByCount, "12"},
	"GRO": {"gross", ByCount, "144"},
	"MIL": {"thousand", ByCount, "1000"},
	"SET": {"set", BySet, "1"},
	"MTR": {"metre", ByLength, "1"},
	"CMT": {"centimetre", ByLength, "0.01"},
	"MMT": {"millimetre", ByLength, "0.001"},
	"FOT": {"foot", ByLength, "0.3048"},
	"INH": {"inch", ByLength, "0.0254"},
	"YRD": {"yard", ByLength, "0.9144"},
	"LM":  {"linear metre", ByLength, "1"},
	"LF":  {"linear foot", ByLength, "0.3048"},
	"MTK": {"square metre", ByArea, "1"},
	"FTK": {"square foot", ByArea, "0.09290304"},
	"YDK": {"square yard", ByArea, "0.83612736"},
	"MTQ": {"cubic metre", ByVolume, "1"},
	"FTQ": {"cubic foot", ByVolume, "0.028316846592"},
	"INQ": {"cubic inch", ByVolume, "0.000016387064"},
	"BFT": {"board foot", ByVolume, "0.002359737216"},
	"MBF": {"thousand board feet", ByVolume, "2.359737216"},
	"LTR": {"litre", ByVolume, "0.001"},
	"GLL": {"US gallon", ByVolume, "0.003785411784"},
	"GLI": {"UK gallon", ByVolume, "0.00454609"},
	"QTL": {"US quart", ByVolume, "0.000946352946"},
	"PTL": {"US pint", ByVolume, "0.000473176473"},
	"QTI": {"UK quart", ByVolume, "0.0011365225"},
	"PTI": {"UK pint", ByVolume, "0.00056826125"},
	"OZA": {"US fluid ounce", ByVolume, "0.0000295735295625"},
	"KGM": {"kilogram", ByMass, "1"},
	"GRM": {"gram", ByMass, "0.001"},
	"TNE": {"tonne", ByMass, "1000"},
	"LBR": {"pound", ByMass, "0.45359237"},
	"ONZ": {"ounce", ByMass, "0.028349523125"},
	"HUR": {"hour", ByTime, "3600"},
	"MIN": {"minute", ByTime, "60"},
	"DAY": {"working day", ByDay, "1"},
}

// Known reports whether u is a unit that a price sheet may use.
func (u Unit) Known() bool { _, ok := unitFacts[u]; return ok }

// Name is what people call the unit: "US gallon". An unknown unit is its own name.
func (u Unit) Name() string {
	if f, ok := unitFacts[u]; ok {
		return f.name
	}
	return string(u)
}

// Dimension is what u measures; empty for an unknown unit.
func (u Unit) Dimension() Dimension { return unitFacts[u].dimension }

// Factor is one u in pieces, m, m2, m3, kg or s, exact; nil for an unknown unit.
func (u Unit) Factor() *big.Rat {
	f, ok := unitFacts[u]
	if !ok {
		return nil
	}
	r, ok := new(big.Rat).SetString(f.factor)
	if !ok {
		return nil
	}
	return r
}

// Convert is x of from in to, exact; ok is false when the two measure different things.
func Convert(x *big.Rat, from, to Unit) (y *big.Rat, ok bool) {
	if !from.Known() || from.Dimension() != to.Dimension() {
		return nil, false
	}
	y = new(big.Rat).Mul(x, from.Factor())
	return y.Quo(y, to.Factor()), true
}

// UnitOf is the unit that goods counted in a takeoff's unit are sold in; empty where none are.
func UnitOf(u quantity.Unit) Unit { return Unit(u.Rec20()) }
