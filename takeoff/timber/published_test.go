package timber_test

import (
	"encoding/csv"
	"errors"
	"os"
	"strconv"
	"testing"

	"ribband/seed"
	"ribband/takeoff/timber"

	"github.com/shopspring/decimal"
)

// rows of a file of testdata/published, by column; SOURCE.md beside it names title, publisher, year and place.
func rows(t *testing.T, path string) []map[string]string {
	t.Helper()
	f, err := os.Open("../../testdata/published/" + path)
	if err != nil {
		t.Fatal(err)
	}
	all, err := csv.NewReader(f).ReadAll()
	if err := errors.Join(err, f.Close()); err != nil || len(all) < 2 {
		t.Fatalf("%s: %d rows, %v", path, len(all), err)
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

// Every printed shrinkage of a wood of the catalogue is the catalogue's, and marked as seen.
func TestShrinkagesOfTheHandbook(t *testing.T) {
	k, err := seed.LoadKnowledge()
	if err != nil {
		t.Fatal(err)
	}
	held := 0
	for _, r := range rows(t, "wood-handbook-2010/shrinkage.csv") {
		if r["code"] == "" {
			continue
		}
		held++
		s, ok := k.Species.Find(r["code"])
		if !ok {
			t.Errorf("the catalogue has no %s", r["code"])
			continue
		}
		for name, v := range map[string]timber.Value{"radial": s.ShrinkageR, "tangential": s.ShrinkageT, "volumetric": s.ShrinkageV} {
			if v.Number != r[name] || v.Mark != timber.Seen {
				t.Errorf("%s, %s: %s (%s), %s printed", s.Code, name, v.Number, v.Mark, r[name])
			}
		}
	}
	if held < 14 {
		t.Errorf("%d woods", held)
	}
}

func TestCoefficientsOfTheHandbook(t *testing.T) {
	for _, r := range rows(t, "wood-handbook-2010/coefficients.csv") {
		s := shrinks(r["radial_pct"], r["tangential_pct"])
		for grain, want := range map[timber.Grain]string{timber.Radial: r["radial"], timber.Tangential: r["tangential"]} {
			got, err := s.Coefficient(grain)
			if err != nil {
				t.Fatal(err)
			}
			if want != "" {
				same(t, r["wood"]+" "+string(grain), got.Round(5), want)
			}
		}
	}
	// 6 in flatsawn moves 0.015 in to one per cent at a coefficient of 0.0025 (Woodworking Network, on wood shrinkage, undated);
	// that coefficient is a shrinkage of 7.142857 % (computed: S = 30 C / (1 + 20 C))
	got, err := shrinks("4", "7.142857").Movement(d("6"), timber.Tangential, d("8"), d("9"))
	if err != nil {
		t.Fatal(err)
	}
	same(t, "6 in, 1 %", got.Round(6), "0.015")
}

// Both units that a weight is printed in are the same weight by the foot and the board foot of this program.
func TestWeightsInBothUnits(t *testing.T) {
	pound, cubicFoot := d("0.45359237"), timber.CubicMetres(d("12"))
	for _, r := range rows(t, "wood-weights-undated/weights.csv") {
		var kg decimal.Decimal // in a cubic metre
		if r["lb_ft3"] != "" {
			kg = d(r["lb_ft3"]).Mul(pound).DivRound(cubicFoot, 12)
		} else {
			kg = d(r["lb_bf"]).Mul(pound).DivRound(timber.CubicMetres(d("1")), 12)
		}
		if want := r["kg_m3"]; want != "" {
			// the rounder of the two is rounded: ipe's pounds, everywhere else the kilograms
			if r["id"] == "handbook ipe" {
				same(t, r["id"], d(want).Mul(cubicFoot).DivRound(pound, 12).Round(0), r["lb_ft3"])
				continue
			}
			same(t, r["id"], kg.Round(0), want)
			continue
		}
		feet := kg.Mul(timber.CubicMetres(d("1"))).DivRound(pound, 12)
		places := -d(r["lb_bf"]).Exponent()
		same(t, r["id"], feet.Round(places), r["lb_bf"])
	}
}

func TestSizesOfSawnStock(t *testing.T) {
	for _, r := range rows(t, "lumber-sizes-undated/hardwood.csv") {
		if q, err := timber.Surfaced(r["rough"]); err != nil || q.S2S != r["s2s"] || q.S1S != r["s1s"] || q.From != timber.Seen {
			t.Errorf("%s: %+v %v, printed %v", r["rough"], q, err, r)
		}
	}
	for _, r := range rows(t, "lumber-sizes-undated/softwood.csv") {
		if s, err := timber.SoftwoodSize(r["nominal"]); err != nil || s.Dry != r["dry"] || s.Green != r["green"] || s.RoughDry != r["rough_dry"] {
			t.Errorf("%s: %+v %v, printed %v", r["nominal"], s, err, r)
		}
	}
	for _, r := range rows(t, "lumber-sizes-undated/grades.csv") {
		g, err := timber.GradeNamed(r["grade"])
		if err != nil {
			t.Error(err)
			continue
		}
		for name, got := range map[string]int{"board_in": g.BoardWidth, "board_ft": g.BoardLength, "units": g.Units, "extra_from": g.ExtraFrom, "extra_to": g.ExtraTo, "extra_units": g.ExtraUnits} {
			if strconv.Itoa(got) != r[name] {
				t.Errorf("%s, %s: %d, %s printed", r["grade"], name, got, r[name])
			}
		}
		if strconv.FormatBool(g.Inferred) != r["inferred"] {
			t.Errorf("%s: inferred %v", r["grade"], g.Inferred)
		}
	}
}

func TestBoardMeasureOfSingleBoards(t *testing.T) {
	for _, r := range rows(t, "board-measure-undated/boards.csv") {
		same(t, r["id"], board(r["thickness_in"], r["width_in"], r["length_ft"]).BoardFeet(), r["board_feet"])
	}
}

// Strengths that were seen are the catalogue's, and marked so.
func TestStrengthsSeen(t *testing.T) {
	k, err := seed.LoadKnowledge()
	if err != nil {
		t.Fatal(err)
	}
	for _, file := range []string{"wood-handbook-2010/strength.csv", "wood-strength-undated/strength.csv"} {
		for _, r := range rows(t, file) {
			s, ok := k.Species.Find(r["code"])
			if !ok {
				t.Fatalf("no %s", r["code"])
			}
			for name, v := range map[string]timber.Value{"gravity_12": s.GravityAt12, "rupture_psi": s.RuptureAt12, "elasticity_mpsi": s.ElasticityAt12} {
				if r[name] != "" && (v.Number != r[name] || v.Mark != timber.Seen) {
					t.Errorf("%s, %s: %s (%s), %s printed", s.Code, name, v.Number, v.Mark, r[name])
				}
			}
		}
	}
}

// Groups of decay are those of the table, and a wood says that it was seen there only where the table has it.
func TestDecayAsPublished(t *testing.T) {
	k, err := seed.LoadKnowledge()
	if err != nil {
		t.Fatal(err)
	}
	printed := map[string]string{}
	for _, r := range rows(t, "wood-strength-undated/decay.csv") {
		printed[r["code"]] = r["group"]
	}
	for _, s := range k.Species.Species {
		want, ok := printed[s.Code]
		if ok != (s.Decay.Mark == timber.Seen) || ok && string(s.Decay.Group) != want {
			t.Errorf("%s: %s (%s), printed %q", s.Code, s.Decay.Group, s.Decay.Mark, want)
		}
	}
}

// Every listing of the catalogue is one that is written down with its source, dated, and every one written down is there.
func TestListingsWithTheirDates(t *testing.T) {
	k, err := seed.LoadKnowledge()
	if err != nil {
		t.Fatal(err)
	}
	listed := map[string]map[string]string{}
	for _, r := range rows(t, "timber-trade-undated/listings.csv") {
		listed[r["code"]] = r
	}
	for _, s := range k.Species.Species {
		r, ok := listed[s.Code]
		if ok != (s.Trade.Listing != nil) {
			t.Errorf("%s: listed %v, written down %v", s.Code, s.Trade.Listing, ok)
			continue
		}
		if ok && (s.Trade.Listing.Appendix != r["appendix"] || s.Trade.Listing.InForce != r["in_force"] || string(s.Trade.Mark) != r["mark"] || s.Botanical != r["botanical"]) {
			t.Errorf("%s, %s: %+v %s, written down %v", s.Code, s.Botanical, s.Trade.Listing, s.Trade.Mark, r)
		}
		delete(listed, s.Code)
	}
	if len(listed) > 0 {
		t.Errorf("not in the catalogue: %v", listed)
	}
}

// The rules' multipliers are twelfths of a face: 97 per cent is 11.64, 91 2/3 is 11 and 83 1/3 is 10.
func TestMultipliersOfGrades(t *testing.T) {
	for _, r := range rows(t, "lumber-sizes-undated/multipliers.csv") {
		got, err := timber.Yield{ClearOf12: r["of_12"]}.Percent()
		if err != nil {
			t.Fatal(err)
		}
		same(t, r["of_12"], got, r["share_pct"])
	}
	fas, err := timber.GradeNamed("FAS")
	if err != nil || fas.Units != 10 || fas.ExtraUnits != 11 {
		t.Errorf("%+v %v", fas, err)
	}
}
