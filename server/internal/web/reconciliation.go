package web

import (
	"bytes"
	"errors"
	"net/http"
	"strconv"

	"ribband/pricing/money"
	"ribband/pricing/reconcile"
	"ribband/server/internal/app"
	"ribband/server/internal/auth"
	"ribband/server/internal/store"
)

type reconciliationPage struct {
	Job  app.Job
	Path string
	// CSV is the path of the same as a table; what it is held against goes along.
	CSV string
	app.Reconciled
	// NoLine is what was spent on a step and fits no line of it.
	NoLine money.Money
	Keeper bool
}

// noLine adds up what was spent on steps and fits no line of them.
func noLine(r app.Reconciled) (money.Money, error) {
	sum := money.Zero(r.Currency)
	for _, s := range r.Steps {
		var err error
		if sum, err = sum.Add(s.NoLine.Sums.Spent); err != nil {
			return sum, err
		}
	}
	return sum, nil
}

// choicePage lets somebody choose what spend is held against, where no one acceptance says it.
type choicePage struct {
	Job     app.Job
	Path    string
	Several int
	Choices []choice
}

type choice struct{ Href, Text string }

// against is what the query names.
func (v *visit) against() (app.Against, error) {
	at := app.Against{Quote: v.FormValue("quote"), Option: v.FormValue("option")}
	if text := v.FormValue("revision"); text != "" {
		n, err := strconv.ParseInt(text, 10, 64)
		if err != nil {
			return at, errNothing
		}
		at.Revision = n
	}
	// A quote alone stands for what was accepted of it; anything else is named whole.
	if whole := at.Quote != "" && at.Revision != 0 && at.Option != ""; !whole && (at.Revision != 0 || at.Option != "") {
		return at, errPartAgainst
	}
	return at, nil
}

func (p *Pages) reconciled(v *visit) (app.Reconciled, error) {
	at, err := v.against()
	if err != nil {
		return app.Reconciled{}, err
	}
	return p.app.Reconcile(v.Context(), v.who, v.PathValue("job"), at)
}

// reconciliation is the page of quoted against spent.
func (p *Pages) reconciliation(v *visit) error {
	job := v.PathValue("job")
	j, err := p.app.Job(v.Context(), v.who, job)
	if err != nil {
		return err
	}
	r, err := p.reconciled(v)
	var nothing *app.NothingAcceptedError
	if errors.As(err, &nothing) && v.FormValue("quote") == "" {
		return p.chooseAgainst(v, j, nothing.Several)
	}
	if err != nil {
		return err
	}
	body := reconciliationPage{Job: j, Path: jobPath(job) + "/reconciliation", CSV: jobPath(job) + "/reconciliation.csv", Reconciled: r, Keeper: v.is(auth.Accountant)}
	if body.NoLine, err = noLine(r); err != nil {
		return err
	}
	if v.URL.RawQuery != "" {
		body.CSV += "?" + v.URL.Query().Encode()
	}
	return p.show(v, http.StatusOK, "reconciliation", page{Title: "Quoted and spent for " + j.Boat.Name, Way: append(jobWay(j), link{"Spent", spendPath(job)}), Body: body})
}

func (p *Pages) chooseAgainst(v *visit, j app.Job, several int) error {
	body := choicePage{Job: j, Path: jobPath(j.ID) + "/reconciliation", Several: several}
	quotes, err := p.app.Quotes(v.Context(), v.who, j.ID, store.Page{Limit: store.LargestLimit})
	if err != nil {
		return err
	}
	for _, q := range quotes.Items {
		for _, ref := range q.Revisions {
			if ref.IssuedAt == nil {
				continue
			}
			r, err := p.app.Revision(v.Context(), v.who, q.ID, ref.N)
			if err != nil {
				return err
			}
			for _, o := range r.Priced.Options {
				n := strconv.FormatInt(ref.N, 10)
				body.Choices = append(body.Choices, choice{body.Path + "?quote=" + q.ID + "&revision=" + n + "&option=" + o.ID,
					"Quote " + q.Number + ", revision " + n + ", option “" + o.Name + "”"})
			}
		}
	}
	return p.show(v, http.StatusOK, "against", page{Title: "Quoted and spent for " + j.Boat.Name, Way: append(jobWay(j), link{"Spent", spendPath(j.ID)}), Body: body})
}

// reconciliationCSV is the same as a table.
func (p *Pages) reconciliationCSV(v *visit) error {
	r, err := p.reconciled(v)
	if err != nil {
		return err
	}
	var b bytes.Buffer
	if err := r.WriteCSV(&b); err != nil {
		return err
	}
	return v.sendCSV("reconciliation.csv", b.Bytes())
}

// effectText says in a word which way a difference goes.
func effectText(e reconcile.Effect) string { return e.Word() }
