package api_test

import (
	"bytes"
	"net/http"
	"strings"
	"testing"

	"ribband/seed"
)

// newSheet is the address of a price sheet without prices.
func (d *desk) newSheet() string {
	d.t.Helper()
	fields := map[string]any{"name": "Invented prices", "currency": "USD", "notation": "feet_inches_eighths"}
	return d.send(http.MethodPost, "/api/v1/price-sheets", fields, d.key()).want(201).header.Get("Location")
}

func TestPricesAreDraftedAndPublished(t *testing.T) {
	engines(t, func(t *testing.T, p place) {
		d := open(t, p)
		sheet := d.newSheet()
		// The draft is there from the beginning, without prices, and is not published before it has some.
		empty := d.get(sheet + "/versions/1").want(200)
		if got, want := string(empty.body), `{"currency":"USD","notation":"feet_inches_eighths","items":[]}`; got != want || empty.etag() != `"0"` {
			t.Errorf("the empty draft is %s %s, want %s", empty.etag(), got, want)
		}
		if table := string(d.get(sheet+"/versions/1", wantCSV).want(200).body); !strings.HasPrefix(table, "item,") || strings.Count(table, "\n") != 1 {
			t.Errorf("the empty draft as a table is %q", table)
		}
		refused := d.send(http.MethodPost, sheet+"/versions/1/publish", nil, d.key()).refused(409, "documents-missing")
		if !strings.Contains(refused.Detail, "has no prices yet") {
			t.Errorf("the refusal says %q", refused.Detail)
		}
		d.get(sheet+"/versions/2").refused(404, "not-found")
		d.send(http.MethodPost, sheet+"/versions/2/publish", nil, d.key()).refused(404, "not-found")
		d.get(d.option(0, "buy-list")+"?sheet="+id(sheet)+"&version=1").refused(409, "not-published")
		d.get(d.option(0, "ripping-list.svg")+"?sheet="+id(sheet)+"&version=1").refused(409, "not-published")
		d.get(d.option(0, "rack-after")+"?sheet="+id(sheet)+"&version=1").refused(409, "not-published")
		d.get(d.option(0, "buy-list")+"?sheet="+id(sheet)+"&version=2").refused(404, "not-found")
		d.send(http.MethodPut, sheet+"/versions/1", seed.PricesCSV(1), asCSV, seen(`"1"`)).refused(412, "version-stale")
		first := d.send(http.MethodPut, sheet+"/versions/1", seed.PricesCSV(1), asCSV, seen(empty.etag())).want(201)
		d.send(http.MethodPut, sheet+"/versions/1", seed.PricesCSV(1), asCSV, seen(empty.etag())).refused(412, "version-stale")
		second := d.send(http.MethodPut, sheet+"/versions/1", first.body, seen(first.etag())).want(200)
		if !bytes.Equal(first.body, second.body) {
			t.Error("the JSON of the table put again is another")
		}
		d.send(http.MethodPut, sheet+"/versions/2", first.body, firstPut).refused(409, "version-out-of-order")
		d.get(d.option(0, "buy-list")+"?sheet="+id(sheet)+"&version=1").refused(409, "not-published")

		key := d.key()
		published := d.send(http.MethodPost, sheet+"/versions/1/publish", nil, key).want(200)
		if again := d.send(http.MethodPost, sheet+"/versions/1/publish", nil, key).want(200); !bytes.Equal(again.body, published.body) {
			t.Error("the repeat is answered with other bytes")
		}
		d.send(http.MethodPost, sheet+"/versions/1/publish", nil, d.key()).refused(409, "already-published")
		d.send(http.MethodPost, sheet+"/versions/1/publish", "{}", d.key()).refused(400, "malformed-request")
		d.send(http.MethodPut, sheet+"/versions/1", first.body, seen(second.etag())).refused(409, "already-published")

		// The same prices come back as a table, and have the same hash under another sheet.
		table := d.get(sheet+"/versions/1", wantCSV).want(200)
		other := d.newSheet()
		d.send(http.MethodPut, other+"/versions/1", table.body, asCSV, firstPut).want(201)
		d.send(http.MethodPost, other+"/versions/1/publish", nil, d.key()).want(200)
		if a, b := publishedHash(d.get(sheet)), publishedHash(d.get(other)); a != b || a == "" {
			t.Errorf("hashes %q and %q", a, b)
		}
		d.send(http.MethodPut, sheet+"/versions/2", first.body, firstPut).want(201)
	})
}

