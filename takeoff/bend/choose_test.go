package bend_test

import (
	"errors"
	"math"
	"testing"

	"ribband/takeoff/bend"

	"github.com/google/go-cmp/cmp"
	"github.com/shopspring/decimal"
	"pgregory.net/rapid"
)

func dec(s string) decimal.Decimal { return decimal.RequireFromString(s) }

func decs(s ...string) []decimal.Decimal {
	var out []decimal.Decimal
	for _, d := range s {
		out = append(out, dec(d))
	}
	return out
}

func inches(s ...string) []decimal.Decimal {
	out := decs(s...)
	for i := range out {
		out[i] = out[i].Mul(dec("25.4"))
	}
	return out
}

// thickest laminate by R/t at the tightest laminate of a piece that is so deep, all mm: at a bilge the inboard one, in a
// hollow (radius below 0) that at the faying face.
func thickest(radius, moulded, ratio float64) decimal.Decimal {
	depth := 0.0
	if radius > 0 {
		depth = moulded
	}
	k, ok := bend.At(1/radius, depth)
	if !ok {
		return decimal.Zero
	}
	return decimal.NewFromFloat(math.Abs(1 / k)).Div(decimal.NewFromFloat(ratio)).Round(9)
}

// 20 in at the faying face and moulded 2 1/2 in leave 17 1/2 in to the inboard laminate: 0.175 in at R/t 100, so 1/8 in
// and 20 of them before cleaning up, and not 14 of 3/16 in, which the faying face's radius would have given. In a hollow
// the outboard laminate decides: 0.2 in, so 3/16 in.
func TestTheInboardLaminateDecidesAtABilgeAndTheOutboardInAHollow(t *testing.T) {
	for _, c := range []struct {
		radius    float64
		thickness string
		count     int64
	}{{20 * 25.4, "0.125", 20}, {-20 * 25.4, "0.1875", 14}} {
		need := bend.Need{Depth: dec("63.5"), Thickest: thickest(c.radius, 63.5, 100)}
		plan, err := bend.Choose([]bend.Need{need}, inches("0.1875", "0.125", "0.25"))
		if err != nil {
			t.Fatal(err)
		}
		got := plan.Pieces[0]
		if !got.Thickness.Equal(inches(c.thickness)[0]) || got.Laminates != c.count || !got.Bends {
			t.Errorf("radius %.0f mm: %d of %s mm, %d of %s in wanted", c.radius, got.Laminates, got.Thickness, c.count, c.thickness)
		}
		if got.Thicker == nil || got.Thicker.Bends {
			t.Errorf("radius %.0f mm: the next thicker is said to bend: %+v", c.radius, got.Thicker)
		}
	}
}

// Douglas-fir at 12 %: MOR 12,400 psi, MOE 1.95e6 psi (Oregon Wood Innovation Center, Oregon State University, table of
// relative working and physical properties), so rupture at R/t 78.6 (computed); at half the strain twice that.
func TestDouglasFirRupturesAtSeventyNineTimesItsThickness(t *testing.T) {
	for share, want := range map[string]string{"1": "78.6", "0.5": "157.3"} {
		got, err := bend.StrainRatio(dec("12400"), dec("1950000"), dec(share))
		if err != nil || got.StringFixed(1) != want {
			t.Errorf("at %s of the strain at rupture R/t %s, %s wanted; %v", share, got, want, err)
		}
	}
	var wrong *bend.RangeError
	if _, err := bend.StrainRatio(dec("0"), dec("1950000"), dec("1")); !errors.As(err, &wrong) {
		t.Errorf("a modulus of 0: %v", err)
	}
}

// The thickest of every published pair of radius and thickness keeps to what the same pair gives as R/t, and no more: 33 mm
// lamellas to 6.60 m (DIN 1052-1:1988 as a maker of glued laminated timber has it).
func TestAPublishedRadiusTakesItsPublishedThickness(t *testing.T) {
	need := bend.Need{Depth: dec("330"), Thickest: thickest(-6600, 0, 200)}
	plan, err := bend.Choose([]bend.Need{need}, decs("33", "33.001"))
	if err != nil || !plan.Pieces[0].Thickness.Equal(dec("33")) || plan.Pieces[0].Laminates != 10 {
		t.Errorf("%+v, %v", plan, err)
	}
}

