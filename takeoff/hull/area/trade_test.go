package area_test

import (
	"math"
	"strings"
	"testing"

	"ribband/takeoff/hull/area"
)

// Every way of summing takes a cubic exactly, but the trapezoidal rule; each says what it did.
func TestRuleByTheStations(t *testing.T) {
	cubic := func(x float64) float64 { return 3 + x - x*x + x*x*x/7 }
	integral := func(x float64) float64 { return 3*x + x*x/2 - x*x*x/3 + x*x*x*x/28 }
	for _, c := range []struct {
		name, rule string
		at         []float64
	}{
		{"even intervals", "first rule", []float64{1, 2, 3, 4, 5}},
		{"halved forward", "first rule", []float64{0, .5, 1, 2, 3}},
		{"three", "second rule", []float64{2, 3, 4, 5}},
		{"nine", "second rule", []float64{0, 1, 2, 3, 4, 5, 6, 7, 8, 9}},
		{"five", "first rule, and the second over three intervals", []float64{0, 1, 2, 3, 4, 5}},
		{"seven", "first rule, and the second over three intervals", []float64{0, 1, 2, 3, 4, 5, 6, 7}},
		{"spacing changes", "first rule, stretch by stretch as the spacing changes", []float64{0, .4, .8, 2, 3.2}},
		{"spacing changes by a third", "first rule, and the second over three intervals, stretch by stretch as the spacing changes", []float64{0, 1, 2, 3, 3.5, 4}},
	} {
		y := make([]float64, len(c.at))
		for i, x := range c.at {
			y[i] = cubic(x)
		}
		got, err := area.ByRule(c.at, y, 0)
		if err != nil || got.Rule != c.rule {
			t.Errorf("%s: %q, %v", c.name, got.Rule, err)
		}
		if want := integral(c.at[len(c.at)-1]) - integral(c.at[0]); math.Abs(got.Sum-want) > 1e-12*math.Abs(want) {
			t.Errorf("%s: %v, want %v", c.name, got.Sum, want)
		}
	}
	got, err := area.ByRule([]float64{0, 1, 2.5, 3}, []float64{1, 2, 3.5, 4}, 0)
	if err != nil || got.Rule != "trapezoidal rule" || math.Abs(got.Sum-7.5) > 1e-12 || math.Abs(got.Moment-(4.5+9)) > 1.5 {
		t.Error(got, err)
	}
	// A moment about station 0 and not about the first ordinate: of the ordinate 2 from 10 to 14.
	got, err = area.ByRule([]float64{10, 11, 12, 13, 14}, []float64{2, 2, 2, 2, 2}, 0)
	if err != nil || math.Abs(got.Moment-96) > 1e-9 {
		t.Error(got, err)
	}
	for _, bad := range [][2][]float64{{{0, 1}, {1}}, {{0}, {1}}, {{0, 0, 1}, {1, 2, 3}}, {{0, 1, 2}, {1, math.NaN(), 2}}, {nil, nil}} {
		if got, err := area.ByRule(bad[0], bad[1], 0); err == nil {
			t.Error(bad, got)
		}
	}
}

// The reason why girths and area differ comes in two parts, both told in per cent.
func TestBecause(t *testing.T) {
	b, err := side(t, wigley(24*foot, 8*foot, 3*foot), 13, 15).Beside()
	if err != nil {
		t.Fatal(err)
	}
	// 1 - 205.999645958090/211.041798260232 and (206.036167111006 - 205.999645958090)/211.04: the published figures.
	if s := b.Because(); !strings.Contains(s, "leave out 2.39 %") || !strings.Contains(s, "the first rule on the girths of the stations adds 0.02 %") {
		t.Error(s)
	}
	if s := b.VolumeBecause(); !strings.Contains(s, "leaves out 0.02 %") {
		t.Error(s)
	}
	// Three stations by the first rule are the parabola's; the surface's girths are not, so a part is the rule's.
	b, err = side(t, cone(4*metre, 700, 700), 4, 15).Beside()
	if err != nil {
		t.Fatal(err)
	}
	if s := b.Because(); !strings.Contains(s, "leave nothing out") || !strings.Contains(s, "nothing to speak of") {
		t.Error(s)
	}
	if b.Differs() > 1e-9 || b.ByGirths.Rule != "second rule" || b.VolumeBecause() != "the rule and the surface between the stations agree" {
		t.Error(b)
	}
}
