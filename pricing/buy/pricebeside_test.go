package buy_test

import (
	"testing"

	"ribband/pricing/buy"
)

// Hand-worked. A board of 260 holds a plank of 150 beside one of 90: two of each take two boards, which are 45.00 each from two on, 90.00. By
// width they take two and one, 135.00. Four for 28.00 each are not cheaper, four for 20.00 each are, as far as four are for sale.
func TestSideBySideAtThePriceOfTheNumber(t *testing.T) {
	sizes := [][3]string{{"150", "30", "4500"}, {"150", "30", "4500"}, {"90", "30", "4500"}, {"90", "30", "4500"}}
	for _, row := range []struct {
		sheet []string
		cost  string
		n     int64
	}{
		{[]string{"40 260 5000 50 0 -1", "40 260 5000 45 2 -1"}, "90.00", 2},
		{[]string{"40 260 5000 45 0 -1", "40 260 5000 28 4 -1"}, "90.00", 2},
		{[]string{"40 260 5000 45 0 -1", "40 260 5000 20 4 -1"}, "80.00", 4},
		{[]string{"40 260 5000 45 0 3", "40 260 5000 20 4 3"}, "90.00", 2},
	} {
		l, err := buy.New(planksOf(t, sizes...), sold(t, row.sheet...), sawn)
		if err != nil {
			t.Fatal(err)
		}
		n := counted(l)
		if l.Cost.String() != row.cost || n != row.n {
			t.Errorf("%v: %d boards, %s, want %d, %s", row.sheet, n, l.Cost, row.n, row.cost)
		}
	}
}

// Hand-worked. Of boards sold from two on one is for sale, and nobody sells it: the short planks of 158 and 157 lie end to end in one strip of one of the
// two others, and the long one takes the second.
func TestNoPlanksInBoardsThatAreNotSold(t *testing.T) {
	needs := planksOf(t, [3]string{"158", "30", "900"}, [3]string{"158", "30", "1800"}, [3]string{"157", "30", "900"})
	l, err := buy.New(needs, sold(t, "40 321 2500 21 0 2", "40 170 2000 20 2 1"), sawn)
	if err != nil || l.Cost.String() != "42.00" {
		t.Errorf("%s, %v", l.Cost, err)
	}
}
