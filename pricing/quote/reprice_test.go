package quote_test

import (
	"errors"
	"fmt"
	"math/rand"
	"strconv"
	"testing"

	"ribband/pricing/buy"
	"ribband/pricing/quote"
	"ribband/pricing/sheet"
	"ribband/takeoff/boat"
	"ribband/takeoff/notation"

	"github.com/google/go-cmp/cmp"
)

// onOld is an option with its buy list off the sheet.
func onOld(t *testing.T, c sheet.Content, o quote.OptionInput) quote.OptionInput {
	t.Helper()
	l, err := buy.New(o.Needs, c, shop)
	if err != nil {
		t.Fatal(err)
	}
	o.Buy = l
	return o
}

func account(r quote.RepricedOption) []string {
	var out []string
	for _, l := range r.Lines {
		out = append(out, fmt.Sprintf("%s %s %s", l.Key, l.Cost.Difference, l.Price.Difference))
		for _, c := range l.Because {
			out = append(out, fmt.Sprintf("  %s %s %s: %s", c.Reason, c.Cost, c.Price, c.Detail))
		}
	}
	return out
}

// Hand-worked on the needs of TestQuoteWorkedByHand. The newer sheet has the shipwright at 65.00: 3.25 h are 211.25,
// with 35 % 285.1875, 285.19; before 200.04 and 270.05. The board of 24 board feet rises by 0.50 to 312.00; one of
// 17 ft 6 in, 23.333 board feet at 12.00, 280.00, serves as well and is bought instead; with 20 % that is 374.40 and
// 336.00 after 360.00. Ply is sold as metal there, which has a markup of 0.10 in these terms: 27.60 become 30.36.
// Epoxy comes in cans of 3 L at 30.00 a litre, 90.00, with 15.5 % 103.95, after three cans for 99.99 and 115.49; the
// can of 1 L is not sold any more. The newer sheet writes the board's size and supplier otherwise, which is no matter.
func TestWhatMovedWorkedByHand(t *testing.T) {
	older := content(t, prices)
	newer := content(t, `item,kind,supplier,unit,price,per,pack_size,species,grade,thickness,width,stock_length
,timber,hidden sawmill,BFT,13.00,,,white_oak,select,0-2-0,0-8-0,18-0-0
,timber,Hidden Sawmill,BFT,12.00,,,white_oak,select,8/4,0-8-0,17-6-0
epoxy,glue,Hidden Chandler,LTR,30.00,,3,,,,,
ply,metal,Hidden Chandler,MTK,9.20,,3,,,,,
shipwright,labour,,HUR,65.00,,,,,,,
machinist,labour,,HUR,48.10,,,,,,,
`)
	terms := terms()
	terms.Markup[sheet.Metal] = "0.10"
	in := onOld(t, older, quote.OptionInput{ID: "a", Name: "Replace two", Work: work("3.25", "5.10"), Needs: append(needs(1, boat.Port), needs(1, boat.Starboard)...), Library: library})
	r, err := quote.Reprice([]quote.OptionInput{in}, older, newer, shop, terms)
	if err != nil {
		t.Fatal(err)
	}
	const board = "white_oak select 8/4 x 0-8-0 x 18-0-0, Hidden Sawmill"
	want := []string{
		"take_pattern/shipwright/frame 11.21 15.14",
		"  rate 11.21 15.14: 3.25 h at 65, before at 61.55",
		"take_pattern/ply/frame 0.00 2.76",
		"  kind 0.00 2.76: now metal, before consumable",
		"rip_plane/machinist/frame 0.00 0.00",
		"rip_plane/white_oak select/frame -20.00 -24.00",
		"  unit_price 12.00 14.40: 1 of " + board + " at 312.00 each, before at 300.00",
		"  bought -32.00 -38.40: now 1 of white_oak select 8/4 x 0-8-0 x 17-6-0, Hidden Sawmill; before 1 of " + board,
		"laminate/epoxy/frame -9.99 -11.54",
		"  bought -9.99 -11.54: now 1 of epoxy 3 litre; before 3 of epoxy 1 litre",
	}
	if d := cmp.Diff(want, account(r.Options[0])); d != "" {
		t.Error(d)
	}
	// Tax: 503.09 before; metal is not taxed, so now 336.00 + 103.95 = 439.95 at 6.25 %, 27.496875, 27.50.
	o := r.Options[0]
	if o.Net.Difference.String() != "-17.64" || o.Tax.New.String() != "27.50" || o.Tax.Old.String() != "31.44" || o.Total.Difference.String() != "-21.58" {
		t.Errorf("%+v %+v %+v", o.Net, o.Tax, o.Total)
	}
}

