package app

import (
	"context"

	"ribband/server/internal/auth"
	"ribband/server/internal/store"
	"ribband/takeoff/boat"
	"ribband/takeoff/floor"
)

// Floors reads the floors of a job.
func (a *App) Floors(ctx context.Context, who auth.Principal, job string) (Written[floor.Document], error) {
	return jobDocument[floor.Document](ctx, a, who, kindFloors, job)
}

// PutFloors keeps the floors of a job. Whether there are frames where they stand is told by the takeoff: either may be put
// before the other. Floors that an option names cannot be taken away: a *MemberInUseError.
func (a *App) PutFloors(ctx context.Context, who auth.Principal, job string, doc floor.Document, seen store.Seen) (Written[floor.Document], error) {
	if _, err := a.Job(ctx, who, job); err != nil {
		return Written[floor.Document]{}, err
	}
	floors, faults := floor.Read(doc)
	if err := faults.Err(); err != nil {
		return Written[floor.Document]{}, err
	}
	stay := map[boat.Member]bool{}
	for _, f := range floors {
		stay[f.Member()] = true
	}
	return put(ctx, a, who, kindFloors, job, doc, seen, func(ctx context.Context, tx *store.Tx) error {
		uses, err := usesOfOthers(ctx, tx, job, boat.Floor, stay)
		if err == nil && len(uses) > 0 {
			err = &MemberInUseError{uses}
		}
		return err
	})
}

// floorMembers of a job, none where it has no floors.
func floorMembers(ctx context.Context, tx *store.Tx, job string) ([]boat.Member, error) {
	d, err := tx.Document(ctx, kindFloors, job)
	if gone(err) {
		return nil, nil
	}
	if err != nil {
		return nil, err
	}
	doc, err := stored[floor.Document](kindFloors, d.Body)
	if err != nil {
		return nil, err
	}
	floors, faults := floor.Read(doc)
	return membersOf(floors), faults.Err()
}

func membersOf(floors []floor.Floor) []boat.Member {
	var out []boat.Member
	for _, f := range floors {
		out = append(out, f.Member())
	}
	return out
}
