package bend_test

import (
	"encoding/csv"
	"errors"
	"os"
	"testing"

	"ribband/takeoff/bend"

	"github.com/shopspring/decimal"
	"pgregory.net/rapid"
)

// in is inches as millimetres.
func in(s string) decimal.Decimal { return dec(s).Mul(dec("25.4")) }

// ratios published, by what they are of.
func ratios(t *testing.T) map[string][][]string {
	t.Helper()
	out := map[string][][]string{}
	for _, r := range rows(t, "ratios") {
		out[r[0]] = append(out[r[0]], r)
	}
	return out
}

// rows of one of the published tables, without its head.
func rows(t *testing.T, name string) [][]string {
	t.Helper()
	f, err := os.Open("../../testdata/published/bending-figures/" + name + ".csv")
	if err != nil {
		t.Fatal(err)
	}
	all, err := csv.NewReader(f).ReadAll()
	if err := errors.Join(err, f.Close()); err != nil {
		t.Fatal(err)
	}
	return all[1:]
}

// written is a length of a published table in millimetres.
func written(length, unit string) decimal.Decimal {
	if unit == "in" {
		return in(length)
	}
	return dec(length)
}

// An hour an inch is what two sources ask for, row by row, and never less than what others found adequate.
func TestPublishedTimesInSteam(t *testing.T) {
	for _, row := range rows(t, "steaming") {
		got, err := bend.Published().Bend(decimal.Zero, written(row[1], row[2]), true)
		if err != nil || got.Minutes.LessThan(dec(row[3])) || row[0] != "steam_pine" && !got.Minutes.Equal(dec(row[3])) {
			t.Errorf("%v: %s minutes, %v", row, got.Minutes, err)
		}
	}
}

// Of southern pine at R = 12 t a quarter and a fifth came out less than good (Lemoine & Koch, 1971): as breakage, of each
// hundred good ones 134 and 125 are bought.
func TestPublishedYieldsAsBreakage(t *testing.T) {
	want := map[string]int64{"1": 134, "0.5": 125}
	for _, row := range rows(t, "yields") {
		got, err := bend.Bought(100, dec("1").Sub(dec(row[4])))
		if err != nil || got != want[row[2]] {
			t.Errorf("%v: %d, %v", row, got, err)
		}
	}
}

// A tighter bend never asks for less, and a thicker piece never either.
func TestASmallerRadiusNeverPassesWhereALargerFails(t *testing.T) {
	order := map[bend.Strap]int{bend.Free: 0, bend.Strapped: 1, bend.BestOnly: 2, bend.NotInSteam: 3}
	rapid.Check(t, func(t *rapid.T) {
		r := bend.Published()
		wide := decimal.New(rapid.Int64Range(-1000, 2_000_000).Draw(t, "radius"), -2)
		tight := wide.Sub(decimal.New(rapid.Int64Range(0, 500_000).Draw(t, "tighter by"), -2))
		thin := decimal.New(rapid.Int64Range(1, 20_000).Draw(t, "thickness"), -2)
		thick := thin.Add(decimal.New(rapid.Int64Range(0, 5000).Draw(t, "thicker by"), -2))
		of := func(radius, thickness decimal.Decimal) bend.Steamed {
			s, err := r.Bend(radius, thickness, false)
			if err != nil {
				t.Fatal(err)
			}
			return s
		}
		easy, hard := of(wide, thin), of(tight, thick)
		if order[hard.Strap] < order[easy.Strap] || hard.Minutes.LessThan(easy.Minutes) || hard.Ratio.GreaterThan(easy.Ratio) {
			t.Fatalf("%s over %s: %+v; %s over %s: %+v", wide, thin, easy, tight, thick, hard)
		}
	})
}

// A published pair of radius and thickness is the thickest at its own R/t: no thousandth more bends.
func TestPublishedPairsAreAtTheirLimit(t *testing.T) {
	published := ratios(t)
	for _, r := range append(published["glulam"], published["standard"]...) {
		need := bend.Need{Depth: dec("1000"), Thickest: dec(r[1]).Div(dec(r[4]))}
		plan, err := bend.Choose([]bend.Need{need}, []decimal.Decimal{dec(r[2]), dec(r[2]).Mul(dec("1.001"))})
		if err != nil || !plan.Pieces[0].Bends || !plan.Pieces[0].Thickness.Equal(dec(r[2])) || plan.Pieces[0].Thicker.Bends {
			t.Errorf("radius %s: %+v, %v", r[1], plan.Pieces, err)
		}
	}
}

