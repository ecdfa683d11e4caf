package buy_test

import (
	"errors"
	"testing"

	"ribband/pricing/buy"
	"ribband/pricing/money"
	"ribband/pricing/pack"

	"pgregory.net/rapid"
)

// weighed plans the yard and holds it against everything that could be bought.
func (d *drawn) weighed(t *rapid.T) {
	d.look()
	l, err := buy.WithRack(d.needs, d.sheet, d.rack, d.rules)
	var boards *buy.ShortBoardsError
	var packs *pack.ShortError
	if err != nil && (errors.As(err, &boards) || errors.As(err, &packs)) {
		if d.total >= 0 {
			t.Fatalf("%v, and %d would do\n%s", err, d.total, d)
		}
		return
	}
	if err != nil || d.total < 0 {
		t.Fatalf("%v, the cheapest is %d\n%s", err, d.total, d)
	}
	total, bound := l.Total, l.TotalBound
	if total == (money.Money{}) {
		total, bound = l.Cost, l.Bound
	}
	if bound.Minor() > d.total || total.Minor() < d.total || l.Bound.Minor() > d.goods || l.Bound.Minor() > l.Cost.Minor() {
		t.Fatalf("%s, none below %s, goods %s, none below %s: the cheapest is %d, goods %d\n%s", total, bound, l.Cost, l.Bound, d.total, d.goods, d)
	}
	d.holds(t, l)
}

// Against everything that could be bought in tiny yards, cans by weight of two items from up to three suppliers, with prices that fall
// with the quantity, least orders, few for sale, and freight by the order and by weight that is not asked from a sum on: no plan costs
// less than a floor, what is told as the least is, what is bought holds, and where nothing is found nothing would do.
func TestTinyYardsOfCans(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		d := drawYard(t, 0, 2)
		d.weighed(t)
	})
}

// The same of boards and cans, with boards in hand and freight by the board foot too.
func TestTinyYardsOfBoardsAndCans(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		d := drawYard(t, 1, 1)
		d.weighed(t)
	})
}
