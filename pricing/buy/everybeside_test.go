package buy_test

import (
	"errors"
	"fmt"
	"slices"
	"testing"

	"ribband/pricing/buy"
	"ribband/pricing/money"
	"ribband/pricing/sheet"

	"pgregory.net/rapid"
)

// mostBeside of one board are looked at.
const mostBeside = 6

// look goes through every way of laying the planks, and for each through every number of boards from what it cuts on.
func (d *drawnBeside) look() {
	d.goods, d.total = -1, -1
	seen := map[string]bool{}
	d.weigh = func() {
		if key := fmt.Sprint(d.count); !seen[key] {
			seen[key] = true
			d.more(0, make([]int64, len(d.boards)), 0)
		}
	}
	d.put(0, nil, nil)
}

func (d *drawnBeside) more(i int, counts []int64, sum int64) {
	if i == len(counts) {
		if d.goods < 0 || sum < d.goods {
			d.goods = sum
		}
		for _, asked := range d.freight(counts) {
			sum += asked
		}
		if d.total < 0 || sum < d.total {
			d.total = sum
		}
		return
	}
	if d.total >= 0 && sum >= d.total && sum >= d.goods { // no freight is below nothing
		return
	}
	most := max(mostBeside, d.count[i])
	if d.loads[i].seller < 0 || d.alone[i] != [3]int64{} { // more of these are not looked at
		most = d.count[i]
	}
	for n := d.count[i]; n <= most; n++ {
		price, sold := d.boards[i].each(n)
		if n > 0 && !sold {
			continue
		}
		counts[i] = n
		d.more(i+1, counts, sum+n*price)
	}
}

// Against every plan there is of few planks, some of them alike, in millimetres and in sixteenths of an inch, out of boards of two mills that
// ask for bringing them and of boards in hand, some of them marked, beside boards of random width for planks of one need: no floor is above
// the cheapest, none is cheaper, what is bought costs what the sheet says, and the ripping list cuts every plank out of its boards.
func TestSideBySideDeliveredAgainstEveryPlan(t *testing.T) {
	rapid.Check(t, func(rt *rapid.T) {
		d := drawBeside(t, rt, 4, 2)
		d.look()
		l, err := buy.WithRack(d.needs, d.sheet, d.rack, d.rules)
		var short *buy.ShortBoardsError
		var missing *sheet.MissingPriceError
		if errors.As(err, &short) || errors.As(err, &missing) {
			if d.grain != tenThousandth && d.goods >= 0 { // sizes that are no whole tenths of a millimetre are counted up to such
				d.planks = slices.Clone(d.planks)
				for i := range d.planks {
					d.planks[i][0], d.planks[i][2] = d.planks[i][0]+3000, d.planks[i][2]+3000
				}
				d.look()
			}
			if missing == nil && d.goods >= 0 && !d.random { // some side by side and others out of boards of random width is not looked for
				rt.Fatalf("%v, and %d is possible\n%s", err, d.goods, d)
			}
			return
		}
		if err != nil {
			rt.Fatalf("%v\n%s", err, d)
		}
		total, bound := l.Total.Minor(), l.TotalBound.Minor()
		if l.Total == (money.Money{}) {
			total, bound = l.Cost.Minor(), l.Bound.Minor()
		}
		if l.Bound.Minor() > l.Cost.Minor() || bound > total {
			rt.Fatalf("%s, none below %s, delivered %d, none below %d\n%s", l.Cost, l.Bound, total, bound, d)
		}
		if d.goods >= 0 && (l.Bound.Minor() > d.goods || bound > d.total) {
			rt.Fatalf("none below %s, delivered %d, and %d and %d are the least\n%s\n%s", l.Bound, bound, d.goods, d.total, d, toldOf(l))
		}
		if d.random { // planks of several needs may come out of boards of random width one after another
			d.sawn(rt, l)
			return
		}
		if within := d.recounted(rt, l); within && (d.goods < 0 || l.Cost.Minor() < d.goods || total < d.total) {
			rt.Fatalf("%s, delivered %d, and %d and %d are the least\n%s\n%s", l.Cost, total, d.goods, d.total, d, toldOf(l))
		}
		d.sawn(rt, l)
	})
}

func (d *drawnBeside) String() string {
	return fmt.Sprintf("%+v\nrack %+v\nplanks %v of %v, kerf %d, %s", d.rows, d.doc.Boards, d.planksBy, d.planks, d.kerf, d.notation)
}

// recounted works out from the drawn yard alone what a list buys and what is asked for bringing it; false where more of a board is
// bought than was looked at.
func (d *drawnBeside) recounted(rt *rapid.T, l buy.List) bool {
	counts, within := make([]int64, len(d.boards)), true
	paid := make([]int64, len(d.boards))
	for _, g := range l.Timber {
		for _, b := range g.Boards {
			o, _ := g.Offer(b.Offer)
			found := false
			for i, s := range d.boards {
				if o.ThicknessMM.Equal(mmOf(s.thick)) && o.WidthMM.Equal(mmOf(s.wide)) && o.Clear().Equal(mmOf(s.long)) && (o.Rack != nil) == (d.loads[i].seller < 0) &&
					(o.Rack != nil || o.Supplier == fmt.Sprint("S", d.loads[i].seller)) && (o.Rack == nil || s.avail < 0 || counts[i]+b.Count <= s.avail) && !found {
					counts[i], paid[i], found = counts[i]+b.Count, paid[i]+b.Cost.Minor(), true
				}
			}
			if !found {
				rt.Fatalf("%+v is not for sale\n%s\n%s", b, d, toldOf(l))
			}
		}
	}
	sum := int64(0)
	for i, n := range counts {
		price, sold := d.boards[i].each(n)
		if n > 0 && (!sold || paid[i] != n*price) {
			rt.Fatalf("%d of board %d for %d, sold %t at %d\n%s\n%s", n, i, paid[i], sold, price, d, toldOf(l))
		}
		sum, within = sum+paid[i], within && n <= mostBeside
	}
	asked := int64(0)
	for _, f := range d.freight(counts) {
		asked += f
	}
	if l.Cost.Minor() != sum || l.Total != (money.Money{}) && l.Total.Minor() != sum+asked || l.Total == (money.Money{}) && asked > 0 {
		rt.Fatalf("%s, %s delivered, and %d with %d are counted\n%s", l.Cost, l.Total, sum, asked, d)
	}
	return within
}

// Of more planks than can be looked at in every way, many of them alike: what is bought costs what the sheet says, no floor is above it, and the
// ripping list cuts every plank out of its boards.
func TestPlanksAlikeAreCutOutOfTheirBoards(t *testing.T) {
	rapid.Check(t, func(rt *rapid.T) {
		d := drawBeside(t, rt, 30, 9)
		l, err := buy.WithRack(d.needs, d.sheet, d.rack, d.rules)
		if err != nil {
			return // too few boards
		}
		if l.Bound.Minor() > l.Cost.Minor() || l.TotalBound.Minor() > l.Total.Minor() {
			rt.Fatalf("%s, none below %s, delivered %s, none below %s\n%s", l.Cost, l.Bound, l.Total, l.TotalBound, d)
		}
		if !d.random {
			d.recounted(rt, l)
		}
		d.sawn(rt, l)
	})
}
