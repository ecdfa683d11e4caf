package store

import (
	"context"
	"time"

	"gorm.io/gorm"
)

// AddJob adds a job. ID, N and the times are filled in.
func (t *Tx) AddJob(ctx context.Context, job Job) (Job, error) {
	if err := checkJob(job); err != nil {
		return Job{}, err
	}
	at, id, err := t.identify()
	if err != nil {
		return Job{}, err
	}
	row := jobRow{YardID: t.yard, ID: id, N: 1, Boat: job.Boat, Owner: job.Owner, Notation: job.Notation, Currency: job.Currency,
		OpenedDate: job.OpenedDate, Body: bytesOf(job.Body), CreatedAt: at, ChangedAt: at}
	if err := t.do(ctx, func(db *gorm.DB) error { return db.Create(&row).Error }); err != nil {
		return Job{}, err
	}
	return row.noted(t)
}

// ChangeJob writes everything of a job that a caller may set, under the version
// it saw. Errors: [NotFoundError], [StaleError], [UnseenError], [TextError].
func (t *Tx) ChangeJob(ctx context.Context, job Job, seen Seen) (Job, error) {
	if err := checkJob(job); err != nil {
		return Job{}, err
	}
	old, err := t.Job(ctx, job.ID)
	if err != nil {
		return Job{}, err
	}
	if err := match("job", job.ID, seen, old.N); err != nil {
		return Job{}, err
	}
	row := jobRow{YardID: t.yard, ID: old.ID, N: old.N + 1, Boat: job.Boat, Owner: job.Owner, Notation: job.Notation, Currency: job.Currency,
		OpenedDate: job.OpenedDate, Body: bytesOf(job.Body), CreatedAt: old.CreatedAt.UnixMicro(), ChangedAt: t.tick()}
	if err := t.do(ctx, func(db *gorm.DB) error { return db.Select("*").Updates(&row).Error }); err != nil {
		return Job{}, err
	}
	return row.noted(t)
}

func checkJob(job Job) error {
	if _, err := time.Parse(time.DateOnly, job.OpenedDate); err != nil && job.OpenedDate != "" {
		return &UsageError{"a job's opened date is a calendar date"}
	}
	if err := checkText("boat", job.Boat, "owner", job.Owner, "notation", job.Notation, "currency", job.Currency); err != nil {
		return err
	}
	return checkBody("job", job.Body)
}

// noted enters the row into the audit and hands it back as a record.
func (r jobRow) noted(t *Tx) (Job, error) {
	hash, err := rowHash(r)
	if err != nil {
		return Job{}, err
	}
	t.changed("job", r.ID, r.N, hash)
	return r.record()
}

// AddOption adds an option to a job. ID, N and the times are filled in. Errors:
// [NotFoundError] for the job, [TextError].
func (t *Tx) AddOption(ctx context.Context, option Option) (Option, error) {
	if err := checkOption(option); err != nil {
		return Option{}, err
	}
	at, id, err := t.identify()
	if err != nil {
		return Option{}, err
	}
	row := optionRow{YardID: t.yard, ID: id, JobID: option.JobID, N: 1, Name: option.Name, Body: bytesOf(option.Body), CreatedAt: at, ChangedAt: at}
	if err := t.do(ctx, func(db *gorm.DB) error { return db.Create(&row).Error }); err != nil {
		return Option{}, parentMissing(err, "job", option.JobID)
	}
	return row.noted(t)
}

// ChangeOption writes an option's name and body under the version the caller saw.
// Errors: [NotFoundError], [StaleError], [UnseenError], [TextError].
func (t *Tx) ChangeOption(ctx context.Context, option Option, seen Seen) (Option, error) {
	if err := checkOption(option); err != nil {
		return Option{}, err
	}
	old, err := t.Option(ctx, option.ID)
	if err != nil {
		return Option{}, err
	}
	if err := match("option", option.ID, seen, old.N); err != nil {
		return Option{}, err
	}
	row := optionRow{YardID: t.yard, ID: old.ID, JobID: old.JobID, N: old.N + 1, Name: option.Name, Body: bytesOf(option.Body),
		CreatedAt: old.CreatedAt.UnixMicro(), ChangedAt: t.tick()}
	if err := t.do(ctx, func(db *gorm.DB) error { return db.Select("*").Updates(&row).Error }); err != nil {
		return Option{}, err
	}
	return row.noted(t)
}

func checkOption(option Option) error {
	if err := checkText("job", option.JobID, "name", option.Name); err != nil {
		return err
	}
	return checkBody("option", option.Body)
}

// noted enters the row into the audit and hands it back as a record.
func (r optionRow) noted(t *Tx) (Option, error) {
	hash, err := rowHash(r)
	if err != nil {
		return Option{}, err
	}
	t.changed("option", r.ID, r.N, hash)
	return r.record()
}
