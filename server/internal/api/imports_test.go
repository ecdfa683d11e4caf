package api_test

import (
	"context"
	"errors"
	"fmt"
	"net/http"
	"slices"
	"strings"
	"testing"

	"ribband/pricing/reconcile"
	"ribband/seed"
	"ribband/server/internal/app"
	"ribband/server/internal/auth"
	"ribband/server/internal/store"
)

type rowFault struct {
	Row         int
	Column      string
	ColumnNo    int `json:"column_no"`
	Detail, Fix string
}

type imported struct {
	ID, State    string
	Good, Again  []struct{ Row int }
	Bad          []int
	Faults       []rowFault
	More         int
	Confirmation *struct {
		Entered, Again int
		Refused        []rowFault
		By             string
	}
}

// A table is read, looked at, and confirmed; until then nothing of it counts. The same file again counts once.
func TestATableOfSpendCountsOnce(t *testing.T) {
	engines(t, func(t *testing.T, p place) {
		d := open(t, p).accountant()
		first := d.imported(seed.SpendCSV())
		path := first.header.Get("Location")
		var got imported
		first.into(&got)
		if got.State != "pending" || len(got.Good) != 15 || len(got.Bad)+len(got.Faults)+len(got.Again) != 0 || got.Confirmation != nil {
			t.Errorf("read as %+v", got)
		}
		second := d.imported(seed.SpendCSV()).header.Get("Location") // not knowing of the first
		if rows, _ := d.spent(); rows != 0 {
			t.Errorf("%d rows count before anybody confirmed them", rows)
		}
		if body := d.role(auth.Lead).get(path).want(200).body; string(body) != string(first.body) {
			t.Errorf("it reads as\n%s\nand was told as\n%s", body, first.body)
		}

		key := d.key()
		var confirmed imported
		once := d.send(http.MethodPost, path+"/confirm", nil, key).want(200)
		once.into(&confirmed)
		if c := confirmed.Confirmation; confirmed.State != "confirmed" || c == nil || c.Entered != 15 || c.Again != 0 || len(c.Refused) != 0 || c.By != "demo accountant" {
			t.Errorf("confirmed as %+v", confirmed)
		}
		rows, cents := d.spent()
		if rows != 15 || cents != 2084724 {
			t.Errorf("%d rows add to %d cents", rows, cents)
		}
		// Again by the same key, by another key, by the import that was read before, and by one that is read after.
		for _, again := range []answer{
			d.send(http.MethodPost, path+"/confirm", nil, key), d.send(http.MethodPost, path+"/confirm", nil, d.key()), d.get(path),
		} {
			if string(again.want(200).body) != string(once.body) {
				t.Errorf("confirmed again it is %s", again.body)
			}
		}
		d.send(http.MethodPost, second+"/confirm", nil, d.key()).want(200).into(&confirmed)
		if c := confirmed.Confirmation; c.Entered != 0 || c.Again != 15 {
			t.Errorf("the file read twice is confirmed as %+v", c)
		}
		if got := d.confirmed(seed.SpendCSV()); got.Confirmation.Entered != 0 || len(got.Again) != 15 || len(got.Good) != 0 {
			t.Errorf("the file read after is %+v", got)
		}
		if r, c := d.spent(); r != rows || c != cents {
			t.Errorf("now %d rows add to %d cents", r, c)
		}
	})
}

// Good rows enter, what was entered meanwhile counts once, and what was entered meanwhile otherwise is refused by row.
func TestAnImportMeetsWhatWasEnteredMeanwhile(t *testing.T) {
	engines(t, func(t *testing.T, p place) {
		d := open(t, p).accountant()
		path := d.imported(spendTable(invoice("A"), with(invoice("bad"), "currency", "EUR"), invoice("B"), invoice("C"))).header.Get("Location")
		d.send(http.MethodPost, d.job("spend"), invoice("A"), d.key()).want(201)
		d.send(http.MethodPost, d.job("spend"), with(invoice("C"), "amount", "99.00"), d.key()).want(201)
		var got imported
		d.send(http.MethodPost, path+"/confirm", nil, d.key()).want(200).into(&got)
		c := got.Confirmation
		if c.Entered != 1 || c.Again != 1 || len(c.Refused) != 1 || c.Refused[0].Row != 5 || c.Refused[0].Column != "document" || !strings.Contains(c.Refused[0].Detail, "99.00") {
			t.Errorf("confirmed as %+v", c)
		}
		if rows, cents := d.spent(); rows != 3 || cents != 15500+15500+9900 {
			t.Errorf("%d rows add to %d cents", rows, cents)
		}
	})
}

