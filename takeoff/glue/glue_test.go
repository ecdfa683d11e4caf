package glue_test

import (
	"errors"
	"strings"
	"testing"

	"ribband/takeoff/glue"

	"github.com/shopspring/decimal"
	"pgregory.net/rapid"
)

func dec(s string) decimal.Decimal { return decimal.RequireFromString(s) }

// pots: made up, at a round temperature.
func pots() glue.Times {
	return glue.Times{WorkingH: dec("1"), ClampH: dec("6"), LoadH: dec("48"), AtC: dec("20"), Factor: dec("2"), LowC: dec("10"), HighC: dec("30")}
}

func yard() glue.Layup {
	return glue.Layup{ShopC: dec("20"), SpreadM2H: dec("6"), ClampS: dec("30"), PitchMM: dec("200"), Clamps: 60, Hands: 2, DayH: dec("8"), Source: "made up"}
}

// Ten degrees warmer halve every time and ten cooler double it: makers of epoxy state 18 F, which is 10 C.
func TestTimesFollowTheShop(t *testing.T) {
	for c, want := range map[string]glue.InShop{
		"20": {3600, 6 * 3600, 48 * 3600}, "30": {1800, 3 * 3600, 24 * 3600}, "10": {7200, 12 * 3600, 96 * 3600},
		"15": {5091, 30548, 244377}, // times the root of two: 5091.17, 30547.01 and 244376.07
	} {
		if got, err := pots().At(dec(c)); err != nil || got != want {
			t.Errorf("at %s C %+v (%v), want %+v", c, got, err, want)
		}
	}
	for _, c := range []string{"9.9", "30.1", "-40", "1000"} {
		_, err := pots().At(dec(c))
		var out *glue.OutsideError
		if !errors.As(err, &out) || !strings.Contains(out.Fix(), "between 10 and 30 C") {
			t.Errorf("at %s C: %v", c, err)
		}
	}
}

// A hotter shop never gives longer of anything.
func TestHotterIsNeverLonger(t *testing.T) {
	rapid.Check(t, func(rt *rapid.T) {
		p := pots()
		p.Factor = decimal.New(rapid.Int64Range(10, 30).Draw(rt, "factor"), -1)
		a, b := decimal.New(rapid.Int64Range(100, 300).Draw(rt, "a"), -1), decimal.New(rapid.Int64Range(100, 300).Draw(rt, "b"), -1)
		cool, hot := decimal.Min(a, b), decimal.Max(a, b)
		c, err := p.At(cool)
		h, err2 := p.At(hot)
		if err != nil || err2 != nil || h.Working > c.Working || h.Clamp > c.Clamp || h.Load > c.Load {
			rt.Fatalf("%v at %s, %v at %s; %v %v", c, cool, h, hot, err, err2)
		}
		// The shop that is told of for a time really gives it.
		need := rapid.Int64Range(1, 20000).Draw(rt, "need")
		if at, ok := p.Coolest(need); ok {
			if got, err := p.At(at); err != nil || got.Working < need {
				rt.Fatalf("%d s need %s C, where it works %d (%v)", need, at, got.Working, err)
			}
		}
	})
}

func TestClampsAreExactAtWholePitches(t *testing.T) {
	for _, c := range []struct {
		length, pitch string
		want          int64
	}{
		{"2000", "200", 11}, {"1999.999", "200", 10}, {"2000.001", "200", 11}, {"199", "200", 1}, {"200", "200", 2},
		{"2438.4", "203.2", 13}, // 8 ft at 8 in
		{"1", "0.333333333333", 4},
	} {
		if got, err := glue.Clamps(dec(c.length), dec(c.pitch)); err != nil || got != c.want {
			t.Errorf("%s at %s: %d (%v), want %d", c.length, c.pitch, got, err, c.want)
		}
	}
	for _, c := range [][2]string{{"0", "1"}, {"1", "0"}, {"-1", "1"}, {"1", "-1"}, {"1000000", "0.001"}} {
		var wrong *glue.InputError
		if _, err := glue.Clamps(dec(c[0]), dec(c[1])); !errors.As(err, &wrong) {
			t.Errorf("%v: %v", c, err)
		}
	}
}

// Nothing that cannot be is planned by, and every refusal says what would be right.
func TestWhatCannotBePlanned(t *testing.T) {
	spoilt := map[string]func(*glue.Times, *glue.Layup, *glue.Blank){
		"no working time": func(p *glue.Times, _ *glue.Layup, _ *glue.Blank) { p.WorkingH = decimal.Zero },
		"years of clamps": func(p *glue.Times, _ *glue.Layup, _ *glue.Blank) { p.ClampH = dec("999999999999") },
		"load at once":    func(p *glue.Times, _ *glue.Layup, _ *glue.Blank) { p.LoadH = dec("-1") },
		"factor":          func(p *glue.Times, _ *glue.Layup, _ *glue.Blank) { p.Factor = dec("0.5") },
		"range":           func(p *glue.Times, _ *glue.Layup, _ *glue.Blank) { p.LowC = dec("21") },
		"no rate":         func(_ *glue.Times, y *glue.Layup, _ *glue.Blank) { y.SpreadM2H = decimal.Zero },
		"no pitch":        func(_ *glue.Times, y *glue.Layup, _ *glue.Blank) { y.PitchMM = dec("-200") },
		"no clamps":       func(_ *glue.Times, y *glue.Layup, _ *glue.Blank) { y.Clamps = 0 },
		"no hands":        func(_ *glue.Times, y *glue.Layup, _ *glue.Blank) { y.Hands = -2 },
		"a long day":      func(_ *glue.Times, y *glue.Layup, _ *glue.Blank) { y.DayH = dec("25") },
		"no length":       func(_ *glue.Times, _ *glue.Layup, b *glue.Blank) { b.LengthMM = decimal.Zero },
		"less than none":  func(_ *glue.Times, _ *glue.Layup, b *glue.Blank) { b.AreaM2 = dec("-1") },
	}
	for name, spoil := range spoilt {
		p, y, b := pots(), yard(), blank("a", "1", "2000")
		spoil(&p, &y, &b)
		var wrong *glue.InputError
		if _, err := glue.Make(p, y, []glue.Blank{b}); !errors.As(err, &wrong) || wrong.Fix == "" || wrong.Error() == "" {
			t.Errorf("%s: %v", name, err)
		}
	}
}

func blank(path, area, length string) glue.Blank {
	return glue.Blank{Path: path, Lines: 11, AreaM2: dec(area), LengthMM: dec(length)}
}
