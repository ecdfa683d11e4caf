package api_test

import (
	"context"

	"ribband/server/internal/store"
)

// otherYardsJob is the id of a job in another yard of the same database, with an option, a quote and frames of its
// own behind it.
func (d *desk) otherYardsJob() string {
	d.t.Helper()
	var id string
	_, _, err := d.store.Write(d.t.Context(), store.Request{Action: "found another yard", Found: &store.Founding{Name: "Another yard"}},
		func(ctx context.Context, tx *store.Tx) (store.Answer, error) {
			job, err := tx.AddJob(ctx, store.Job{Boat: "Theirs", Owner: "Somebody", Notation: "mm", Currency: "EUR", OpenedDate: "2026-01-05", Body: []byte(`{}`)})
			id = job.ID
			return store.Answer{}, err
		})
	if err != nil {
		d.t.Fatal(err)
	}
	return id
}