// repriced checks that an account foots and that its ends are the two quotes, priced by themselves.
func repriced(r quote.RepricedOption, older, newer quote.Option) string {
	now := map[string]quote.Line{}
	for _, l := range newer.Lines {
		now[l.Key] = l
	}
	var cost, net int64
	for i, l := range r.Lines {
		was, is := older.Lines[i], now[l.Key]
		if l.Key != was.Key || l.Cost.Old != was.Cost || l.Cost.New != is.Cost || l.Price.Old != was.Price || l.Price.New != is.Price {
			return fmt.Sprintf("line %s: %+v", l.Key, l)
		}
		var byCost, byPrice int64
		for _, c := range l.Because {
			byCost, byPrice = byCost+c.Cost.Minor(), byPrice+c.Price.Minor()
			if c.Detail == "" || c.Cost.IsZero() && c.Price.IsZero() {
				return fmt.Sprintf("line %s: a cause that says nothing: %+v", l.Key, c)
			}
		}
		if byCost != is.Cost.Minor()-was.Cost.Minor() || byPrice != is.Price.Minor()-was.Price.Minor() {
			return fmt.Sprintf("line %s: causes add to %d and %d: %+v", l.Key, byCost, byPrice, l)
		}
		cost, net = cost+l.Cost.Difference.Minor(), net+l.Price.Difference.Minor()
	}
	var tax int64
	for _, x := range r.Taxes {
		tax += x.Amount.Difference.Minor()
	}
	if len(r.Lines) != len(newer.Lines) || cost != r.Cost.Difference.Minor() || net != r.Net.Difference.Minor() || tax != r.Tax.Difference.Minor() ||
		net+tax != r.Total.Difference.Minor() || r.Total.Difference.Minor() != newer.Total.Minor()-older.Total.Minor() {
		return fmt.Sprintf("lines %d and %d, taxes %d: %+v", cost, net, tax, r.Total)
	}
	return ""
}

// yardSheet is a random sheet that sells what needs asks for, one row in four left out where another serves.
func (r draw) yardSheet(t *testing.T) sheet.Content {
	t.Helper()
	price := func(most int) string { return fmt.Sprintf("%d.%02d", 1+r.Intn(most), r.Intn(100)) }
	rows := []sheet.Row{
		{Item: "shipwright", Kind: "labour", Unit: "HUR", Price: price(90)},
		{Item: "machinist", Kind: "labour", Unit: "HUR", Price: price(90)},
		{Item: "ply", Kind: []string{"consumable", "metal"}[r.Intn(2)], Unit: "MTK", Price: price(20), PackSize: "3"},
	}
	for i, length := range []string{"10-0-0", "12-0-0", "16-0-0", "18-0-0"} {
		if i == 0 || r.Intn(4) > 0 {
			rows = append(rows, sheet.Row{Kind: "timber", Unit: []string{"BFT", "FTQ"}[r.Intn(2)], Price: price(20), Species: "white_oak", Grade: "select",
				Thickness: "8/4", Width: "0-8-0", StockLength: length})
		}
	}
	for i, size := range []string{"1", "2", "5"} {
		if i == 0 || r.Intn(4) > 0 {
			rows = append(rows, sheet.Row{Item: "epoxy", Kind: "glue", Unit: "LTR", Price: price(50), PackSize: size})
		}
	}
	c, err := sheet.FromRows("USD", notation.FeetInchesEighths, rows)
	if err != nil {
		t.Fatal(err)
	}
	return c
}

// mostRepriced is how many random repricings are drawn; each plans boards twice.
const mostRepriced = 400

