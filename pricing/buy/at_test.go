package buy_test

import (
	"errors"
	"fmt"
	"testing"

	"ribband/pricing/buy"
	"ribband/pricing/money"
	"ribband/pricing/sheet"
	"ribband/takeoff/bill"
	"ribband/takeoff/boat"
	"ribband/takeoff/quantity"

	"github.com/google/go-cmp/cmp"
)

// Hand-worked: 28 laminates come from one board of 24 board feet, 300.00 at 12.50 and 240.00 at 10.00, shared 20 to 8;
// two litres of epoxy in cans of one. The newer sheet does not sell that can, so it stays at its old price.
func TestSameBoardsAtOtherPrices(t *testing.T) {
	older := prices(t, ",timber,A,BFT,12.50,,,white_oak,select,8/4,0-8-0,18-0-0,,\nepoxy,glue,A,LTR,30,,1,,,,,,,\n")
	newer := prices(t, ",timber,a,BFT,10.00,,,white_oak,select,0-2-0,0-8-0,18-0-0,,0\nepoxy,glue,A,LTR,25,,5,,,,,,,\n")
	needs := []bill.Line{laminates(1, boat.Port, 20, 20, "2.600"), laminates(2, boat.Port, 8, 8, "2.600"),
		goods(3, bill.Glue, "epoxy", "1.50", "2.00", quantity.Litre)}
	l, err := buy.New(needs, older, shop)
	if err != nil {
		t.Fatal(err)
	}
	shares, moves, err := l.SharesAt(needs, older, newer, shop)
	if err != nil {
		t.Fatal(err)
	}
	var got []string
	for _, s := range shares {
		got = append(got, s.Line+" "+s.Cost.String())
	}
	for _, m := range moves {
		got = append(got, fmt.Sprintf("%s %s %s %t", m.Label, m.Old, m.New, m.Gone))
	}
	want := []string{
		"frame/1/port/laminates_timber 171.43", // 240.00 x 20/28 = 171.428...
		"frame/2/port/laminates_timber 68.57",
		"frame/3/port/epoxy 60.00",
		"white_oak select 8/4 x 0-8-0 x 18-0-0, A 300.00 240.00 false",
		"epoxy 1 litre, A 30.00 30.00 true",
	}
	if d := cmp.Diff(want, got); d != "" {
		t.Error(d)
	}
	same, _, err := l.SharesAt(needs, older, older, shop)
	if err != nil {
		t.Fatal(err)
	}
	for i, s := range same {
		if s.Cost != l.Shares[i].Cost {
			t.Errorf("%s costs %s on its own sheet, not %s", s.Line, s.Cost, l.Shares[i].Cost)
		}
	}
	// A board of another length is another board: the old one stays at its price.
	longer := prices(t, ",timber,A,BFT,10.00,,,white_oak,select,8/4,0-8-0,20-0-0,,\nepoxy,glue,A,LTR,31,,1,,,,,,,\n")
	gone, moves, err := l.SharesAt(needs, older, longer, shop)
	if err != nil {
		t.Fatal(err)
	}
	if gone[0].Cost != l.Shares[0].Cost || !moves[0].Gone || moves[0].New != moves[0].Old || gone[2].Cost.String() != "62.00" {
		t.Errorf("%+v %+v", gone, moves)
	}
	var mixed *money.MixedError
	euro := newer
	euro.Currency = "EUR"
	if _, _, err := l.SharesAt(needs, older, euro, shop); !errors.As(err, &mixed) {
		t.Errorf("%v", err)
	}
	var need *buy.NeedError
	if _, _, err := l.SharesAt(needs[:2], older, newer, shop); !errors.As(err, &need) {
		t.Errorf("%v", err)
	}
}

// Hand-worked. A pattern of 1500 x 3000 mm goes on the larger of two sheets alone, at 150.00. On a sheet where that costs 160.00
// and the smaller still 100.00 it costs 160.00.
func TestASheetKeepsItsSizeAtOtherPrices(t *testing.T) {
	sold := func(large string) sheet.Content {
		return onSheet(t, ply("A", "100", "1220", "2440"), ply("A", large, "1525", "3050"))
	}
	needs := []bill.Line{cut(1, bill.Pattern, "ply", 1, 1500, 3000, true)}
	l, err := buy.New(needs, sold("150"), shop)
	if err != nil {
		t.Fatal(err)
	}
	for price, want := range map[string]string{"150": "150.00", "160": "160.00"} {
		if shares, moves, err := l.SharesAt(needs, sold("150"), sold(price), shop); err != nil || shares[0].Cost.String() != want || moves[0].Gone {
			t.Errorf("at %s: %+v %+v %v", price, shares, moves, err)
		}
	}
}
