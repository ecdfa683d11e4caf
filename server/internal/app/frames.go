package app

import (
	"context"
	"sort"

	"ribband/server/internal/auth"
	"ribband/server/internal/store"
	"ribband/takeoff/boat"
	"ribband/takeoff/frame"
	"ribband/takeoff/plank"
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
			named, err := namedBy(ctx, tx, o.ID)
			if err != nil {
				return nil, err
			}
			for _, m := range named {
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

// namedBy are the members that an option names with its remedies and its planks.
func namedBy(ctx context.Context, tx *store.Tx, option string) ([]boat.Member, error) {
	var out []boat.Member
	d, err := tx.Document(ctx, kindRemedies, option)
	if err == nil {
		var remedies frame.Remedies
		if remedies, err = stored[frame.Remedies](kindRemedies, d.Body); err == nil {
			out = members(remedies)
		}
	}
	if err != nil && !gone(err) {
		return nil, err
	}
	d, err = tx.Document(ctx, kindPlanks, option)
	if gone(err) {
		return out, nil
	}
	if err != nil {
		return nil, err
	}
	planks, err := stored[plank.Document](kindPlanks, d.Body)
	return append(out, ofPlanks(planks)...), err
}

// ofPlanks are the strakes that planks are of, where their size is not by hand, and the frames that they run from and to, each
// once.
func ofPlanks(d plank.Document) []boat.Member {
	var out []boat.Member
	seen := map[boat.Member]bool{}
	add := func(m boat.Member) {
		if !seen[m] {
			seen[m] = true
			out = append(out, m)
		}
	}
	for _, row := range d.Planks {
		for _, side := range row.Side.Expand() {
			if row.ByHand == nil {
				add(boat.Member{Kind: boat.Strake, No: row.Strake, Side: side})
			}
			for _, no := range []*int{row.FromFrame, row.ToFrame} {
				if no != nil {
					add(boat.Member{Kind: boat.Frame, No: *no, Side: side})
				}
			}
		}
	}
	return out
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
