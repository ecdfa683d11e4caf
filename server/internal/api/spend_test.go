package api_test

import (
	"bytes"
	"encoding/csv"
	"net/http"
	"slices"
	"strings"
	"testing"

	"ribband/pricing/reconcile"
	"ribband/seed"
	"ribband/server/internal/auth"
)

// invoice is one line of an invoice that is taken, under a document of its own.
func invoice(document string) map[string]any {
	return map[string]any{"date": "2026-10-12", "kind": "invoice", "supplier": "An Invented Sawmill", "document": document, "line": "1",
		"item": "white_oak FAS", "quantity": "12.5", "unit": "BFT", "amount": "155.00", "currency": "USD", "tax": "9.30", "step": "laminate"}
}

// with is the row with one cell changed.
func with(row map[string]any, column, cell string) map[string]any {
	row[column] = cell
	return row
}

// spendTable is rows as a table of spend.
func spendTable(rows ...map[string]any) string {
	var b bytes.Buffer
	w := csv.NewWriter(&b)
	_ = w.Write(reconcile.Columns) // a buffer takes everything
	for _, row := range rows {
		var cells []string
		for _, c := range reconcile.Columns {
			cell, _ := row[c].(string)
			cells = append(cells, cell)
		}
		_ = w.Write(cells)
	}
	w.Flush()
	return b.String()
}

// imported sends a table of spend, which has to be taken.
func (d *desk) imported(table any) answer {
	d.t.Helper()
	return d.send(http.MethodPost, d.job("spend", "imports"), table, asCSV, d.key()).want(201)
}

// accountant is the desk as the yard's accountant.
func (d *desk) accountant() *desk { return d.role(auth.Accountant) }

// confirmed enters a whole table of spend.
func (d *desk) confirmed(table any) imported {
	d.t.Helper()
	path := d.imported(table).header.Get("Location")
	var got imported
	d.send(http.MethodPost, path+"/confirm", nil, d.key()).want(200).into(&got)
	return got
}

// spent counts the rows of spend there are, and adds up their amounts in cents.
func (d *desk) spent() (rows, cents int) {
	d.t.Helper()
	if err := d.raw.QueryRow("SELECT COUNT(*), COALESCE(SUM(amount_minor), 0) FROM spend").Scan(&rows, &cents); err != nil {
		d.t.Fatal(err)
	}
	return rows, cents
}

type spendAnswer struct {
	ID, Supplier, Document, Line, Quantity string
	Amount, Tax                            struct{ Amount, Currency string }
	EnteredBy                              string `json:"entered_by"`
	Import                                 string
}

func TestOneThingSpent(t *testing.T) {
	engines(t, func(t *testing.T, p place) {
		d := open(t, p).accountant()
		key := d.key()
		var first, again spendAnswer
		made := d.send(http.MethodPost, d.job("spend"), invoice("I-1"), key).want(201)
		made.into(&first)
		if first.Amount.Amount != "155.00" || first.Quantity != "12.5" || first.Tax.Amount != "9.30" || first.EnteredBy != "demo accountant" {
			t.Errorf("entered as %+v", first)
		}
		if repeat := d.send(http.MethodPost, d.job("spend"), invoice("I-1"), key).want(201); !bytes.Equal(made.body, repeat.body) {
			t.Error("the repeat is answered with other bytes")
		}
		// The same content under another key, numbers and case written otherwise, is the entry that stands.
		alike := with(with(invoice("i-1"), "document", "I-1"), "amount", "155")
		d.send(http.MethodPost, d.job("spend"), with(alike, "quantity", "12.50"), d.key()).want(200).into(&again)
		if again.ID != first.ID {
			t.Errorf("the same entry is kept as %s and %s", first.ID, again.ID)
		}
		// Other content under the name is a fault, also when only the case of the name differs.
		for _, row := range []map[string]any{with(invoice("I-1"), "amount", "155.01"), invoice("i-1")} {
			p := d.send(http.MethodPost, d.job("spend"), row, d.key()).refused(422, "document-faults")
			if len(p.Errors) != 1 || p.Errors[0].Pointer != "/document" {
				t.Errorf("faults %+v", p.Errors)
			}
		}
		// A correction takes the first back and enters another.
		back := with(with(with(with(invoice("I-1 back"), "kind", "credit"), "amount", "-155.00"), "quantity", "-12.5"), "tax", "-9.30")
		d.send(http.MethodPost, d.job("spend"), back, d.key()).want(201)
		d.send(http.MethodPost, d.job("spend"), with(invoice("I-1 anew"), "amount", "165.00"), d.key()).want(201)
		if rows, cents := d.spent(); rows != 3 || cents != 16500 {
			t.Errorf("%d rows add to %d cents", rows, cents)
		}
		d.put(t, "UPDATE spend SET amount_minor = 1", false)
		d.put(t, "DELETE FROM spend", false)
	})
}