// Bad rows are told by row and column and the good ones wait; where no row is good nothing is kept.
func TestBadTablesOfSpend(t *testing.T) {
	oneByOne(t)
	d := open(t, file(t)).accountant()
	d.send(http.MethodPost, d.job("spend"), invoice("posted"), d.key()).want(201)
	good := spendTable(invoice("good"))
	for _, c := range []struct {
		name, row, column, detail string
		no                        int
	}{
		{"another currency", spendTable(with(invoice("x"), "currency", "EUR")), "currency", "USD", 11},
		{"before the job was opened", spendTable(with(invoice("x"), "date", "2026-10-04")), "date", "2026-10-05", 1},
		{"a document that was posted with another amount", spendTable(with(invoice("posted"), "amount", "1.00")), "document", "155.00", 4},
		{"broken UTF-8", spendTable(with(invoice("x"), "description", "caf\xe9")), "description", "UTF-8", 7},
		{"a formula for an amount", spendTable(with(invoice("x"), "amount", "=1+1")), "amount", "=1+1", 10},
	} {
		t.Run(c.name, func(t *testing.T) {
			_, row, _ := strings.Cut(c.row, "\n")
			var got imported
			d.on(t).imported(good + row).into(&got)
			i := slices.IndexFunc(got.Faults, func(f rowFault) bool { return f.Column == c.column })
			if i < 0 || got.Faults[i].Row != 3 || got.Faults[i].ColumnNo != c.no || !strings.Contains(got.Faults[i].Detail, c.detail) || got.Faults[i].Fix == "" {
				t.Errorf("the faults are %+v", got.Faults)
			}
			if len(got.Good) != 1 || len(got.Bad) != 1 || got.Bad[0] != 3 {
				t.Errorf("good are %v, bad %v", got.Good, got.Bad)
			}
		})
	}
	// Of two rows of one name neither can be taken for the right one.
	_, twice, _ := strings.Cut(spendTable(with(invoice("good"), "amount", "1.00")), "\n")
	var got imported
	d.imported(good + twice + strings.SplitAfter(spendTable(invoice("other")), "\n")[1]).into(&got)
	if len(got.Good) != 1 || len(got.Bad) != 2 || len(got.Faults) != 2 || !strings.Contains(got.Faults[0].Detail, "row 3") || !strings.Contains(got.Faults[1].Detail, "row 2") {
		t.Errorf("of two rows of one name: %+v", got)
	}
	before := d.rows()
	for _, c := range []struct{ name, table, detail string }{
		{"nothing", "", ""},
		{"two rows of one name", good + twice, "row 2"},
		{"a million columns", strings.Repeat("a,", 1_000_000-1) + "a\n" + strings.Repeat(",", 10), "1000000"},
		{"a million columns under a good header", strings.SplitAfter(good, "\n")[0] + strings.Repeat(",", 1_000_000), ""},
		{"UTF-16", "\xff\xfed\x00a\x00", "UTF-16"},
		{"only bad rows", spendTable(with(invoice("x"), "currency", "EUR")), "USD"},
		{"another table", "item,kind,unit,price\nshipwright,labour,HUR,48.50\n", ""},
	} {
		t.Run(c.name, func(t *testing.T) {
			a := d.on(t).send(http.MethodPost, d.job("spend", "imports"), c.table, asCSV, d.key())
			p := a.refused(422, "document-faults")
			if len(p.Errors) == 0 || !strings.Contains(string(a.body), c.detail) {
				t.Errorf("the answer is %.500s", a.body)
			}
			if len(a.body) > 100_000 {
				t.Errorf("the answer has %d bytes", len(a.body))
			}
		})
	}
	if after := d.rows(); !equal(before, after) {
		t.Errorf("something was stored: %v, then %v", before, after)
	}
}