func TestTwelveAreTwelveInAnyUnit(t *testing.T) {
	for _, third := range decs("8.4666666667", "8.466666667", "8.46666666666667") {
		if n := bend.Laminates(dec("101.6"), third); n != 12 {
			t.Errorf("4 in is %d laminates of %s mm, 12 wanted", n, third)
		}
	}
	for _, rip := range inches("0.0625", "0.09375", "0.125", "0.1875", "0.25", "0.3125") {
		for n := int64(1); n <= 60; n++ {
			if got := bend.Laminates(rip.Mul(decimal.NewFromInt(n)), rip); got != n {
				t.Errorf("%d laminates of %s mm are counted as %d", n, rip, got)
			}
			if got := bend.Laminates(rip.Mul(decimal.NewFromInt(n)).Add(dec("0.001")), rip); got != n+1 {
				t.Errorf("a thousandth more than %d laminates of %s mm is counted as %d", n, rip, got)
			}
		}
	}
}

func TestASmallerRadiusNeverTakesAThickerLaminate(t *testing.T) {
	rips := inches("0.0625", "0.125", "0.1875", "0.25", "0.375")
	rapid.Check(t, func(t *rapid.T) {
		wide := rapid.Float64Range(50, 20000).Draw(t, "radius")
		tight := wide * rapid.Float64Range(0.01, 1).Draw(t, "share")
		moulded := rapid.Float64Range(10, 200).Draw(t, "moulded")
		of := func(radius float64) decimal.Decimal {
			plan, err := bend.Choose([]bend.Need{{Depth: decimal.NewFromFloat(moulded), Thickest: thickest(radius, moulded, 100)}}, rips)
			if err != nil {
				t.Fatal(err)
			}
			return plan.Pieces[0].Thickness
		}
		if a, b := of(tight), of(wide); a.GreaterThan(b) {
			t.Fatalf("radius %v takes %s mm, the wider %v only %s mm", tight, a, wide, b)
		}
	})
}

// Sixty-fourths of an inch are exact in millimetres, so the choice is the same whichever of the two a yard writes.
func TestTheUnitChangesNothing(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		var inInches, inMM []bend.Need
		for range rapid.IntRange(1, 6).Draw(t, "pieces") {
			depth, takes := dec("0.015625").Mul(decimal.NewFromInt(rapid.Int64Range(32, 320).Draw(t, "depth"))), dec("0.015625").Mul(decimal.NewFromInt(rapid.Int64Range(1, 32).Draw(t, "thickest")))
			inInches = append(inInches, bend.Need{Depth: depth, Thickest: takes})
			inMM = append(inMM, bend.Need{Depth: depth.Mul(dec("25.4")), Thickest: takes.Mul(dec("25.4"))})
		}
		most := rapid.IntRange(1, 3).Draw(t, "most")
		a, err := bend.ChooseAmong(inInches, decs("0.125", "0.1875", "0.25", "0.375"), most)
		if err != nil {
			t.Fatal(err)
		}
		b, err := bend.ChooseAmong(inMM, inches("0.125", "0.1875", "0.25", "0.375"), most)
		if err != nil {
			t.Fatal(err)
		}
		for i := range a.Pieces {
			p, q := a.Pieces[i], b.Pieces[i]
			if p.Laminates != q.Laminates || p.Bends != q.Bends || !p.Thickness.Mul(dec("25.4")).Equal(q.Thickness) {
				t.Fatalf("in inches %d of %s, in mm %d of %s", p.Laminates, p.Thickness, q.Laminates, q.Thickness)
			}
		}
	})
}