// Over random sheets: what moved adds up line by line, by cost and by price, to the last cent; a sheet against itself
// moves nothing.
func TestRepricingFoots(t *testing.T) {
	for seed := range mostRepriced {
		r := draw{rand.New(rand.NewSource(int64(seed)))}
		older, newer, terms := r.yardSheet(t), r.yardSheet(t), r.terms()
		in := quote.OptionInput{ID: "a", Name: "a", Library: library, Work: work("3.25", "5.10", strconv.Itoa(r.Intn(90)))}
		for n := range 1 + r.Intn(3) {
			in.Needs = append(in.Needs, needs(n+1, boat.Port)...)
		}
		in = onOld(t, older, in)
		got, err := quote.Reprice([]quote.OptionInput{in}, older, newer, shop, terms)
		if err != nil {
			t.Fatalf("seed %d: %v", seed, err)
		}
		before, err := quote.Price([]quote.OptionInput{in}, older, terms)
		if err != nil {
			t.Fatal(err)
		}
		after, err := quote.Estimate([]quote.OptionInput{in}, newer, shop, terms)
		if err != nil {
			t.Fatal(err)
		}
		if why := repriced(got.Options[0], before.Options[0], after.Options[0]); why != "" {
			t.Fatalf("seed %d: %s", seed, why)
		}
		still, err := quote.Reprice([]quote.OptionInput{in}, older, older, shop, terms)
		if err != nil {
			t.Fatalf("seed %d: %v", seed, err)
		}
		for _, l := range still.Options[0].Lines {
			if len(l.Because) > 0 {
				t.Fatalf("seed %d: %s moved on its own sheet: %+v", seed, l.Key, l.Because)
			}
		}
	}
}

// Nothing is repriced across currencies, nor on a sheet without a price for something, which is named.
func TestSheetsThatDoNotReprice(t *testing.T) {
	older := content(t, prices)
	in := onOld(t, older, quote.OptionInput{ID: "a", Name: "a", Work: work("1.00"), Needs: needs(1, boat.Port), Library: library})
	euro := older
	euro.Currency = "EUR"
	var currency *quote.CurrencyError
	if _, err := quote.Reprice([]quote.OptionInput{in}, older, euro, shop, terms()); !errors.As(err, &currency) {
		t.Errorf("%v", err)
	}
	poor := content(t, "item,kind,unit,price\nshipwright,labour,HUR,60\n")
	var missing *sheet.MissingPriceError
	if _, err := quote.Reprice([]quote.OptionInput{in}, older, poor, shop, terms()); !errors.As(err, &missing) || len(missing.Items) != 3 {
		t.Errorf("%v", err)
	}
}

// The demo boat on both versions of its invented sheet: the account foots, something moved, and the two options
// compare to the cent.
func TestDemoRepriced(t *testing.T) {
	d, options, shop := demo(t)
	for i, o := range options {
		l, err := buy.New(o.Needs, d.Prices[0], shop)
		if err != nil {
			t.Fatal(err)
		}
		options[i].Buy = l
	}
	r, err := quote.Reprice(options, d.Prices[0], d.Prices[1], shop, d.Terms)
	if err != nil {
		t.Fatal(err)
	}
	before, err := quote.Price(options, d.Prices[0], d.Terms)
	if err != nil {
		t.Fatal(err)
	}
	after, err := quote.Estimate(options, d.Prices[1], shop, d.Terms)
	if err != nil {
		t.Fatal(err)
	}
	for i, o := range r.Options {
		if why := repriced(o, before.Options[i], after.Options[i]); why != "" || o.Total.Difference.IsZero() {
			t.Errorf("%s: %s, moved by %s", o.Name, why, o.Total.Difference)
		}
		t.Log(o.Name, account(o))
	}
	v, err := after.OwnerView()
	if err != nil {
		t.Fatal(err)
	}
	x, err := quote.Difference(v.Options[0], v.Options[1])
	if err != nil {
		t.Fatal(err)
	}
	if why := footsApart(x, v.Options[0], v.Options[1]); why != "" {
		t.Error(why)
	}
}
