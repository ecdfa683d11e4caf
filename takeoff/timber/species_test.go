package timber_test

import (
	"errors"
	"testing"

	"ribband/seed"
	"ribband/takeoff/derivation"
	"ribband/takeoff/timber"

	"github.com/shopspring/decimal"
)

func wood(code, gravity string) timber.Species {
	return timber.Species{Code: code, Name: code, GravityAt12: timber.Value{Number: gravity, Source: "this test", Mark: timber.Derived}}
}

// Densities from specific gravity: see testdata/published/timber-figures for title, publisher and place of each.
func TestDensityAt12Published(t *testing.T) {
	cases := []struct {
		source, code, gravity string
		kgM3                  string // published, or worked out from published figures where the source says so
	}{
		{"D. R. Larsen, forestry functions (after Wood Handbook FPL-GTR-190, 2010, ch. 4): G 0.4 at 12 % is 448 kg/m3", "any", "0.4", "448.00"},
		{"Oregon Wood Innovation Center, OSU: Douglas-fir G 0.48 at 12 %; 537.6 kg/m3 is derived", "douglas_fir", "0.48", "537.60"},
	}
	for _, c := range cases {
		table := derivation.NewTable()
		q, err := wood(c.code, c.gravity).Density(table)
		if err != nil {
			t.Fatal(err)
		}
		if q.String() != c.kgM3 {
			t.Errorf("%s: %s kg/m3, want %s", c.source, q, c.kgM3)
		}
	}
	// 448 kg/m3 is printed as 27.968 lb/ft3 beside it, from water at 62.43 lb/ft3: G x 62.43 x 1.12 / 1
	if got := decimal.RequireFromString("0.4").Mul(decimal.RequireFromString("62.43")).Mul(decimal.RequireFromString("1.12")); got.StringFixed(2) != "27.97" {
		t.Errorf("G 0.4 is %s lb/ft3, 27.968 is printed", got)
	}
}

// The demo's species carry the figures of the timber reference, each with its mark.
func TestTheDemosSpecies(t *testing.T) {
	k, err := seed.LoadKnowledge()
	if err != nil {
		t.Fatal(err)
	}
	if f := k.Species.Check(); len(f) > 0 {
		t.Fatal(f)
	}
	for code, want := range map[string]struct {
		gravity string
		mark    timber.Mark
		shrink  [3]string
		seen    timber.Mark
	}{
		// Wood Handbook, FPL-GTR-190, USDA Forest Products Laboratory, 2010, Table 4-3, p. 4-6
		"white_oak":   {"0.68", timber.Seen, [3]string{"5.6", "10.5", "16.3"}, timber.Seen},
		"douglas_fir": {"0.48", timber.Seen, [3]string{"4.8", "7.6", "12.4"}, timber.Seen},
		"teak":        {"0.574", timber.Derived, [3]string{"2.5", "5.8", "7.0"}, timber.FromMemory},
	} {
		s, ok := k.Species.Find(code)
		if !ok {
			t.Fatalf("no %s", code)
		}
		if s.GravityAt12.Number != want.gravity || s.GravityAt12.Mark != want.mark {
			t.Errorf("%s: gravity %+v", code, s.GravityAt12)
		}
		if got := [3]string{s.ShrinkageR.Number, s.ShrinkageT.Number, s.ShrinkageV.Number}; got != want.shrink || s.ShrinkageT.Mark != want.seen {
			t.Errorf("%s: shrinkage %v %s, want %v %s", code, got, s.ShrinkageT.Mark, want.shrink, want.seen)
		}
	}
	// teak at 12 % from its green value: 0.55 / (1 - 0.07 x 18/30) = 0.574
	if got := decimal.RequireFromString("0.55").DivRound(decimal.RequireFromString("0.958"), 3).String(); got != "0.574" {
		t.Errorf("teak comes out at %s", got)
	}
}

func TestAMissingValueIsAskedForByName(t *testing.T) {
	_, err := timber.Species{Code: "bog_oak"}.Density(derivation.NewTable())
	var missing *timber.MissingValueError
	if !errors.As(err, &missing) || missing.Species != "bog_oak" {
		t.Errorf("error %v", err)
	}
}

func TestAFaultyCatalogueIsNamedWholly(t *testing.T) {
	bad := timber.Catalogue{Species: []timber.Species{
		{Code: "a", Name: "A", GravityAt12: timber.Value{Number: "-1", Source: "x", Mark: timber.Seen}},
		{Code: "a", Name: "A again", ShrinkageR: timber.Value{Number: "5"}},
		{Code: "", Name: "nameless"},
	}}
	want := []string{"/species/0/gravity_12/value", "/species/1/code", "/species/1/shrinkage_radial_pct/source", "/species/1/shrinkage_radial_pct/mark", "/species/2"}
	got := bad.Check()
	if len(got) != len(want) {
		t.Fatalf("faults %v, want %v", got, want)
	}
	for i, f := range got {
		if f.Pointer != want[i] {
			t.Errorf("fault %d at %s, want %s", i, f.Pointer, want[i])
		}
	}
	if f := (timber.Catalogue{}).Check(); len(f) != 1 {
		t.Errorf("an empty catalogue: %v", f)
	}
}

// Yields of grades are twelfths of a face, each grade once, with a source.
func TestYieldsOfGradesAreLookedAt(t *testing.T) {
	sound := timber.Yield{Grade: "FAS", ClearOf12: "10", Source: "from memory", Mark: timber.FromMemory}
	for _, x := range []struct {
		spoil func(y *timber.Yield)
		at    string
	}{
		{func(*timber.Yield) {}, ""},
		{func(y *timber.Yield) { y.ClearOf12 = "12" }, ""},
		{func(y *timber.Yield) { y.ClearOf12 = "12.1" }, "/species/0/yields/0/clear_of_12"},
		{func(y *timber.Yield) { y.ClearOf12 = "0" }, "/species/0/yields/0/clear_of_12"},
		{func(y *timber.Yield) { y.ClearOf12 = "most" }, "/species/0/yields/0/clear_of_12"},
		{func(y *timber.Yield) { y.Grade = "" }, "/species/0/yields/0/grade"},
		{func(y *timber.Yield) { y.Source = "" }, "/species/0/yields/0/source"},
		{func(y *timber.Yield) { y.Mark = "guessed" }, "/species/0/yields/0/mark"},
	} {
		y := sound
		x.spoil(&y)
		faults := timber.Catalogue{Species: []timber.Species{{Code: "oak", Name: "Oak", Yields: []timber.Yield{y}}}}.Check()
		if x.at == "" && len(faults) > 0 || x.at != "" && (len(faults) != 1 || faults[0].Pointer != x.at) {
			t.Errorf("%+v: %+v", y, faults)
		}
	}
	twice := timber.Catalogue{Species: []timber.Species{{Code: "oak", Name: "Oak", Yields: []timber.Yield{sound, sound}}}}.Check()
	if len(twice) != 1 || twice[0].Pointer != "/species/0/yields/1/grade" {
		t.Errorf("%+v", twice)
	}
}
