package cutting_test

import (
	"math"
	"testing"

	"ribband/takeoff/cutting"
)

// The certificate of a true answer holds whatever else stands on the list: a piece that may be scarfed and is not wanted, whose joint
// has a price that boards' prices share no unit with; a board a kilometre long that is not for sale; a rate that no left-over earns,
// because all are shorter than it is for.
func TestCertificatesHoldBesideWhatDoesNotCount(t *testing.T) {
	scarf := &cutting.Scarf{Price: 7, Length: 400, Least: 1000, Step: 500}
	solve(t, []cutting.Stock{{"3000", 3000, 4000, 1, -1, 0}}, []cutting.Piece{{"a", 1400, 3, false}, {"b", 2000, 0, true}}, cutting.Rules{Kerf: 4, Scarf: scarf})
	solve(t, []cutting.Stock{{"3000", 3000, 4000, 1, -1, 0}, {"far", cutting.MaxLength, 4000, 1, 0, 0}}, []cutting.Piece{{"a", 1401, 3, false}}, cutting.Rules{Kerf: 4})
	solve(t, []cutting.Stock{{"3000", 3000, 4000, 1, -1, 0}}, []cutting.Piece{{"a", 1400, 3, false}}, cutting.Rules{Kerf: 4, Keep: &cutting.Keep{Least: 1, Per: 3001, Rate: 1 << 40}})
}

// Hand-worked. A board of 11 for 20, a piece of 8 beside which 3 are left, worth 6 where each 3 are: the net is 14. In steps of 2 the board
// is 5, the piece 4, and the 1 left stands for 3, for what the steps cut off the board is left over too.
func TestWhatStepsCutOffABoardIsLeftOver(t *testing.T) {
	stock, pieces := []cutting.Stock{{"11", 11, 20, 1, -1, 0}}, []cutting.Piece{{"a", 8, 1, false}}
	r := cutting.Rules{Keep: &cutting.Keep{Least: 3, Per: 3, Rate: 6}}
	for floor, holds := range map[int64]bool{14: true, 15: false} {
		c := cutting.Certificate{Step: 2, Unit: 1, Scale: 1, Duals: []cutting.Dual{{Length: 8, Value: floor}}, Floor: floor}
		if err := cutting.CheckCertificate(c, stock, pieces, r); (err == nil) != holds {
			t.Errorf("a floor of %d: %v", floor, err)
		}
	}
}

// Drawn. Lengths without a common step, two boards a hair apart, of which the longer is worth more uncut: by the step of the certificate both
// are as long, and the shorter is not worth what the longer is.
func TestABoardIsNotWorthUncutWhatALongerOneIs(t *testing.T) {
	solve(t, []cutting.Stock{{"A", 240_000_000_055, 3, 1, -1, 0}, {"B", 240_000_000_056, 7, 1, -1, 0}}, []cutting.Piece{{"a", 30_000_000_001, 2, false}, {"b", 30_000_000_007, 1, false}},
		cutting.Rules{Keep: &cutting.Keep{Least: 30_000_000_007, Per: 120_000_000_028, Rate: 2}})
}

// Hand-worked. A piece of 12 comes of boards of 10 only as parts of 8 and 4; with a piece of 2 that is two boards at 1. A part of 8 that is
// worth more than there are numbers would, with the 2 beside it, be worth less than nothing, and the piece whatever one likes.
func TestPartsWorthMoreThanThereAreNumbers(t *testing.T) {
	stock, pieces := []cutting.Stock{{"10", 10, 1, 1, -1, 0}}, []cutting.Piece{{"a", 12, 1, true}, {"b", 2, 1, false}}
	r := cutting.Rules{Scarf: &cutting.Scarf{Least: 4, Step: 4}}
	if p := solve(t, stock, pieces, r); p.Cost != 2 {
		t.Fatalf("%+v", p)
	}
	for _, worth := range []int64{math.MaxInt64, 1 << 62, 1 << 40} {
		c := cutting.Certificate{Step: 1, Unit: 1, Scale: 6, Duals: []cutting.Dual{{Length: 2, Value: 1}}, Scarfed: []cutting.Dual{{Length: 12, Value: 100}},
			Parts: []cutting.Dual{{Length: 8, Value: worth}, {Length: 4, Value: 5}}, Floor: 3}
		if cutting.CheckCertificate(c, stock, pieces, r) == nil {
			t.Errorf("a part of 8 worth %d makes a floor of 3", worth)
		}
	}
}

// Drawn. Parts that no joint uses yet have the value of a piece left out, and some ten thousand of them lie on a strip: summed past all
// range that made a floor of 3638 under a plan of 56, called proved.
func TestTenThousandPartsOnAStrip(t *testing.T) {
	l := list{[]cutting.Stock{{"A", 69_505, 2, 1, -1, 0}, {"B", 17_306, 3, 1, 1, 0}}, []cutting.Piece{{"a", 8, 234_608, true}},
		cutting.Rules{Scarf: &cutting.Scarf{Least: 1, Step: 2}}}
	if p := solveWithin(t, l.stock, l.pieces, l.rules, cutting.Limits{Work: 100_000_000, Pivots: 20_000, Nodes: 100, Layouts: 3_000}); p.Certificate.Floor > p.Cost {
		t.Errorf("floor %d, cost %d", p.Certificate.Floor, p.Cost)
	}
}
