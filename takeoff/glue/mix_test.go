package glue_test

import (
	"testing"

	"ribband/takeoff/derivation"
	"ribband/takeoff/glue"
	"ribband/takeoff/quantity"

	"github.com/shopspring/decimal"
	"pgregory.net/rapid"
)

// mixed is the parts of an area of glue line: every figure recomputes from what it shows.
func mixed(t interface{ Fatal(...any) }, area string, s glue.Spread, m glue.Mix) func(string) decimal.Decimal {
	table := derivation.NewTable()
	table.Derive("area", "frame/glue_line_area", []derivation.Input{derivation.Given("n", "here", dec("2"), quantity.Each),
		derivation.Given("S", "here", dec("1000"), quantity.Millimetre), derivation.Given("L", "here", dec(area), quantity.Metre)})
	s.Net(table, "net", "area")
	table.Derive("gross", "bill/gross_litres", []derivation.Input{table.Ref("n", "net")}, derivation.ByFactor("l", dec("0.2"), "here"))
	m.Parts(table, "at/glue", "gross")
	if err := table.Err(); err != nil {
		t.Fatal(err)
	}
	for _, f := range table.Figures() {
		if err := derivation.Verify(f, table); err != nil {
			t.Fatal(err)
		}
	}
	return func(id string) decimal.Decimal {
		f, ok := table.Find(id)
		if !ok {
			t.Fatal("no figure " + id)
		}
		return dec(f.Value)
	}
}

// 10 m2 at 0.36 L are 3.6 L, 4.5 L before a fifth is squeezed out. 2:1 by volume are 3 and 1.5 L; at 1.15 and 0.95 kg/L
// 3.45 and 1.425 kg. The same pots by weight are 100 A to 41.304 B: the very same litres.
func TestMixByVolumeAndByWeight(t *testing.T) {
	spread := glue.Spread{LPerM2: dec("0.36"), Source: "made up"}
	m := glue.Mix{PartsA: dec("2"), PartsB: dec("1"), DensityA: dec("1.15"), DensityB: dec("0.95"), Source: "made up"}
	of := mixed(t, "10", spread, m)
	m.ByWeight, m.PartsA, m.PartsB = true, dec("230"), dec("95")
	by := mixed(t, "10", spread, m)
	for id, want := range map[string]string{"net": "3.6", "gross": "4.5", "at/glue_part_a": "3", "at/glue_part_b": "1.5", "at/glue_part_a_kg": "3.45", "at/glue_part_b_kg": "1.43"} {
		if v, w := of(id), by(id); !v.Equal(dec(want)) || !w.Equal(dec(want)) {
			t.Errorf("%s: %s by volume, %s by weight, want %s", id, v, w, want)
		}
	}
	spread.PerFace = true
	if faces := mixed(t, "10", spread, m); !faces("net").Equal(dec("7.2")) {
		t.Errorf("both faces take %s", faces("net"))
	}
}

// By volume a:b and by weight a rA : b rB are one mix, whatever the densities; the litres of the parts are the whole; the
// kilograms are those litres times density, within the rounding of both.
func TestMixesAgreeThroughDensity(t *testing.T) {
	rapid.Check(t, func(rt *rapid.T) {
		draw := func(name string, low, high int64) decimal.Decimal {
			return decimal.New(rapid.Int64Range(low, high).Draw(rt, name), -2)
		}
		m := glue.Mix{PartsA: draw("a", 10, 1000), PartsB: draw("b", 10, 1000), DensityA: draw("rA", 80, 160), DensityB: draw("rB", 80, 160), Source: "made up"}
		w := m
		w.ByWeight, w.PartsA, w.PartsB = true, m.PartsA.Mul(m.DensityA), m.PartsB.Mul(m.DensityB)
		area, spread := draw("area", 100, 9000).String(), glue.Spread{LPerM2: draw("spread", 10, 90), Source: "made up"}
		of, by := mixed(rt, area, spread, m), mixed(rt, area, spread, w)
		for _, id := range []string{"at/glue_part_a", "at/glue_part_b", "at/glue_part_a_kg", "at/glue_part_b_kg"} {
			if !of(id).Equal(by(id)) {
				rt.Fatalf("%s: %s by volume, %s by weight", id, of(id), by(id))
			}
		}
		if !of("at/glue_part_a").Add(of("at/glue_part_b")).Equal(of("gross")) || of("gross").LessThan(of("net")) {
			rt.Fatal("the parts are not the whole, or a loss lowers it")
		}
		// Half a hundredth of a litre at 1.6 kg/L for A, a whole one for B, and half a hundredth of a kilogram.
		for part, density := range map[string]decimal.Decimal{"a": m.DensityA, "b": m.DensityB} {
			if of("at/glue_part_" + part).Mul(density).Sub(of("at/glue_part_" + part + "_kg")).Abs().GreaterThan(dec("0.021")) {
				rt.Fatalf("part %s: %s L, %s kg at %s", part, of("at/glue_part_"+part), of("at/glue_part_"+part+"_kg"), density)
			}
		}
	})
}
