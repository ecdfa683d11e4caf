package buy_test

import (
	"fmt"
	"testing"

	"ribband/pricing/buy"
	"ribband/pricing/sheet"
	"ribband/takeoff/bill"
	"ribband/takeoff/boat"
	"ribband/takeoff/notation"
	"ribband/takeoff/quantity"

	"github.com/google/go-cmp/cmp"
	"github.com/shopspring/decimal"
	"pgregory.net/rapid"
)

// carried is a sheet with freight.
func carried(t testing.TB, rows string) sheet.Content {
	t.Helper()
	c, err := sheet.ReadCSV([]byte("item,kind,supplier,unit,price,per,pack_size,species,grade,thickness,width,stock_length,free_from,lead_days\n"+rows), "USD", notation.FeetInchesEighths)
	if err != nil {
		t.Fatal(err)
	}
	return c
}

// Hand-worked. A board of 8/4 x 8 in x 12 ft is 16 board feet, and white oak of 750 kg/m3 of 0.037755795456 m3 weighs 28.3168 kg.
// A asks 25.00 an order, 0.15 a board foot, 0.10 a kilogram; of two boards 4.80 and 5.66, 35.46 together.
func TestFreightStandsBesideTheGoods(t *testing.T) {
	c := carried(t, ",timber,A,C62,90,,,white_oak,select,8/4,0-8-0,12-0-0,,21\nepoxy,glue,A,LTR,30,,4,,,,,,,\n"+
		",freight,A,C62,25,,,,,,,,,\n,freight,A,BFT,0.15,,,,,,,,,\n,freight,A,KGM,10,100,,,,,,,,\n")
	needs := []bill.Line{laminates(12, boat.Port, 36, 36, "2.600"), goods(1, bill.Glue, "epoxy", "3", "3", quantity.Litre)}
	r := shop
	r.Densities = map[string]decimal.Decimal{"white_oak": dec("750")}
	l, err := buy.New(needs, c, r)
	if err != nil {
		t.Fatal(err)
	}
	got := []string{l.Cost.String(), l.FreightCost.String(), l.Total.String(), l.TotalBound.String(), fmt.Sprint(l.FreightChosen)}
	for _, f := range l.Freight[0].Lines {
		got = append(got, f.Quantity+" "+string(f.Unit)+" "+f.Cost.String())
	}
	// the floor counts what is asked by the order alone
	want := []string{"300.00", "35.46", "335.46", "325.00", "true", "1.000000 C62 25.00", "32.000000 BFT 4.80", "56.633693 KGM 5.66"}
	if d := cmp.Diff(want, got); d != "" || !cmp.Equal(l.Freight[0].Unknown, []string{"epoxy"}) {
		t.Errorf("%s %v", d, l.Freight[0].Unknown)
	}
	shared := int64(0)
	for _, s := range l.Shares { // of the goods
		shared += s.Cost.Minor()
	}
	if shared != l.Cost.Minor() {
		t.Errorf("%d shared of %s", shared, l.Cost)
	}
	orders, err := buy.Orders(l, c)
	if err != nil || len(orders) != 1 || orders[0].Freight == nil || orders[0].Freight.Cost != l.FreightCost {
		t.Fatalf("%+v %v", orders, err)
	}
	if err := buy.LastDays(orders, "2027-03-15"); err != nil || orders[0].OrderBy != "2027-02-22" {
		t.Errorf("order by %s, %v", orders[0].OrderBy, err)
	}
	slowest, silent := buy.Slowest(orders)
	if slowest == nil || slowest.Supplier != "A" || len(silent) != 1 {
		t.Errorf("%+v, silent %v", slowest, silent)
	}
	if err := buy.LastDays(orders, "15.3.2027"); err == nil {
		t.Error("no day is taken for one")
	}
	plain, err := buy.New(needs, carried(t, ",timber,A,C62,90,,,white_oak,select,8/4,0-8-0,12-0-0,,\nepoxy,glue,A,LTR,30,,4,,,,,,,\n"), r)
	if err != nil || plain.Freight != nil || !plain.Total.IsZero() {
		t.Errorf("freight of a sheet without: %+v %v", plain.Freight, err)
	}
}

