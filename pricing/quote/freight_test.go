package quote_test

import (
	"strings"
	"testing"

	"ribband/pricing/buy"
	"ribband/pricing/quote"
	"ribband/pricing/sheet"
	"ribband/takeoff/boat"
)

// What suppliers ask for bringing is a line of its own, marked up and taxed by its kind; the option foots to the cent with it. On
// another version without it, or with more of it, the line says so, and the differences add up.
func TestFreightReachesTheQuote(t *testing.T) {
	without := content(t, prices)
	with, err := sheet.FromRows(without.Currency, without.Notation, append(without.Document().Items,
		sheet.Row{Kind: "freight", Supplier: without.Items[0].Supplier, Unit: "C62", Price: "45.55"}))
	if err != nil {
		t.Fatal(err)
	}
	terms := terms()
	terms.Markup[sheet.Freight] = "0.10"
	terms.Taxes = append(terms.Taxes, quote.Tax{Category: "Carriage", Rate: "0.05", Kinds: []sheet.Kind{sheet.Freight}})
	bare := quote.OptionInput{ID: "a", Name: "Replace two", Work: work("3.25", "5.10"), Needs: needs(1, boat.Port), Library: library}
	in := onOld(t, with, bare)
	if in.Buy.FreightCost.String() != "45.55" || len(in.Buy.Freight) != 1 {
		t.Fatalf("%+v", in.Buy.Freight)
	}
	q, err := quote.Price([]quote.OptionInput{in}, with, terms)
	if err != nil {
		t.Fatal(err)
	}
	if why := foots(q.Options[0], in, terms); why != "" {
		t.Error(why)
	}
	lines := q.Options[0].Lines
	last := lines[len(lines)-1]
	// 45.55 with a tenth is 50.105, 50.11
	if last.Kind != sheet.Freight || last.Key != "general/freight/general" || last.Cost.String() != "45.55" || last.Price.String() != "50.11" || strings.Join(last.Taxes, " ") != "Carriage" {
		t.Errorf("%+v", last)
	}
	owner, err := q.OwnerView()
	if err != nil {
		t.Fatal(err)
	}
	for _, s := range owner.Options[0].Steps {
		for _, l := range s.Lines {
			if strings.Contains(l.Item, without.Items[0].Supplier) {
				t.Errorf("the owner is told the supplier: %+v", l)
			}
		}
	}
	for _, x := range []struct {
		from, to sheet.Content
		in       quote.OptionInput
		moved    string
	}{{with, without, in, "-45.55"}, {without, with, onOld(t, without, bare), "45.55"}} {
		r, err := quote.Reprice([]quote.OptionInput{x.in}, x.from, x.to, shop, terms)
		if err != nil {
			t.Fatal(err)
		}
		o := r.Options[0]
		sum := int64(0)
		for _, l := range o.Lines {
			sum += l.Cost.Difference.Minor()
			if l.Kind == sheet.Freight && (l.Cost.Difference.String() != x.moved || len(l.Because) != 1 || l.Because[0].Reason != quote.ByFreight) {
				t.Errorf("%+v", l)
			}
		}
		if sum != o.Cost.Difference.Minor() || o.Cost.Difference.String() != x.moved {
			t.Errorf("lines move by %d, the option by %s", sum, o.Cost.Difference)
		}
	}
	// the buy list and the quote are of one plan
	if l, err := buy.New(bare.Needs, with, shop); err != nil || l.Total != in.Buy.Total {
		t.Errorf("%s, %v", l.Total, err)
	}
}
