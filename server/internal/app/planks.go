package app

import (
	"context"
	"errors"

	"ribband/server/internal/auth"
	"ribband/server/internal/store"
	"ribband/takeoff"
	"ribband/takeoff/boat"
	"ribband/takeoff/document"
	"ribband/takeoff/frame"
	"ribband/takeoff/hull"
	"ribband/takeoff/hull/offsets"
	"ribband/takeoff/hull/planking"
	"ribband/takeoff/plank"
	"ribband/takeoff/timber"

	"github.com/shopspring/decimal"
)

// Planking reads how a job's boat is planked.
func (a *App) Planking(ctx context.Context, who auth.Principal, job string) (Written[planking.Boat], error) {
	return jobDocument[planking.Boat](ctx, a, who, kindPlanking, job)
}

// PutPlanking keeps how a job's boat is planked. Where she has lines it is read against them, so that a place that is not on her
// is told here; without lines only the form of it is. Strakes that an option renews cannot be taken away: a *MemberInUseError.
func (a *App) PutPlanking(ctx context.Context, who auth.Principal, job string, doc planking.Boat, seen store.Seen) (Written[planking.Boat], error) {
	if _, err := a.Job(ctx, who, job); err != nil {
		return Written[planking.Boat]{}, err
	}
	if err := doc.Check().Err(); err != nil {
		return Written[planking.Boat]{}, err
	}
	d, err := a.store.In(who.Yard).Document(ctx, kindHull, job)
	if err != nil && !gone(err) {
		return Written[planking.Boat]{}, err
	}
	if err == nil {
		lines, err := stored[offsets.Document](kindHull, d.Body)
		if err != nil {
			return Written[planking.Boat]{}, err
		}
		if err := a.onLines(ctx, doc, lines); err != nil {
			return Written[planking.Boat]{}, err
		}
	}
	stay := map[boat.Member]bool{}
	for _, side := range boat.Sides {
		for no := 1; no <= doc.Strakes(side); no++ {
			stay[boat.Member{Kind: boat.Strake, No: no, Side: side}] = true
		}
	}
	return put(ctx, a, who, kindPlanking, job, doc, seen, func(ctx context.Context, tx *store.Tx) error {
		uses, err := usesOfOthers(ctx, tx, job, boat.Strake, stay)
		if err == nil && len(uses) > 0 {
			err = &MemberInUseError{uses}
		}
		return err
	})
}

// onLines reads planking against lines; lines that cannot be fitted are told by the measures and stop nothing here.
func (a *App) onLines(ctx context.Context, doc planking.Boat, lines offsets.Document) error {
	done, err := a.heavy(ctx)
	if err != nil {
		return err
	}
	defer done()
	shapes, faults := readShapes(&lines, nil)
	var b takeoff.Basis
	if len(faults) > 0 || len(shapes.fit(&b)) > 0 || b.Hull == nil {
		return nil
	}
	_, faults = plankedSides(doc, b.Hull, shapes.offsets)
	return faults.Err()
}

// plankedSides reads how both sides are planked against the lines, where they have the side.
func plankedSides(doc planking.Boat, h *hull.Hull, table *offsets.Table) (map[boat.Side]planking.Terms, document.Faults) {
	var all document.Faults
	out := map[boat.Side]planking.Terms{}
	told := map[string]bool{}
	for _, side := range boat.Sides {
		d, at, ok := doc.Of(side)
		if !ok {
			continue
		}
		if _, err := h.Surface(side); err != nil {
			continue // a side without lines is told where a plank of it is renewed
		}
		terms, faults := planking.Read(d, h, doc.Notation, planking.Endings(table)...)
		if len(faults) == 0 {
			out[side] = terms
		}
		for _, f := range faults.Under(at) {
			if !told[f.Pointer+f.Detail] {
				told[f.Pointer+f.Detail] = true
				all = append(all, f)
			}
		}
	}
	return out, all
}

