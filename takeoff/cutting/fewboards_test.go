package cutting_test

import (
	"errors"
	"testing"

	"ribband/takeoff/cutting"
)

// A list with no board for sale is refused, also where nothing on it has a price: the joint is made for nothing.
func TestNoBoardForSaleAndAJointForNothing(t *testing.T) {
	stock, pieces := []cutting.Stock{{"3000", 3000, 4000, 1, 0, 0}}, []cutting.Piece{{"plank", 2000, 1, true}}
	_, err := cutting.Solve(stock, pieces, cutting.Rules{Scarf: &cutting.Scarf{Length: 100, Least: 200, Step: 500}})
	var short *cutting.ShortError
	if !errors.As(err, &short) || short.StockID != "3000" || short.Boards != 1 {
		t.Errorf("%v", err)
	}
}

// Hand-worked, mm and cents, without any search. Three planks of 5000, long boards of 6000 for 100.00 of which one is for sale, short
// ones of 3000 for 40.00. Joined over 400 a plank is two parts of 2700. One plank whole and two of two parts cost 100.00, four boards of
// 40.00 and two joints of 15.00: 290.00. With no long board for sale all are of two parts: six boards and three joints, 285.00.
func TestScarfedWhereLongBoardsAreTooFew(t *testing.T) {
	r := cutting.Rules{Kerf: 4, Scarf: &cutting.Scarf{Price: 1500, Length: 400, Least: 1000, Step: 500}}
	pieces := []cutting.Piece{{"plank", 5000, 3, true}}
	for avail, want := range []int64{28_500, 29_000} {
		stock := []cutting.Stock{{"3000", 3000, 4000, 1, -1, 0}, {"6000", 6000, 10_000, 1, int64(avail), 0}}
		if p := solveWithin(t, stock, pieces, r, cutting.Limits{}); p.Cost != want {
			t.Errorf("%d long boards: %d", avail, p.Cost)
		}
	}
}

// Boards of which fewer are for sale than must be bought are not laid on: a piece of 5000 on the one long board, one of 2500 on a dear short
// one, because of the cheap one two must be bought.
func TestALeastOrderThatCannotBeMet(t *testing.T) {
	stock := []cutting.Stock{{"long", 6000, 10_000, 1, 1, 0}, {"cheap", 3000, 1000, 1, 1, 2}, {"dear", 3000, 4000, 1, -1, 0}}
	pieces := []cutting.Piece{{"a", 5000, 1, false}, {"b", 2500, 1, false}}
	if p := solveWithin(t, stock, pieces, cutting.Rules{}, cutting.Limits{}); p.Cost != 14_000 {
		t.Errorf("%+v", p.Bought)
	}
	// what would do is told of boards that can be bought
	stock[2].Avail = 0
	_, err := cutting.Solve(stock, pieces, cutting.Rules{})
	var short *cutting.ShortError
	if !errors.As(err, &short) || short.StockID != "cheap" || short.Boards != 1 {
		t.Errorf("%v", err)
	}
}
