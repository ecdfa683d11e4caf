package sheet_test

import (
	"fmt"
	"math/big"
	"testing"

	"ribband/pricing/internal/published"
	"ribband/pricing/sheet"
	"ribband/takeoff/notation"
	"ribband/takeoff/quantity"

	"github.com/shopspring/decimal"
)

// UN/ECE Recommendation 20, revision 12e (2016): factors as the list prints them, some cut to seven digits.
func TestFactorsOfRecommendation20(t *testing.T) {
	for _, r := range published.Table(t, "un-rec20-2016", "printed.csv") {
		want, ok := new(big.Rat).SetString(r["factor"])
		if !ok {
			t.Fatal(r)
		}
		got := sheet.Unit(r["code"]).Factor()
		if got == nil {
			t.Fatalf("%s is not known", r["code"])
		}
		// Seven printed digits are within one unit of the seventh.
		off := new(big.Rat).Sub(got, want)
		off.Abs(off).Quo(off, want)
		if r["exact"] == "yes" && off.Sign() != 0 || off.Cmp(big.NewRat(1, 1_000_000)) > 0 {
			t.Errorf("%s: %s, the list prints %s", r["code"], got.FloatString(12), r["factor"])
		}
	}
}

// A board foot is a twelfth of a cubic foot (ruby-units documentation).
func TestBoardFoot(t *testing.T) {
	for _, r := range published.Table(t, "un-rec20-2016", "board_foot.csv") {
		one, ok := sheet.Convert(big.NewRat(1, 1), sheet.Unit(r["of"]), sheet.Unit(r["code"]))
		if !ok || one.RatString() != r["each"] {
			t.Errorf("a cubic foot is %v board feet", one)
		}
		if got := sheet.Unit(r["code"]).Factor().FloatString(12); got != r["factor_m3"] {
			t.Errorf("a board foot is %s m3", got)
		}
	}
}

// Board measure of single boards, pages named in the source file.
func TestBoardMeasure(t *testing.T) {
	for _, r := range published.Table(t, "board-measure-undated", "boards.csv") {
		c, err := sheet.FromRows("USD", notation.Inches, []sheet.Row{{
			Kind: "timber", Unit: "BFT", Price: "1", Species: "oak", Grade: "a", Thickness: r["thickness_in"], Width: r["width_in"],
			StockLength: fmt.Sprint(decimal.RequireFromString(r["length_ft"]).Mul(decimal.NewFromInt(12))),
		}})
		if err != nil {
			t.Fatal(err)
		}
		if got := c.Items[0].PieceMeasure().RatString(); got != r["board_feet"] {
			t.Errorf("%s: %s board feet, want %s", r["id"], got, r["board_feet"])
		}
	}
}

// Every unit that a takeoff counts goods in is one that a sheet can sell in, and nothing converts across dimensions.
func TestUnitsOfTheTakeoff(t *testing.T) {
	for _, u := range []quantity.Unit{quantity.Each, quantity.Metre, quantity.SquareMetre, quantity.CubicMetre, quantity.BoardFoot,
		quantity.Kilogram, quantity.Litre, quantity.Hour} {
		if !sheet.UnitOf(u).Known() {
			t.Errorf("%s is sold in %q, which is not known", u, sheet.UnitOf(u))
		}
	}
	for _, pair := range [][2]sheet.Unit{{"LTR", "KGM"}, {"DAY", "HUR"}, {"SET", "C62"}, {"MTK", "MTR"}, {"XXX", "MTR"}, {"MTR", "XXX"}} {
		if _, ok := sheet.Convert(big.NewRat(1, 1), pair[0], pair[1]); ok {
			t.Errorf("%s was converted into %s", pair[0], pair[1])
		}
	}
}

// Which gallon a can holds is its unit: a US gallon is 231 in3, and what a film of it covers follows; the UK gallon is a fifth
// larger.
func TestWhatAGallonCovers(t *testing.T) {
	inch3, ok := sheet.Convert(big.NewRat(1, 1), "GLL", "LTR")
	if want := new(big.Rat).Mul(big.NewRat(231, 1), big.NewRat(16387064, 1_000_000_000)); !ok || inch3.Cmp(want) != 0 {
		t.Errorf("a US gallon is %v L, want %v", inch3, want)
	}
	for _, r := range published.Table(t, "glue-film-undated", "films.csv") {
		film, ok := new(big.Rat).SetString(r["film_in"])
		if !ok {
			t.Fatal(r)
		}
		film.Mul(film, big.NewRat(254, 10_000)) // m
		area := new(big.Rat).Quo(sheet.Unit(r["code"]).Factor(), film)
		area.Quo(area, new(big.Rat).Mul(big.NewRat(3048, 10_000), big.NewRat(3048, 10_000)))
		if got := area.FloatString(2); got != r["ft2"] {
			t.Errorf("%s at %s in: %s ft2, want %s", r["code"], r["film_in"], got, r["ft2"])
		}
	}
	if us, uk := sheet.Unit("GLL").Name(), sheet.Unit("GLI").Name(); us != "US gallon" || uk != "UK gallon" || sheet.Unit("GLI").Factor().Cmp(big.NewRat(454_609, 100_000_000)) != 0 {
		t.Errorf("%s, %s of %v m3", us, uk, sheet.Unit("GLI").Factor())
	}
}
