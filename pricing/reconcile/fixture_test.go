package reconcile_test

import (
	"strings"
	"testing"

	"ribband/pricing/buy"
	"ribband/pricing/internal/exact"
	"ribband/pricing/money"
	"ribband/pricing/quote"
	"ribband/pricing/reconcile"
	"ribband/pricing/sheet"
	"ribband/takeoff/bill"
	"ribband/takeoff/boat"
	"ribband/takeoff/notation"
	"ribband/takeoff/quantity"
	"ribband/takeoff/step"
)

var dec, of = exact.Dec, exact.Of

func usd(s string) money.Money {
	m, err := money.Parse(s, "USD")
	if err != nil {
		panic(err)
	}
	return m
}

var replaced = step.Where{Kind: boat.Frame, Remedy: boat.ReplaceLaminated}

// library is an invented yard's.
var library = step.Library{Steps: []step.Step{
	{Code: "take_pattern", Name: "Take pattern", Trade: "shipwright", Driver: step.Patterns, Where: replaced},
	{Code: "rip_plane", Name: "Rip and plane", Trade: "machinist", Driver: step.Laminates, Where: replaced},
	{Code: "laminate", Name: "Laminate", Trade: "shipwright", Driver: step.GlueLine, Where: replaced},
}}

var job = reconcile.Job{Currency: "USD", OpenedDate: "2026-03-02", Today: "2026-03-31",
	Steps: []reconcile.KnownStep{{"take_pattern", "Take pattern"}, {"rip_plane", "Rip and plane"}, {"laminate", "Laminate"}}}

// accepted is the option that spend is held against, with its buy list. Hand-worked: 28 laminates come from a board of
// 24 board feet, 300.00; 2.40 L of epoxy from three cans of a litre, 99.99; patterns take 3.25 h at 61.55, 200.04;
// ripping 5.10 h at 48.10, 245.31. Timber is marked up by 0.20, labour by 0.35.
func accepted(t testing.TB) (quote.Option, buy.List) {
	t.Helper()
	c, err := sheet.ReadCSV([]byte(`item,kind,supplier,unit,price,per,pack_size,species,grade,thickness,width,stock_length
,timber,Sawmill,BFT,12.50,,,white_oak,select,8/4,0-8-0,18-0-0
epoxy,glue,Chandler,LTR,33.33,,1,,,,,
shipwright,labour,,HUR,61.55,,,,,,,
machinist,labour,,HUR,48.10,,,,,,,
`), "USD", notation.FeetInchesEighths)
	if err != nil {
		t.Fatal(err)
	}
	var needs []bill.Line
	for _, side := range []boat.Side{boat.Port, boat.Starboard} {
		m := boat.Member{Kind: boat.Frame, No: 1, Side: side}
		needs = append(needs,
			bill.Line{ID: m.Path() + "/laminates_timber", Material: bill.Timber, Driver: string(step.Laminates), Member: m, Remedy: boat.ReplaceLaminated,
				Pieces: &bill.Pieces{Species: "white_oak", Grade: "select", Thickness: dec("6.35"), Siding: dec("38.1"), Planing: dec("1.5875"), Length: of("2.600", quantity.Metre)},
				Net:    quantity.Count(12), Gross: quantity.Count(14)},
			bill.Line{ID: m.Path() + "/glue", Material: bill.Glue, Item: "epoxy", Driver: string(step.GlueLine), Member: m, Remedy: boat.ReplaceLaminated,
				Net: of("1.00", quantity.Litre), Gross: of("1.20", quantity.Litre)})
	}
	l, err := buy.New(needs, c, buy.Rules{Kerf: dec("3.175"), EndTrim: dec("25.4")})
	if err != nil {
		t.Fatal(err)
	}
	in := quote.OptionInput{ID: "a", Name: "Replace", Needs: needs, Buy: l, Library: library, Work: []step.Work{
		{Step: library.Steps[0], Hours: of("3.25", quantity.Hour)}, {Step: library.Steps[1], Hours: of("5.10", quantity.Hour)}}}
	q, err := quote.Price([]quote.OptionInput{in}, c, quote.Terms{ValidDays: 30, Markup: map[sheet.Kind]string{sheet.Timber: "0.20", sheet.Labour: "0.35"}})
	if err != nil {
		t.Fatal(err)
	}
	return q.Options[0], l
}

const header = "date,kind,supplier,document,line,item,description,quantity,unit,amount,currency,tax,step,author\n"

// posted reads rows that hold no faults.
func posted(t testing.TB, rows string) []reconcile.Entry {
	t.Helper()
	in := reconcile.ReadCSV([]byte(header+strings.TrimLeft(rows, "\n")), job, nil)
	if err := in.Err(); err != nil {
		t.Fatal(err)
	}
	return entries(in)
}

func entries(in reconcile.Import) []reconcile.Entry {
	var out []reconcile.Entry
	for _, n := range in.Good {
		out = append(out, n.Entry)
	}
	return out
}
