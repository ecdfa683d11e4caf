package fastening_test

import (
	"encoding/csv"
	"errors"
	"math"
	"os"
	"testing"

	"ribband/takeoff/fastening"
	"ribband/takeoff/notation"

	"github.com/shopspring/decimal"
)

func d(text string) decimal.Decimal { return decimal.RequireFromString(text) }

// rows of a table of testdata/published/fastening-figures, whose SOURCE.md names title, publisher, year and place.
func rows(t *testing.T, name string) []map[string]string {
	t.Helper()
	f, err := os.Open("../../testdata/published/fastening-figures/" + name + ".csv")
	if err != nil {
		t.Fatal(err)
	}
	all, err := csv.NewReader(f).ReadAll()
	if err := errors.Join(err, f.Close()); err != nil || len(all) < 2 {
		t.Fatalf("%s: %d rows, %v", name, len(all), err)
	}
	var out []map[string]string
	for _, cells := range all[1:] {
		row := map[string]string{}
		for i, c := range cells {
			row[all[0][i]] = c
		}
		out = append(out, row)
	}
	return out
}

func same(t *testing.T, what string, got decimal.Decimal, want string) {
	t.Helper()
	if !got.Equal(d(want)) {
		t.Errorf("%s: %s, want %s", what, got, want)
	}
}

func inches(t *testing.T, text string) decimal.Decimal {
	t.Helper()
	l, err := notation.Inches.Parse(text)
	if err != nil {
		t.Fatal(err)
	}
	return l.Decimal()
}

func TestScrewsAsPublished(t *testing.T) {
	for _, name := range []string{"screws", "shanks"} {
		for _, r := range rows(t, name) {
			gauge := d(r["gauge"]).IntPart()
			shank, err := fastening.Shank(gauge)
			if err != nil {
				t.Fatal(err)
			}
			same(t, "shank of "+r["gauge"], shank, r["shank_in"])
			if r["root_in"] == "" {
				continue
			}
			root, err := fastening.Root(gauge, fastening.RootTable)
			if err != nil {
				t.Fatal(err)
			}
			same(t, "root of "+r["gauge"], root, r["root_in"])
			// the handbook's two thirds is another figure, so the source goes with it
			other, err := fastening.Root(gauge, fastening.RootTwoThirds)
			if err != nil || other.GreaterThanOrEqual(root) || other.LessThan(shank.Mul(d("0.66"))) {
				t.Errorf("gauge %d: %s by the handbook, %s by the maker, %v", gauge, other, root, err)
			}
		}
	}
}

// Row by row; the screws' bodies are within a sixty-fourth of an inch of what their gauges make.
func TestPlankingScrewsAsPublished(t *testing.T) {
	const near = "0.0157" // 1/64 in, which the table is rounded to
	for _, r := range rows(t, "planking") {
		p, exact, err := fastening.PlankingFor(inches(t, r["plank_in"]))
		if err != nil || !exact || p.Plank != r["plank_in"] || p.Body != r["body_in"] || p.Gauge != d(r["gauge"]).IntPart() || p.Length != r["length_in"] || p.Plug != r["plug_in"] || p.PlugOr != r["plug_or_in"] {
			t.Errorf("%s: %+v %v %v, printed %v", r["plank_in"], p, exact, err, r)
			continue
		}
		shank, err := fastening.Shank(p.Gauge)
		if err != nil {
			t.Fatal(err)
		}
		if off := shank.Sub(inches(t, p.Body).Div(d("25.4"))).Abs(); off.GreaterThan(d(near)) {
			t.Errorf("%s: a body of %s for a shank of %s", r["plank_in"], p.Body, shank)
		}
	}
	// between two the thicker plank's, and nothing outside of the table
	if p, exact, err := fastening.PlankingFor(inches(t, "1 1/8")); err != nil || exact || p.Gauge != 20 {
		t.Errorf("%+v %v %v", p, exact, err)
	}
	var out *fastening.RangeError
	for _, mm := range []string{"9.5", "50.81", "0", "-5"} {
		if _, _, err := fastening.PlankingFor(d(mm)); !errors.As(err, &out) || out.Fix == "" {
			t.Errorf("%s mm: %v", mm, err)
		}
	}
}

