package takeoff_test

import (
	"math"
	"testing"

	"ribband/takeoff"
	"ribband/takeoff/bill"
	"ribband/takeoff/boat"
	"ribband/takeoff/frame"
	"ribband/takeoff/rules"

	"github.com/shopspring/decimal"
)

// withStraps is the demo boat with a strap of metal and one of glass in its rules.
func withStraps(t *testing.T, choices map[boat.Member]frame.Choice) takeoff.Basis {
	t.Helper()
	b := demoBasis(t, 0)
	d := func(s string) decimal.Decimal { return decimal.RequireFromString(s) }
	b.Rules.Straps = []rules.Strap{
		{Name: "bronze", Width: d("32"), Allow: d("50"), Metal: &rules.MetalStrap{Item: "bronze_flat", Thickness: d("6"), KgM3: d("8530"), Source: "test"}},
		{Name: "glass", Width: d("100"), Glass: &rules.GlassStrap{Cloth: "glass_450", Resin: "epoxy_laminating", GM2: d("450"), Layers: 4, FibreShare: d("0.45"), ResinKgL: d("1.1"), Source: "test"}},
	}
	b.Rules.Losses = []rules.Loss{{Name: "cut", Material: "cloth", Fraction: d("0.2"), Source: "test"}}
	b.Remedies = choices
	return b
}

// A strap is as long as the inner face, which on a frame bent inboard is shorter than the faying face by the moulded
// depth times the turn; its weight is that of its volume (silicon bronze 8.53 g/cm3: Atlas Metal, C65500 data sheet,
// undated).
func TestAStrapOfMetal(t *testing.T) {
	b := withStraps(t, map[boat.Member]frame.Choice{frameNo(12, boat.Port): {Remedy: boat.Leave, Strap: "bronze"}})
	r := runs(t, b)
	_, s, err := b.Shaped(frameNo(12, boat.Port))
	if err != nil {
		t.Fatal(err)
	}
	turn := s.At(1).Theta - s.At(0).Theta
	moulded := 2.875 * 25.4
	const path = "frame/12/port/strap"
	if got, want := value(t, r, path+"/inner_length"), s.Girth.MM-moulded*turn; math.Abs(got-want) > 0.5 {
		t.Errorf("the inner face is %v mm, want %v", got, want)
	}
	length := value(t, r, path+"/length")
	if want := (value(t, r, path+"/inner_length") + 50) / 1000; length < want || length > want*1.01 {
		t.Errorf("the strap is %v m, at least %v wanted", length, want)
	}
	if got, want := value(t, r, path+"/metal_net"), length*0.032*0.006*8530; got < want || got > want+0.011 {
		t.Errorf("%v kg, want %v", got, want)
	}
	if len(r.Bill.Lines) != 1 || r.Bill.Lines[0].Material != bill.Metal || r.Bill.Lines[0].Remedy != boat.Leave {
		t.Errorf("%+v", r.Bill.Lines)
	}
	if codes := faultCodes(r); len(codes) != 0 {
		t.Errorf("%v", codes)
	}
}

// Fibre and resin of a strap of glass: at a share of fibre p of the weight, resin weighs (1 - p)/p of the cloth.
func TestAStrapOfGlass(t *testing.T) {
	b := withStraps(t, map[boat.Member]frame.Choice{frameNo(12, boat.Port): {Remedy: boat.ReplaceLaminated, Species: "white_oak", Grade: "FAS", Strap: "glass"}})
	r := runs(t, b)
	const path = "frame/12/port/strap"
	cloth := value(t, r, path+"/cloth_net")
	if want := 4 * 0.1 * value(t, r, path+"/length"); cloth < want-1e-9 || cloth > want+0.0011 {
		t.Errorf("%v m2 of cloth, want %v", cloth, want)
	}
	fibre := cloth * 0.45 // kg
	resin := value(t, r, path+"/resin_net") * 1.1
	if share := fibre / (fibre + resin); math.Abs(share-0.45) > 0.005 {
		t.Errorf("the share of fibre is %v", share)
	}
	if got, want := value(t, r, path+"/cloth_gross"), cloth/0.8; got < want-1e-9 || got > want+0.0011 {
		t.Errorf("%v m2 gross, want %v", got, want)
	}
	whole := runs(t, withStraps(t, map[boat.Member]frame.Choice{frameNo(12, boat.Port): {Remedy: boat.ReplaceLaminated, Species: "white_oak", Grade: "FAS"}}))
	if len(r.Bill.Lines) != len(whole.Bill.Lines)+2 {
		t.Errorf("%d lines with the strap, %d without", len(r.Bill.Lines), len(whole.Bill.Lines))
	}
}

func TestAStrapThatTheRulesDoNotHave(t *testing.T) {
	r := runs(t, withStraps(t, map[boat.Member]frame.Choice{frameNo(12, boat.Port): {Remedy: boat.Leave, Strap: "gold"}}))
	if codes := faultCodes(r); len(codes) != 1 || codes[0] != "no_such_strap" {
		t.Errorf("%v", codes)
	}
}
