package glue

import (
	"ribband/takeoff/derivation"

	"github.com/shopspring/decimal"
)

// Spread is how much glue a square metre takes: of glue line, or of each of its two faces where both are spread and the
// rate is written for a face.
type Spread struct {
	LPerM2  decimal.Decimal
	PerFace bool
	Source  string
}

// Net puts the litres on an area of glue line, a figure of t, into t under id.
func (s Spread) Net(t *derivation.Table, id, area string) {
	formula := "glue/net"
	if s.PerFace {
		formula = "glue/net_faces"
	}
	t.Derive(id, formula, []derivation.Input{t.Ref("A", area)}, derivation.ByFactor("s", s.LPerM2, s.Source))
}

// Mix is how a two-part glue is mixed. Densities are kilograms in a litre, 0 where they are not known; a mix by weight
// needs both. The litres of the two parts are taken to add up.
type Mix struct {
	PartsA, PartsB     decimal.Decimal
	ByWeight           bool
	DensityA, DensityB decimal.Decimal
	Source             string
}

// Parts puts the litres of both parts of gross, a figure of t, into t under of ("frame/12/port/glue"), and with densities
// the kilograms: each from the gross litres, rounded once; the litres of B are what those of A leave.
func (m Mix) Parts(t *derivation.Table, of, gross string) {
	by := func(symbol string, d decimal.Decimal) derivation.Factor {
		return derivation.ByFactor(symbol, d, m.Source)
	}
	q := []derivation.Input{t.Ref("Q", gross)}
	litres, a, b := "glue/part_a", by("a", m.PartsA), by("b", m.PartsB)
	var densities []derivation.Factor
	if m.ByWeight {
		litres, densities = "glue/part_a_by_weight", []derivation.Factor{by("r", m.DensityA), by("s", m.DensityB)}
	}
	t.Derive(of+"_part_a", litres, q, append([]derivation.Factor{a, b}, densities...)...)
	t.Derive(of+"_part_b", "glue/part_b", []derivation.Input{q[0], t.Ref("A", of+"_part_a")})
	if !m.DensityA.IsPositive() || !m.DensityB.IsPositive() {
		return
	}
	for _, part := range []struct{ name, parts, other, dense, rest string }{
		{"a", m.PartsA.String(), m.PartsB.String(), m.DensityA.String(), m.DensityB.String()},
		{"b", m.PartsB.String(), m.PartsA.String(), m.DensityB.String(), m.DensityA.String()},
	} {
		factor := func(symbol, value string) derivation.Factor {
			return derivation.Factor{Symbol: symbol, Value: value, Source: m.Source}
		}
		kg, given := "glue/kg_by_volume", []derivation.Factor{factor("a", part.parts), factor("b", part.other), factor("r", part.dense)}
		if m.ByWeight {
			kg, given = "glue/kg_by_weight", append(given, factor("s", part.rest))
		}
		t.Derive(of+"_part_"+part.name+"_kg", kg, q, given...)
	}
}