// readPlanking reads the papers' planking into a basis that has its hull.
func (p Papers) readPlanking(b *takeoff.Basis, table *offsets.Table) document.Faults {
	if p.Planking == nil || len(b.Planks) == 0 {
		return nil
	}
	if b.Hull == nil { // planks by hand are as thick as it says, and come out of its stock
		terms, faults := p.Planking.WithoutLines()
		b.Planking = terms
		return faults.Under("/planking")
	}
	terms, faults := plankedSides(*p.Planking, b.Hull, table)
	b.Planking = terms
	return faults.Under("/planking")
}

// readPlanks reads the papers' planks and the form of their planking.
func (p Papers) readPlanks(frames []frame.Frame) ([]plank.Plank, document.Faults) {
	var all document.Faults
	if p.Planking != nil {
		all = p.Planking.Check().Under("/planking")
	}
	if p.Planks == nil || len(all) > 0 {
		return nil, all
	}
	planks, faults := plank.Read(*p.Planks, haveOf(p.Planking, frames, p.Species))
	return planks, append(all, faults.Under("/planks")...)
}

// haveOf is what planks are held against.
func haveOf(doc *planking.Boat, frames []frame.Frame, species timber.Catalogue) plank.Have {
	have := plank.Have{Strakes: map[boat.Side]int{}, Frames: map[boat.Side]map[int]decimal.Decimal{}, Species: species}
	for _, side := range boat.Sides {
		have.Frames[side] = map[int]decimal.Decimal{}
		if doc != nil {
			have.Strakes[side] = doc.Strakes(side)
		}
	}
	for _, f := range frames {
		have.Frames[f.Side][f.No] = f.X
	}
	return have
}

// rowOfPlank is the place of the first plank of a strake.
func (p Papers) rowOfPlank(m boat.Member) string {
	if p.Planks != nil {
		for i, row := range p.Planks.Planks {
			for _, side := range row.Side.Expand() {
				if row.Strake == m.No && side == m.Side {
					return "/planks/planks/" + itoa(i)
				}
			}
		}
	}
	return "/planks"
}

// Planks reads which planks an option renews.
func (a *App) Planks(ctx context.Context, who auth.Principal, job, option string) (Written[plank.Document], error) {
	if _, err := a.Option(ctx, who, job, option); err != nil {
		return Written[plank.Document]{}, err
	}
	d, err := a.store.In(who.Yard).Document(ctx, kindPlanks, option)
	if err != nil {
		return Written[plank.Document]{}, err
	}
	return writtenOf[plank.Document](d)
}

// PutPlanks keeps which planks an option renews. Strakes and frames have to be among those of the job as they stand in the same
// moment.
func (a *App) PutPlanks(ctx context.Context, who auth.Principal, job, option string, doc plank.Document, seen store.Seen) (Written[plank.Document], error) {
	o, err := a.Option(ctx, who, job, option)
	if err != nil {
		return Written[plank.Document]{}, err
	}
	return put(ctx, a, who, kindPlanks, option, doc, seen, func(ctx context.Context, tx *store.Tx) error {
		frames, species, err := framesAndWoods(ctx, tx, job, o)
		if err != nil {
			return err
		}
		sides, err := plankingIn(ctx, tx, job)
		if err != nil {
			return err
		}
		_, faults := plank.Read(doc, haveOf(sides, frames, species))
		return faults.Err()
	})
}

// plankingIn is how a job's boat is planked, nil where nothing says.
func plankingIn(ctx context.Context, tx *store.Tx, job string) (*planking.Boat, error) {
	d, err := tx.Document(ctx, kindPlanking, job)
	var none *store.NotFoundError
	if errors.As(err, &none) {
		return nil, nil //nolint:nilnil // a job whose planking nobody wrote down
	}
	if err != nil {
		return nil, err
	}
	return optional[planking.Boat](d)
}