// G2 and G to the power 5/2 as the formulas' table prints them; withdrawal rests on the square.
func TestHoldingAsPublished(t *testing.T) {
	for _, r := range rows(t, "gravity") {
		g := d(r["gravity"])
		same(t, "square of "+r["gravity"], g.Mul(g).Round(3), r["square"])
		if got := math.Pow(g.InexactFloat64(), 2.5); math.Abs(got-d(r["five_halves"]).InexactFloat64()) > 0.0006 { // printed to a thousandth
			t.Errorf("%s: %v, printed %s", r["gravity"], got, r["five_halves"])
		}
		p, err := fastening.Withdrawal(g, d("1"))
		if err != nil {
			t.Fatal(err)
		}
		same(t, "withdrawal at "+r["gravity"], p, g.Mul(g).Mul(d("2850")).String())
	}
	for _, r := range rows(t, "lateral") {
		p, err := fastening.Lateral(fastening.Group(r["group"]), d("0.5"))
		if err != nil {
			t.Fatal(err)
		}
		same(t, "group "+r["group"], p, d(r["c"]).Div(d("4")).String())
	}
	for _, r := range rows(t, "leads") {
		lead, err := fastening.LeadFor(d(r["gravity"]))
		if err != nil {
			t.Fatal(err)
		}
		same(t, "lead at "+r["gravity"], lead.ShareOfRoot, r["share_of_root"])
	}
}

// Densities in both units are one within a half of a hundredth, as far as the rounded ones go; rods weigh as printed.
func TestMetalsAsPublished(t *testing.T) {
	cubicInches := d("1728")
	for _, r := range rows(t, "density") {
		lb, kg, source, err := fastening.Density(fastening.Metal(r["metal"]))
		if err != nil || source == "" {
			t.Fatal(err)
		}
		same(t, r["metal"], kg, r["kg_m3"])
		if r["lb_in3"] != "" {
			same(t, r["metal"], lb, r["lb_in3"])
		} else {
			same(t, r["metal"], lb.Mul(cubicInches).Round(0), r["lb_ft3"])
		}
	}
	for _, r := range rows(t, "rods") {
		got, err := fastening.RodPounds(fastening.Metal(r["metal"]), d(r["diameter_in"]), d(r["length_in"]))
		if err != nil {
			t.Fatal(err)
		}
		same(t, r["metal"]+" "+r["diameter_in"], got.Round(int32(d(r["places"]).IntPart())), r["lb"])
		kg, err := fastening.RodKg(fastening.Metal(r["metal"]), d(r["diameter_in"]).Mul(d("25.4")), d(r["length_in"]).Mul(d("25.4")))
		if err != nil {
			t.Fatal(err)
		}
		if off := kg.Div(got.Mul(d("0.45359237"))).Sub(d("1")).Abs(); off.GreaterThan(d("0.005")) { // the two densities are each rounded
			t.Errorf("%s: %s kg and %s lb", r["metal"], kg, got)
		}
	}
}

func TestScrewsOfACrossing(t *testing.T) {
	for _, r := range rows(t, "crossings") {
		got, err := fastening.Composite1891.Screws(d(r["width_in"]).Mul(d("25.4")))
		if err != nil {
			t.Fatal(err)
		}
		same(t, r["width_in"]+" in", got.Mul(d("2")), r["screws_on_two_frames"])
	}
	for width, want := range map[string]string{"100": "2", "177.8": "2", "177.9": "3"} { // common practice, no source
		got, err := fastening.TwoOrThree.Screws(d(width))
		if err != nil {
			t.Fatal(err)
		}
		same(t, width, got, want)
	}
}

func TestFiguresThatNothingHoldsFor(t *testing.T) {
	var out *fastening.RangeError
	for what, ask := range map[string]func() error{
		"gauge":       func() error { _, err := fastening.Shank(-1); return err },
		"gauge 31":    func() error { _, err := fastening.Shank(31); return err },
		"root of 7":   func() error { _, err := fastening.Root(7, fastening.RootTable); return err },
		"root by eye": func() error { _, err := fastening.Root(8, "eye"); return err },
		"gravity":     func() error { _, err := fastening.Withdrawal(d("0"), d("1")); return err },
		"shank":       func() error { _, err := fastening.Withdrawal(d("0.5"), d("0")); return err },
		"group":       func() error { _, err := fastening.Lateral("V", d("1")); return err },
		"no shank":    func() error { _, err := fastening.Lateral(fastening.GroupI, d("0")); return err },
		"light":       func() error { _, err := fastening.LeadFor(d("0.5")); return err },
		"no wood":     func() error { _, err := fastening.LeadFor(d("7")); return err },
		"metal":       func() error { _, err := fastening.RodPounds("tin", d("1"), d("1")); return err },
		"metal, kg":   func() error { _, err := fastening.RodKg("tin", d("1"), d("1")); return err },
		"no rod":      func() error { _, err := fastening.RodPounds(fastening.Steel, d("0"), d("1")); return err },
		"no rod, kg":  func() error { _, err := fastening.RodKg(fastening.Steel, d("1"), d("-1")); return err },
		"rule":        func() error { _, err := fastening.PerCrossing("by eye").Screws(d("100")); return err },
		"width":       func() error { _, err := fastening.TwoOrThree.Screws(d("0")); return err },
	} {
		if err := ask(); !errors.As(err, &out) || out.Fix == "" || out.Detail == "" {
			t.Errorf("%s: %v", what, err)
		}
	}
}
