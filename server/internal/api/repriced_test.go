package api_test

import (
	"net/http"
	"strings"
	"testing"

	"github.com/shopspring/decimal"

	"ribband/seed"
)

type moved struct{ Old, New, Difference amount }

type repriced struct {
	Options []struct {
		ID    string
		Lines []struct {
			Key         string
			Cost, Price moved
			Because     []struct {
				Reason, Detail string
				Cost, Price    amount
			}
		}
		Cost, Net, Tax, Total moved
	}
}

// A quote on other prices: every line says what moved it, and all of it adds to the cent.
func TestAQuoteOnOtherPrices(t *testing.T) {
	engines(t, func(t *testing.T, p place) {
		d := open(t, p)
		before := d.rows()
		query := "/repriced?sheet=" + d.demo.Sheet + "&version=1"
		var frozen repriced
		d.get(d.estimate(1) + query).want(200).into(&frozen)
		accounts(t, frozen)
		var same repriced
		d.get(d.estimate(1) + "/repriced?sheet=" + d.demo.Sheet + "&version=2").want(200).into(&same)
		for _, o := range same.Options {
			if !o.Total.Difference.Amount.IsZero() {
				t.Errorf("on its own prices the quote moves by %s", o.Total.Difference.Amount)
			}
		}
		if after := d.rows(); !equal(before, after) {
			t.Errorf("repricing stored something: %v, then %v", before, after)
		}
		// A draft over the same documents moves alike.
		_, draft := d.draft(d.demo.Options...)
		var open repriced
		d.get(draft + query).want(200).into(&open)
		for i, o := range open.Options {
			if !o.Cost.Difference.Amount.Equal(frozen.Options[i].Cost.Difference.Amount) {
				t.Errorf("the draft's cost moves by %s, the issued one's by %s", o.Cost.Difference.Amount, frozen.Options[i].Cost.Difference.Amount)
			}
		}
		accounts(t, open)
	})
}

// accounts checks that reasons add to lines and lines to totals.
func accounts(t *testing.T, r repriced) {
	t.Helper()
	if len(r.Options) != 2 {
		t.Fatalf("%d options", len(r.Options))
	}
	for _, o := range r.Options {
		var cost, price decimal.Decimal
		for _, l := range o.Lines {
			var c, p decimal.Decimal
			for _, b := range l.Because {
				c, p = c.Add(b.Cost.Amount), p.Add(b.Price.Amount)
				if b.Detail == "" {
					t.Errorf("line %s: %s says nothing", l.Key, b.Reason)
				}
			}
			if !c.Equal(l.Cost.Difference.Amount) || !p.Equal(l.Price.Difference.Amount) {
				t.Errorf("line %s: the reasons add to %s and %s, it moves by %s and %s", l.Key, c, p, l.Cost.Difference.Amount, l.Price.Difference.Amount)
			}
			cost, price = cost.Add(l.Cost.Difference.Amount), price.Add(l.Price.Difference.Amount)
		}
		if cost.IsZero() || !cost.Equal(o.Cost.Difference.Amount) || !price.Equal(o.Net.Difference.Amount) ||
			!price.Add(o.Tax.Difference.Amount).Equal(o.Total.Difference.Amount) {
			t.Errorf("option %s: the lines add to %s and %s, it shows %+v", o.ID, cost, price, o)
		}
	}
}

func TestPricesAQuoteCannotBePutOn(t *testing.T) {
	d := open(t, file(t))
	d.get(d.estimate(1, "repriced")).refused(400, "malformed-request")
	d.get(d.estimate(1, "repriced")+"?sheet="+nobody+"&version=1").refused(404, "not-found")

	// A draft, a sheet without what is needed, and one in another currency.
	sheet := d.newSheet()
	d.send(http.MethodPut, sheet+"/versions/1", "item,kind,unit,price\nshipwright,labour,HUR,48.50\n", asCSV, firstPut).want(201)
	at := d.estimate(1, "repriced") + "?version=1&sheet=" + id(sheet)
	d.get(at).refused(409, "not-published")
	d.send(http.MethodPost, sheet+"/versions/1/publish", nil, d.key()).want(200)
	p := d.get(at).refused(422, "prices-missing")
	if len(p.Errors) != 4 { // oak, epoxy, pattern plywood and the yard hand's hour, each once for both options
		t.Errorf("missing are %+v", p.Errors)
	}
	scarce := d.newSheet()
	one := strings.ReplaceAll(string(seed.PricesCSV(2)), "2027-12-31,\n", "2027-12-31,1\n") // one of each is for sale
	d.send(http.MethodPut, scarce+"/versions/1", one, asCSV, firstPut).want(201)
	d.send(http.MethodPost, scarce+"/versions/1/publish", nil, d.key()).want(200)
	if p := d.get(d.estimate(1, "repriced")+"?version=1&sheet="+id(scarce)).refused(409, "cannot-be-computed"); len(p.Errors) < 2 {
		t.Errorf("too little is for sale, and the faults are %+v", p.Errors)
	}
	foreign := d.send(http.MethodPost, "/api/v1/price-sheets", map[string]any{"name": "Theirs", "currency": "EUR", "notation": "feet_inches_eighths"}, d.key()).want(201).header.Get("Location")
	d.send(http.MethodPut, foreign+"/versions/1", seed.PricesCSV(1), asCSV, firstPut).want(201)
	d.send(http.MethodPost, foreign+"/versions/1/publish", nil, d.key()).want(200)
	if p := d.get(d.estimate(1, "repriced")+"?version=1&sheet="+id(foreign)).refused(409, "currencies-differ"); !strings.Contains(p.Detail, "EUR") || !strings.Contains(p.Detail, "USD") {
		t.Errorf("the answer is %q", p.Detail)
	}
}
