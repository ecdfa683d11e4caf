package quote_test

import (
	"encoding/json"
	"errors"
	"fmt"
	"strings"
	"testing"

	"ribband/pricing/buy"
	"ribband/pricing/internal/exact"
	"ribband/pricing/money"
	"ribband/pricing/quote"
	"ribband/pricing/sheet"
	"ribband/takeoff/bill"
	"ribband/takeoff/boat"
	"ribband/takeoff/notation"
	"ribband/takeoff/quantity"
	"ribband/takeoff/step"

	"github.com/google/go-cmp/cmp"
)

var dec, of = exact.Dec, exact.Of

var replaced = step.Where{Kind: boat.Frame, Remedy: boat.ReplaceLaminated}

// library is an invented yard's.
var library = step.Library{Steps: []step.Step{
	{Code: "take_pattern", Name: "Take pattern", Trade: "shipwright", Driver: step.Patterns, Where: replaced},
	{Code: "rip_plane", Name: "Rip and plane", Trade: "machinist", Driver: step.Laminates, Where: replaced},
	{Code: "laminate", Name: "Laminate", Trade: "shipwright", Driver: step.GlueLine, Where: replaced},
	{Code: "fit", Name: "Fit and fasten", Trade: "shipwright", Driver: step.Frames, Where: replaced},
}}

func work(hours ...string) []step.Work {
	var out []step.Work
	for i, h := range hours {
		out = append(out, step.Work{Step: library.Steps[i], Hours: of(h, quantity.Hour), Figure: "step/" + library.Steps[i].Code + "/hours"})
	}
	return out
}

// needs of one frame: 12 laminates of which two more are bought, glue and pattern stock.
func needs(no int, side boat.Side) []bill.Line {
	m := boat.Member{Kind: boat.Frame, No: no, Side: side}
	return []bill.Line{
		{ID: m.Path() + "/laminates_timber", Material: bill.Timber, Driver: string(step.Laminates), Member: m, Remedy: boat.ReplaceLaminated,
			Pieces: &bill.Pieces{Species: "white_oak", Grade: "select", Thickness: dec("6.35"), Siding: dec("38.1"), Planing: dec("1.5875"), Length: of("2.600", quantity.Metre)},
			Net:    quantity.Count(12), Gross: quantity.Count(14)},
		{ID: m.Path() + "/glue", Material: bill.Glue, Item: "epoxy", Driver: string(step.GlueLine), Member: m, Remedy: boat.ReplaceLaminated,
			Net: of("1.00", quantity.Litre), Gross: of("1.20", quantity.Litre)},
		{ID: m.Path() + "/pattern", Material: bill.Pattern, Item: "ply", Driver: string(step.Patterns), Member: m, Remedy: boat.ReplaceLaminated,
			Net: of("1.100", quantity.SquareMetre), Gross: of("1.100", quantity.SquareMetre)},
	}
}

const prices = `item,kind,supplier,unit,price,per,pack_size,species,grade,thickness,width,stock_length
,timber,Hidden Sawmill,BFT,12.50,,,white_oak,select,8/4,0-8-0,18-0-0
epoxy,glue,Hidden Chandler,LTR,33.33,,1,,,,,
ply,consumable,Hidden Chandler,MTK,9.20,,3,,,,,
shipwright,labour,,HUR,61.55,,,,,,,
machinist,labour,,HUR,48.10,,,,,,,
`

func content(t testing.TB, table string) sheet.Content {
	t.Helper()
	c, err := sheet.ReadCSV([]byte(table), "USD", notation.FeetInchesEighths)
	if err != nil {
		t.Fatal(err)
	}
	return c
}

var shop = buy.Rules{Kerf: dec("3.175"), EndTrim: dec("25.4")}

func terms() quote.Terms {
	return quote.Terms{
		Markup:    map[sheet.Kind]string{sheet.Timber: "0.20", sheet.Glue: "0.155", sheet.Labour: "0.35"},
		Taxes:     []quote.Tax{{Category: "Sales tax", Rate: "0.0625", Kinds: []sheet.Kind{sheet.Timber, sheet.Glue, sheet.Consumable}}},
		ValidDays: 30, RangeLow: "0.10", RangeHigh: "0.25", Text: "Half on order.",
	}
}

