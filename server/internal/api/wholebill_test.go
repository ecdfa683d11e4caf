package api_test

import (
	"bytes"
	"net/http"
	"strconv"
	"testing"

	"github.com/shopspring/decimal"
)

// wholeList is a buy list with all that adds up in it.
type wholeList struct {
	Cost, Bound, Total amount
	FreightCost        amount `json:"freight_cost"`
	TotalBound         amount `json:"total_bound"`
	ScarfLabour        amount `json:"scarf_labour"`
	Timber             []struct {
		Cost, Bound amount
		Proven      bool
		Boards      []struct{ Cost amount }
	}
	Packs []struct {
		Item        string
		Cost, Bound amount
		Proven      bool
		Bought      []struct {
			Count       int64
			Unit, Width string
			Cost        amount
		}
		Sheets *struct {
			Least   amount
			Layouts []struct{}
		}
	}
	Shares []struct{ Cost amount }
	Orders []struct {
		Cost    amount
		Freight *struct{ Cost amount }
	}
	Freight []struct {
		Lines []struct {
			Unit string
			Free bool
		}
	}
}

// adds holds that all parts of a list come to its sums, and that no floor is above what it is of.
func (l wholeList) adds(t *testing.T) {
	t.Helper()
	var boards, groups, shares, orders, freight decimal.Decimal
	for _, g := range l.Timber {
		groups = groups.Add(g.Cost.Amount)
		for _, b := range g.Boards {
			boards = boards.Add(b.Cost.Amount)
		}
		if g.Proven && g.Bound.Amount.LessThan(g.Cost.Amount) {
			t.Errorf("boards for %s proved above %s", g.Cost.Amount, g.Bound.Amount)
		}
	}
	for _, p := range l.Packs {
		groups = groups.Add(p.Cost.Amount)
		for _, b := range p.Bought {
			boards = boards.Add(b.Cost.Amount)
		}
		if p.Bound.Amount.GreaterThan(p.Cost.Amount) || p.Proven != p.Bound.Amount.Equal(p.Cost.Amount) {
			t.Errorf("%s for %s, none below %s, proven %t", p.Item, p.Cost.Amount, p.Bound.Amount, p.Proven)
		}
		if p.Sheets != nil && p.Bound.Amount.GreaterThan(p.Sheets.Least.Amount) {
			t.Errorf("%s: none below %s, its lists below %s", p.Item, p.Bound.Amount, p.Sheets.Least.Amount)
		}
	}
	for _, s := range l.Shares {
		shares = shares.Add(s.Cost.Amount)
	}
	for _, o := range l.Orders {
		orders = orders.Add(o.Cost.Amount)
		if o.Freight != nil {
			freight = freight.Add(o.Freight.Cost.Amount)
		}
	}
	for what, sum := range map[string]decimal.Decimal{"boards and packs": boards, "groups": groups, "shares": shares, "orders": orders} {
		if !sum.Equal(l.Cost.Amount) {
			t.Errorf("%s come to %s of %s", what, sum, l.Cost.Amount)
		}
	}
	if !freight.Equal(l.FreightCost.Amount) || !l.Cost.Amount.Add(freight).Equal(l.Total.Amount) {
		t.Errorf("freight of the orders is %s, of the list %s; %s with goods of %s", freight, l.FreightCost.Amount, l.Total.Amount, l.Cost.Amount)
	}
	if all := l.ScarfLabour.Amount; l.Bound.Amount.GreaterThan(l.Cost.Amount.Add(all)) || l.TotalBound.Amount.GreaterThan(l.Total.Amount.Add(all)) || l.TotalBound.Amount.LessThan(l.Bound.Amount) {
		t.Errorf("goods %s above %s, delivered %s above %s", l.Cost.Amount, l.Bound.Amount, l.Total.Amount, l.TotalBound.Amount)
	}
}

// A whole stored bill off prices with all that a sheet can say: boards, cans in two sizes, pattern stock by the piece at two
// quantities or off a roll by the metre, freight by the order, by measure and by weight with sums that bring it for nothing. Every part comes to
// the sums to the cent, no floor is above its plan, the quote has the list's money and the hours at their rates, and what is stored is
// what is worked out afresh.
func TestAWholeBillComesToTheCent(t *testing.T) {
	engines(t, func(t *testing.T, p place) {
		d := open(t, p)
		at, prices := d.priced()
		mill, chandler := "Hollow Oak Sawmill (invented)", "Saltpan Chandlery (invented)"
		var rest []map[string]any
		for _, it := range prices.Items {
			if it["item"] != "pattern_ply" {
				rest = append(rest, it)
			}
		}
		rest = append(rest, map[string]any{"kind": "freight", "supplier": mill, "unit": "C62", "price": "120.00", "free_from": "9000"},
			map[string]any{"kind": "freight", "supplier": mill, "unit": "BFT", "price": "0.13"},
			map[string]any{"kind": "freight", "supplier": chandler, "unit": "KGM", "price": "0.37"},
			map[string]any{"kind": "freight", "supplier": chandler, "unit": "C62", "price": "45.00", "free_from": "700"})
		ply := map[string]any{"item": "pattern_ply", "kind": "consumable", "supplier": chandler, "unit": "C62", "price": "26.90", "width": "4-0-0", "stock_length": "8-0-0"}
		many := map[string]any{"item": "pattern_ply", "kind": "consumable", "supplier": chandler, "unit": "C62", "price": "24.10", "width": "4-0-0", "stock_length": "8-0-0", "min_qty": "6"}
		film := map[string]any{"item": "pattern_ply", "kind": "consumable", "supplier": chandler, "unit": "MTR", "price": "6.15", "pack_size": "0.5", "width": "4-6-0"}
		d.stands(at+"3", prices.with(append(append([]map[string]any{}, rest...), ply, many)...))
		d.stands(at+"4", prices.with(append(append([]map[string]any{}, rest...), film)...))
		for _, version := range []int{3, 4} {
			for i := range d.demo.Options {
				if testing.Short() && i > 0 {
					break
				}
				d.wholeBill(i, version)
			}
		}
	})
}

