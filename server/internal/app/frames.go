package app

import (
	"context"
	"errors"
	"sort"

	"ribband/server/internal/auth"
	"ribband/server/internal/store"
	"ribband/takeoff/boat"
	"ribband/takeoff/frame"
)

// Frames reads the frames of a job.
func (a *App) Frames(ctx context.Context, who auth.Principal, job string) (Written[frame.Document], error) {
	return jobDocument[frame.Document](ctx, a, who, kindFrames, job)
}

// PutFrames keeps the frames of a job. Frames that an option names cannot be taken away: a *MemberInUseError.
func (a *App) PutFrames(ctx context.Context, who auth.Principal, job string, doc frame.Document, seen store.Seen) (Written[frame.Document], error) {
	if _, err := a.Job(ctx, who, job); err != nil {
		return Written[frame.Document]{}, err
	}
	frames, faults := frame.Read(doc)
	if err := faults.Err(); err != nil {
		return Written[frame.Document]{}, err
	}
	stay := map[boat.Member]bool{}
	for _, f := range frames {
		stay[f.Member()] = true
	}
	return put(ctx, a, who, kindFrames, job, doc, seen, func(ctx context.Context, tx *store.Tx) error {
		uses, err := usesOfOthers(ctx, tx, job, boat.Frame, stay)
		if err == nil && len(uses) > 0 {
			err = &MemberInUseError{uses}
		}
		return err
	})
}

// usesOfOthers are the members of a kind that some option of the job names and that do not stay.
func usesOfOthers(ctx context.Context, tx *store.Tx, job string, kind boat.Kind, stay map[boat.Member]bool) ([]Use, error) {
	var uses []Use
	page := store.Page{Limit: store.LargestLimit}
	for {
		options, err := tx.Options(ctx, job, page)
		if err != nil {
			return nil, err
		}
		for _, o := range options.Items {
			d, err := tx.Document(ctx, kindRemedies, o.ID)
			var none *store.NotFoundError
			if errors.As(err, &none) {
				continue
			}
			if err != nil {
				return nil, err
			}
			remedies, err := stored[frame.Remedies](kindRemedies, d.Body)
			if err != nil {
				return nil, err
			}
			for _, m := range members(remedies) {
				if m.Kind == kind && !stay[m] {
					uses = append(uses, Use{o.ID, o.Name, m})
				}
			}
		}
		if options.Next == "" {
			return uses, nil
		}
		page.After = options.Next
	}
}

// members that remedies name, each side apart, in order.
func members(r frame.Remedies) []boat.Member {
	var out []boat.Member
	for _, row := range r.Remedies {
		out = append(out, row.Member.Run(row.ThroughNo)...)
	}
	sort.Slice(out, func(i, j int) bool { return boat.Compare(out[i], out[j]) < 0 })
	return out
}
