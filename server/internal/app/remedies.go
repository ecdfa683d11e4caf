package app

import (
	"context"

	"ribband/server/internal/auth"
	"ribband/server/internal/store"
	"ribband/takeoff/frame"
	"ribband/takeoff/timber"
)

// Remedies reads what an option does.
func (a *App) Remedies(ctx context.Context, who auth.Principal, job, option string) (Written[frame.Remedies], error) {
	if _, err := a.Option(ctx, who, job, option); err != nil {
		return Written[frame.Remedies]{}, err
	}
	d, err := a.store.In(who.Yard).Document(ctx, kindRemedies, option)
	if err != nil {
		return Written[frame.Remedies]{}, err
	}
	return writtenOf[frame.Remedies](d)
}

// PutRemedies keeps what an option does. Every member has to be among the frames and floors as they stand in the same moment.
func (a *App) PutRemedies(ctx context.Context, who auth.Principal, job, option string, doc frame.Remedies, seen store.Seen) (Written[frame.Remedies], error) {
	o, err := a.Option(ctx, who, job, option)
	if err != nil {
		return Written[frame.Remedies]{}, err
	}
	return put(ctx, a, who, kindRemedies, option, doc, seen, func(ctx context.Context, tx *store.Tx) error {
		frames, species, err := framesAndWoods(ctx, tx, job, o)
		if err != nil {
			return err
		}
		floors, err := floorMembers(ctx, tx, job)
		if err != nil {
			return err
		}
		_, faults := frame.ReadRemedies(doc, frames, species, floors...)
		return faults.Err()
	})
}

// framesAndWoods are the job's frames and the species that the option goes by, as they stand in the same moment.
func framesAndWoods(ctx context.Context, tx *store.Tx, job string, o Option) ([]frame.Frame, timber.Catalogue, error) {
	d, err := tx.Document(ctx, kindFrames, job)
	if err != nil {
		return nil, timber.Catalogue{}, absent(err, "the job has no frames yet", "put the frames of the job first")
	}
	written, err := stored[frame.Document](kindFrames, d.Body)
	if err != nil {
		return nil, timber.Catalogue{}, err
	}
	frames, faults := frame.Read(written)
	if err := faults.Err(); err != nil {
		return nil, timber.Catalogue{}, err
	}
	s, err := tx.DocumentAt(ctx, kindSpecies, yardOwn, o.Versions.Species)
	if err != nil {
		return nil, timber.Catalogue{}, err
	}
	species, err := stored[timber.Catalogue](kindSpecies, s.Body)
	return frames, species, err
}
