package rules_test

import (
	"testing"

	"ribband/takeoff/bill"
	"ribband/takeoff/rules"
)

func TestFaultsOfSteamSayWhere(t *testing.T) {
	of := func(v string) rules.Sourced { return rules.Sourced{Value: v, Source: "made up"} }
	cases := map[string]struct {
		steam   rules.SteamRule
		pointer string
	}{
		"layers":                    {rules.SteamRule{Layers: 9}, "/steam/layers"},
		"ratio":                     {rules.SteamRule{WithoutStrap: of("0")}, "/steam/without_strap/value"},
		"far ratio":                 {rules.SteamRule{WithStrap: of("5000")}, "/steam/with_strap/value"},
		"strap harder":              {rules.SteamRule{WithoutStrap: of("5"), WithStrap: of("10")}, "/steam/with_strap/value"},
		"no source":                 {rules.SteamRule{WithoutStrap: rules.Sourced{Value: "10"}}, "/steam/without_strap/source"},
		"hours":                     {rules.SteamRule{HoursPerInch: of("NaN")}, "/steam/hours_per_inch/value"},
		"long hours":                {rules.SteamRule{HoursPerInch: of("60")}, "/steam/hours_per_inch/value"},
		"all breaks":                {rules.SteamRule{Breakage: of("1")}, "/steam/breakage/value"},
		"below nothing":             {rules.SteamRule{Breakage: of("-0.1")}, "/steam/breakage/value"},
		"glued to nothing":          {rules.SteamRule{LayersGlued: true}, "/steam/layers_glued"},
		"no box":                    {rules.SteamRule{Box: &rules.SteamBoxRule{Length: "120", Width: "0", Height: "10", Source: "made up"}}, "/steam/box/width"},
		"a box as long as a street": {rules.SteamRule{Box: &rules.SteamBoxRule{Length: "9000", Width: "10", Height: "10", Source: "made up"}}, "/steam/box/length"},
		"a box from nowhere":        {rules.SteamRule{Box: &rules.SteamBoxRule{Length: "120", Width: "10", Height: "10"}}, "/steam/box/source"},
		"step":                      {rules.SteamRule{StockStep: "0"}, "/steam/stock_step"},
	}
	for name, c := range cases {
		d := demo(t)
		d.Steam = &c.steam
		if _, faults := rules.Read(d); len(faults) != 1 || faults[0].Pointer != c.pointer || faults[0].Detail == "" || faults[0].Fix == "" {
			t.Errorf("%s: %+v, one at %s wanted", name, faults, c.pointer)
		}
	}
}

// Breakage in steam stands in the place of the timber's own, so that none counts twice; without it that stands.
func TestBreakageCountsOnce(t *testing.T) {
	for breakage, want := range map[string]string{"0.15": "0.73508", "": "0.830208", "0": "0.8648"} { // 0.92 x 0.94 x (1 - breakage)
		d := demo(t)
		d.Steam.Breakage = rules.Sourced{}
		if breakage != "" {
			d.Steam.Breakage = rules.Sourced{Value: breakage, Source: "made up"}
		}
		r, faults := rules.Read(d)
		if len(faults) > 0 {
			t.Fatal(faults)
		}
		if left := bill.Remaining(r.ForSteamed()); left.String() != want {
			t.Errorf("breakage %q leaves %s, %s wanted", breakage, left, want)
		}
	}
}
