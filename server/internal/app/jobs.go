package app

import (
	"context"
	"strings"
	"time"

	"ribband/pricing/money"
	"ribband/server/internal/auth"
	"ribband/server/internal/store"
	"ribband/takeoff/document"
	"ribband/takeoff/notation"
)

// JobFields is what people say about a boat's refit.
type JobFields struct {
	Owner    Person            `json:"owner"`
	Boat     Boat              `json:"boat"`
	Notation notation.Notation `json:"notation"`
	Currency money.Currency    `json:"currency"`
	// OpenedDate is a calendar day, which no time zone shifts.
	OpenedDate string `json:"opened_date"`
}

// Person is somebody to write to.
type Person struct {
	Name    string   `json:"name"`
	Address []string `json:"address,omitempty"`
}

// Boat is what is to be rebuilt.
type Boat struct {
	Name        string `json:"name"`
	Description string `json:"description,omitempty"`
}

// Job is a boat's refit as it is kept. N is its version.
type Job struct {
	ID string `json:"id"`
	N  int64  `json:"-"`
	JobFields
	CreatedAt time.Time `json:"created_at"`
	ChangedAt time.Time `json:"changed_at"`
}

// Longest texts that people give.
const (
	longestName = 200
	longestText = 2000
	mostLines   = 8
)

func named(f *document.Faults, pointer, name string) {
	if strings.TrimSpace(name) == "" {
		f.Add(pointer, "a name", "there is no name")
	}
	short(f, pointer, name, longestName)
}

func short(f *document.Faults, pointer, text string, most int) {
	if n := len([]rune(text)); n > most {
		f.Add(pointer, "a shorter text", "the text has %d characters, %d are taken", n, most)
	}
}

// lines of an address.
func lines(f *document.Faults, pointer string, of []string) {
	if len(of) > mostLines {
		f.Add(pointer, "at most "+itoa(mostLines)+" lines", "%d lines are given", len(of))
	}
	for i, line := range of {
		short(f, pointer+"/"+itoa(i), line, longestName)
	}
}

func (j JobFields) check() document.Faults {
	var f document.Faults
	named(&f, "/owner/name", j.Owner.Name)
	lines(&f, "/owner/address", j.Owner.Address)
	named(&f, "/boat/name", j.Boat.Name)
	short(&f, "/boat/description", j.Boat.Description, longestText)
	if !j.Notation.Known() {
		f.Add("/notation", "feet_inches_eighths, inches, mm or m", "the notation %s is not known", notation.Quote(string(j.Notation)))
	}
	if !j.Currency.Known() {
		f.Add("/currency", "an ISO 4217 code in capitals, for example USD", "%s is not a currency", notation.Quote(string(j.Currency)))
	}
	day(&f, "/opened_date", j.OpenedDate)
	return f
}

func day(f *document.Faults, pointer, text string) {
	if _, err := time.Parse(time.DateOnly, text); err != nil {
		f.Add(pointer, "a day such as 2026-01-05", "%s is not a day of the calendar", notation.Quote(text))
	}
}

func jobOf(r store.Job) (Job, error) {
	fields, err := stored[JobFields]("job", r.Body)
	return Job{r.ID, r.N, fields, r.CreatedAt, r.ChangedAt}, err
}

func (j JobFields) record() (store.Job, error) {
	body, err := encode("job", j)
	return store.Job{Boat: j.Boat.Name, Owner: j.Owner.Name, Notation: string(j.Notation), Currency: string(j.Currency),
		OpenedDate: j.OpenedDate, Body: body}, err
}

// OpenJob begins a job.
func (a *App) OpenJob(ctx context.Context, who auth.Principal, key Key, fields JobFields, reply Reply[Job]) (store.Answer, error) {
	if err := fields.check().Err(); err != nil {
		return store.Answer{}, err
	}
	record, err := fields.record()
	if err != nil {
		return store.Answer{}, err
	}
	answer, _, err := a.write(ctx, who, "open job", key, func(ctx context.Context, tx *store.Tx) (store.Answer, error) {
		added, err := tx.AddJob(ctx, record)
		if err != nil {
			return store.Answer{}, err
		}
		job, err := jobOf(added)
		if err != nil {
			return store.Answer{}, err
		}
		return reply(job)
	})
	return answer, err
}

// Job reads a job.
func (a *App) Job(ctx context.Context, who auth.Principal, id string) (Job, error) {
	r, err := a.store.In(who.Yard).Job(ctx, id)
	if err != nil {
		return Job{}, err
	}
	if !who.Sees(r.ID) {
		return Job{}, &store.NotFoundError{Kind: "job", ID: id}
	}
	return jobOf(r)
}

// Jobs lists the yard's jobs.
func (a *App) Jobs(ctx context.Context, who auth.Principal, page store.Page) (List[Job], error) {
	rs, err := a.store.In(who.Yard).Jobs(ctx, page)
	if err != nil {
		return List[Job]{}, err
	}
	return listed(rs, jobOf)
}

// currencyStays refuses another currency once amounts in the old one are on the job.
func currencyStays(ctx context.Context, tx *store.Tx, record store.Job) error {
	old, err := tx.Job(ctx, record.ID)
	if err != nil || old.Currency == record.Currency {
		return err
	}
	quotes, err := tx.Quotes(ctx, record.ID, store.Page{Limit: 1})
	if err != nil {
		return err
	}
	spend, err := tx.SpendOf(ctx, record.ID, store.Page{Limit: 1})
	if err != nil {
		return err
	}
	if len(quotes.Items)+len(spend.Items) > 0 {
		return &CurrencyStaysError{old.Currency, record.Currency}
	}
	return nil
}

// ChangeJob writes a job anew, under the version that was seen. Its currency stays once there are quotes or spend: a
// *CurrencyStaysError.
func (a *App) ChangeJob(ctx context.Context, who auth.Principal, id string, fields JobFields, seen store.Seen) (Job, error) {
	if _, err := a.Job(ctx, who, id); err != nil {
		return Job{}, err
	}
	if err := fields.check().Err(); err != nil {
		return Job{}, err
	}
	record, err := fields.record()
	if err != nil {
		return Job{}, err
	}
	record.ID = id
	return change(ctx, a, who, "change job", func(ctx context.Context, tx *store.Tx) (Job, error) {
		if err := currencyStays(ctx, tx, record); err != nil {
			return Job{}, err
		}
		r, err := tx.ChangeJob(ctx, record, seen)
		if err != nil {
			return Job{}, err
		}
		return jobOf(r)
	})
}
