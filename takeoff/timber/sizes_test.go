package timber_test

import (
	"errors"
	"strings"
	"testing"

	"ribband/seed"
	"ribband/takeoff/derivation"
	"ribband/takeoff/timber"
)

func TestQuartersThatAreNotPublished(t *testing.T) {
	if q, _ := timber.Surfaced("10/4"); q.From != timber.FromMemory {
		t.Error("10/4 is from memory")
	}
	var e *timber.QuarterError
	if _, err := timber.Surfaced("9/4"); !errors.As(err, &e) || !strings.Contains(err.Error(), "8/4") {
		t.Error(err)
	}
}

func TestSoftwoodPublished(t *testing.T) {
	if _, err := timber.SoftwoodSize("5"); err == nil {
		t.Error("a 5 is taken")
	}
	// D. W. Green, FPL-RP-489: to 15 %, 2.80 and 2.35 per cent as PS 20-70 has them
	w, th, err := timber.SoftwoodShrinkage(d("15"))
	if err != nil {
		t.Fatal(err)
	}
	same(t, "width", w, "2.806")
	same(t, "thickness", th, "2.347")
	if _, _, err := timber.SoftwoodShrinkage(d("7")); err == nil {
		t.Error("7 % is taken")
	}
}

func TestGradesPublished(t *testing.T) {
	// grade chart of Hood Distribution, undated; FAS also in the 2007 rules, paragraph 37, as quoted on a forestry forum
	for name, units := range map[string]int64{"FAS": 100, "No.1C": 80, "No.2A": 60, "No.3A": 40, "No.3B": 30} {
		g, err := timber.GradeNamed(name)
		if err != nil || g.ClearUnits(10) != units {
			t.Errorf("%s: %d units, want %d (%v)", name, g.ClearUnits(10), units, err)
		}
	}
	var e *timber.GradeError
	if _, err := timber.GradeNamed("clear"); !errors.As(err, &e) || !strings.Contains(err.Error(), "FAS") {
		t.Error(err)
	}
}

// At least white oak and fourteen others, each value with its source; listings where the convention has them.
func TestTheCatalogueOfBoatTimbers(t *testing.T) {
	k, err := seed.LoadKnowledge()
	if err != nil {
		t.Fatal(err)
	}
	if f := k.Species.Check(); len(f) > 0 {
		t.Fatal(f)
	}
	if n := len(k.Species.Species); n < 15 {
		t.Fatalf("%d species", n)
	}
	for _, s := range k.Species.Species {
		if _, err := s.Density(derivation.NewTable()); err != nil {
			t.Errorf("%s: %v", s.Code, err)
		}
		for _, v := range []timber.Value{s.GravityAt12, s.ShrinkageR, s.ShrinkageT, s.ShrinkageV, s.RuptureAt12, s.ElasticityAt12} {
			if v.Number != "" && (v.Source == "" || v.Mark == timber.Seen && v.Source == "from memory") {
				t.Errorf("%s: %+v", s.Code, v)
			}
		}
		if s.Decay.Group == "" || s.Trade.Source == "" {
			t.Errorf("%s: decay %+v, trade %+v", s.Code, s.Decay, s.Trade)
		}
	}
	for code, want := range map[string]timber.Listing{
		"mahogany":         {Appendix: "II", Scope: "neotropical populations; logs, sawn wood, veneer sheets, plywood", InForce: "2003-11-15"},
		"african_mahogany": {Appendix: "II", Scope: "African populations; annotation 17: logs, sawn wood, veneer, plywood, transformed wood", InForce: "2023-02-23"},
	} {
		if s, ok := k.Species.Find(code); !ok || s.Trade.Listing == nil || *s.Trade.Listing != want {
			t.Errorf("%s: %+v", code, s.Trade)
		}
	}
}

func TestGroupsAndListingsThatAreNotKnown(t *testing.T) {
	s := wood("a", "0.5")
	s.Decay.Group = "rot_proof"
	s.Trade.Listing = &timber.Listing{Appendix: "IV"}
	f := timber.Catalogue{Species: []timber.Species{s}}.Check()
	if len(f) != 2 || f[0].Pointer != "/species/0/decay_resistance/group" || f[1].Pointer != "/species/0/trade/listing/appendix" {
		t.Error(f)
	}
}
