package api_test

import (
	"net/http"
	"strings"
	"testing"
)

// Freight on the yard's sheet stands beside the goods of a buy list, with the days to order by, and as a line of a quote: the same
// sum to the cent.
func TestFreightFromTheSheetToTheQuote(t *testing.T) {
	d := open(t, file(t))
	at, prices := d.priced()
	prices.Items = append(prices.Items, map[string]any{"kind": "freight", "supplier": "Hollow Oak Sawmill (invented)", "unit": "C62", "price": "120.00", "free_from": "5000"},
		map[string]any{"kind": "freight", "supplier": "Hollow Oak Sawmill (invented)", "unit": "KGM", "price": "0.10"})
	d.stands(at+"3", prices)
	type amount struct{ Amount string }
	var list struct {
		Cost, Total amount
		Freight     []struct{ Cost amount }
		Cost2       amount `json:"freight_cost"`
		Orders      []struct {
			Supplier string
			OrderBy  string `json:"order_by"`
		}
		Slowest struct {
			Supplier string
			OrderBy  string `json:"order_by"`
		}
	}
	query := "?sheet=" + d.demo.Sheet + "&version=3"
	d.get(d.option(0, "buy-list") + query + "&needed=2027-03-29").want(200).into(&list)
	if len(list.Freight) != 1 || list.Cost2 != list.Freight[0].Cost || list.Total == list.Cost {
		t.Errorf("%+v", list)
	}
	if list.Slowest.OrderBy == "" || !strings.HasPrefix(list.Slowest.Supplier, "Hollow Oak") {
		t.Errorf("%+v", list.Slowest)
	}
	p := d.get(d.option(0, "buy-list")+query+"&needed=29.3.2027").refused(http.StatusBadRequest, "malformed-request")
	if len(p.Errors) != 1 || p.Errors[0].Parameter != "needed" {
		t.Errorf("%+v", p.Errors)
	}
	fields := d.quoteFields(d.demo.Options[0])
	fields["version"] = 3
	revision := d.send(http.MethodPost, d.job("quotes"), fields, d.key()).want(201).header.Get("Location") + "/revisions/1"
	answer := d.get(revision).want(200)
	if got := answer.warned(); strings.Contains(got, "freight_not_priced") {
		t.Errorf("the draft warns of %q", got)
	}
	if body := string(answer.body); !strings.Contains(body, `"general/freight/general"`) || !strings.Contains(body, `"`+list.Cost2.Amount+`"`) {
		t.Errorf("no line of freight of %s", list.Cost2.Amount)
	}
}