// Prices are shown under the number of their version, and what is for sale without limit under none.
func TestVersionsAreShownAsPeopleCountThem(t *testing.T) {
	d := open(t, file(t))
	type counted struct{ N int }
	var list struct {
		Prices counted
		Timber []struct{ Offers []map[string]any }
	}
	d.get(d.option(0, "buy-list") + "?version=2&sheet=" + d.demo.Sheet).want(200).into(&list)
	if list.Prices.N != 2 || len(list.Timber) == 0 {
		t.Errorf("the buy list is of version %d", list.Prices.N)
	}
	for _, group := range list.Timber {
		for _, offer := range group.Offers {
			if n, there := offer["available"]; there && n.(float64) < 0 {
				t.Errorf("%v boards are for sale", n)
			}
		}
	}
	var r struct{ Prices, From, To counted }
	issued := "/api/v1/quotes/" + d.demo.Quote + "/revisions/1"
	d.get(issued + "/repriced?version=1&sheet=" + d.demo.Sheet).want(200).into(&r)
	d.get(issued).want(200).into(&r)
	if r.Prices.N != 2 || r.From.N != 2 || r.To.N != 1 {
		t.Errorf("the revision is of version %d, repriced from %d to %d", r.Prices.N, r.From.N, r.To.N)
	}
	_, draft := d.draft(d.demo.Options[0])
	if d.get(draft).want(200).into(&r); r.Prices.N != 2 {
		t.Errorf("the draft is of version %d", r.Prices.N)
	}
}

func id(path string) string { return path[strings.LastIndex(path, "/")+1:] }

func publishedHash(a answer) string {
	a.t.Helper()
	var s struct{ Published []struct{ Hash string } }
	a.want(200).into(&s)
	return s.Published[0].Hash
}

func TestEveryFaultOfAPriceTableIsTold(t *testing.T) {
	d := open(t, file(t))
	sheet := d.newSheet()
	before := d.rows()
	table := strings.Join([]string{
		"item,kind,unit,price", "shipwright,labour,HUR,1e1000000", "glue,glue,LTR,12.5.5", "yard_hand,labour,parsec,10", "x,magic,LTR,1",
		"y,glue,LTR," + strings.Repeat("9", 100_000), "z,glue,LTR,NaN",
	}, "\n")
	p := d.send(http.MethodPut, sheet+"/versions/1", table, asCSV, firstPut).refused(422, "document-faults")
	at := map[int]bool{}
	for _, e := range p.Errors {
		at[e.Row] = true
		if e.Column == 0 || e.Fix == "" || len(e.Detail) > 400 {
			t.Errorf("fault %+v", e)
		}
	}
	for row := 2; row <= 7; row++ {
		if !at[row] {
			t.Errorf("no fault at row %d: %+v", row, p.Errors)
		}
	}
	json := map[string]any{"currency": "USD", "notation": "inches", "items": []any{map[string]any{"kind": "labour", "item": "shipwright", "unit": "HUR", "price": "NaN"}}}
	p = d.send(http.MethodPut, sheet+"/versions/1", json, firstPut).refused(422, "document-faults")
	if len(p.Errors) != 1 || p.Errors[0].Pointer != "/items/0/price" {
		t.Errorf("faults %+v", p.Errors)
	}
	json["currency"] = "EUR"
	if p := d.send(http.MethodPut, sheet+"/versions/1", json, firstPut).refused(422, "document-faults"); p.Errors[0].Pointer != "/currency" {
		t.Errorf("faults %+v", p.Errors)
	}
	d.send(http.MethodPost, "/api/v1/price-sheets", map[string]any{"name": "", "currency": "x", "notation": "y"}, d.key()).refused(422, "document-faults")
	if after := d.rows(); !equal(before, after) {
		t.Errorf("something was stored: %v, then %v", before, after)
	}
}

// sheetOf publishes a table and is the address of its sheet.
func (d *desk) sheetOf(table []byte) string {
	d.t.Helper()
	sheet := d.newSheet()
	d.send(http.MethodPut, sheet+"/versions/1", table, asCSV, firstPut).want(201)
	d.send(http.MethodPost, sheet+"/versions/1/publish", nil, d.key()).want(200)
	return sheet
}

// without is a price table without the rows that hold any of the words.
func without(table []byte, words ...string) []byte {
	var out []string
	for _, row := range strings.Split(string(table), "\n") {
		keep := true
		for _, w := range words {
			keep = keep && !strings.Contains(row, w)
		}
		if keep {
			out = append(out, row)
		}
	}
	return []byte(strings.Join(out, "\n"))
}

func TestEverythingWithoutAPriceIsTold(t *testing.T) {
	d := open(t, file(t))
	sheet := id(d.sheetOf(without(seed.PricesCSV(1), "white_oak", "epoxy_structural")))
	p := d.get(d.option(0, "buy-list")+"?sheet="+sheet+"&version=1").refused(422, "prices-missing")
	d.get(d.option(0, "ripping-list.svg")+"?sheet="+sheet+"&version=1").refused(422, "prices-missing")
	d.get(d.option(0, "rack-after")+"?sheet="+sheet+"&version=1").refused(422, "prices-missing")
	if len(p.Errors) != 2 {
		t.Errorf("missing %+v", p.Errors)
	}
	sheet = id(d.sheetOf(without(seed.PricesCSV(1), "white_oak", "epoxy_structural", "yard_hand")))
	fields := d.quoteFields(d.demo.Options...)
	fields["sheet"], fields["version"] = sheet, 1
	before := d.rows()
	p = d.send(http.MethodPost, d.job("quotes"), fields, d.key()).refused(422, "prices-missing")
	if len(p.Errors) != 3 {
		t.Errorf("missing %+v", p.Errors)
	}
	if after := d.rows(); !equal(before, after) {
		t.Errorf("something was stored: %v, then %v", before, after)
	}
}