// Every way of giving each piece one of the thicknesses that it takes is tried. Pieces that take none decide nothing and get
// the thinnest chosen; where that is all of them the thinnest ripped.
func TestTheChoiceIsTheBestOfAllAssignments(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		rips := inches("0.125", "0.1875", "0.25", "0.375", "0.5")[:rapid.IntRange(1, 5).Draw(t, "rips")]
		var needs []bend.Need
		for range rapid.IntRange(1, 5).Draw(t, "pieces") {
			needs = append(needs, bend.Need{
				Depth:    decimal.NewFromInt(rapid.Int64Range(5, 100).Draw(t, "depth")),
				Thickest: decimal.NewFromInt(rapid.Int64Range(0, 15).Draw(t, "thickest")),
				Straight: rapid.IntRange(0, 4).Draw(t, "straight") == 0,
			})
		}
		most := rapid.IntRange(1, 3).Draw(t, "most")
		plan, err := bend.ChooseAmong(needs, rips, most)
		if err != nil {
			t.Fatal(err)
		}
		takesOne := func(n bend.Need) bool { return n.Straight || rips[0].LessThanOrEqual(n.Thickest) }
		var all []bend.Need
		got := int64(0)
		for i, n := range needs {
			switch {
			case takesOne(n):
				all, got = append(all, n), got+plan.Pieces[i].Laminates
			case plan.Pieces[i].Bends || !plan.Pieces[i].Thickness.Equal(plan.Thicknesses[0]):
				t.Fatalf("nothing is thin enough: %+v", plan.Pieces[i])
			}
		}
		if len(all) == 0 {
			if len(plan.Thicknesses) != 1 || !plan.Thicknesses[0].Equal(rips[0]) {
				t.Fatalf("nothing is thin enough for any, and %v are chosen", plan.Thicknesses)
			}
			return
		}
		least, kinds := int64(math.MaxInt64), 0
		var try func(i int, used map[int]int, sum int64)
		try = func(i int, used map[int]int, sum int64) {
			if i == len(all) {
				if len(used) <= most && (sum < least || sum == least && len(used) < kinds) {
					least, kinds = sum, len(used)
				}
				return
			}
			for r, rip := range rips {
				if !all[i].Straight && rip.GreaterThan(all[i].Thickest) {
					continue
				}
				used[r]++
				try(i+1, used, sum+bend.Laminates(all[i].Depth, rip))
				if used[r]--; used[r] == 0 {
					delete(used, r)
				}
			}
		}
		try(0, map[int]int{}, 0)
		if got != least || len(plan.Thicknesses) != kinds {
			t.Fatalf("%d laminates of %d thicknesses; %d of %d would do", got, len(plan.Thicknesses), least, kinds)
		}
		used := map[string]bool{}
		for i, p := range plan.Pieces {
			used[p.Thickness.String()] = true
			if p.Thickness.Mul(decimal.NewFromInt(p.Laminates)).LessThan(needs[i].Depth) {
				t.Fatalf("%d of %s mm are not %s mm deep", p.Laminates, p.Thickness, needs[i].Depth)
			}
			if p.Bends != (needs[i].Straight || p.Thickness.LessThanOrEqual(needs[i].Thickest)) {
				t.Fatalf("%s mm is said to bend: %v; %+v", p.Thickness, p.Bends, needs[i])
			}
		}
		if len(used) != len(plan.Thicknesses) {
			t.Fatalf("%v are named, %v are used", plan.Thicknesses, used)
		}
	})
}

func TestOneTightFrameDecidesUnlessTheYardRipsTwo(t *testing.T) {
	needs := []bend.Need{{Depth: dec("76.2"), Thickest: dec("4")}}
	for range 9 {
		needs = append(needs, bend.Need{Depth: dec("76.2"), Thickest: dec("9")})
	}
	for most, want := range map[int]struct {
		laminates int64
		rips      []decimal.Decimal
	}{1: {240, decs("3.175")}, 2: {24 + 9*12, decs("3.175", "6.35")}, 3: {24 + 9*12, decs("3.175", "6.35")}} {
		plan, err := bend.ChooseAmong(needs, inches("0.125", "0.25", "0.375"), most)
		if err != nil {
			t.Fatal(err)
		}
		if plan.Laminates != want.laminates || !cmp.Equal(plan.Thicknesses, want.rips, cmp.Comparer(decimal.Decimal.Equal)) {
			t.Errorf("at most %d: %d laminates of %v, %d of %v wanted", most, plan.Laminates, plan.Thicknesses, want.laminates, want.rips)
		}
	}
}

func TestNothingToChooseFromIsSaid(t *testing.T) {
	var wrong *bend.RangeError
	for name, rips := range map[string][]decimal.Decimal{"none": nil, "nothing thick": decs("0", "3")} {
		if _, err := bend.Choose(nil, rips); !errors.As(err, &wrong) {
			t.Errorf("%s: %v", name, err)
		}
	}
	if _, err := bend.ChooseAmong(nil, decs("3"), 0); !errors.As(err, &wrong) {
		t.Errorf("no thickness allowed: %v", err)
	}
	if plan, err := bend.Choose(nil, decs("3")); err != nil || len(plan.Pieces) != 0 || plan.Laminates != 0 {
		t.Errorf("no pieces: %+v, %v", plan, err)
	}
}
