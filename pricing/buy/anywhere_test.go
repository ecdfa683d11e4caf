package buy_test

import (
	"errors"
	"fmt"
	"testing"

	"ribband/pricing/buy"
	"ribband/pricing/sheet"
	"ribband/takeoff/cutting"
)

// withRate is boards at a price each with a rate, unless it is empty, and glue.
func withRate(t *testing.T, rate string, rows ...string) sheet.Content {
	t.Helper()
	c := sold(t, rows...)
	c.Items = append(c.Items, withHands(t, rate, "40 160 1000 1").Items[1:]...)
	return c
}

// Hand-worked. Three boards of 2900 give 2860 each. Of the plank of 3810, which takes 385 more in two parts, 2860 fill one and 1335 are left;
// 1600 whole and 1257 of the plank of 2370 fill the next, and the other 1498 of that lie in the third beside the 1335. 30.00, and two joints of
// 0.20. 1257 is no whole number of 77 mm, a fiftieth of the longest plank, nor what a board gives.
func TestFloorsHoldWhereverJointsCome(t *testing.T) {
	needs := mayScarf(planksOf(t, [3]string{"150", "30", "1600"}, [3]string{"150", "30", "3810"}, [3]string{"150", "30", "2370"}))
	l, err := buy.New(needs, withRate(t, "20", "40 160 2900 10 0 -1"), scarfing("0.01", "0"))
	if err != nil {
		t.Fatal(err)
	}
	if g := l.Timber[0]; g.Cost.Minor() != 3000 || l.ScarfLabour.Minor() != 40 || g.Bound.Minor() != 3040 || !g.Proven {
		t.Errorf("%s, none below %s: %s", l.Cost, l.Bound, toldOf(l))
	}
}

// Hand-worked. Planks of 2600, 90 wide, which the yard does not scarf, take the two boards of 5 m, 20.00, and that of 4500, 150 wide, two of 2.5 m with a joint, 9.90 and 0.20
// with a can of glue at 1.00. But one of the narrow ones in a board 100 wide leaves a long board for the wide one: 10.20 + 10.00 + 10.00
// and no glue. So glue is no part of the floor.
func TestGlueIsInNoFloorWhereOtherBoardsSpareTheJoint(t *testing.T) {
	needs := mayScarf(planksOf(t, [3]string{"90", "30", "2600"}, [3]string{"90", "30", "2600"}, [3]string{"150", "30", "4500"}))
	needs[0].Pieces.Scarf, needs[1].Pieces.Scarf = nil, nil
	l, err := buy.New(needs, withRate(t, "20", "40 160 5000 10 0 2", "40 100 3000 10.20 0 -1", "40 160 2500 4.95 0 -1"), scarfing("0.01", "0"))
	if err != nil {
		t.Fatal(err)
	}
	if l.Bound.Minor() > 3020 {
		t.Errorf("%s, none below %s: %s", l.Cost, l.Bound, toldOf(l))
	}
}

// A plank that only boards give whole of which none is left is not scarfed at nothing where the sheet has no rate for a joint.
func TestNoJointWithoutARateWhereBoardsRunOut(t *testing.T) {
	needs := mayScarf(planksOf(t, [3]string{"150", "30", "4500"}))
	l, err := buy.New(needs, withRate(t, "", "40 160 5000 10 0 0", "40 160 3000 5 0 -1"), scarfing("3", "0"))
	var short *buy.ShortBoardsError
	if !errors.As(err, &short) {
		t.Errorf("%v %s", err, toldOf(l))
	}
}

// The certificate of planks that may be scarfed can be worked out again from the list with the grid in which joints are counted.
func TestTheFloorOfJointsAnywhereCanBeWorkedOutAgain(t *testing.T) {
	for _, lengths := range [][]int64{{1600, 3810, 2370}, {4500, 4500, 3100, 2200}, {4810, 4333, 3925, 3500, 3120, 2960, 2640}} {
		var sizes [][3]string
		for _, long := range lengths {
			sizes = append(sizes, [3]string{"150", "30", fmt.Sprint(long)})
		}
		l, err := buy.New(mayScarf(planksOf(t, sizes...)), withRate(t, "20", "40 160 2900 10 0 -1", "40 160 4200 17 0 -1"), scarfing("0.01", "0"))
		if err != nil {
			t.Fatal(err)
		}
		const mm = 1_000_000
		g := l.Timber[0]
		grid := g.JointGrid.Shift(6).IntPart()
		rules := cutting.Rules{Kerf: 3 * mm, TrimEach: 20 * mm, Scarf: &cutting.Scarf{Price: 20, Length: 385*mm - grid, Least: 769*mm - grid, Step: grid}}
		stock := []cutting.Stock{{ID: g.Offers[0].ID, Length: 2900 * mm, Price: 1000, Strips: 1, Avail: -1}, {ID: g.Offers[1].ID, Length: 4200 * mm, Price: 1700, Strips: 1, Avail: -1}}
		var pieces []cutting.Piece
		for i, long := range lengths {
			counted := int64(0)
			for _, d := range g.Certificate.Scarfed {
				if d.Length <= long*mm {
					counted = max(counted, d.Length)
				}
			}
			if grid < mm || counted <= long*mm-grid {
				t.Fatalf("%d counts as %d on a grid of %d", long, counted, grid)
			}
			pieces = append(pieces, cutting.Piece{ID: fmt.Sprint(i), Length: counted, Qty: 1, MayScarf: true})
		}
		if err := cutting.CheckCertificate(g.Certificate, stock, pieces, rules); err != nil || g.Certificate.Floor > g.Bound.Minor() {
			t.Errorf("%v, %d, and none below %s: %s", err, g.Certificate.Floor, g.Bound, toldOf(l))
		}
	}
}