// R/t of 10, 5 and 2 are where strap, best stock and nothing begin (testdata/published/bending-figures, steam_*).
func TestPublishedLimitsInSteam(t *testing.T) {
	published := ratios(t)
	r := bend.Published()
	for id, want := range map[string][2]bend.Strap{
		"steam_free": {bend.Free, bend.Strapped}, "steam_strap": {bend.Strapped, bend.BestOnly}, "steam_best": {bend.BestOnly, bend.NotInSteam},
	} {
		row := published[id][0]
		for i, radius := range []decimal.Decimal{dec(row[1]), dec(row[1]).Sub(dec("0.001"))} {
			got, err := r.Bend(radius.Mul(dec("25.4")), in(row[2]), false)
			if err != nil || got.Strap != want[i] {
				t.Errorf("%s at %s: %s, %v", id, radius, got.Strap, err)
			}
			if want[i] != bend.NotInSteam && got.Margin.Sign() < 0 {
				t.Errorf("%s at %s bends with a margin of %s", id, radius, got.Margin)
			}
		}
	}
	// an hour an inch
	got, err := r.Bend(dec("500"), in("1.25"), false)
	if err != nil || !got.Minutes.Equal(dec("75")) || !got.ThickestFree.Equal(dec("50")) || !got.ThickestStrapped.Equal(dec("100")) {
		t.Errorf("%+v, %v", got, err)
	}
	if got, err = r.Bend(dec("-3"), in("1"), false); err != nil || got.Strap != bend.NotInSteam {
		t.Errorf("%+v, %v", got, err)
	}
	if got, err = r.Bend(dec("0"), in("1"), true); err != nil || got.Strap != bend.Free {
		t.Errorf("%+v, %v", got, err)
	}
}

// Breakage is a share of what is bought: 12 pieces and a quarter broken are 16 bought, not 15.
func TestBreakageIsAShareOfWhatIsBought(t *testing.T) {
	for breakage, want := range map[string]int64{"0": 12, "0.25": 16, "0.26": 17, "0.04": 13} {
		if got, err := bend.Bought(12, dec(breakage)); err != nil || got != want {
			t.Errorf("%s: %d, %v", breakage, got, err)
		}
	}
	var wrong *bend.RangeError
	for _, b := range []string{"1", "-0.1", "1.5"} {
		if _, err := bend.Bought(12, dec(b)); !errors.As(err, &wrong) {
			t.Errorf("%s: %v", b, err)
		}
	}
}

// 3 1/4 in at the heel and 2 1/4 in at the head of 1/4 in: 13 and 9; each of four is dropped where the others make the depth.
func TestLaminatesAreDroppedWhereTheOthersDo(t *testing.T) {
	taper := bend.Taper{Length: dec("2000"), HeelDepth: in("3.25"), HeadDepth: in("2.25"), HeelSiding: in("2"), HeadSiding: in("1.5")}
	all, head, err := taper.Laminates(in("0.25"))
	if err != nil || len(all) != 13 || head != 9 {
		t.Fatalf("%d and %d, %v", len(all), head, err)
	}
	for i, want := range []string{"2000", "1500", "1000", "500"} {
		if got := all[9+i].Length; !got.Equal(dec(want)) {
			t.Errorf("laminate %d is %s mm long, %s wanted", 10+i, got, want)
		}
	}
	if !all[0].Length.Equal(dec("2000")) || !all[8].Siding.Equal(in("2")) {
		t.Errorf("%+v", all[0])
	}
	// everywhere there is enough, and one less would not do
	for s := int64(0); s < 2000; s += 50 {
		depth := taper.HeelDepth.Sub(in("1").Mul(decimal.NewFromInt(s)).Div(dec("2000")))
		n := int64(0)
		for _, l := range all {
			if l.Length.GreaterThan(decimal.NewFromInt(s)) {
				n++
			}
		}
		if want := bend.Laminates(depth, in("0.25")); n != want {
			t.Errorf("%d mm along there are %d, %d wanted", s, n, want)
		}
	}
	taper.HeadDepth = in("4")
	var wrong *bend.RangeError
	if _, _, err := taper.Laminates(in("0.25")); !errors.As(err, &wrong) {
		t.Errorf("%v", err)
	}
}
