package tally_test

import (
	"errors"
	"slices"
	"testing"

	"ribband/seed"
	"ribband/takeoff/document"
	"ribband/takeoff/timber"
	"ribband/takeoff/timber/tally"

	"github.com/shopspring/decimal"
)

func d(text string) decimal.Decimal { return decimal.RequireFromString(text) }

func yard(t testing.TB) tally.Yard {
	t.Helper()
	k, err := seed.LoadKnowledge()
	if err != nil {
		t.Fatal(err)
	}
	return tally.Yard{Species: k.Species}
}

func rough(rows ...tally.Row) tally.Document {
	return tally.Document{Rule: tally.SurfaceMeasure, Written: tally.InchesAndFeet, Measured: tally.Dry, HalfFoot: timber.TieUp, Boards: rows}
}

func count(t *testing.T, doc tally.Document) tally.Answer {
	t.Helper()
	a, err := doc.Count(yard(t))
	if err != nil {
		t.Fatal(err)
	}
	return a
}

func same(t *testing.T, what string, got decimal.Decimal, want string) {
	t.Helper()
	if !got.Equal(d(want)) {
		t.Errorf("%s: %s, want %s", what, got, want)
	}
}

func order(t *testing.T, a tally.Answer, name string) tally.Order {
	t.Helper()
	for _, o := range a.Orders {
		if o.Name == name {
			return o
		}
	}
	t.Fatalf("no order %s", name)
	return tally.Order{}
}

// Surface measures of the measuring guide that restates the rules of the National Hardwood Lumber Association
// (gophuongdong.com, undated): 6 1/2 in x 8 ft is 4 1/3, so 4; 8 in x 12 ft is 8. Stock under an inch counts an inch (Goodwood,
// hardwood terminology, undated).
func TestFacesAsPublished(t *testing.T) {
	a := count(t, rough(tally.Row{1, "4/4", "6 1/2", "8"}, tally.Row{1, "4/4", "8", "12"}, tally.Row{1, "3/4", "8", "12 3/4"}))
	for i, want := range []int64{4, 8, 8} {
		if *a.Rows[i].Face != want {
			t.Errorf("row %d: %d, want %d", i, *a.Rows[i].Face, want)
		}
	}
	same(t, "exact face", *a.Rows[0].ExactFace, "4.3333")
	same(t, "counted length", *a.Rows[2].CountedLengthFt, "12")
	if len(a.Thicknesses) != 1 || a.Thicknesses[0].Boards != 3 || a.Thicknesses[0].Face != 20 {
		t.Errorf("%+v", a.Thicknesses)
	}
	same(t, "board feet", a.BoardFeet, "20")
}

// Both orders of rounding are told: 6 1/2 in by 10 ft is 5.417, so 5; with the width rounded first 7 in is 5.833, so 6. Board by
// board a face of 3 in 5/4 is 3.75, so 4, and three of them are 12 instead of 11.25, so 11.
func TestOrdersOfRoundingDiffer(t *testing.T) {
	a := count(t, rough(tally.Row{4, "4/4", "6 1/2", "10"}))
	same(t, "rule", a.BoardFeet, "20")
	same(t, "widths first", order(t, a, "widths_first").BoardFeet, "24")
	same(t, "difference", order(t, a, "widths_first").Difference, "4")
	a = count(t, rough(tally.Row{3, "5/4", "4", "9"}))
	same(t, "rule", a.BoardFeet, "11")
	same(t, "board by board", order(t, a, "board_by_board").BoardFeet, "12")
	same(t, "exact", order(t, a, "no_rounding").BoardFeet, "11.25")
}

