package movement_test

import (
	"errors"
	"slices"
	"strings"
	"testing"

	"ribband/seed"
	"ribband/takeoff/document"
	"ribband/takeoff/notation"
	"ribband/takeoff/timber"
	"ribband/takeoff/timber/movement"

	"github.com/shopspring/decimal"
)

func d(text string) decimal.Decimal { return decimal.RequireFromString(text) }

func woods(t testing.TB) timber.Catalogue {
	t.Helper()
	k, err := seed.LoadKnowledge()
	if err != nil {
		t.Fatal(err)
	}
	return k.Species
}

func ask(species string, sawn movement.Sawn, width, from, to string) movement.Document {
	return movement.Document{Species: species, Notation: notation.Inches, Sawn: sawn, Width: width, FromPct: from, ToPct: to}
}

func move(t *testing.T, doc movement.Document) movement.Answer {
	t.Helper()
	a, err := doc.Move(woods(t))
	if err != nil {
		t.Fatal(err)
	}
	return a
}

// 8 in of flatsawn white oak from 28 to 12 % shrinks 0.451 in, 6 in of Douglas-fir from 30 to 12 % 0.274 in (both computed from
// the shrinkages of Wood Handbook, FPL-GTR-190, 2010, Table 4-3, by the formula of two limits).
func TestPlanksThatDry(t *testing.T) {
	for _, c := range []struct{ species, width, from, want string }{{"white_oak", "8", "28", "-0.451 in"}, {"douglas_fir", "6", "30", "-0.274 in"}} {
		a := move(t, ask(c.species, movement.Flatsawn, c.width, c.from, "12"))
		if a.Width.Change != c.want || a.Width.Coefficient != nil || a.Width.HoldsTo.String() != "30" || a.Width.Grain != timber.Tangential {
			t.Errorf("%s: %+v", c.species, a.Width)
		}
	}
}

// Between 6 and 14 % the coefficient decides: white ash 0.00169 radial and 0.00274 tangential (Wood Handbook, FPL-GTR-190, 2010,
// Table 13-5), so 10 in from 8 to 12 % swells 0.0676 or 0.1096 in as it is sawn. A thickness moves by the other one.
func TestWithinTheCoefficient(t *testing.T) {
	for sawn, c := range map[movement.Sawn][3]string{movement.Flatsawn: {"0.00274", "0.110 in", "0.007 in"}, movement.Quartersawn: {"0.00169", "0.068 in", "0.011 in"}} {
		doc := ask("white_ash", sawn, "10", "8", "12")
		doc.Thickness = "1"
		a := move(t, doc)
		if a.Width.Coefficient == nil || !a.Width.Coefficient.Equal(d(c[0])) || d(strings.TrimSuffix(a.Width.Change, " in")).Cmp(d(strings.TrimSuffix(c[1], " in"))) != 0 ||
			a.Thickness == nil || a.Thickness.Change != c[2] || a.Width.HoldsFrom.String() != "6" || a.Width.HoldsTo.String() != "14" {
			t.Errorf("%s: %+v %+v", sawn, a.Width, a.Thickness)
		}
	}
}

// A seam between planks that dry opens by the movement of one plank; where they swell it closes and then they crush.
func TestSeams(t *testing.T) {
	doc := ask("white_oak", movement.Flatsawn, "8", "28", "12")
	doc.Seam = &movement.SeamDocument{Opening: "1/16", Planks: 12}
	a := move(t, doc)
	want := d("1.5875").Sub(a.Width.ChangeMM)
	if s := a.Seam; !s.AfterMM.Equal(want.Round(3)) && !s.AfterMM.Sub(want).Abs().LessThan(d("0.001")) || !s.CrushMM.IsZero() || s.AllMM == nil || s.AllMM.Sign() >= 0 {
		t.Errorf("%+v, want %s", s, want)
	} else if want := s.AllMM.DivRound(d("25.4"), 3).String() + " in"; s.All != want {
		t.Errorf("twelve planks move %s, want %s", s.All, want)
	}
	doc.FromPct, doc.ToPct = "12", "28"
	if s := move(t, doc).Seam; !s.AfterMM.IsZero() || !s.CrushMM.IsPositive() || !strings.Contains(s.Why, "crush") {
		t.Errorf("%+v", s)
	}
	doc.Seam.Opening = "1"
	if s := move(t, doc).Seam; !s.CrushMM.IsZero() || !s.AfterMM.IsPositive() {
		t.Errorf("%+v", s)
	}
	doc.FromPct = "28"
	if s := move(t, doc).Seam; !s.AfterMM.Equal(d("25.4")) {
		t.Errorf("%+v", s)
	}
}