// Hand-worked. A sells the board for 90.00 and glue for 80.00, B the board for 80.00; each asks 25.00 an order. Board and glue are
// 160.00 from both and 210.00 delivered, 170.00 from A alone and 195.00. From 165.00 on A brings for nothing: 170.00.
func TestFreightMayFlipTheSupplier(t *testing.T) {
	needs := []bill.Line{laminates(12, boat.Port, 18, 18, "2.600"), goods(1, bill.Glue, "epoxy", "3", "3", quantity.Litre)}
	for free, want := range map[string]string{"": "195.00", "165": "170.00", "171": "195.00"} {
		l, err := buy.New(needs, carried(t, ",timber,A,C62,90,,,white_oak,select,8/4,0-8-0,12-0-0,,\n,timber,B,C62,80,,,white_oak,select,8/4,0-8-0,12-0-0,,\n"+
			"epoxy,glue,A,LTR,20,,4,,,,,,,\n,freight,A,C62,25,,,,,,,,"+free+",\n,freight,B,C62,25,,,,,,,,,\n"), shop)
		if err != nil || l.Total.String() != want || len(l.Freight) != 1 {
			t.Errorf("free from %q: %s, want %s, %+v, %v", free, l.Total, want, l.Freight, err)
		}
		if free == "" && l.TotalBound != l.Total {
			t.Errorf("none below %s", l.TotalBound)
		}
	}
}

// Against every choice there is, over invented suppliers of cans and boards that ask for freight by the order: no plan costs less
// with its freight, and no floor is above the cheapest, also where a sum is brought for nothing.
func TestNoSuppliersBringItForLess(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		type seller struct{ can, board, asks, free int64 }
		var all []seller
		var rows []sheet.Row
		frees := false
		for i := range rapid.IntRange(1, 3).Draw(t, "suppliers") {
			s := seller{rapid.Int64Range(0, 40).Draw(t, "can"), rapid.Int64Range(0, 40).Draw(t, "board"), rapid.Int64Range(0, 30).Draw(t, "asks"), rapid.SampledFrom([]int64{0, 0, 40, 90}).Draw(t, "free")}
			all = append(all, s)
			name := fmt.Sprint("S", i)
			if s.can > 0 {
				rows = append(rows, sheet.Row{Item: "epoxy", Kind: "glue", Supplier: name, Unit: "LTR", Price: fmt.Sprint(s.can)})
			}
			if s.board > 0 {
				rows = append(rows, sheet.Row{Kind: "timber", Supplier: name, Unit: "C62", Price: fmt.Sprint(s.board), Species: "white_oak", Grade: "select", Thickness: "8/4", Width: "0-8-0", StockLength: "12-0-0"})
			}
			if s.asks > 0 {
				row := sheet.Row{Kind: "freight", Supplier: name, Unit: "C62", Price: fmt.Sprint(s.asks)}
				if s.free > 0 {
					row.FreeFrom, frees = fmt.Sprint(s.free), true
				}
				rows = append(rows, row)
			}
		}
		cans, boards := rapid.Int64Range(1, 4).Draw(t, "cans"), rapid.Int64Range(1, 3).Draw(t, "boards")
		c, err := sheet.FromRows("USD", notation.FeetInchesEighths, rows)
		if err != nil {
			t.Fatal(err)
		}
		best := int64(-1)
		var look func(i int, cans, boards, cost int64)
		look = func(i int, cans, boards, cost int64) {
			if i == len(all) {
				if cans <= 0 && boards <= 0 && (best < 0 || cost < best) {
					best = cost
				}
				return
			}
			s := all[i]
			for a := int64(0); a <= 12 && (a == 0 || s.can > 0); a++ {
				for b := int64(0); b <= 12 && (b == 0 || s.board > 0); b++ {
					sum := a*s.can + b*s.board
					if sum > 0 && (s.free == 0 || sum < s.free) {
						look(i+1, cans-a, boards-b, cost+sum+s.asks)
					} else {
						look(i+1, cans-a, boards-b, cost+sum)
					}
				}
			}
		}
		look(0, cans, boards, 0)
		l, err := buy.New([]bill.Line{laminates(12, boat.Port, int(18*boards), int(18*boards), "2.600"), goods(1, bill.Glue, "epoxy", "0", fmt.Sprint(cans), quantity.Litre)}, c, shop)
		if best < 0 || err != nil {
			if best >= 0 || err == nil {
				t.Fatalf("%v, the cheapest is %d", err, best)
			}
			return
		}
		total, bound := l.Total, l.TotalBound
		if total.IsZero() {
			total, bound = l.Cost, l.Bound
		}
		switch {
		case bound.Minor() > best*100 || total.Minor() < best*100:
			t.Fatalf("%s, none below %s, the cheapest of %+v is %d", total, bound, all, best)
		case !frees && (total.Minor() != best*100 || bound != total):
			t.Fatalf("%s, none below %s, and %d is proven by going through all of %+v", total, bound, best, all)
		}
	})
}