// Half a foot by each rule: four faces of 4 1/2. Where neither list nor yard says, by turns, and it is said that this is from
// memory.
func TestHalfAFootIsANamedSetting(t *testing.T) {
	for tie, want := range map[timber.Tie]string{timber.TieUp: "20", timber.TieDown: "16", timber.TieAlternate: "18"} {
		doc := rough(tally.Row{4, "4/4", "6", "9"})
		doc.HalfFoot = tie
		same(t, string(tie), count(t, doc).BoardFeet, want)
	}
	doc := rough(tally.Row{4, "4/4", "6", "9"})
	doc.HalfFoot = ""
	a := count(t, doc)
	same(t, "not said", a.BoardFeet, "18")
	if a.HalfFoot != timber.TieAlternate || len(a.HalfFootSource) < 20 {
		t.Errorf("%s, %q", a.HalfFoot, a.HalfFootSource)
	}
	y := yard(t)
	y.HalfFoot = timber.TieDown
	a, err := doc.Count(y)
	if err != nil {
		t.Fatal(err)
	}
	same(t, "the yard's", a.BoardFeet, "16")
	if a.HalfFootSource != "the yard's rules" {
		t.Error(a.HalfFootSource)
	}
}

func TestWhatTheSupplierStates(t *testing.T) {
	for stated, like := range map[string]string{"20": "faces_by_thickness", "24": "widths_first", "21.67": "no_rounding", "30": ""} {
		doc := rough(tally.Row{4, "4/4", "6 1/2", "10"})
		doc.StatedBoardFeet = stated
		a := count(t, doc)
		if a.Stated == nil || a.Stated.Like != like || a.Stated.Why == "" {
			t.Errorf("%s: %+v", stated, a.Stated)
		}
	}
}

// 100 board feet green are 92 to 97 dry, by a loss of 3 to 8 per cent; 100 dry were 103 to 109 green.
func TestGrossAndNet(t *testing.T) {
	doc := tally.Document{Rule: tally.Exact, Written: tally.InchesAndFeet, Measured: tally.Green, Boards: []tally.Row{{10, "1", "12", "10"}}}
	a := count(t, doc)
	if a.Drying.Tally != "gross" || a.Drying.OtherLow.String() != "92" || a.Drying.OtherHigh.String() != "97" {
		t.Errorf("%+v", a.Drying)
	}
	doc.Measured = tally.Dry
	if a = count(t, doc); a.Drying.Tally != "net" || a.Drying.OtherLow.String() != "103" || a.Drying.OtherHigh.String() != "109" {
		t.Errorf("%+v", a.Drying)
	}
}

// Kiln-dried scant by the rules of 2023, p. 56 (nhla.com, 28 February 2025), surfaced sizes as the table has them.
func TestThicknessesToldForTheBuyer(t *testing.T) {
	a := count(t, rough(tally.Row{1, "6/4", "6", "8"}, tally.Row{1, "8/4", "6", "8"}, tally.Row{1, "1.3", "6", "8"}))
	for i, want := range []struct{ least, two string }{{"1.4375", "1 5/16"}, {"1.875", "1 3/4"}, {"1.2375", ""}} {
		x := a.Thicknesses[i]
		if x.LeastKilnDriedIn == nil || !x.LeastKilnDriedIn.Equal(d(want.least)) || x.SurfacedTwoSides != want.two {
			t.Errorf("%d: %+v %v", i, x, x.LeastKilnDriedIn)
		}
	}
}

// A grade is a floor on the poorer face, and boards below its least size are named.
func TestAGradeIsAFloor(t *testing.T) {
	doc := rough(tally.Row{1, "4/4", "8", "12"}, tally.Row{1, "4/4", "5 1/2", "12"}, tally.Row{1, "4/4", "8", "7"})
	doc.Grade = "FAS"
	a := count(t, doc)
	if a.Grade == nil || !slices.Equal(a.Grade.TooSmall, []int{1, 2}) || a.Grade.Clear != 10*(8+6+5) {
		t.Fatalf("%+v", a.Grade)
	}
	same(t, "clear face", a.Grade.ClearPct, "83.3")
	if len(a.Cautions) == 0 {
		t.Error("nothing said of the small boards")
	}
}