// Hand-worked. 28 laminates of two frames take one board of 18 ft, 24 board feet, 300.00; with 20 % 360.00. 2.40 L of
// epoxy are three cans, 99.99; with 15.5 % 115.48845, 115.49. 2.2 m2 of ply are one sheet of 3 m2, 27.60, no markup.
// Taking patterns 3.25 h x 61.55 = 200.0375, 200.04; with 35 % 270.054, 270.05. Ripping 5.10 h x 48.10 = 245.31;
// 331.1685, 331.17. Net 1104.31, of which 503.09 are taxed at 6.25 %: 31.443125, 31.44. Total 1135.75; less 10 %
// 1022.175, 1022.18; and 25 % 1419.6875, 1419.69.
func TestQuoteWorkedByHand(t *testing.T) {
	c := content(t, prices)
	in := quote.OptionInput{ID: "a", Name: "Replace two", Work: work("3.25", "5.10"), Needs: append(needs(1, boat.Port), needs(1, boat.Starboard)...), Library: library}
	q, err := quote.Estimate([]quote.OptionInput{in}, c, shop, terms())
	if err != nil {
		t.Fatal(err)
	}
	o := q.Options[0]
	var got []string
	for _, l := range o.Lines {
		got = append(got, fmt.Sprintf("%s %s %s %s %s %v", l.Key, l.Kind, l.Quantity, l.Cost, l.Price, l.Taxes))
	}
	want := []string{
		"take_pattern/shipwright/frame labour 3.25 200.04 270.05 []",
		"take_pattern/ply/frame consumable 2.200 27.60 27.60 [Sales tax]",
		"rip_plane/machinist/frame labour 5.10 245.31 331.17 []",
		"rip_plane/white_oak select/frame timber 24 300.00 360.00 [Sales tax]",
		"laminate/epoxy/frame glue 2.00 99.99 115.49 [Sales tax]",
	}
	if d := cmp.Diff(want, got); d != "" {
		t.Error(d)
	}
	sums := []string{o.Cost.String(), o.Net.String(), o.Taxes[0].Base.String(), o.Tax.String(), o.Total.String(), o.Low.String(), o.High.String(),
		o.Hours.String(), o.Markup, o.Margin}
	// (1104.31 - 872.94) / 872.94 = 0.265047; / 1104.31 = 0.209515.
	if d := cmp.Diff([]string{"872.94", "1104.31", "503.09", "31.44", "1135.75", "1020.00", "1420.00", "8.35", "0.2650", "0.2095"}, sums); d != "" {
		t.Error(d)
	}
	if q.RangeLow != "0.10" || q.RangeHigh != "0.25" || q.Rounding != money.HalfUp || q.Currency != "USD" {
		t.Errorf("%+v", q)
	}
}

// Options share the keys of their lines, so that they stand side by side.
func TestOptionsCompareByKey(t *testing.T) {
	c := content(t, prices)
	one := quote.OptionInput{ID: "a", Name: "One frame", Work: work("1.00", "2.00"), Needs: needs(1, boat.Port), Library: library}
	two := quote.OptionInput{ID: "b", Name: "Two", Work: work("2.00", "4.00", "3.00"), Needs: append(needs(1, boat.Port), needs(2, boat.Port)...), Library: library}
	q, err := quote.Estimate([]quote.OptionInput{one, two, {ID: "c", Name: "Leave all", Library: library}}, c, shop, terms())
	if err != nil {
		t.Fatal(err)
	}
	sums := make([]int64, 3)
	keys := map[string]bool{}
	for _, r := range q.Comparison {
		if keys[r.Key] || len(r.Prices) != 3 {
			t.Errorf("%+v", r)
		}
		keys[r.Key] = true
		for i, p := range r.Prices {
			sums[i] += p.Minor()
		}
	}
	for i, o := range q.Options {
		if sums[i] != o.Net.Minor() {
			t.Errorf("option %s compares at %d and costs %s", o.Name, sums[i], o.Net)
		}
	}
	if len(q.Comparison) != 6 || !q.Options[2].Total.IsZero() || q.Options[2].Margin != "0.0000" {
		t.Errorf("%d keys, nothing done at %s", len(q.Comparison), q.Options[2].Total)
	}
}

