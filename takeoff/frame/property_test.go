package frame_test

import (
	"testing"

	"ribband/takeoff/boat"
	"ribband/takeoff/derivation"
	"ribband/takeoff/frame"

	"github.com/shopspring/decimal"
	"pgregory.net/rapid"
)

func number(t *rapid.T, table *derivation.Table, id string) decimal.Decimal {
	f, ok := table.Find(id)
	if !ok {
		t.Fatalf("no figure %s", id)
	}
	return decimal.RequireFromString(f.Value)
}

func TestATighterBendNeverTakesAThickerLaminate(t *testing.T) {
	r := shopRules(t, "1/8", "3/16", "1/4", "3/8")
	rapid.Check(t, func(rt *rapid.T) {
		f := frame.Frame{No: 1, Side: boat.Port, Siding: mm("2"), Moulded: mm("2.5")}
		wide := rapid.Float64Range(100, 5000).Draw(rt, "radius")
		tight := wide * rapid.Float64Range(0.2, 1).Draw(rt, "share")
		of := func(radius float64) decimal.Decimal {
			_, table := replace(t, f, bilge(radius, 2000), r)
			return number(rt, table, "frame/1/port/laminate_thickness")
		}
		if a, b := of(tight), of(wide); a.GreaterThan(b) {
			rt.Fatalf("radius %.1f takes %s mm, the tighter %.1f takes %s mm", wide, b, tight, a)
		}
	})
}

func TestTwiceTheSidingIsTwiceTheGlueLine(t *testing.T) {
	r := shopRules(t, "1/4")
	rapid.Check(t, func(rt *rapid.T) {
		siding := decimal.New(rapid.Int64Range(200, 1500).Draw(rt, "siding in tenths"), -1)
		area := func(s decimal.Decimal) decimal.Decimal {
			_, table := replace(t, frame.Frame{No: 1, Side: boat.Port, Siding: s, Moulded: mm("2.875")}, bilge(1500, 2000), r)
			return number(rt, table, "frame/1/port/glue_line_area")
		}
		one, two := area(siding), area(siding.Add(siding))
		// each side is rounded to the thousandth, so the double may be a thousandth off
		if two.Sub(one.Add(one)).Abs().GreaterThan(decimal.New(1, -3)) {
			rt.Fatalf("siding %s mm: %s m2, doubled %s m2", siding, one, two)
		}
	})
}

// Every exact figure must follow from nothing but what it shows: its formula, inputs, factors and rounding; and an
// input taken from another figure must be that figure's value.
func TestEveryDecimalFigureRecomputes(t *testing.T) {
	r := shopRules(t, "1/8", "3/16", "1/4")
	rapid.Check(t, func(rt *rapid.T) {
		s := bilge(rapid.Float64Range(300, 3000).Draw(rt, "bilge"), rapid.Float64Range(800, 4000).Draw(rt, "girth"))
		s.Hollow.Radius = rapid.SampledFrom([]float64{0, 400, 900.123456789, 5000}).Draw(rt, "hollow")
		s.Bilge.Low, s.GirthHigh = .75, 1.005
		_, table := replace(t, frame.Frame{No: 1, Side: boat.Port, Siding: mm("2"), Moulded: mm("2.5")}, s, r)
		for _, f := range table.Figures() {
			if err := derivation.Verify(f, table); err != nil {
				rt.Fatal(err)
			}
		}
	})
}
