package rules_test

import (
	"testing"

	"ribband/takeoff/rules"
)

func TestTheDemosGlueIsPlannedBy(t *testing.T) {
	r, faults := rules.Read(demo(t))
	if len(faults) > 0 || r.Glue.Times == nil || r.Glue.Layup == nil {
		t.Fatalf("%+v %v", r.Glue, faults)
	}
	if y := r.Glue.Layup; y.PitchMM.String() != "203.2" || y.Clamps != 72 || y.Hands != 2 {
		t.Errorf("%+v", y)
	}
	if s := r.Glue.Times; s.ClampH.String() != "6" || s.AtC.String() != "21.1" || s.Factor.String() != "2" {
		t.Errorf("%+v", s)
	}
}

// Rules written before glue was planned read as they did.
func TestOlderRulesOfGlueRead(t *testing.T) {
	d := demo(t)
	d.Glue.Times, d.Glue.Layup = nil, nil
	r, faults := rules.Read(d)
	if len(faults) > 0 || r.Glue.Times != nil || r.Glue.Layup != nil || r.Glue.PerFace || r.Glue.Handling.ByWeight {
		t.Errorf("%+v %v", r.Glue, faults)
	}
	d.Glue.Handling = nil
	if r, faults := rules.Read(d); len(faults) > 0 || r.Glue.Handling != nil {
		t.Errorf("%+v %v", r.Glue, faults)
	}
}

func TestFaultsOfGlueSayWhere(t *testing.T) {
	cases := map[string]struct {
		spoil   func(*rules.GlueRule)
		pointer string
	}{
		"spread on what":  {func(g *rules.GlueRule) { g.SpreadOn = "both" }, "/glue/spread_on"},
		"mixed how":       {func(g *rules.GlueRule) { g.Handling.MixBy = "eye" }, "/glue/handling/mix_by"},
		"by weight":       {func(g *rules.GlueRule) { g.Handling.MixBy = "weight" }, "/glue/handling/density_a_kg_l"},
		"half by weight":  {func(g *rules.GlueRule) { g.Handling.DensityA = "1.1" }, "/glue/handling/density_b_kg_l"},
		"no density":      {func(g *rules.GlueRule) { g.Handling.DensityA, g.Handling.DensityB = "0", "1" }, "/glue/handling/density_a_kg_l"},
		"negative ratio":  {func(g *rules.GlueRule) { g.Handling.PartsB = "-1" }, "/glue/handling/parts_b"},
		"no ratio":        {func(g *rules.GlueRule) { g.Handling.PartsA = "0" }, "/glue/handling/parts_a"},
		"factor in words": {func(g *rules.GlueRule) { g.Times.Factor10C = "NaN" }, "/glue/times/factor_10c"},
		"factor below 1":  {func(g *rules.GlueRule) { g.Times.Factor10C = "0.5" }, "/glue/times/factor_10c"},
		"load too soon":   {func(g *rules.GlueRule) { g.Times.LoadH = "1" }, "/glue/times/load_h"},
		"range":           {func(g *rules.GlueRule) { g.Times.LowC = "22" }, "/glue/times/low_c"},
		"cold shop":       {func(g *rules.GlueRule) { g.Layup.ShopC = "9.5" }, "/glue/layup/shop_c"},
		"cold hull":       {func(g *rules.GlueRule) { g.Layup.HullC = "9.5" }, "/glue/layup/hull_c"},
		"hull in words":   {func(g *rules.GlueRule) { g.Layup.HullC = "cold" }, "/glue/layup/hull_c"},
		"no hands":        {func(g *rules.GlueRule) { g.Layup.Hands = 0 }, "/glue/layup/hands"},
		"no clamps":       {func(g *rules.GlueRule) { g.Layup.Clamps = -1 }, "/glue/layup/clamps"},
		"pitch":           {func(g *rules.GlueRule) { g.Layup.ClampPitch = "0" }, "/glue/layup/clamp_pitch"},
		"rate":            {func(g *rules.GlueRule) { g.Layup.SpreadM2H = "0" }, "/glue/layup/spread_m2_h"},
		"long day":        {func(g *rules.GlueRule) { g.Layup.DayH = "25" }, "/glue/layup/day_h"},
		"no source":       {func(g *rules.GlueRule) { g.Layup.Source = "" }, "/glue/layup/source"},
		"no times":        {func(g *rules.GlueRule) { g.Times = nil }, "/glue/layup"},
		"no handling":     {func(g *rules.GlueRule) { g.Handling = nil }, "/glue/times"},
	}
	for name, c := range cases {
		t.Run(name, func(t *testing.T) {
			d := demo(t)
			c.spoil(&d.Glue)
			_, faults := rules.Read(d)
			if len(faults) != 1 || faults[0].Pointer != c.pointer || faults[0].Detail == "" || faults[0].Fix == "" {
				t.Errorf("faults %+v, one at %s wanted", faults, c.pointer)
			}
		})
	}
}
