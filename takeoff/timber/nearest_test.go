package timber_test

import (
	"testing"

	"ribband/takeoff/timber"
)

// The nearest wood is the nearest in weight of those that are on no list and resist decay as well.
func TestTheNearestWood(t *testing.T) {
	of := func(code, gravity string, decay timber.DecayGroup, listed bool) timber.Species {
		s := wood(code, gravity)
		s.Decay.Group = decay
		if listed {
			s.Trade.Listing = &timber.Listing{Appendix: "II"}
		}
		return s
	}
	asked := of("asked", "0.50", timber.Resistant, true)
	c := timber.Catalogue{Species: []timber.Species{asked, of("rots", "0.50", timber.Slight, false), of("listed", "0.51", timber.Resistant, true),
		of("unknown", "0.50", "", false), of("weightless", "", timber.Resistant, false), of("lighter", "0.45", timber.Exceptional, false), of("heavier", "0.54", timber.Resistant, false)}}
	if s, ok := c.Nearest(asked); !ok || s.Code != "heavier" {
		t.Errorf("%s %v", s.Code, ok)
	}
	if s, ok := c.Nearest(of("undecided", "0.46", "", true)); !ok || s.Code != "lighter" {
		t.Errorf("%s %v", s.Code, ok)
	}
	if _, ok := c.Nearest(timber.Species{Code: "bog_oak"}); ok {
		t.Error("a wood without a weight has a nearest one")
	}
	if _, ok := (timber.Catalogue{Species: c.Species[:3]}).Nearest(asked); ok {
		t.Error("a listed wood, or one that rots, would do")
	}
}
