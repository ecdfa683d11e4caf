package bend

import "github.com/shopspring/decimal"

// SteamRule is what solid stock bends to in steam: least radius of the concave face over thickness, and how long it is
// steamed. Every figure has its source; the yard may have its own.
type SteamRule struct {
	// WithoutStrap is what bends free, WithStrap what a strap that takes the tension bends, and AtBest what straight ash, oak or
	// elm has been bent to with one.
	WithoutStrap, WithStrap, AtBest decimal.Decimal
	// MinutesPerInch of thickness in steam.
	MinutesPerInch          decimal.Decimal
	RatioSource, ForHowLong string
}

// Published is the rule of the books: see testdata/published/bending-figures.
func Published() SteamRule {
	return SteamRule{
		WithoutStrap: decimal.NewFromInt(10), WithStrap: decimal.NewFromInt(5), AtBest: decimal.NewFromInt(2), MinutesPerInch: decimal.NewFromInt(60),
		RatioSource: "Whinney, Wood & Steam, undated: a strap for anything tighter than R = 10 t, the usual limit 5 t, 2 t possible in straight ash, oak or elm",
		ForHowLong:  "an hour in steam for each inch of thickness whatever the width: a tool maker's leaflet, undated, second-hand",
	}
}

// Strap says what a bend asks for in steam.
type Strap string

// Free without a strap; with one; with one and the best straight stock only; or not at all.
const (
	Free       Strap = "free"
	Strapped   Strap = "strap"
	BestOnly   Strap = "strap_best_stock"
	NotInSteam Strap = "none"
)

// Steamed is what bending one solid frame in steam takes.
type Steamed struct {
	Strap Strap
	// Ratio is radius over thickness; Margin how much of the radius is left over what the strap asks, as a share.
	Ratio, Margin decimal.Decimal
	// Thickest that this radius takes without a strap, and with one.
	ThickestFree, ThickestStrapped decimal.Decimal
	// Minutes in steam.
	Minutes decimal.Decimal
}

var inch = decimal.RequireFromString("25.4")

// Bend says what a piece so thick (its moulded depth) asks for round a bend whose concave face has this radius at the low
// end of its range; straight for none. All mm.
func (r SteamRule) Bend(radius, thickness decimal.Decimal, straight bool) (Steamed, error) {
	for what, d := range map[string]decimal.Decimal{"least radius over thickness without a strap": r.WithoutStrap, "least radius over thickness with a strap": r.WithStrap, "least radius over thickness of the best stock": r.AtBest} {
		if err := above0(what, d); err != nil {
			return Steamed{}, err
		}
	}
	if err := above0("thickness", thickness); err != nil {
		return Steamed{}, err
	}
	if r.WithStrap.GreaterThan(r.WithoutStrap) || r.AtBest.GreaterThan(r.WithStrap) {
		return Steamed{}, &RangeError{"least radius with a strap", r.WithStrap.String(), "between that of the best stock and that without a strap"}
	}
	s := Steamed{Strap: Free, Minutes: thickness.Mul(r.MinutesPerInch).DivRound(inch, divisionPlaces)}
	if straight {
		return s, nil
	}
	radius = decimal.Max(radius, decimal.Zero)
	s.Ratio = radius.DivRound(thickness, divisionPlaces)
	s.ThickestFree, s.ThickestStrapped = radius.DivRound(r.WithoutStrap, divisionPlaces), radius.DivRound(r.WithStrap, divisionPlaces)
	asks := r.AtBest
	switch {
	case radius.GreaterThanOrEqual(thickness.Mul(r.WithoutStrap)):
		asks = r.WithoutStrap
	case radius.GreaterThanOrEqual(thickness.Mul(r.WithStrap)):
		s.Strap, asks = Strapped, r.WithStrap
	case radius.GreaterThanOrEqual(thickness.Mul(r.AtBest)):
		s.Strap = BestOnly
	default:
		s.Strap = NotInSteam
	}
	s.Margin = radius.DivRound(thickness.Mul(asks), divisionPlaces).Sub(decimal.NewFromInt(1))
	return s, nil
}

// Bought is how many pieces are bought so that so many are left after a share of what is bought breaks.
func Bought(net int64, breakage decimal.Decimal) (int64, error) {
	if net < 0 || net > mostPieces {
		return 0, &RangeError{"number of pieces", decimal.NewFromInt(net).String(), "from 0 to " + decimal.NewFromInt(mostPieces).String()}
	}
	left := decimal.NewFromInt(1).Sub(breakage)
	if breakage.Sign() < 0 || left.Sign() <= 0 {
		return 0, &RangeError{"breakage", breakage.String(), "a share of what is bought, from 0 to below 1"}
	}
	n := decimal.NewFromInt(net).DivRound(left, divisionPlaces).Ceil()
	if n.GreaterThan(decimal.NewFromInt(mostPieces)) {
		return 0, &RangeError{"breakage", breakage.String(), "less: more than a million pieces would be bought"}
	}
	return n.IntPart(), nil
}

func above0(what string, d decimal.Decimal) error {
	if d.Sign() <= 0 {
		return &RangeError{what, d.String(), "above 0"}
	}
	return nil
}

// mostPieces is more than any yard bends.
const mostPieces = 1_000_000
