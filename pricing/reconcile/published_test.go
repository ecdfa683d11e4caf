package reconcile_test

import (
	"math/big"
	"testing"

	"ribband/pricing/buy"
	"ribband/pricing/internal/published"
	"ribband/pricing/money"
	"ribband/pricing/pack"
	"ribband/pricing/quote"
	"ribband/pricing/reconcile"
	"ribband/pricing/sheet"
	"ribband/takeoff/boat"
	"ribband/takeoff/quantity"
)

// Saylor Academy, Managerial Accounting (2012), chapter 10: material of which more was bought than used, labour, and
// variable overhead. Amounts and words.
func TestVariancesOfSaylor(t *testing.T) {
	words := map[string]reconcile.Effect{"u": reconcile.Unfavourable, "f": reconcile.Favourable}
	for _, r := range published.Table(t, "saylor-standard-costs-2012", "variances.csv") {
		rat := func(column string) *big.Rat { return dec(r[column]).Rat() }
		price := reconcile.PricePart(rat("actual"), rat("bought"), rat("standard_price"))
		quantity := reconcile.QuantityPart(rat("used"), rat("allowed"), rat("standard_price"))
		if price.Cmp(rat("price_variance")) != 0 || quantity.Cmp(rat("quantity_variance")) != 0 {
			t.Errorf("%s: price %s, quantity %s; published %v", r["id"], price.RatString(), quantity.RatString(), r)
		}
		for word, part := range map[string]*big.Rat{r["price_word"]: price, r["quantity_word"]: quantity} {
			m, err := money.RoundRat(part, "USD", money.HalfUp)
			if err != nil {
				t.Fatal(err)
			}
			if got := reconcile.EffectOf(m); got != words[word] || got == "" {
				t.Errorf("%s: %s is %s, published %s", r["id"], m, got, word)
			}
		}
	}
}

// optionOf is an option of one line with a buy list in which its material is one lot of the standard quantity.
func optionOf(t *testing.T, kind, standardQuantity, standardPrice string) (quote.Option, buy.List) {
	t.Helper()
	cost, err := money.Exact(dec(standardQuantity).Mul(dec(standardPrice)), "USD")
	if err != nil {
		t.Fatal(err)
	}
	l := quote.Line{Key: "s/x/frame", Step: "s", StepName: "S", Kind: sheet.Consumable, Item: "x", MemberKind: boat.Frame, Cost: cost, Price: cost, Needs: []string{"n"}}
	list := buy.List{Currency: "USD", Shares: []buy.Share{{Line: "n", Cost: cost}}, Packs: []pack.Plan{{Item: "x", Lines: []string{"n"}, Cost: cost,
		Bought: []pack.Lot{{PackSize: standardQuantity, Unit: "LBR", Count: 1, Price: cost, Cost: cost}}}}}
	if kind == "labour" {
		l.Kind, l.Quantity, l.Rate, l.RatePer, l.Needs = sheet.Labour, of(standardQuantity, quantity.Hour), standardPrice, "1", nil
	}
	return quote.Option{Lines: []quote.Line{l}, Cost: cost, Net: cost}, list
}

// Worked exercises on material and labour, low authority: through a whole reconciliation.
func TestVarianceExercises(t *testing.T) {
	for _, r := range append(published.Table(t, "variance-exercises-undated", "variances.csv"), usedAsBought(t)...) {
		o, list := optionOf(t, r["kind"], r["standard_quantity"], r["standard_price"])
		cost := r["actual"]
		if cost == "" {
			cost = dec(r["actual_quantity"]).Mul(dec(r["actual_price"])).String()
		}
		amount, err := money.Exact(dec(cost), "USD")
		if err != nil {
			t.Fatal(err)
		}
		e := reconcile.Entry{Date: "2026-03-02", Kind: reconcile.Invoice, Supplier: "a", Document: "1", Line: "1", Item: "x", Step: "s",
			Quantity: dec(r["actual_quantity"]), Unit: "LBR", Amount: amount, Tax: money.Zero("USD")}
		if r["kind"] == "labour" {
			e.Kind, e.Unit = reconcile.Hours, "HUR"
		}
		got, err := reconcile.Reconcile(o, list, []reconcile.Entry{e})
		if err != nil {
			t.Fatal(err)
		}
		d := got.Total.Difference
		for column, m := range map[string]money.Money{"price_variance": d.Price.Amount, "quantity_variance": d.Quantity.Amount, "total": d.Amount} {
			if !m.Decimal().Equal(dec(r[column])) {
				t.Errorf("%s: %s is %s, published %s", r["id"], column, m, r[column])
			}
		}
		if !d.Unsplit.Amount.IsZero() {
			t.Errorf("%s: %s unsplit", r["id"], d.Unsplit.Amount)
		}
	}
}

// usedAsBought is the sums of Saylor's in which as much was used as bought, in the columns of the exercises.
func usedAsBought(t *testing.T) (out []map[string]string) {
	for _, r := range published.Table(t, "saylor-standard-costs-2012", "variances.csv") {
		if r["bought"] != r["used"] {
			continue
		}
		out = append(out, map[string]string{"id": r["id"], "kind": "labour", "actual_quantity": r["bought"], "actual": r["actual"],
			"standard_quantity": r["allowed"], "standard_price": r["standard_price"], "price_variance": r["price_variance"],
			"quantity_variance": r["quantity_variance"], "total": dec(r["price_variance"]).Add(dec(r["quantity_variance"])).String()})
	}
	return out
}
