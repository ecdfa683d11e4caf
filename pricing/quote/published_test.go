package quote_test

import (
	"fmt"
	"testing"

	"ribband/pricing/buy"
	"ribband/pricing/internal/published"
	"ribband/pricing/money"
	"ribband/pricing/quote"
	"ribband/pricing/sheet"
	"ribband/takeoff/notation"
	"ribband/takeoff/quantity"
	"ribband/takeoff/step"
)

// hired prices hours of trades alone: a quote whose lines are hours times rates.
func hired(t *testing.T, c money.Currency, rates, hours []string, terms quote.Terms) quote.Option {
	t.Helper()
	var rows []sheet.Row
	in := quote.OptionInput{ID: "a", Name: "Hours", Buy: buy.List{Currency: c}}
	for i := range rates {
		trade := fmt.Sprint("trade ", i)
		rows = append(rows, sheet.Row{Item: trade, Kind: "labour", Unit: "HUR", Price: rates[i]})
		in.Work = append(in.Work, step.Work{Step: step.Step{Code: fmt.Sprint("step_", i), Trade: trade}, Hours: of(hours[i], quantity.Hour)})
	}
	content, err := sheet.FromRows(c, notation.Millimetres, rows)
	if err != nil {
		t.Fatal(err)
	}
	terms.ValidDays = 30
	q, err := quote.Price([]quote.OptionInput{in}, content, terms)
	if err != nil {
		t.Fatal(err)
	}
	return q.Options[0]
}

func taxed(rate string) []quote.Tax {
	return []quote.Tax{{Category: "S", Rate: rate, Kinds: []sheet.Kind{sheet.Labour}}}
}

// OASIS, Universal Business Language 2.1 (2013): the example quotation's lines, tax and total, as hours of labour.
func TestQuotationOfUBL(t *testing.T) {
	var rates, hours []string
	rows := published.Table(t, "oasis-ubl-2013", "lines.csv")
	for _, r := range rows {
		rates, hours = append(rates, r["price"]), append(hours, r["quantity"])
	}
	o := hired(t, "DKK", rates, hours, quote.Terms{Taxes: taxed("0.25")})
	for i, r := range rows {
		if o.Lines[i].Price.String() != r["amount"] {
			t.Errorf("%s: %s, want %s", r["id"], o.Lines[i].Price, r["amount"])
		}
	}
	want := published.Table(t, "oasis-ubl-2013", "totals.csv")[0]
	if o.Net.String() != want["net"] || o.Tax.String() != want["tax"] || o.Total.String() != want["payable"] {
		t.Errorf("%s %s %s, want %v", o.Net, o.Tax, o.Total, want)
	}
}

// EN 16931 validation artefacts 1.3.16: tax once for the category, half away from zero unless the terms say otherwise.
func TestTaxOfACategory(t *testing.T) {
	for _, r := range published.Table(t, "en16931-artefacts-1.3.16", "taxes.csv") {
		if r["taxable"][0] == '-' {
			continue // a quote has no credit lines; these rows are held by package money
		}
		o := hired(t, "EUR", []string{r["taxable"]}, []string{"1.00"}, quote.Terms{Taxes: taxed(r["rate"])})
		if o.Tax.String() != r["tax"] {
			t.Errorf("%s: %s, want %s", r["id"], o.Tax, r["tax"])
		}
		if r["half_even"] != "" {
			o = hired(t, "EUR", []string{r["taxable"]}, []string{"1.00"}, quote.Terms{Taxes: taxed(r["rate"]), Rounding: money.HalfEven})
			if o.Tax.String() != r["half_even"] {
				t.Errorf("%s half even: %s, want %s", r["id"], o.Tax, r["half_even"])
			}
		}
	}
}

// engineeringtoolbox.com: markup is on cost, margin on price.
func TestMarkupIsNotMargin(t *testing.T) {
	for _, r := range published.Table(t, "markup-margin-undated", "markup.csv") {
		o := hired(t, "USD", []string{r["cost"]}, []string{"1.00"}, quote.Terms{Markup: map[sheet.Kind]string{sheet.Labour: r["markup"]}})
		if !o.Net.Decimal().Equal(dec(r["price"])) || !dec(o.Markup).Equal(dec(r["markup"])) || !dec(o.Margin).Equal(dec(r["margin"])) {
			t.Errorf("%s: price %s, markup %s, margin %s, want %v", r["id"], o.Net, o.Markup, o.Margin, r)
		}
	}
}