// Weight: Douglas-fir of 0.48 is 537.6 kg/m3 at 12 % (computed from the specific gravity of Oregon State University's table), 33.56 lb/ft3 and
// 2.797 lb to the board foot; ten boards of 12 board feet are 335.7 lb.
func TestWeight(t *testing.T) {
	doc := tally.Document{Rule: tally.Exact, Written: tally.InchesAndFeet, Measured: tally.Dry, Species: "douglas_fir", MoisturePct: "12", Boards: []tally.Row{{10, "1", "12", "12"}}}
	a := count(t, doc)
	same(t, "kg/m3", a.Weight.DensityKgM3, "537.6")
	same(t, "lb/ft3", a.Weight.DensityLb, "33.6")
	same(t, "lb a board foot", a.Weight.LbBoardFt, "2.8")
	same(t, "lb", a.Weight.Lb, "335.6")
	same(t, "m3", a.M3, "0.283168")
	if len(a.Cautions) != 0 {
		t.Errorf("33 lb boards are cautioned of: %+v", a.Cautions)
	}
	doc.Boards = []tally.Row{{1, "2", "12", "16"}}
	if a = count(t, doc); len(a.Cautions) != 1 || a.Weight.HeaviestLb.LessThan(d("51")) {
		t.Errorf("%+v %+v", a.Weight, a.Cautions)
	}
}

// Boards measured green weigh less once dry than their green size times the dry wood's density: the volume has shrunk by
// 12.4 x 18/30 = 7.44 per cent (Douglas-fir, Wood Handbook, FPL-GTR-190, 2010, Table 4-3): 335.55 x 0.9256 = 310.6 lb (computed).
func TestGreenBoardsWeighedDry(t *testing.T) {
	doc := tally.Document{Rule: tally.Exact, Written: tally.InchesAndFeet, Measured: tally.Green, Species: "douglas_fir", MoisturePct: "12", Boards: []tally.Row{{10, "1", "12", "12"}}}
	a := count(t, doc)
	same(t, "kg/m3", a.Weight.DensityKgM3, "537.6")
	same(t, "lb", a.Weight.Lb, "310.6")
	doc.MoisturePct = "40"
	wet := count(t, doc)
	doc.Measured = tally.Dry
	if dry := count(t, doc); !dry.Weight.Kg.Equal(wet.Weight.Kg) {
		t.Errorf("wet, %s and %s kg", wet.Weight.Kg, dry.Weight.Kg)
	}
}

// Nominal softwood is paid by its name and weighed by what it measures (Tenn. Comp. R. & Regs. 0080-07-07-.06, Table 4).
func TestNominalSoftwood(t *testing.T) {
	doc := tally.Document{Rule: tally.NominalSoftwood, Written: tally.InchesAndFeet, Measured: tally.Dry, Dressed: tally.SurfacedDry, Species: "douglas_fir", MoisturePct: "12", Boards: []tally.Row{{1, "2", "6", "8"}}}
	a := count(t, doc)
	same(t, "board feet", a.BoardFeet, "8")
	if x := a.Rows[0].Actual; x == nil || x.Thickness != "1 1/2" || x.Width != "5 1/2" {
		t.Errorf("%+v", x)
	}
	same(t, "m3 weighed", a.Weight.M3, "0.012979") // 1 1/2 x 5 1/2 x 96 in
	doc.Boards[0].Width = "5"
	if a = count(t, doc); a.Rows[0].Actual != nil || len(a.Cautions) != 1 {
		t.Errorf("%+v %+v", a.Rows[0], a.Cautions)
	}
}

