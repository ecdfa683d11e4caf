package buy_test

import (
	"testing"

	"ribband/pricing/buy"
	"ribband/pricing/pack"
	"ribband/pricing/rack"
	"ribband/takeoff/bill"
	"ribband/takeoff/boat"
	"ribband/takeoff/quantity"

	"github.com/google/go-cmp/cmp"
)

// Hand-worked. 18 pieces take one board of 90.00, sold by three at least: 270.00, of which two are not needed, 180.00 more than
// singly. 3 L of epoxy are one can of 4 L at 10.00 a litre, sold by two: 80.00 against 40.00 singly.
func TestLeastOrdersThatGovernAreTold(t *testing.T) {
	needs := []bill.Line{laminates(12, boat.Port, 18, 18, "2.600"), goods(1, bill.Glue, "epoxy", "3", "3", quantity.Litre)}
	c := prices(t, ",timber,A,C62,90.00,,,white_oak,select,8/4,0-8-0,12-0-0,3,\nepoxy,glue,B,LTR,10,,4,,,,,,8,\n")
	l, err := buy.New(needs, c, shop)
	if err != nil {
		t.Fatal(err)
	}
	got, err := l.Least(needs, c, rack.Rack{}, shop)
	if err != nil {
		t.Fatal(err)
	}
	want := []pack.LeastRow{{What: "white_oak select 8/4 x 0-8-0 x 12-0-0", Supplier: "A", Least: 3, Needed: 1}, {What: "epoxy 4 litre, B", Supplier: "B", Least: 2, Needed: 1}}
	if d := cmp.Diff(want, got.Rows); d != "" || got.Extra.String() != "220.00" {
		t.Errorf("%s extra %s", d, got.Extra)
	}
	// a least order that is needed anyway governs nothing
	c = prices(t, ",timber,A,C62,90.00,,,white_oak,select,8/4,0-8-0,12-0-0,1,\nepoxy,glue,B,LTR,10,,4,,,,,,4,\n")
	if l, err = buy.New(needs, c, shop); err != nil {
		t.Fatal(err)
	}
	if got, err = l.Least(needs, c, rack.Rack{}, shop); err != nil || len(got.Rows) > 0 || !got.Extra.IsZero() {
		t.Errorf("%+v, %v", got, err)
	}
	// a dearer row taken because the cheaper is sold by ten: nothing is bought too many, and it costs 30.00
	c = prices(t, ",timber,A,C62,90.00,,,white_oak,select,8/4,0-8-0,12-0-0,,\nepoxy,glue,B,LTR,10,,4,,,,,,40,\nepoxy,glue,C,LTR,17.50,,4,,,,,,,\n")
	if l, err = buy.New(needs, c, shop); err != nil {
		t.Fatal(err)
	}
	if got, err = l.Least(needs, c, rack.Rack{}, shop); err != nil || len(got.Rows) > 0 || got.Extra.String() != "30.00" {
		t.Errorf("%+v, %v", got, err)
	}
}