// Units in, units out: the change is the same share of the width.
func TestUnitsOfAMovement(t *testing.T) {
	inch := move(t, ask("teak", movement.Quartersawn, "4", "9", "14"))
	for n, width := range map[notation.Notation]string{notation.Millimetres: "101.6", notation.Metres: "0.1016", notation.FeetInchesEighths: "0-4-0"} {
		doc := ask("teak", movement.Quartersawn, width, "9", "14")
		doc.Notation = n
		if a := move(t, doc); !a.Width.ChangeMM.Equal(inch.Width.ChangeMM) || a.Width.Change == "" {
			t.Errorf("%s: %+v", n, a.Width)
		}
	}
}

// Values from memory, and a wood that shrinks from another moisture, are told.
func TestWhatIsToldBeside(t *testing.T) {
	if a := move(t, ask("teak", movement.Flatsawn, "6", "8", "12")); len(a.Cautions) != 2 || !strings.Contains(a.Cautions[0].Text, "from memory") {
		t.Errorf("%+v", a.Cautions)
	}
	if a := move(t, ask("western_redcedar", movement.Flatsawn, "6", "8", "25")); !slices.ContainsFunc(a.Cautions, func(c movement.Caution) bool { return strings.Contains(c.Text, "22 %") }) {
		t.Errorf("%+v", a.Cautions)
	}
}

func TestFaultsOfAQuestion(t *testing.T) {
	doc := movement.Document{Species: "plastic", Notation: notation.Inches, Sawn: "sideways", Width: "0", Thickness: "thin", FromPct: "31", ToPct: "dry", Seam: &movement.SeamDocument{Opening: "-1", Planks: 999}}
	_, err := doc.Move(woods(t))
	var f document.Faults
	if !errors.As(err, &f) {
		t.Fatal(err)
	}
	var at []string
	for _, x := range f {
		if at = append(at, x.Pointer); x.Fix == "" {
			t.Errorf("%+v", x)
		}
	}
	want := []string{"/species", "/sawn", "/width", "/thickness", "/seam/opening", "/seam/planks", "/from_pct", "/to_pct"}
	if !slices.Equal(at, want) {
		t.Errorf("faults at %v, want %v", at, want)
	}
	bare := timber.Catalogue{Species: []timber.Species{{Code: "bog_oak", Name: "Bog oak"}}}
	if _, err := ask("bog_oak", movement.Flatsawn, "6", "8", "12").Move(bare); !errors.As(err, &f) || f[0].Pointer != "/species" {
		t.Error(err)
	}
}

// Whatever is written: an answer, or faults with what would do.
func FuzzMove(f *testing.F) {
	f.Add(1, "8", "1", "12", "28", "1/16", int64(12))
	f.Add(2, "NaN", "", "-1", "1e9", "0", int64(-3))
	c := woods(f)
	f.Fuzz(func(t *testing.T, n int, width, thickness, from, to, opening string, planks int64) {
		doc := movement.Document{Species: "iroko", Notation: notation.Notations[(n%4+4)%4], Sawn: movement.Flatsawn, Width: width, Thickness: thickness, FromPct: from, ToPct: to, Seam: &movement.SeamDocument{Opening: opening, Planks: planks}}
		a, err := doc.Move(c)
		var faults document.Faults
		if errors.As(err, &faults) {
			for _, x := range faults {
				if x.Fix == "" || x.Detail == "" || x.Pointer == "" {
					t.Fatalf("%+v", x)
				}
			}
			return
		}
		if err != nil || a.Seam == nil || a.Seam.AfterMM.IsNegative() || a.Width.After.IsNegative() {
			t.Fatalf("%+v %v", a, err)
		}
	})
}
