package fastening

import "github.com/shopspring/decimal"

// Metal of bolts, drifts and rod.
type Metal string

// The metals whose density was seen.
const (
	Steel         Metal = "steel"
	SiliconBronze Metal = "silicon_bronze"
	Copper        Metal = "copper"
	Monel         Metal = "monel"
)

// density, lb/in3, with its source and as the same source has it in kilograms.
var densities = map[Metal]struct {
	lbIn3, kgM3 decimal.Decimal
	source      string
}{
	Steel:         {dec("0.2833"), dec("7850"), "bar-weight tables, undated; Gere, Mechanics of Materials, 5th ed., rounded"},
	SiliconBronze: {dec("0.308"), dec("8530"), "C65500: Atlas Metal, data sheet, undated"},
	Copper:        {dec("0.3218"), dec("8900"), "556 lb/ft3: Gere, Mechanics of Materials, 5th ed., rounded"},
	Monel:         {dec("0.3183"), dec("8800"), "550 lb/ft3: Gere, Mechanics of Materials, 5th ed., rounded"},
}

// Density of a metal, pounds to the cubic inch and kilograms to the cubic metre, with its source; a *RangeError for one that
// is not known.
func Density(m Metal) (lbIn3, kgM3 decimal.Decimal, source string, err error) {
	d, ok := densities[m]
	if !ok {
		return decimal.Zero, decimal.Zero, "", fault("steel, silicon_bronze, copper or monel", "the density of %q is not known", string(m))
	}
	return d.lbIn3, d.kgM3, d.source, nil
}

// quarterPi to more places than any weight is told.
var quarterPi = dec("0.785398163397448")

// RodPounds is what a round rod weighs, pounds, to six places: pi/4 d2 L times its density, inches. Heads, nuts and zinc are
// extra.
func RodPounds(m Metal, diameter, length decimal.Decimal) (decimal.Decimal, error) {
	lb, _, _, err := Density(m)
	if err != nil {
		return decimal.Zero, err
	}
	if diameter.Sign() <= 0 || length.Sign() <= 0 {
		return decimal.Zero, fault("a diameter and a length above 0", "a rod of %s by %s in", diameter, length)
	}
	return quarterPi.Mul(diameter).Mul(diameter).Mul(length).Mul(lb).Round(6), nil
}

// RodKg is RodPounds of millimetres, in kilograms by the metal's density in kg/m3.
func RodKg(m Metal, diameterMM, lengthMM decimal.Decimal) (decimal.Decimal, error) {
	_, kg, _, err := Density(m)
	if err != nil {
		return decimal.Zero, err
	}
	if diameterMM.Sign() <= 0 || lengthMM.Sign() <= 0 {
		return decimal.Zero, fault("a diameter and a length above 0", "a rod of %s by %s mm", diameterMM, lengthMM)
	}
	return quarterPi.Mul(diameterMM).Mul(diameterMM).Mul(lengthMM).Mul(kg).Shift(-9).Round(6), nil
}
