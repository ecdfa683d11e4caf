package app

import (
	"bytes"
	"context"
	"errors"
	"fmt"
	"time"

	"ribband/pricing/reconcile"
	"ribband/pricing/sheet"
	"ribband/server/internal/auth"
	"ribband/server/internal/store"
)

// kindImport is an import's document: version 1 is what was read, version 2 what became of it.
const kindImport = "spend-import"

// ImportState says whether an import still waits.
type ImportState string

// The states.
const (
	Pending   ImportState = "pending"   // read and kept; nothing of it counts yet
	Confirmed ImportState = "confirmed" // its rows count
)

// Import is a table of spend that was read: good rows that wait, rows that are there already, and bad rows with
// everything that is wrong with them.
type Import struct {
	ID    string      `json:"id"`
	Job   string      `json:"job"`
	State ImportState `json:"state"`
	// TableHash is the SHA-256 of the table as it was sent.
	TableHash string `json:"table_hash"`
	reconcile.Import
	ReadBy string    `json:"read_by"`
	ReadAt time.Time `json:"read_at"`
	// Confirmation is nil while the import waits.
	Confirmation *Confirmation `json:"confirmation,omitempty"`
}

// Confirmation is what became of an import's good rows. Entered rows count from then on; Again were entered by
// somebody else meanwhile with the same content and count once; Refused were entered meanwhile with other content, or
// no longer fit the job; More is how many further faults are not listed.
type Confirmation struct {
	Entered int           `json:"entered"`
	Again   int           `json:"again"`
	Refused []sheet.Fault `json:"refused"`
	More    int           `json:"more"`
	By      string        `json:"by"`
	At      time.Time     `json:"at"`
}

func importOf(d store.Document) (Import, error) {
	out, err := stored[Import](kindImport, d.Body)
	out.ID = d.ID
	return out, err
}

// ReadSpend reads a table of spend and keeps what it says, so that somebody can look at it and confirm it. Nothing of
// it counts until then. A table of which no row can be entered is refused with all that is wrong and not kept.
func (a *App) ReadSpend(ctx context.Context, who auth.Principal, job string, key Key, table []byte, reply Reply[Import]) (store.Answer, error) {
	if _, err := a.bookedJob(ctx, who, job); err != nil {
		return store.Answer{}, err
	}
	if answer, found, err := a.replay(ctx, who, "read spend", key); err != nil || found {
		return answer, err
	}
	in := a.store.In(who.Yard)
	fits, err := a.spendJob(ctx, in, job)
	if err != nil {
		return store.Answer{}, err
	}
	posted, err := allSpend(ctx, in, job)
	if err != nil {
		return store.Answer{}, err
	}
	read := reconcile.ReadCSV(table, fits, entriesOf(posted))
	if len(read.Good)+len(read.Again) == 0 {
		if err := read.Err(); err != nil {
			return store.Answer{}, err
		}
	}
	answer, _, err := a.write(ctx, who, "read spend", key, func(ctx context.Context, tx *store.Tx) (store.Answer, error) {
		id, err := tx.NewID()
		if err != nil {
			return store.Answer{}, err
		}
		out := Import{ID: id, Job: job, State: Pending, TableHash: store.HashOf(table), Import: read, ReadBy: who.Name, ReadAt: tx.Now()}
		if err := keepImport(ctx, tx, out, store.Absent); err != nil {
			return store.Answer{}, err
		}
		return reply(out)
	})
	return answer, err
}

func keepImport(ctx context.Context, tx *store.Tx, i Import, seen store.Seen) error {
	body, err := encode(kindImport, i)
	if err != nil {
		return err
	}
	_, err = tx.PutDocument(ctx, store.Document{Kind: kindImport, ID: i.ID, Schema: schema, Body: body}, seen)
	return err
}

// ImportOf reads an import of a job.
func (a *App) ImportOf(ctx context.Context, who auth.Principal, job, id string) (Import, error) {
	if _, err := a.bookedJob(ctx, who, job); err != nil {
		return Import{}, err
	}
	i, _, err := importIn(ctx, a.store.In(who.Yard), job, id)
	return i, err
}