// A table that was not read to its end is shown and cannot be confirmed: nobody has seen the rest of it.
func TestATableThatEndsInTheMiddle(t *testing.T) {
	d := open(t, file(t)).accountant()
	a := d.imported(spendTable(invoice("A")) + "2026-10-12,invoice,Saw\"mill,B\n" + strings.SplitAfter(spendTable(invoice("C")), "\n")[1])
	var got struct {
		imported
		StoppedAt int `json:"stopped_at"`
	}
	a.into(&got)
	if len(got.Good) != 1 || got.StoppedAt != 3 {
		t.Errorf("read as %s", a.body)
	}
	p := d.send(http.MethodPost, a.header.Get("Location")+"/confirm", nil, d.key()).refused(422, "document-faults")
	if len(p.Errors) != 1 || !strings.Contains(p.Errors[0].Detail, "row 3") {
		t.Errorf("confirming is refused with %+v", p.Errors)
	}
	if rows, _ := d.spent(); rows != 0 {
		t.Errorf("%d rows count", rows)
	}
}

// lines of an invoice, so many that they do not go in by one statement.
func lines1203() string {
	var rows []map[string]any
	for i := range 1203 {
		rows = append(rows, with(invoice("long"), "line", fmt.Sprint(i)))
	}
	return spendTable(rows...)
}

// An import that is interrupted half-way leaves nothing, whatever interrupts it, and goes in whole afterwards.
func TestAnInterruptedImportLeavesNothing(t *testing.T) {
	engines(t, func(t *testing.T, p place) {
		d := open(t, p).accountant()
		path := d.imported(lines1203()).header.Get("Location")
		before := d.rows()
		left := func(how string) {
			t.Helper()
			if after := d.rows(); !equal(before, after) {
				t.Errorf("%s: something was stored: %v, then %v", how, before, after)
			}
			var got imported
			if d.get(path).want(200).into(&got); got.State != "pending" {
				t.Errorf("%s: the import is %s", how, got.State)
			}
		}

		// The database fails at the 1100th row.
		d.fails(p)
		if a := d.send(http.MethodPost, path+"/confirm", nil, d.key()); a.status < 500 {
			t.Errorf("the database failed and the answer is %d: %s", a.status, a.body)
		}
		left("failing database")
		d.works(p)

		// The server is told to stop, or the caller goes, when all rows are in and nothing is committed yet.
		who, err := d.app.Who(t.Context(), d.as)
		if err != nil {
			t.Fatal(err)
		}
		ctx, cancel := context.WithCancel(t.Context())
		_, err = d.app.ConfirmSpend(ctx, who, d.demo.Job, id(path), app.Key{}, func(i app.Import) (store.Answer, error) {
			if i.Confirmation.Entered != 1203 {
				t.Errorf("only %d rows were in", i.Confirmation.Entered)
			}
			cancel()
			return store.Answer{}, nil
		})
		if err == nil {
			t.Error("a cancelled confirmation went through")
		}
		left("cancelled")

		// The answer cannot be made.
		late := errors.New("late")
		if _, err = d.app.ConfirmSpend(t.Context(), who, d.demo.Job, id(path), app.Key{}, func(app.Import) (store.Answer, error) {
			return store.Answer{}, late
		}); !errors.Is(err, late) {
			t.Errorf("a failing answer gave %v", err)
		}
		left("failing answer")

		d.send(http.MethodPost, path+"/confirm", nil, d.key()).want(200)
		if rows, _ := d.spent(); rows != 1203 {
			t.Errorf("%d rows went in at last", rows)
		}
	})
}

// fails makes the database fail at one row of spend.
func (d *desk) fails(p place) {
	d.t.Helper()
	statements := []string{"CREATE TABLE broken_here (a INTEGER CHECK (a < 0))",
		"CREATE TRIGGER broken BEFORE INSERT ON spend WHEN NEW.line = '1100' BEGIN INSERT INTO broken_here VALUES (1); END"}
	if p.Engine != store.SQLite {
		statements = []string{"CREATE FUNCTION broken() RETURNS trigger LANGUAGE plpgsql AS $$ BEGIN IF NEW.line = '1100' THEN RAISE EXCEPTION 'broken'; END IF; RETURN NEW; END; $$",
			"CREATE TRIGGER broken BEFORE INSERT ON spend FOR EACH ROW EXECUTE FUNCTION broken()"}
	}
	for _, s := range statements {
		if _, err := d.raw.Exec(s); err != nil {
			d.t.Fatal(err)
		}
	}
}

