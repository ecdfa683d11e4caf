package timber_test

import (
	"errors"
	"testing"

	"ribband/takeoff/timber"

	"github.com/shopspring/decimal"
)

func d(text string) decimal.Decimal { return decimal.RequireFromString(text) }

func board(t, w, l string) timber.Board {
	return timber.Board{Thickness: d(t), Width: d(w), Length: d(l)}
}

func same(t *testing.T, what string, got decimal.Decimal, want string) {
	t.Helper()
	if !got.Equal(d(want)) {
		t.Errorf("%s: %s, want %s", what, got, want)
	}
}

// testdata/published/timber-figures names title, publisher and place of each.
func TestBoardMeasurePublished(t *testing.T) {
	// furnituremaking.us, classic american and outdoor pieces, undated; groffslumber.com, glossary, undated
	same(t, "1 x 3 x 8", board("1", "3", "8").BoardFeet(), "2")
	same(t, "1 x 4 x 6", board("1", "4", "6").BoardFeet(), "2")
	same(t, "1 x 6 x 2", board("1", "6", "2").BoardFeet(), "1")
	// askvity.info, lumber measurement, undated: one board foot to the foot run
	same(t, "2 x 6 x 8", board("2", "6", "8").BoardFeet(), "8")
	ties := 0
	for _, c := range []struct {
		width, length string
		want          int64
	}{
		{"6.5", "8", 4}, // NHLA measuring guide, restated at gophuongdong.com, undated: 4 1/3 counts 4
		{"8", "12", 8},  // the same
		{"8", "12.9", 8},
	} {
		if sm, err := board("1", c.width, c.length).SurfaceMeasure(timber.TieUp, &ties); err != nil || sm != c.want {
			t.Errorf("%s in x %s ft: %d (%v), want %d", c.width, c.length, sm, err, c.want)
		}
	}
	// metrohardwoods.com, white oak, undated: 4190 lb to 1000 board feet is 805 kg/m3
	kg := d("4190").Mul(d("0.45359237"))
	if got := kg.Div(timber.CubicMetres(d("1000"))).Round(0); !got.Equal(d("805")) {
		t.Errorf("4190 lb per 1000 board feet is %s kg/m3", got)
	}
	same(t, "a cubic metre", timber.BoardFeetOf(d("1")).Round(3), "423.776") // worked out from 144 in3 exactly
}

// Exactly half a foot, both ways and by turns: the rule's own way is from memory, so a yard says which.
func TestHalfAFootOfSurfaceMeasure(t *testing.T) {
	halves := []timber.Board{board("1", "6", "9"), board("1", "6", "9"), board("1", "6", "9"), board("1", "6", "9")} // 4 1/2 each
	for tie, want := range map[timber.Tie]int64{timber.TieUp: 20, timber.TieDown: 16, timber.TieAlternate: 18} {
		if got, err := timber.Tally(halves, tie); err != nil || got != want {
			t.Errorf("%s: %d (%v), want %d", tie, got, err, want)
		}
	}
}

func TestATally(t *testing.T) {
	// 3/4 in rough counts as an inch: Goodwood, hardwood terminology, undated
	if got, err := timber.Tally([]timber.Board{board("0.75", "6", "8")}, timber.TieUp); err != nil || got != 4 {
		t.Errorf("%d %v", got, err)
	}
	// surface measures of one thickness are added before they are multiplied: 3 and 3 of 5/4 are 7.5, so 8; one by one
	// they would be 4 and 4 as well, but three are 11.25, so 11, and not 12
	five := board("1.25", "4", "9")
	if got, err := timber.Tally([]timber.Board{five, five, five}, timber.TieUp); err != nil || got != 11 {
		t.Errorf("%d %v", got, err)
	}
	// widths with their fractions and widths in whole inches give different totals: 4 boards 6 1/2 in wide of 10 ft are 5 each
	// (5.417), and 7 in ones 6 each (5.833)
	wide := func(w string) []timber.Board {
		return []timber.Board{board("1", w, "10"), board("1", w, "10"), board("1", w, "10"), board("1", w, "10")}
	}
	if a, _ := timber.Tally(wide("6.5"), timber.TieUp); a != 20 {
		t.Error(a)
	}
	if b, _ := timber.Tally(wide("7"), timber.TieUp); b != 24 {
		t.Error(b)
	}
}

func TestBoardsThatCannotBeTallied(t *testing.T) {
	for _, b := range []timber.Board{board("0", "6", "8"), board("1", "0", "8"), board("1", "-6", "8"), board("1", "6", "3.9"), board("1", "6", "17")} {
		var e *timber.BoardError
		if _, err := timber.Tally([]timber.Board{b}, timber.TieUp); !errors.As(err, &e) || e.Fix == "" {
			t.Errorf("%v: %v", b, err)
		}
	}
	if _, err := timber.Tally([]timber.Board{board("1", "6", "8")}, "sideways"); err == nil {
		t.Error("an unknown tie is taken")
	}
	if _, err := (timber.MetricBoard{Thickness: d("27"), Width: d("0"), Length: d("3000")}).CubicMetres(); err == nil {
		t.Error("a board of no width is taken")
	}
	m3, err := timber.MetricBoard{Thickness: d("27"), Width: d("200"), Length: d("3000")}.CubicMetres()
	if err != nil {
		t.Fatal(err)
	}
	same(t, "27 x 200 x 3000", m3, "0.0162")
	same(t, "there and back", timber.CubicMetres(timber.BoardFeetOf(m3)).Round(9), "0.0162")
}