// wholeBill quotes an option of the demo on a version and holds its list, its draft and its issued revision to each other.
func (d *desk) wholeBill(option, version int) {
	t := d.t.(*testing.T)
	query := "?sheet=" + d.demo.Sheet + "&version=" + strconv.Itoa(version)
	var list wholeList
	answer := d.get(d.option(option, "buy-list") + query).want(200)
	answer.into(&list)
	list.adds(t)
	if again := d.get(d.option(option, "buy-list") + query).want(200); !bytes.Equal(again.body, answer.body) {
		t.Error("the same list twice differs")
	}
	laid := false
	for _, p := range list.Packs {
		for _, b := range p.Bought {
			laid = laid || p.Item == "pattern_ply" && p.Sheets != nil && b.Width != "" && b.Unit == map[int]string{3: "C62", 4: "MTR"}[version]
		}
	}
	if !laid {
		t.Errorf("version %d: pattern stock is not laid out: %+v", version, list.Packs)
	}
	fields := d.quoteFields(d.demo.Options[option])
	fields["version"] = version
	revision := d.send(http.MethodPost, d.job("quotes"), fields, d.key()).want(201).header.Get("Location") + "/revisions/1"
	draft, goods, freight := quotedWhole(t, d.get(revision).want(200))
	if !goods.Equal(list.Cost.Amount) || !freight.Equal(list.FreightCost.Amount) {
		t.Errorf("quoted %s of goods and %s of freight, bought %s and %s", goods, freight, list.Cost.Amount, list.FreightCost.Amount)
	}
	d.send(http.MethodPost, revision+"/issue", nil, d.key()).want(200)
	if issued, _, _ := quotedWhole(t, d.get(revision).want(200)); !issued.Equal(draft) {
		t.Errorf("issued %s, before %s", issued, draft)
	}
	var same repriced
	d.get(revision + "/repriced" + query).want(200).into(&same)
	if o := same.Options[0]; !o.Total.Difference.Amount.IsZero() || !o.Total.Old.Amount.Equal(draft) {
		t.Errorf("on its own prices %+v, quoted %s", o.Total, draft)
	}
}

// quotedWhole is the total of a revision's only option, with the cost of its goods and of its freight; hours are held to their rates, and
// lines to the sums.
func quotedWhole(t *testing.T, a answer) (total, goods, freight decimal.Decimal) {
	t.Helper()
	var quoted struct {
		Priced struct {
			Options []struct {
				Cost, Net, Tax, Total amount
				Lines                 []struct {
					Kind, Rate  string
					RatePer     string `json:"rate_per"`
					Quantity    struct{ Value decimal.Decimal }
					Cost, Price amount
				}
			}
		}
	}
	a.into(&quoted)
	o := quoted.Priced.Options[0]
	var cost, net decimal.Decimal
	for _, l := range o.Lines {
		cost, net = cost.Add(l.Cost.Amount), net.Add(l.Price.Amount)
		switch l.Kind {
		case "labour":
			rate := decimal.RequireFromString(l.Rate).Div(decimal.RequireFromString(l.RatePer))
			if want := l.Quantity.Value.Mul(rate).Round(2); !want.Equal(l.Cost.Amount) {
				t.Errorf("%s h at %s are %s, not %s", l.Quantity.Value, l.Rate, want, l.Cost.Amount)
			}
		case "freight":
			freight = freight.Add(l.Cost.Amount)
		default:
			goods = goods.Add(l.Cost.Amount)
		}
	}
	if !cost.Equal(o.Cost.Amount) || !net.Equal(o.Net.Amount) || !net.Add(o.Tax.Amount).Equal(o.Total.Amount) {
		t.Errorf("lines come to %s and %s, told %s, %s, %s and %s", cost, net, o.Cost.Amount, o.Net.Amount, o.Tax.Amount, o.Total.Amount)
	}
	return o.Total.Amount, goods, freight
}
