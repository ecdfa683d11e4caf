package money_test

import (
	"math/big"
	"strconv"
	"strings"
	"testing"

	"ribband/pricing/internal/published"
	"ribband/pricing/money"

	"github.com/shopspring/decimal"
)

func dec(t *testing.T, text string) decimal.Decimal {
	t.Helper()
	d, err := decimal.NewFromString(text)
	if err != nil {
		t.Fatal(err)
	}
	return d
}

func amount(t *testing.T, text string, c money.Currency) money.Money {
	t.Helper()
	m, err := money.Parse(text, c)
	if err != nil {
		t.Fatal(err)
	}
	return m
}

// OASIS, Universal Business Language 2.1 (2013), example quotation.
func TestQuotationTotalsOfUBL(t *testing.T) {
	net, tax := money.Zero("DKK"), money.Zero("DKK")
	for _, r := range published.Table(t, "oasis-ubl-2013", "lines.csv") {
		line, err := amount(t, r["price"], "DKK").Times(dec(t, r["quantity"]), money.HalfUp)
		if err != nil || line != amount(t, r["amount"], "DKK") {
			t.Errorf("%s: %s (%v), want %s", r["id"], line, err, r["amount"])
		}
		on, err := line.Times(dec(t, "0.25"), money.HalfUp)
		if err != nil || on != amount(t, r["tax"], "DKK") {
			t.Errorf("%s: tax %s (%v), want %s", r["id"], on, err, r["tax"])
		}
		net, tax = add(t, net, line), add(t, tax, on)
	}
	for _, r := range published.Table(t, "oasis-ubl-2013", "totals.csv") {
		if net.String() != r["net"] || tax.String() != r["tax"] || add(t, net, tax).String() != r["payable"] {
			t.Errorf("net %s tax %s together %s, want %v", net, tax, add(t, net, tax), r)
		}
	}
}

func add(t *testing.T, a, b money.Money) money.Money {
	t.Helper()
	s, err := a.Add(b)
	if err != nil {
		t.Fatal(err)
	}
	return s
}

// EN 16931 validation artefacts 1.3.16: prices per base quantity and to four decimals.
func TestLinesOfEN16931(t *testing.T) {
	for _, r := range published.Table(t, "en16931-artefacts-1.3.16", "lines.csv") {
		x := dec(t, r["quantity"]).Mul(dec(t, r["price"])).Rat()
		got, err := money.RoundRat(x.Quo(x, dec(t, r["per"]).Rat()), "EUR", money.HalfUp)
		if err != nil || got.String() != r["amount"] {
			t.Errorf("%s: %s (%v), want %s", r["id"], got, err, r["amount"])
		}
	}
}

// EN 16931 validation artefacts 1.3.16 and Peppol BIS Billing 3 (2025): tax of a category, half away from zero.
func TestTaxesOfInvoiceStandards(t *testing.T) {
	for _, source := range []string{"en16931-artefacts-1.3.16", "peppol-bis-2025"} {
		for _, r := range published.Table(t, source, "taxes.csv") {
			base := amount(t, r["taxable"], "EUR")
			got, err := base.Times(dec(t, r["rate"]), money.HalfUp)
			if err != nil || got != amount(t, r["tax"], "EUR") {
				t.Errorf("%s: %s (%v), want %s", r["id"], got, err, r["tax"])
			}
			want := r["half_even"]
			if want == "" {
				want = r["tax"]
			}
			if got, err = base.Times(dec(t, r["rate"]), money.HalfEven); err != nil || got != amount(t, want, "EUR") {
				t.Errorf("%s half even: %s (%v), want %s", r["id"], got, err, want)
			}
		}
	}
}

// The same sources: sums that a binary float does not reach.
func TestSumsOfInvoiceStandards(t *testing.T) {
	for _, source := range []string{"en16931-artefacts-1.3.16", "peppol-bis-2025"} {
		for _, r := range published.Table(t, source, "sums.csv") {
			var terms []money.Money
			for _, x := range strings.Fields(r["terms"]) {
				terms = append(terms, amount(t, x, "EUR"))
			}
			got, err := money.Sum("EUR", terms...)
			if err != nil || got != amount(t, r["sum"], "EUR") {
				t.Errorf("%s: %s (%v), want %s", r["id"], got, err, r["sum"])
			}
		}
	}
}

// Hartnell College, Rules for rounding off; Cowlishaw, General Decimal Arithmetic testcases 2.62.
func TestRoundingRules(t *testing.T) {
	for _, r := range published.Table(t, "rounding-rules-undated", "rounding.csv") {
		x := new(big.Rat).Quo(dec(t, r["numerator"]).Rat(), dec(t, r["denominator"]).Rat())
		places, err := strconv.Atoi(r["places"])
		if err != nil {
			t.Fatal(err)
		}
		for _, mode := range []money.Mode{money.HalfUp, money.HalfEven} {
			want := r[string(mode)]
			if want == "" {
				continue
			}
			if got := mode.RoundRat(x, int32(places)); !got.Equal(dec(t, want)) {
				t.Errorf("%s: %s/%s %s gives %s, want %s", r["id"], r["numerator"], r["denominator"], mode, got, want)
			}
			if got := mode.Round(dec(t, r["numerator"]).Div(dec(t, r["denominator"])), int32(places)); !got.Equal(dec(t, want)) {
				t.Errorf("%s: decimal %s gives %s, want %s", r["id"], mode, got, want)
			}
		}
	}
}

// Documentation of moneyphp/money; Saylor Academy, Managerial Accounting (2012), section 6.3.
func TestSplitsThatArePublished(t *testing.T) {
	for _, source := range []string{"allocation-undated", "saylor-managerial-accounting-2012"} {
		for _, r := range published.Table(t, source, "split.csv") {
			var weights []decimal.Decimal
			for _, w := range strings.Fields(r["weights"]) {
				weights = append(weights, dec(t, w))
			}
			shares, err := amount(t, r["amount"], "EUR").Split(weights)
			if err != nil {
				t.Fatal(err)
			}
			var got []string
			for _, s := range shares {
				got = append(got, s.String())
			}
			if strings.Join(got, " ") != r["shares"] {
				t.Errorf("%s: %v, want %s", r["id"], got, r["shares"])
			}
		}
	}
}

// Alaska Department of Labor, percent change of an index: points over base, rounded only when shown.
func TestIndexChange(t *testing.T) {
	for _, r := range published.Table(t, "index-change-undated", "index.csv") {
		points := dec(t, r["current"]).Sub(dec(t, r["base"]))
		ratio := new(big.Rat).Quo(points.Rat(), dec(t, r["base"]).Rat())
		percent := new(big.Rat).Mul(ratio, big.NewRat(100, 1))
		if !points.Equal(dec(t, r["points"])) || !money.HalfUp.RoundRat(ratio, 7).Equal(dec(t, r["ratio"])) ||
			!money.HalfUp.RoundRat(percent, 1).Equal(dec(t, r["percent"])) {
			t.Errorf("%s: %s points, %s", r["id"], points, ratio.FloatString(7))
		}
	}
}
