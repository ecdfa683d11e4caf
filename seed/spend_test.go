package seed_test

import (
	"strings"
	"testing"

	"ribband/pricing/reconcile"
	"ribband/seed"
)

// The table to try the import with goes in whole, on the demo's own job and steps, and says of every row that it is
// invented.
func TestSpendGoesInWhole(t *testing.T) {
	d, err := seed.Load()
	if err != nil {
		t.Fatal(err)
	}
	job := reconcile.Job{Currency: d.Job.Currency, OpenedDate: d.Job.OpenedDate}
	for _, s := range d.Steps.Steps {
		job.Steps = append(job.Steps, reconcile.KnownStep{Code: s.Code, Name: s.Name})
	}
	read := reconcile.ReadCSV(seed.SpendCSV(), job, nil)
	if err := read.Err(); err != nil {
		t.Fatal(err)
	}
	rows := strings.Count(string(seed.SpendCSV()), "\n") - 1
	if len(read.Good) != rows || rows < 10 {
		t.Errorf("%d of %d rows go in", len(read.Good), rows)
	}
	kinds := map[reconcile.Kind]bool{}
	for _, g := range read.Good {
		kinds[g.Entry.Kind] = true
		for _, text := range []string{g.Entry.Supplier, g.Entry.Description, g.Entry.Author} {
			if !strings.Contains(text, "(invented)") {
				t.Errorf("row %d: %q does not say that it is invented", g.Row, text)
			}
		}
	}
	if len(kinds) != len(reconcile.Kinds) {
		t.Errorf("the table shows only %v", kinds)
	}
}