// The owner's view holds selling prices and nothing that shows cost, wage, markup, margin or supplier.
func TestOwnerSeesSellingPricesOnly(t *testing.T) {
	in := quote.OptionInput{ID: "a", Name: "Replace", Work: work("3.25", "5.10", "2.00"), Needs: append(needs(1, boat.Port), needs(1, boat.Starboard)...), Library: library}
	q, err := quote.Estimate([]quote.OptionInput{in}, content(t, prices), shop, terms())
	if err != nil {
		t.Fatal(err)
	}
	v, err := q.OwnerView()
	if err != nil {
		t.Fatal(err)
	}
	b, err := json.Marshal(v)
	if err != nil {
		t.Fatal(err)
	}
	for _, secret := range []string{"cost", "markup", "margin", "wage", "supplier", "Hidden", "61.55", "48.10", "12.50", "33.33", `"0.35"`, "0.155", "unit_price",
		"offer", q.Options[0].Cost.String(), "200.04", "245.31", "300.00", "99.99", q.Options[0].Markup, q.Options[0].Margin} {
		if strings.Contains(string(b), secret) {
			t.Errorf("the owner sees %q in %s", secret, b)
		}
	}
	var steps, lines int64
	for _, s := range v.Options[0].Steps {
		steps += s.Price.Minor()
		for _, l := range s.Lines {
			lines += l.Price.Minor()
		}
	}
	if o := q.Options[0]; steps != o.Net.Minor() || lines != steps || v.Options[0].Total != o.Total || len(v.Options[0].Steps) != 3 || len(v.Comparison) != 3 {
		t.Errorf("steps %d, lines %d, net %s: %s", steps, lines, o.Net, b)
	}
}

func TestAllMissingPricesAtOnce(t *testing.T) {
	c := content(t, "item,kind,unit,price\nshipwright,labour,HUR,60\n")
	a := quote.OptionInput{ID: "a", Name: "A", Work: work("1.00", "1.00"), Needs: needs(1, boat.Port), Library: library}
	teak := needs(2, boat.Port)
	teak[0].Pieces.Species = "teak"
	b := quote.OptionInput{ID: "b", Name: "B", Work: work("1.00", "1.00"), Needs: teak, Library: library}
	_, err := quote.Estimate([]quote.OptionInput{a, b}, c, shop, terms())
	var missing *sheet.MissingPriceError
	if !errors.As(err, &missing) {
		t.Fatal(err)
	}
	var got []string
	for _, m := range missing.Items {
		got = append(got, fmt.Sprintf("%s %s", m.Kind, m.Item))
	}
	want := []string{"timber white_oak select", "glue epoxy", "consumable ply", "timber teak select", "labour machinist"}
	if d := cmp.Diff(want, got); d != "" {
		t.Error(d)
	}
	for _, name := range want {
		if _, item, _ := strings.Cut(name, " "); !strings.Contains(err.Error(), item) {
			t.Errorf("%v does not name %s", err, item)
		}
	}
}

func TestCurrenciesAgree(t *testing.T) {
	c := content(t, prices)
	var differ *quote.CurrencyError
	if err := quote.SameCurrency("EUR", c); !errors.As(err, &differ) {
		t.Error(err)
	}
	if err := quote.SameCurrency("USD", c); err != nil {
		t.Error(err)
	}
	l, err := buy.New(needs(1, boat.Port), c, shop)
	if err != nil {
		t.Fatal(err)
	}
	in := quote.OptionInput{ID: "a", Needs: needs(1, boat.Port), Buy: l, Library: library}
	var basis *quote.BasisError
	c.Currency = "EUR"
	if _, err := quote.Price([]quote.OptionInput{in}, c, terms()); !errors.As(err, &basis) {
		t.Errorf("a buy list in dollars on a sheet in euros: %v", err)
	}
	c.Currency = "USD"
	for name, spoil := range map[string]func(*quote.OptionInput){
		"another option's buy list": func(o *quote.OptionInput) { o.Needs = needs(2, boat.Port) },
		"no buy list":               func(o *quote.OptionInput) { o.Buy = buy.List{Currency: "USD"} },
		"a step twice":              func(o *quote.OptionInput) { o.Work = append(work("1.00"), work("1.00")...) },
	} {
		o := in
		spoil(&o)
		if _, err := quote.Price([]quote.OptionInput{o}, c, terms()); !errors.As(err, &basis) {
			t.Errorf("%s: %v", name, err)
		}
	}
	if _, err := quote.Price(nil, c, terms()); !errors.As(err, &basis) {
		t.Errorf("no option: %v", err)
	}
	if _, err := quote.Price([]quote.OptionInput{in, in}, c, terms()); !errors.As(err, &basis) {
		t.Errorf("an option twice: %v", err)
	}
}

// What no step of the library uses up still stands in the quote, last.
func TestMaterialWithoutAStep(t *testing.T) {
	n := needs(1, boat.Port)
	n[1].Driver = "nothing counts this"
	q, err := quote.Estimate([]quote.OptionInput{{ID: "a", Name: "A", Needs: n, Library: library}}, content(t, prices), shop, terms())
	if err != nil {
		t.Fatal(err)
	}
	if l := q.Options[0].Lines[1]; l.Species != "white_oak" || l.Grade != "select" {
		t.Errorf("%+v", l)
	}
	if l := q.Options[0].Lines[2]; l.Key != "general/epoxy/frame" || l.Cost.IsZero() {
		t.Errorf("%+v", l)
	}
}
