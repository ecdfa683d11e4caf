package strap_test

import (
	"math"
	"testing"

	"ribband/takeoff/bill"
	"ribband/takeoff/boat"
	"ribband/takeoff/derivation"
	"ribband/takeoff/rules"
	"ribband/takeoff/step"
	"ribband/takeoff/strap"

	"github.com/google/go-cmp/cmp"
	"github.com/shopspring/decimal"
	"pgregory.net/rapid"
)

func dec(s string) decimal.Decimal { return decimal.RequireFromString(s) }

var member = boat.Member{Kind: boat.Frame, No: 3, Side: boat.Starboard}

// inside is a strap along an inner face of 2 m whose range ends a five-hundredth higher.
func inside() strap.Frame {
	return strap.Frame{Member: member, Remedy: boat.Leave, Inner: 2000, High: dec("1.002"), Source: "test"}
}

func bronze() rules.Strap {
	return rules.Strap{Name: "bronze", Width: dec("32"), Allow: dec("50"), Metal: &rules.MetalStrap{Item: "bronze_flat", Thickness: dec("6"), KgM3: dec("8530"), Source: "test"}}
}

func glass() rules.Strap {
	return rules.Strap{Name: "glass", Width: dec("100"), Allow: dec("50"), Glass: &rules.GlassStrap{Cloth: "glass_450", Resin: "epoxy", GM2: dec("450"), Layers: 4, FibreShare: dec("0.45"), ResinKgL: dec("1.1"), Source: "test"}}
}

// losing are rules that lose a tenth of metal and resin, a fifth of cloth.
func losing() rules.Rules {
	return rules.Rules{Losses: []rules.Loss{
		{Name: "ends", Material: string(bill.Metal), Fraction: dec("0.1"), Source: "test"},
		{Name: "cutting", Material: string(bill.Cloth), Fraction: dec("0.2"), Source: "test"},
		{Name: "pot", Material: string(bill.Glue), Fraction: dec("0.1"), Source: "test"},
	}}
}

// told are the lines as material, item, net and gross.
func told(lines []bill.Line) [][4]string {
	var out [][4]string
	for _, l := range lines {
		out = append(out, [4]string{string(l.Material), l.Item, l.Net.String(), l.Gross.String()})
	}
	return out
}

// Computed by hand: 2000 x 1.002 + 50 are 2.054 m; x 32 x 6 x 8530 / 1e6 are 3.3640 kg, up to the hundredth 3.37, and over 0.9
// 3.744, up 3.75.
func TestMetalByItsWeight(t *testing.T) {
	table := derivation.NewTable()
	lines, measures, err := strap.Take(inside(), bronze(), losing(), table)
	if err != nil {
		t.Fatal(err)
	}
	if d := cmp.Diff([][4]string{{"metal", "bronze_flat", "3.37", "3.75"}}, told(lines)); d != "" {
		t.Error(d)
	}
	if len(measures) != 1 || measures[0].Driver != string(step.Straps) || measures[0].Quantity.String() != "2.054" || measures[0].Member != member || measures[0].Remedy != boat.Leave {
		t.Errorf("%+v", measures)
	}
	if f, ok := table.Find("frame/3/starboard/strap/inner_length"); !ok || f.Formula != "strap/inner_length" || f.Value != "2000.000" {
		t.Errorf("%+v", f)
	}
}

// Computed by hand: four layers 0.1 m wide and 2.054 m long are 0.8216 m2, up to the thousandth 0.822, and over 0.8 1.0275, up
// 1.028. Resin: 0.822 x 450 x 0.55 / 0.45 / 1100 are 0.4110 L, up to the hundredth 0.42, and over 0.9 0.467, up 0.47.
func TestGlassByItsLayers(t *testing.T) {
	lines, measures, err := strap.Take(inside(), glass(), losing(), derivation.NewTable())
	if err != nil {
		t.Fatal(err)
	}
	if d := cmp.Diff([][4]string{{"cloth", "glass_450", "0.822", "1.028"}, {"glue", "epoxy", "0.42", "0.47"}}, told(lines)); d != "" {
		t.Fatal(d)
	}
	// each layer is one length off the roll
	if r := lines[0].Rectangles; r == nil || r.Count != 4 || !r.Width.Equal(dec("100")) || !r.Length.Equal(dec("2054")) || r.MayTurn {
		t.Errorf("%+v", r)
	}
	if lines[1].Rectangles != nil || len(measures) != 1 {
		t.Errorf("%+v, %+v", lines[1].Rectangles, measures)
	}
}

