package notation_test

import (
	"encoding/csv"
	"math/big"
	"os"
	"strings"
	"testing"

	"ribband/takeoff/notation"
)

// Every row of the collected notation cases: a feet-inches-eighths length is read exactly, and what can be read in
// more than one way, or mixes notations, is refused. Sources row by row in the file; see its SOURCE.md.
func TestPublishedCases(t *testing.T) {
	f, err := os.Open("../../testdata/published/offset-notation-2004/cases.csv")
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	rows, err := csv.NewReader(f).ReadAll()
	if err != nil {
		t.Fatal(err)
	}
	refused := map[string]bool{"227": true, "1 54": true, `2' 0 5/8"`: true}
	read := 0
	for _, row := range rows[1:] {
		token, exact := row[0], row[1]
		l, err := notation.FeetInchesEighths.Parse(token)
		if refused[token] {
			if err == nil {
				t.Errorf("%q was read as %v; it must be asked about", token, l)
			}
			continue
		}
		if err != nil {
			t.Error(err)
			continue
		}
		read++
		inches, ok := new(big.Rat).SetString(exact)
		if !ok {
			t.Fatalf("exact value %q", exact)
		}
		want := inches.Mul(inches, big.NewRat(254, 10))
		if got := l.Decimal().Rat(); got.Cmp(want) != 0 {
			t.Errorf("%s is %v mm, want %v", token, got, want)
		}
	}
	if read != 7 {
		t.Errorf("%d rows read, want 7", read)
	}
}

func TestParse(t *testing.T) {
	const (
		fie = notation.FeetInchesEighths
		in  = notation.Inches
		mm  = notation.Millimetres
		m   = notation.Metres
	)
	for _, c := range []struct {
		n    notation.Notation
		text string
		mm   string // exact
		back string // as Format writes it
	}{
		{fie, "0-0-0", "0", "0-0-0"},
		{fie, "-0-0-0", "0", "0-0-0"},
		{fie, " 2-3-4 ", "698.5", "2-3-4"},
		{fie, "1-07-4", "495.3", "1-7-4"},
		{fie, "1-7-3+", "493.7125", "1-7-3+"},
		{fie, "3-4-5-", "1030.2875", "3-4-4+"},
		{fie, "1-0-0-", "303.2125", "0-11-7+"},
		{fie, "-0-3-4", "-88.9", "-0-3-4"},
		{fie, "-0-3-4-", "-87.3125", "-0-3-3+"},
		{fie, "0-0-0-", "-1.5875", "-0-0-0+"},
		{fie, "34-11-7+", "10666.4125", "34-11-7+"},
		{in, "22 7/8", "581.025", "22 7/8"},
		{in, "27.5", "698.5", "27 1/2"},
		{in, "27 1/2", "698.5", "27 1/2"},
		{in, "4/8", "12.7", "1/2"},
		{in, "-1/64", "-0.396875", "-1/64"},
		{in, "12", "304.8", "12"},
		{in, "12.3", "312.42", "12.3"},
		{in, "0.000001", "0.0000254", "0.000001"},
		{mm, "698.5", "698.5", "698.5"},
		{mm, "698,5", "698.5", "698.5"},
		{mm, "1,234", "1.234", "1.234"}, // one mark is the decimal mark, always
		{mm, "1.234", "1.234", "1.234"},
		{mm, "-40", "-40", "-40"},
		{mm, "007", "7", "7"},
		{mm, "1000000", "1000000", "1000000"},
		{m, "0.6985", "698.5", "0.6985"},
		{m, "3,05", "3050", "3.05"},
		{m, "-0,000001", "-0.001", "-0.000001"},
		{m, "1000", "1000000", "1000"},
	} {
		l, err := c.n.Parse(c.text)
		if err != nil {
			t.Error(err)
			continue
		}
		if got := l.Decimal().String(); got != c.mm {
			t.Errorf("%s %q is %s mm, want %s", c.n, c.text, got, c.mm)
		}
		if got := c.n.Format(l); got != c.back {
			t.Errorf("%s %q is written back as %q, want %q", c.n, c.text, got, c.back)
		}
	}
}

