package web

import (
	"errors"
	"io"
	"net/http"
	"slices"

	"ribband/pricing/reconcile"
	"ribband/pricing/sheet"
	"ribband/server/internal/app"
	"ribband/server/internal/auth"
	"ribband/server/internal/store"
)

// longestTable is how long the body of a form with a table may be.
const longestTable = reconcile.MaxTableBytes + longestForm

type importPage struct {
	form
	Job     app.Job
	Path    string
	Columns []string
	Faults  []sheet.Fault
	More    int
}

type readPage struct {
	app.Import
	Key    string
	Job    app.Job
	Path   string
	Keeper bool
	// Waiting rows are good and not entered yet. Once the import is confirmed each is one of those that were entered,
	// that were there already, or that were refused.
	Waiting, Entered, There, Refused []reconcile.Numbered
}

// became sorts the good rows by what became of them: entered are the ids of the entries that the import brought.
func (r *readPage) became(entered map[string]bool) {
	refused := map[int]bool{}
	for _, f := range r.Confirmation.Refused {
		refused[f.Row] = true
	}
	for _, row := range r.Good {
		switch {
		case entered[row.Entry.ID()]:
			r.Entered = append(r.Entered, row)
		case refused[row.Row]:
			r.Refused = append(r.Refused, row)
		default:
			r.There = append(r.There, row)
		}
	}
	slices.SortFunc(r.There, func(a, b reconcile.Numbered) int { return a.Row - b.Row })
}

// brought are the ids of the entries that an import brought.
func (p *Pages) brought(v *visit, job, id string) (map[string]bool, error) {
	all, err := p.allSpend(v, job)
	out := map[string]bool{}
	for _, s := range all {
		if s.Import == id {
			out[s.Entry.ID()] = true
		}
	}
	return out, err
}

// refusals are the faults of refused rows as a table of faults shows them.
func refusals(c *app.Confirmation) *sheet.FaultsError {
	return &sheet.FaultsError{Faults: c.Refused, More: c.More}
}

// askForTable is the first step of an import: choose a table.
func (p *Pages) askForTable(v *visit) error {
	j, err := p.app.Job(v.Context(), v.who, v.PathValue("job"))
	if err != nil {
		return err
	}
	return p.showTable(v, http.StatusOK, importPage{form: newForm(), Job: j})
}

func (p *Pages) showTable(v *visit, status int, body importPage) error {
	body.Path, body.Columns = spendPath(body.Job.ID), reconcile.Columns
	title := "Import what was spent on " + body.Job.Boat.Name + ", step 1 of 3: the table"
	if len(body.Faults)+len(body.General) > 0 {
		title = "To be put right: " + title
	}
	return p.show(v, status, "import", page{Title: title, Way: append(jobWay(body.Job), link{"Spent", body.Path}), Body: body})
}

// readTable reads a table and keeps what it says; nothing of it counts yet.
func (p *Pages) readTable(v *visit) error {
	j, err := p.app.Job(v.Context(), v.who, v.PathValue("job"))
	if err != nil {
		return err
	}
	table, key, err := v.table()
	if err != nil {
		return err
	}
	body := importPage{form: newForm(), Job: j}
	if len(table) == 0 {
		body.General = []string{"There is no table: choose a file, or paste the rows."}
		return p.showTable(v, http.StatusUnprocessableEntity, body)
	}
	k, err := form{Key: key}.key(v, string(table))
	if err != nil {
		return err
	}
	answer, err := p.app.ReadSpend(v.Context(), v.who, j.ID, k, table, func(i app.Import) (store.Answer, error) {
		return store.Answer{Status: http.StatusOK, Location: spendPath(j.ID) + "/imports/" + i.ID}, nil
	})
	if f, ok := faultsOf(err); ok {
		body.Faults, body.More = f.Faults, f.More
		return p.showTable(v, http.StatusUnprocessableEntity, body)
	}
	if err != nil {
		return err
	}
	return v.to(answer.Location)
}

// table is the table that a form brings, as a file or as pasted rows.
func (v *visit) table() (table []byte, key string, err error) {
	if err := v.ParseMultipartForm(longestTable); err != nil {
		return nil, "", formFault(err)
	}
	key = v.PostFormValue("key")
	if file, _, err := v.FormFile("table"); err == nil {
		table, err = io.ReadAll(file)
		if err = errors.Join(err, file.Close()); err != nil {
			return nil, "", formFault(err)
		}
	}
	if len(table) == 0 {
		table = []byte(v.PostFormValue("rows"))
	}
	return table, key, nil
}

// readImport is the second step, what was read, and the third, what became of it.
func (p *Pages) readImport(v *visit) error {
	job := v.PathValue("job")
	j, err := p.app.Job(v.Context(), v.who, job)
	if err != nil {
		return err
	}
	i, err := p.app.ImportOf(v.Context(), v.who, job, v.PathValue("import"))
	if err != nil {
		return err
	}
	title := "Import what was spent on " + j.Boat.Name + ", step 2 of 3: look at it"
	if i.State == app.Confirmed {
		title = "Import what was spent on " + j.Boat.Name + ", step 3 of 3: done"
	}
	body := readPage{Key: newKey(), Import: i, Job: j, Path: spendPath(job), Keeper: v.is(auth.Accountant)}
	if i.Confirmation == nil {
		body.Waiting, body.There = i.Good, i.Again
	} else {
		entered, err := p.brought(v, job, i.ID)
		if err != nil {
			return err
		}
		body.There = slices.Clone(i.Again)
		body.became(entered)
	}
	return p.show(v, http.StatusOK, "import-read", page{Title: title, Way: append(jobWay(j), link{"Spent", body.Path}), Body: body})
}

// confirmImport enters the good rows.
func (p *Pages) confirmImport(v *visit) error {
	sent, err := v.filled()
	if err != nil {
		return err
	}
	key, err := sent.key(v, "")
	if err != nil {
		return err
	}
	job, id := v.PathValue("job"), v.PathValue("import")
	answer, err := p.app.ConfirmSpend(v.Context(), v.who, job, id, key, func(app.Import) (store.Answer, error) {
		return store.Answer{Status: http.StatusOK, Location: spendPath(job) + "/imports/" + id}, nil
	})
	if err != nil {
		return err
	}
	return v.to(answer.Location)
}