// Where the inner face is not known its length is that of the faying face, and the figure says so.
func TestALengthThatIsABoundSaysSo(t *testing.T) {
	f, table := inside(), derivation.NewTable()
	f.Faying = true
	if _, _, err := strap.Take(f, bronze(), rules.Rules{}, table); err != nil {
		t.Fatal(err)
	}
	if got, ok := table.Find("frame/3/starboard/strap/inner_length"); !ok || got.Formula != "strap/inner_length_bound" {
		t.Errorf("%+v", got)
	}
}

// A strap of metal that is covered with glass takes both; its work is counted once.
func TestMetalUnderGlassTakesBoth(t *testing.T) {
	both := bronze()
	both.Glass = glass().Glass
	lines, measures, err := strap.Take(inside(), both, losing(), derivation.NewTable())
	if err != nil || len(lines) != 3 || len(measures) != 1 {
		t.Fatalf("%d lines, %d measures, %v", len(lines), len(measures), err)
	}
	for _, l := range lines {
		if l.Driver != string(step.Straps) || l.Member != member || l.Remedy != boat.Leave {
			t.Errorf("%+v", l)
		}
	}
}

// A longer frame, a higher end of its range, a wider strap, thicker metal or a layer more never takes less of anything; nothing
// that is bought is below what stays in the boat.
func TestMoreStrapNeverTakesLess(t *testing.T) {
	rapid.Check(t, func(rt *rapid.T) {
		f := inside()
		f.Inner = float64(rapid.IntRange(1, 4000).Draw(rt, "inner"))
		f.High = decimal.New(rapid.Int64Range(1000, 1100).Draw(rt, "high"), -3)
		both := bronze()
		both.Glass = glass().Glass
		both.Width = decimal.NewFromInt(rapid.Int64Range(1, 200).Draw(rt, "width"))
		take := func(f strap.Frame, s rules.Strap) []bill.Line {
			lines, _, err := strap.Take(f, s, losing(), derivation.NewTable())
			if err != nil {
				rt.Fatal(err)
			}
			return lines
		}
		was := take(f, both)
		more, wider := f, both
		switch rapid.IntRange(0, 4).Draw(rt, "more of") {
		case 0:
			more.Inner += float64(rapid.IntRange(1, 500).Draw(rt, "longer"))
		case 1:
			more.High = more.High.Add(dec("0.01"))
		case 2:
			wider.Width = wider.Width.Add(dec("0.5"))
		case 3:
			thick := *both.Metal
			thick.Thickness = thick.Thickness.Add(dec("0.5"))
			wider.Metal = &thick
		case 4:
			deep := *both.Glass
			deep.Layers++
			wider.Glass = &deep
		}
		for i, l := range take(more, wider) {
			if l.Net.Value().LessThan(was[i].Net.Value()) || l.Gross.Value().LessThan(was[i].Gross.Value()) || l.Gross.Value().LessThan(l.Net.Value()) {
				rt.Fatalf("%s: net %s, gross %s; of less strap %s, %s", l.ID, l.Net, l.Gross, was[i].Net, was[i].Gross)
			}
		}
	})
}

// What is no length or no share is an error.
func TestWhatIsNoStrapIsAnError(t *testing.T) {
	for _, inner := range []float64{math.NaN(), math.Inf(1), math.Inf(-1)} {
		f := inside()
		f.Inner = inner
		if _, _, err := strap.Take(f, bronze(), rules.Rules{}, derivation.NewTable()); err == nil {
			t.Errorf("a length of %v is taken", inner)
		}
	}
	dry := glass()
	dry.Glass.FibreShare = decimal.Zero
	if _, _, err := strap.Take(inside(), dry, rules.Rules{}, derivation.NewTable()); err == nil {
		t.Error("a laminate without fibre is taken")
	}
}