// works makes it work again.
func (d *desk) works(p place) {
	d.t.Helper()
	statement := "DROP TRIGGER broken"
	if p.Engine != store.SQLite {
		statement += " ON spend"
	}
	if _, err := d.raw.Exec(statement); err != nil {
		d.t.Fatal(err)
	}
}

// Sixteen hands confirm at once, half of them one import and half another of the same file: every row counts once.
func TestManyHandsConfirmOnce(t *testing.T) {
	engines(t, func(t *testing.T, p place) {
		d := open(t, p).accountant()
		paths := []string{d.imported(seed.SpendCSV()).header.Get("Location"), d.imported(seed.SpendCSV()).header.Get("Location")}
		const hands = 16
		results := make(chan answer, hands)
		for i := range hands {
			go func() {
				results <- d.send(http.MethodPost, paths[i%2]+"/confirm", nil, header{"Idempotency-Key", fmt.Sprintf("hand %d", i)})
			}()
		}
		for range hands {
			(<-results).want(200)
		}
		if rows, cents := d.spent(); rows != 15 || cents != 2084724 {
			t.Errorf("%d rows add to %d cents", rows, cents)
		}
		var entered int
		for _, path := range paths {
			var got imported
			d.get(path).want(200).into(&got)
			entered += got.Confirmation.Entered
		}
		if entered != 15 {
			t.Errorf("the imports say that %d rows were entered", entered)
		}
	})
}

// Texts that look like what a spreadsheet defuses go in as they were read, and the same table again counts once.
func TestOddTextsOfATableCountOnce(t *testing.T) {
	d := open(t, file(t)).accountant()
	odd := spendTable(with(invoice("''=1+1"), "item", "''@x"), with(invoice("'=1+1"), "item", "'"), with(invoice("a\u2028b"), "description", `"quoted", and so on`))
	if got := d.confirmed(odd); got.Confirmation.Entered != 3 || len(got.Confirmation.Refused) != 0 {
		t.Errorf("confirmed as %+v", got.Confirmation)
	}
	if got := d.confirmed(odd); len(got.Again) != 3 || got.Confirmation.Entered != 0 {
		t.Errorf("again it is %+v", got)
	}
}

// What the accountant's and the estimator's pages call is no owner's, also when no route stands before it.
func TestBooksAreNotTheOwners(t *testing.T) {
	d := open(t, file(t))
	path := d.accountant().imported(seed.SpendCSV()).header.Get("Location")
	ctx, job := t.Context(), d.demo.Job
	who, err := d.app.Who(ctx, d.demo.Tokens[auth.Owner].Reveal())
	if err != nil {
		t.Fatal(err)
	}
	calls := map[string]error{}
	_, calls["list"] = d.app.SpendOf(ctx, who, job, store.Page{})
	_, calls["enter"] = d.app.EnterSpend(ctx, who, job, app.Key{}, reconcile.Row{}, nil)
	_, calls["read"] = d.app.ReadSpend(ctx, who, job, app.Key{}, seed.SpendCSV(), nil)
	_, calls["import"] = d.app.ImportOf(ctx, who, job, id(path))
	_, calls["confirm"] = d.app.ConfirmSpend(ctx, who, job, id(path), app.Key{}, nil)
	_, calls["reconcile"] = d.app.Reconcile(ctx, who, job, app.Against{Quote: d.demo.Quote, Revision: 1, Option: d.demo.Options[0]})
	_, calls["reprice"] = d.app.Reprice(ctx, who, d.demo.Quote, 1, d.demo.Sheet, 1)
	_, calls["prices"] = d.app.ComparePrices(ctx, who, d.demo.Sheet, 1, 2)
	for name, err := range calls {
		var none *store.NotFoundError
		if !errors.As(err, &none) {
			t.Errorf("%s gave the owner %v", name, err)
		}
	}
}

// An import belongs to its job.
func TestAnImportOfAnotherJob(t *testing.T) {
	d := open(t, file(t))
	path := d.accountant().imported(seed.SpendCSV()).header.Get("Location")
	other := strings.Replace(path, d.demo.Job, id(d.newJob()), 1)
	d.get(other).refused(404, "not-found")
	d.accountant().send(http.MethodPost, other+"/confirm", nil, d.key()).refused(404, "not-found")
}
