package fastening

import "github.com/shopspring/decimal"

// Gauges of wood screws that are made.
const (
	LeastGauge = 0
	MostGauge  = 30
)

var (
	shankOf0     = dec("0.060")
	shankByGauge = dec("0.013")
)

// Shank of a gauge, inches: 0.060 + 0.013 n. It gives the shanks that Albany County Fasteners prints for Nos. 4 to 12 (fasteners
// 101, undated). A *RangeError for gauges that are not made.
func Shank(gauge int64) (decimal.Decimal, error) {
	if gauge < LeastGauge || gauge > MostGauge {
		return decimal.Zero, fault("a gauge from 0 to 30", "there is no wood screw of gauge %d", gauge)
	}
	return shankOf0.Add(shankByGauge.Mul(decimal.NewFromInt(gauge))), nil
}

// RootBy names where a screw's root is taken from: the two disagree, so what rests on it says which.
type RootBy string

// From a maker's table, or as two thirds of the shank.
const (
	RootTable     RootBy = "maker"
	RootTwoThirds RootBy = "handbook"
)

// Source of the root.
func (r RootBy) Source() string {
	if r == RootTwoThirds {
		return "Wood Handbook, FPL-GTR-190, USDA Forest Products Laboratory, 2010, ch. 8: about two thirds of the shank for most sizes"
	}
	return "Albany County Fasteners, fasteners 101, wood screw information, undated"
}

// roots by gauge, inches.
var roots = map[int64]decimal.Decimal{4: dec("0.084"), 6: dec("0.106"), 8: dec("0.131"), 10: dec("0.158"), 12: dec("0.182")}

// Root of a gauge, inches; a *RangeError where the table has no such gauge.
func Root(gauge int64, by RootBy) (decimal.Decimal, error) {
	switch by {
	case RootTable:
		if root, ok := roots[gauge]; ok {
			return root, nil
		}
		return decimal.Zero, fault("one of 4, 6, 8, 10, 12, or the handbook's two thirds of the shank", "the maker's table has no root of gauge %d", gauge)
	case RootTwoThirds:
		shank, err := Shank(gauge)
		return shank.Mul(decimal.NewFromInt(2)).DivRound(decimal.NewFromInt(3), 4), err
	}
	return decimal.Zero, fault("maker or handbook", "the root by %q is not known", string(by))
}