// Refusals say what is wrong and, where it is clear what was meant, how to write it.
func TestRefusals(t *testing.T) {
	const (
		fie = notation.FeetInchesEighths
		in  = notation.Inches
		mm  = notation.Millimetres
		m   = notation.Metres
	)
	for _, c := range []struct {
		n             notation.Notation
		text, reason  string
		example       string
		exampleIsSame bool // the example is the same length, rewritten
	}{
		{fie, "", "empty", "2-3-4", false},
		{fie, "   ", "empty", "2-3-4", false},
		{fie, "227", "run together", "2-3-4", false},
		{fie, "1 54", "run together", "2-3-4", false},
		{fie, "2-12-0", "0 to 11", "2-3-4", false},
		{fie, "2-3-8", "0 to 7", "2-3-4", false},
		{fie, "2-3", "zeros written", "2-3-4", false},
		{fie, "2-3-4-5", "zeros written", "2-3-4", false},
		{fie, "2-3-4++", "zeros written", "2-3-4", false},
		{fie, "--2-3-4", "zeros written", "2-3-4", false},
		{fie, "2 - 3 - 4", "zeros written", "2-3-4", false},
		{fie, "2-3-4½", "zeros written", "2-3-4", false},
		{fie, "2–3–4", "not a hyphen", "2-3-4", true},
		{fie, `2' 3"`, "feet and inches with marks", "2-3-0", true},
		{fie, `2' 0 5/8"`, "feet and inches with marks", "2-0-5", true},
		{fie, "27 1/2", "inches", "2-3-4", true},
		{fie, "698.5 mm", "millimetres", "2-3-4", true},
		{fie, "9999-0-0", "kilometre", "2-3-4", false},
		{in, "2-3-4", "feet-inches-eighths", "27 1/2", true},
		{in, "27,5", "not a comma", "27 1/2", false},
		{in, `27.5"`, "unit beside", "27 1/2", true},
		{in, "27 1/3", "64 parts", "27 1/2", false},
		{in, "27 1/0", "64 parts", "27 1/2", false},
		{in, "9/8", "less than an inch", "27 1/2", false},
		{in, "22 7/8+", "plain number", "27 1/2", false},
		{in, "27.", "6 after", "27 1/2", false},
		{in, ".5", "6 after", "27 1/2", false},
		{mm, "12 1/2 in", "inches", "317.5", true},
		{mm, "12 1/2", "inches", "317.5", true},
		{mm, "2' 3\"", "feet and inches", "685.8", true},
		{mm, "1.234,5", "thousands", "698.5", false},
		{mm, "1,234.5", "thousands", "698.5", false},
		{mm, "1'234", "plain number", "698.5", false},
		{mm, "1 234", "plain number", "698.5", false},
		{mm, "1e3", "plain number", "698.5", false},
		{mm, "1e1000000", "plain number", "698.5", false},
		{mm, "NaN", "plain number", "698.5", false},
		{mm, "Inf", "plain number", "698.5", false},
		{mm, "0x10", "plain number", "698.5", false},
		{mm, "+5", "plain number", "698.5", false},
		{mm, "69.85 cm", "centimetres", "698.5", true},
		{mm, "٣", "plain number", "698.5", false},
		{mm, "1.2345678", "6 after", "698.5", false},
		{mm, "12345678", "7 digits", "698.5", false},
		{m, "1001", "kilometre", "0.6985", false},
		{m, "698.5 mm", "millimetres", "0.6985", true},
		{m, strings.Repeat("9", 100_000), "longer than any length", "0.6985", false},
		{"furlongs", "3", "feet_inches_eighths, inches, mm, m", "", false},
	} {
		l, err := c.n.Parse(c.text)
		if err == nil {
			t.Errorf("%s read %q as %v; it must be refused", c.n, c.text, l)
			continue
		}
		e, ok := err.(*notation.Error)
		if !ok {
			t.Errorf("%s %q: %T, want *notation.Error", c.n, c.text, err)
			continue
		}
		if !strings.Contains(e.Error(), c.reason) {
			t.Errorf("%s %q: %q does not say %q", c.n, c.text, e, c.reason)
		}
		if e.Example != c.example {
			t.Errorf("%s %q: example %q, want %q", c.n, c.text, e.Example, c.example)
		}
		if c.exampleIsSame != strings.Contains(e.Reason, "it is written in") && c.reason != "not a hyphen" {
			t.Errorf("%s %q: %q", c.n, c.text, e)
		}
		if len(e.Error()) > 220 {
			t.Errorf("%s %q: the message has %d characters", c.n, c.text[:20], len(e.Error()))
		}
	}
}

func TestDefaultGrain(t *testing.T) {
	for n, want := range map[notation.Notation]string{
		notation.FeetInchesEighths: "0-0-1", notation.Inches: "1/8", notation.Millimetres: "1", notation.Metres: "0.001",
	} {
		if got := n.Format(n.DefaultGrain()); got != want {
			t.Errorf("%s: grain %s, want %s", n, got, want)
		}
		if n.DefaultGrain().Sign() <= 0 {
			t.Errorf("%s: grain is not positive", n)
		}
	}
}

// What a notation cannot write is rounded half away from zero, and Writes says so.
func TestFormatRounds(t *testing.T) {
	for _, c := range []struct {
		n    notation.Notation
		mm   float64
		want string
		ok   bool
	}{
		{notation.FeetInchesEighths, 698.5, "2-3-4", true},
		{notation.FeetInchesEighths, 700, "2-3-4+", false},
		{notation.FeetInchesEighths, 0.79375, "0-0-0+", false}, // half a sixteenth
		{notation.FeetInchesEighths, -0.79375, "-0-0-0+", false},
		{notation.FeetInchesEighths, -0.7, "0-0-0", false},
		{notation.FeetInchesEighths, 304.7, "1-0-0", false},
		{notation.Inches, 700, "27.559055", false},
		{notation.Millimetres, 1.0000005, "1.000001", false},
		{notation.Millimetres, -0.0000004, "0", false},
		{notation.Metres, 1234.5, "1.2345", true},
	} {
		l, err := notation.FromMM(c.mm)
		if err != nil {
			t.Fatal(err)
		}
		if got := c.n.Format(l); got != c.want {
			t.Errorf("%v mm in %s: %s, want %s", c.mm, c.n, got, c.want)
		}
		if got := c.n.Writes(l); got != c.ok {
			t.Errorf("%v mm in %s: Writes %v", c.mm, c.n, got)
		}
	}
}