// put runs a statement past the store and says whether that has to work.
func (d *desk) put(t *testing.T, statement string, works bool) {
	t.Helper()
	if _, err := d.raw.ExecContext(t.Context(), statement); (err == nil) != works {
		t.Errorf("%s gave %v", statement, err)
	}
}

func TestEveryFaultOfSpendIsTold(t *testing.T) {
	d := open(t, file(t)).accountant()
	for _, c := range []struct{ name, column, cell, at string }{
		{"another currency", "currency", "EUR", "/currency"},
		{"before the job was opened", "date", "2026-10-04", "/date"},
		{"after today", "date", "2026-11-25", "/date"},
		{"a thousandfold", "amount", "1.240", "/amount"},
		{"no day", "date", "2026-02-30", "/date"},
		{"no such kind", "kind", "bribe", "/kind"},
		{"half a cent", "amount", "1.005", "/amount"},
		{"an exponent", "amount", "1e5", "/amount"},
		{"thirteen digits", "amount", "1234567890123", "/amount"},
		{"no such step", "step", "sails", "/step"},
		{"no such unit", "unit", "FURLONG", "/unit"},
		{"a quantity of nothing", "quantity", "0", "/quantity"},
		{"no name", "supplier", "  ", "/supplier"},
		{"a long text", "description", strings.Repeat("x", 501), "/description"},
		{"a line break", "description", "two\nlines", "/description"},
	} {
		t.Run(c.name, func(t *testing.T) {
			p := d.on(t).send(http.MethodPost, d.job("spend"), with(invoice("I-1"), c.column, c.cell), d.key()).refused(422, "document-faults")
			if !slices.Contains(p.pointers(), c.at) {
				t.Errorf("faults at %v, want one at %s", p.pointers(), c.at)
			}
		})
	}
	all := d.send(http.MethodPost, d.job("spend"), with(with(invoice(""), "date", "then"), "currency", "EUR"), d.key()).refused(422, "document-faults")
	if got := strings.Join(all.pointers(), " "); got != "/date /document /currency" {
		t.Errorf("of three faults at once, told are %s", got)
	}
	if rows, _ := d.spent(); rows != 0 {
		t.Errorf("%d rows were stored", rows)
	}
}

func TestSpendIsListed(t *testing.T) {
	engines(t, func(t *testing.T, p place) {
		d := open(t, p)
		d.accountant().confirmed(seed.SpendCSV())
		var documents []string
		for path := d.job("spend") + "?limit=4"; path != ""; {
			a := d.role(auth.Estimator).get(path).want(200)
			var page struct {
				Items []spendAnswer
				Next  string
			}
			a.into(&page)
			for _, s := range page.Items {
				documents = append(documents, s.Document+"/"+s.Line)
				if s.Import == "" {
					t.Errorf("%s does not say which import brought it", s.Document)
				}
			}
			path = ""
			if page.Next != "" {
				path = d.job("spend") + "?limit=4&cursor=" + page.Next
			}
		}
		if len(documents) != 15 || documents[0] != "HO-2214/1" || documents[14] != "week 47/3" {
			t.Errorf("listed are %v", documents)
		}
	})
}

// A row that was changed behind the program's back is no answer.
func TestDamagedSpendIsNoAnswer(t *testing.T) {
	d := open(t, file(t))
	d.accountant().send(http.MethodPost, d.job("spend"), invoice("I-1"), d.key()).want(201)
	d.put(t, "DROP TRIGGER spend_no_update", true)
	d.put(t, "UPDATE spend SET amount_minor = 15501", true)
	d.get(d.job("spend")).refused(500, "internal")
	d.get(d.job("reconciliation")+"?quote="+d.demo.Quote+"&revision=1&option="+d.demo.Options[0]).refused(500, "internal")
}
