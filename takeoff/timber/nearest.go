package timber

import (
	"slices"

	"ribband/takeoff/quantity"

	"github.com/shopspring/decimal"
)

// byDecay is the groups from the best.
var byDecay = []DecayGroup{Exceptional, Resistant, Moderate, Slight}

// Nearest is the wood of the catalogue that comes nearest to another in weight among those whose trade is not restricted
// and whose heartwood resists decay at least as well; false where there is none, or the other's weight is not known. Of two
// as near, the one that stands first.
func (c Catalogue) Nearest(to Species) (Species, bool) {
	g, err := quantity.ParseDecimal(to.GravityAt12.Number)
	if err != nil {
		return Species{}, false
	}
	var out Species
	var least decimal.Decimal
	found := false
	for _, s := range c.Species {
		of, err := quantity.ParseDecimal(s.GravityAt12.Number)
		if err != nil || s.Code == to.Code || s.Trade.Listing != nil || !s.Decay.atLeast(to.Decay) {
			continue
		}
		if off := of.Sub(g).Abs(); !found || off.LessThan(least) {
			out, least, found = s, off, true
		}
	}
	return out, found
}

// atLeast says that a wood of the group resists decay as well as one of another. Of woods without a group nothing is known, so
// they stand behind all, and anything does in their place.
func (d Decay) atLeast(other Decay) bool {
	rank := func(g DecayGroup) int {
		if i := slices.Index(byDecay, g); i >= 0 {
			return i
		}
		return len(byDecay)
	}
	return rank(d.Group) <= rank(other.Group)
}
