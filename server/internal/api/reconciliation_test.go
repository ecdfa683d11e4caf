package api_test

import (
	"encoding/csv"
	"fmt"
	"net/http"
	"slices"
	"strings"
	"testing"

	"github.com/shopspring/decimal"

	"ribband/seed"
	"ribband/server/internal/auth"
)

type variance struct {
	Amount amount
	Effect string
}

type sums struct {
	Quoted, Price, Spent, Tax amount
	Difference                struct {
		Amount                   amount
		Effect                   string
		Price, Quantity, Unsplit variance
	}
}

type looseSpend struct {
	Sums    sums
	Entries []struct {
		Proposed string
	}
}

type reconciled struct {
	Quote, Option string
	OptionName    string `json:"option_name"`
	Revision      int
	Accepted      bool
	Boat          string
	AcceptedDate  string `json:"accepted_date"`
	Steps         []struct {
		Step  string
		Lines []struct {
			Key     string
			Sums    sums
			Entries []struct{ Document string }
			Measure struct{ Unit, Quoted, Spent string }
		}
		NoLine looseSpend `json:"no_line"`
		Sums   sums
	}
	NoStep looseSpend `json:"no_step"`
	Total  sums
}

func TestSpendAgainstTheAcceptedOption(t *testing.T) {
	engines(t, func(t *testing.T, p place) {
		d := open(t, p)
		d.accountant().confirmed(seed.SpendCSV())
		path := d.job("reconciliation")
		if p := d.get(path).refused(409, "nothing-accepted"); !strings.Contains(p.Detail, "accepted") {
			t.Errorf("the answer is %q", p.Detail)
		}
		d.get(path+"?quote="+d.demo.Quote).refused(409, "nothing-accepted")
		at := path + "?quote=" + d.demo.Quote + "&revision=1&option=" + d.demo.Options[0]
		var looked, got reconciled
		d.get(at).want(200).into(&looked)
		if looked.Accepted || looked.AcceptedDate != "" {
			t.Error("an estimate that is still open reads as accepted")
		}
		d.send(http.MethodPost, d.estimate(1, "accept"), acceptance(d.demo.Options[0]), d.key()).want(200)
		d.role(auth.Accountant).get(path).want(200).into(&got)
		if !got.Accepted || got.Quote != d.demo.Quote || got.Option != d.demo.Options[0] || got.Revision != 1 || got.OptionName != "The ten worst pairs" ||
			got.AcceptedDate != "2026-11-23" || got.Boat == "" {
			t.Errorf("held against %+v", got)
		}
		foot(t, got)
		if rows, cents := d.spent(); rows != 15 || !got.Total.Spent.Amount.Equal(decimal.New(int64(cents), -2)) {
			t.Errorf("spent is %s, entered are %d cents", got.Total.Spent.Amount, cents)
		}
		// Worked by hand from the table: 168 + 32 - 8 board feet for 2032.80 + 400.00 - 96.80, quoted 184 at 11.95.
		for _, s := range got.Steps {
			for _, l := range s.Lines {
				if l.Key != "rip_and_plane/white_oak FAS/frame" {
					continue
				}
				x := l.Sums.Difference
				if l.Measure.Unit != "BFT" || l.Measure.Quoted != "184" || l.Measure.Spent != "192" || x.Amount.Amount.String() != "137.2" ||
					x.Price.Amount.Amount.String() != "41.6" || x.Quantity.Amount.Amount.String() != "95.6" || x.Effect != "unfavourable" {
					t.Errorf("the oak is %+v", l)
				}
			}
		}
		if len(got.NoStep.Entries) != 1 || got.NoStep.Sums.Spent.Amount.String() != "36" {
			t.Errorf("without a step are %+v", got.NoStep)
		}
		d.get(path + "?quote=" + d.demo.Quote).want(200).into(&looked)
		if !looked.Total.Spent.Amount.Equal(got.Total.Spent.Amount) {
			t.Error("by its quote it reads otherwise")
		}
		// The other option can still be looked at.
		d.get(path + "?quote=" + d.demo.Quote + "&revision=1&option=" + d.demo.Options[1]).want(200).into(&looked)
		if looked.Accepted || looked.OptionName != "All frames" {
			t.Errorf("the other option reads as %+v", looked)
		}
		foot(t, looked)
	})
}