// The same boards in other units come to the same; metric stock goes by the cubic metre.
func TestUnitsInUnitsOut(t *testing.T) {
	inches := count(t, rough(tally.Row{3, "8/4", "6 1/2", "8 1/2"}))
	for written, r := range map[tally.Written]tally.Row{
		"inches": {3, "2", "6 1/2", "102"}, "mm": {3, "50.8", "165.1", "2590.8"}, "m": {3, "0.0508", "0.1651", "2.5908"}, "feet_inches_eighths": {3, "8/4", "0-6-4", "8-6-0"},
	} {
		doc := rough(r)
		doc.Written = written
		a := count(t, doc)
		if !a.BoardFeet.Equal(inches.BoardFeet) || !a.M3.Equal(inches.M3) || !a.Rows[0].ExactFace.Equal(*inches.Rows[0].ExactFace) {
			t.Errorf("%s: %s board feet and %s m3, in inches %s and %s", written, a.BoardFeet, a.M3, inches.BoardFeet, inches.M3)
		}
	}
	a := count(t, tally.Document{Rule: tally.CubicMetre, Written: "mm", Measured: tally.Dry, Boards: []tally.Row{{10, "27", "200", "3000"}}})
	same(t, "m3", a.M3, "0.162")
}

func TestFaultsAreNamedTogether(t *testing.T) {
	doc := tally.Document{Rule: "by_eye", Written: tally.InchesAndFeet, Measured: "wet", HalfFoot: "sideways", Grade: "clear", Dressed: "sanded", Species: "plastic", MoisturePct: "1000", StatedBoardFeet: "lots",
		Boards: []tally.Row{{0, "9/0", "six", "8 ft"}}}
	_, err := doc.Count(yard(t))
	var f document.Faults
	if !errors.As(err, &f) {
		t.Fatal(err)
	}
	var at []string
	for _, x := range f {
		at = append(at, x.Pointer)
		if x.Fix == "" || x.Detail == "" {
			t.Errorf("%+v", x)
		}
	}
	want := []string{"/rule", "/measured", "/half_foot", "/grade", "/dressed", "/species", "/moisture_pct", "/stated_board_feet", "/boards/0/thickness", "/boards/0/width", "/boards/0/length", "/boards/0/count"}
	if !slices.Equal(at, want) {
		t.Errorf("faults at %v, want %v", at, want)
	}
	for _, doc := range []tally.Document{rough(), rough(tally.Row{1, "4/4", "6", "3"}), rough(tally.Row{1, "4/4", "6", "17"}), rough(tally.Row{20_000, "4/4", "6", "8"}, tally.Row{1, "4/4", "6", "8"})} {
		if _, err := doc.Count(yard(t)); !errors.As(err, &f) {
			t.Errorf("%v: %v", doc.Boards, err)
		}
	}
}

// Whatever is written: an answer or faults with what would do, and the sum of the rows is the list.
func FuzzCount(f *testing.F) {
	f.Add(0, 0, "8/4", "6 1/2", "8", "12", int64(2))
	f.Add(1, 3, "50.8", "165,1", "1,234", "", int64(1))
	f.Add(2, 1, "0-2-0", "0-6-0", "8-0-0", "1e9", int64(-1))
	f.Add(3, 4, "\x00", "NaN", "999999999999", "200", int64(20_001))
	y := yard(f)
	f.Fuzz(func(t *testing.T, rule, way int, thickness, width, length, moisture string, n int64) {
		doc := tally.Document{Rule: tally.Rules[(rule%4+4)%4], Written: tally.Ways[(way%5+5)%5], Measured: tally.Green, Species: "teak", MoisturePct: moisture, Boards: []tally.Row{{n, thickness, width, length}}}
		if doc.Rule == tally.NominalSoftwood {
			doc.Dressed = tally.RoughDry
		}
		if n > 50 && n <= 20_000 {
			doc.Boards[0].Count = 50 // so that a round is short
		}
		a, err := doc.Count(y)
		var faults document.Faults
		if errors.As(err, &faults) {
			for _, x := range faults {
				if x.Fix == "" || x.Detail == "" || x.Pointer == "" {
					t.Fatalf("%+v", x)
				}
			}
			return
		}
		if err != nil || a.BoardFeet.IsNegative() || a.M3.IsNegative() || a.Weight == nil || a.Weight.Kg.IsNegative() {
			t.Fatalf("%+v %v", a, err)
		}
	})
}
