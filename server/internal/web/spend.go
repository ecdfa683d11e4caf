package web

import (
	"bytes"
	"errors"
	"net/http"

	"ribband/pricing/reconcile"
	"ribband/pricing/sheet"
	"ribband/server/internal/app"
	"ribband/server/internal/auth"
	"ribband/server/internal/store"
	"ribband/takeoff/step"
)

type spendPage struct {
	Job    app.Job
	Path   string
	Spend  []app.Spend
	Next   string
	Keeper bool
	Done   string
}

func spendPath(job string) string { return jobPath(job) + "/spend" }

// doneWords say what was done just before.
var doneWords = map[string]string{
	"entered": "The entry was made and counts from now on.",
	"again":   "The same entry was there already. It counts once; nothing was added.",
}

// spend lists what was spent on a job.
func (p *Pages) spend(v *visit) error {
	job := v.PathValue("job")
	j, err := p.app.Job(v.Context(), v.who, job)
	if err != nil {
		return err
	}
	list, err := p.app.SpendOf(v.Context(), v.who, job, store.Page{Limit: store.LargestLimit, After: v.FormValue("after")})
	if err != nil {
		return err
	}
	return p.show(v, http.StatusOK, "spend", page{Title: "Spent on " + j.Boat.Name, Way: jobWay(j),
		Body: spendPage{j, spendPath(job), list.Items, list.Next, v.is(auth.Accountant), doneWords[v.FormValue("done")]}})
}

func jobWay(j app.Job) []link { return []link{{"Jobs", "/"}, {j.Boat.Name, jobPath(j.ID)}} }

// allSpend is everything spent on a job.
func (p *Pages) allSpend(v *visit, job string) ([]app.Spend, error) {
	var all []app.Spend
	for at := (store.Page{Limit: store.LargestLimit}); ; {
		list, err := p.app.SpendOf(v.Context(), v.who, job, at)
		if err != nil {
			return nil, err
		}
		all = append(all, list.Items...)
		if at.After = list.Next; at.After == "" {
			return all, nil
		}
	}
}

// spendCSV is everything spent on a job as a table.
func (p *Pages) spendCSV(v *visit) error {
	spent, err := p.allSpend(v, v.PathValue("job"))
	if err != nil {
		return err
	}
	var all []reconcile.Entry
	for _, s := range spent {
		all = append(all, s.Entry)
	}
	var b bytes.Buffer
	if err := reconcile.WriteCSV(&b, all); err != nil {
		return err
	}
	return v.sendCSV("spend.csv", b.Bytes())
}

func (v *visit) sendCSV(name string, body []byte) error {
	v.Header().Set("Content-Type", "text/csv; charset=utf-8")
	v.Header().Set("Content-Disposition", `attachment; filename="`+name+`"`)
	v.send(http.StatusOK, body)
	return nil
}

// Fields of one entry, in the order of the form.
var spendFields = []string{"date", "kind", "supplier", "document", "line", "item", "description", "quantity", "unit", "amount", "tax", "step", "author"}

var spendLabels = map[string]string{
	"date": "Date", "kind": "Kind", "supplier": "Supplier", "document": "Document", "line": "Line of the document", "item": "Item",
	"description": "Description", "quantity": "Quantity", "unit": "Unit", "amount": "Amount without tax", "tax": "Tax", "step": "Step", "author": "Author",
}

type entryPage struct {
	form
	Job   app.Job
	Path  string
	Kinds []reconcile.Kind
	// Back is the document and line of the entry that this one takes back; empty for an entry of its own.
	Back  string
	Steps []step.Step
}

func (p *Pages) entry(v *visit) (entryPage, error) {
	job := v.PathValue("job")
	j, err := p.app.Job(v.Context(), v.who, job)
	if err != nil {
		return entryPage{}, err
	}
	steps, err := p.app.StepLibrary(v.Context(), v.who, 0)
	return entryPage{form: newForm(spendFields...), Job: j, Path: spendPath(job), Kinds: reconcile.Kinds, Steps: steps.Doc.Steps}, err
}

// askForSpend shows the form of one entry.
func (p *Pages) askForSpend(v *visit) error {
	body, err := p.entry(v)
	if err != nil {
		return err
	}
	body.Values["kind"] = string(reconcile.Invoice)
	if id := v.FormValue("back"); id != "" {
		if err := p.takeBack(v, &body, id); err != nil {
			return err
		}
	}
	return p.showEntry(v, http.StatusOK, body)
}

func (p *Pages) showEntry(v *visit, status int, body entryPage) error {
	return p.show(v, status, "entry", page{Title: body.title("Enter what was spent on " + body.Job.Boat.Name),
		Way: append(jobWay(body.Job), link{"Spent", body.Path}), Body: body})
}

// enterSpend enters one row.
func (p *Pages) enterSpend(v *visit) error {
	body, err := p.entry(v)
	if err != nil {
		return err
	}
	if body.form, err = v.filled(spendFields...); err != nil {
		return err
	}
	key, err := body.key(v, body.content(spendFields...))
	if err != nil {
		return err
	}
	x := body.Values
	row := reconcile.Row{Date: x["date"], Kind: x["kind"], Supplier: x["supplier"], Document: x["document"], Line: x["line"], Item: x["item"],
		Description: x["description"], Quantity: x["quantity"], Unit: x["unit"], Amount: x["amount"], Currency: string(body.Job.Currency),
		Tax: x["tax"], Step: x["step"], Author: x["author"]}
	answer, err := p.app.EnterSpend(v.Context(), v.who, body.Job.ID, key, row, func(_ app.Spend, fresh bool) (store.Answer, error) {
		done := "entered"
		if !fresh {
			done = "again"
		}
		return store.Answer{Status: http.StatusOK, Location: body.Path + "?done=" + done}, nil
	})
	if body.wrong(err, spendLabels) {
		return p.showEntry(v, http.StatusUnprocessableEntity, body)
	}
	if err != nil {
		return err
	}
	return v.to(answer.Location)
}

// faultsOf are the faults of a table; false where err is something else.
func faultsOf(err error) (*sheet.FaultsError, bool) {
	var f *sheet.FaultsError
	ok := errors.As(err, &f)
	return f, ok
}