// foot checks that lines and loose spend add to their step, steps to the total, and the parts to each difference.
func foot(t *testing.T, r reconciled) {
	t.Helper()
	var quoted, spent decimal.Decimal
	parts := func(what string, s sums) {
		t.Helper()
		d := s.Difference
		if !s.Spent.Amount.Sub(s.Quoted.Amount).Equal(d.Amount.Amount) || !d.Price.Amount.Amount.Add(d.Quantity.Amount.Amount).Add(d.Unsplit.Amount.Amount).Equal(d.Amount.Amount) {
			t.Errorf("%s does not add up: %+v", what, s)
		}
	}
	for _, s := range r.Steps {
		q, x := s.NoLine.Sums.Quoted.Amount, s.NoLine.Sums.Spent.Amount
		for _, l := range s.Lines {
			q, x = q.Add(l.Sums.Quoted.Amount), x.Add(l.Sums.Spent.Amount)
			parts(l.Key, l.Sums)
		}
		if !q.Equal(s.Sums.Quoted.Amount) || !x.Equal(s.Sums.Spent.Amount) {
			t.Errorf("the lines of %s add to %s and %s, it shows %+v", s.Step, q, x, s.Sums)
		}
		parts(s.Step, s.Sums)
		quoted, spent = quoted.Add(q), spent.Add(x)
	}
	if spent = spent.Add(r.NoStep.Sums.Spent.Amount); !quoted.Equal(r.Total.Quoted.Amount) || !spent.Equal(r.Total.Spent.Amount) || quoted.IsZero() {
		t.Errorf("the steps add to %s and %s, the total shows %+v", quoted, spent, r.Total)
	}
	parts("the total", r.Total)
}

// As a table, it holds the same figures, and nothing in it that a spreadsheet would run.
func TestAReconciliationAsATable(t *testing.T) {
	d := open(t, file(t))
	d.accountant().confirmed(seed.SpendCSV())
	d.accountant().send(http.MethodPost, d.job("spend"), with(with(invoice("=1+1"), "item", "=HYPERLINK(\"x\")"), "step", ""), d.key()).want(201)
	path := d.job("reconciliation") + "?quote=" + d.demo.Quote + "&revision=1&option=" + d.demo.Options[0]
	a := d.get(path, wantCSV).want(200)
	if kind := a.header.Get("Content-Type"); kind != "text/csv" || a.header.Get("Vary") != "Accept" {
		t.Errorf("it comes as %q, varying by %q", kind, a.header.Get("Vary"))
	}
	table, err := csv.NewReader(strings.NewReader(string(a.body))).ReadAll()
	if err != nil {
		t.Fatal(err)
	}
	for i, row := range table {
		for _, cell := range row {
			if cell != "" && strings.ContainsAny(cell[:1], "=+@\t\r") {
				t.Errorf("row %d holds %q", i+1, cell)
			}
		}
	}
	var got reconciled
	d.get(path).want(200).into(&got)
	last := table[len(table)-1]
	if d.demo.Job != last[0] || got.Boat != last[1] || last[2] != "2026-0001" || last[3] != "1" || last[4] != "The ten worst pairs" || last[5] != "" {
		t.Errorf("it is of %v", last[:6])
	}
	if last[6] != "total" || !decimal.RequireFromString(last[slices.Index(table[0], "spent")]).Equal(got.Total.Spent.Amount) {
		t.Errorf("the last row is %v, the total %+v", last, got.Total)
	}
}

func TestWhatCannotBeReconciled(t *testing.T) {
	d := open(t, file(t))
	path := d.job("reconciliation")
	for _, query := range []string{"?revision=1", "?option=" + d.demo.Options[0], "?quote=" + d.demo.Quote + "&revision=1", "?revision=1&option=" + d.demo.Options[0], "?quote=a&revision=0&option=b"} {
		d.get(path+query).refused(400, "malformed-request")
	}
	d.get(path+"?quote="+nobody).refused(404, "not-found")
	d.get(path+"?quote="+d.demo.Quote+"&revision=9&option="+d.demo.Options[0]).refused(404, "not-found")
	d.get(path+"?quote="+d.demo.Quote+"&revision=1&option="+nobody).refused(404, "not-found")
	quote, draft := d.draft(d.demo.Options[0])
	d.get(path+"?quote="+id(quote)+"&revision=1&option="+d.demo.Options[0]).refused(404, "not-found")
	// A quote of another job is not found on this one.
	d.get(strings.Replace(path, d.demo.Job, id(d.newJob()), 1)+"?quote="+d.demo.Quote).refused(404, "not-found")

	// Two accepted quotes: one has to be named.
	d.send(http.MethodPost, d.estimate(1, "accept"), acceptance(d.demo.Options[0]), d.key()).want(200)
	d.send(http.MethodPost, draft+"/issue", nil, d.key()).want(200)
	d.send(http.MethodPost, draft+"/accept", acceptance(d.demo.Options[0]), d.key()).want(200)
	if p := d.get(path).refused(409, "nothing-accepted"); !strings.HasPrefix(p.Detail, "2 quotes") {
		t.Errorf("the answer is %q", p.Detail)
	}
	var got reconciled
	d.get(path + "?quote=" + id(quote)).want(200).into(&got)
	if got.Quote != id(quote) || !got.Accepted {
		t.Errorf("held against %+v", got)
	}

	// Sums beyond what is carried.
	for i := range 2 {
		d.accountant().send(http.MethodPost, d.job("spend"), with(with(invoice(fmt.Sprint("dear ", i)), "amount", "999999999999.00"), "tax", ""), d.key()).want(201)
	}
	d.get(path+"?quote="+id(quote)).refused(409, "cannot-be-computed")
}