func importIn(ctx context.Context, in store.Reader, job, id string) (Import, int64, error) {
	d, err := in.Document(ctx, kindImport, id)
	if err != nil {
		return Import{}, 0, err
	}
	i, err := importOf(d)
	if err == nil && i.Job != job {
		err = &store.NotFoundError{Kind: kindImport, ID: id}
	}
	return i, d.N, err
}

// ConfirmSpend enters the good rows of an import, all of them in one write. They are held against the job and its
// spend once more, because both may have changed since the table was read. An import that is confirmed already stays
// as it is. One whose table was not read to its end is refused.
func (a *App) ConfirmSpend(ctx context.Context, who auth.Principal, job, id string, key Key, reply Reply[Import]) (store.Answer, error) {
	if _, err := a.ImportOf(ctx, who, job, id); err != nil {
		return store.Answer{}, err
	}
	answer, _, err := a.write(ctx, who, "confirm spend", key, func(ctx context.Context, tx *store.Tx) (store.Answer, error) {
		i, n, err := importIn(ctx, tx.Reader, job, id)
		if err != nil {
			return store.Answer{}, err
		}
		if i.State == Confirmed {
			return reply(i)
		}
		if err := confirmable(i); err != nil {
			return store.Answer{}, err
		}
		now, err := a.judgedAgain(ctx, tx.Reader, i)
		if err != nil {
			return store.Answer{}, err
		}
		var rows []store.Spend
		for _, g := range now.Good {
			rows = append(rows, spendRecord(job, id, g.Entry))
		}
		if _, err := tx.AddSpend(ctx, rows); err != nil {
			return store.Answer{}, err
		}
		i.State = Confirmed
		i.Confirmation = &Confirmation{Entered: len(now.Good), Again: len(now.Again), Refused: now.Faults, More: now.More, By: who.Name, At: tx.Now()}
		if err := keepImport(ctx, tx, i, store.Seen(n)); err != nil {
			return store.Answer{}, err
		}
		return reply(i)
	})
	return answer, err
}

// confirmable refuses an import whose table was not read to its end, as the fault of the row where reading ended.
func confirmable(i Import) error {
	var stopped *reconcile.StoppedError
	if err := i.Confirmable(); !errors.As(err, &stopped) {
		return err
	}
	return &sheet.FaultsError{Faults: []sheet.Fault{{Row: stopped.Row, Detail: stopped.Error(), Fix: "put that row right in the table and import the whole of it again"}}}
}

// judgedAgain is the good rows of an import as they stand now, by the rows of the table they came from. They are
// written out and read again, since only a table gives every text back as it was.
func (a *App) judgedAgain(ctx context.Context, in store.Reader, i Import) (reconcile.Import, error) {
	if len(i.Good) == 0 {
		return reconcile.Import{Faults: []sheet.Fault{}}, nil
	}
	fits, err := a.spendJob(ctx, in, i.Job)
	if err != nil {
		return reconcile.Import{}, err
	}
	posted, err := allSpend(ctx, in, i.Job)
	if err != nil {
		return reconcile.Import{}, err
	}
	entries := make([]reconcile.Entry, len(i.Good))
	for k, g := range i.Good {
		entries[k] = g.Entry
	}
	var table bytes.Buffer
	if err := reconcile.WriteCSV(&table, entries); err != nil {
		return reconcile.Import{}, err
	}
	now := reconcile.ReadCSV(table.Bytes(), fits, entriesOf(posted))
	for k, f := range now.Faults {
		if f.Row < firstRow || f.Row-firstRow >= len(i.Good) {
			return reconcile.Import{}, fmt.Errorf("import %s: its rows cannot be read again: %s", i.ID, f)
		}
		// Columns may stand in another order in the table that was sent.
		f.Row, f.ColumnNo = i.Good[f.Row-firstRow].Row, 0
		now.Faults[k] = f
	}
	return now, nil
}

// firstRow is the row of the first entry of a table that the program writes, under the header.
const firstRow = 2
