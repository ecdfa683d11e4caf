package app

import (
	"context"
	"errors"
	"fmt"
	"slices"
	"time"

	"ribband/server/internal/auth"
	"ribband/server/internal/store"
	"ribband/takeoff"
	"ribband/takeoff/boat"
	"ribband/takeoff/derivation"
	"ribband/takeoff/drawing"
	"ribband/takeoff/frame"
	"ribband/takeoff/hull"
	"ribband/takeoff/hull/offsets"
	"ribband/takeoff/pattern"
	"ribband/takeoff/timber"
)

// drawn is a boat's documents as they are drawn; what is not there is empty.
type drawn struct {
	boat, note             string
	hull, frames, remedies store.Document
	patterns               store.Document
	species, floors        store.Document
	option                 string
	// planked: the option renews planks, and leaves the frames that it says nothing of.
	planked bool
	// figures are those of the option's takeoff, by which pieces are drawn, and worked is what tells them from others'; none
	// where no piece is made or nothing can be taken off yet.
	figures []derivation.Figure
	worked  string
	// plain: for the owner, in words that need no knowledge of the trade.
	plain bool
}

// BodyPlan draws a job's hull as it stands, on a sheet so many pixels wide.
func (a *App) BodyPlan(ctx context.Context, who auth.Principal, job string, width float64) (drawing.Drawing, error) {
	d, err := a.drawnOf(ctx, who, job)
	if err != nil {
		return drawing.Drawing{}, err
	}
	return a.draw(ctx, d, "body plan", width, d.bodyPlan)
}

// Profile draws a job's hull from the side, as BodyPlan does from ahead.
func (a *App) Profile(ctx context.Context, who auth.Principal, job string, width float64) (drawing.Drawing, error) {
	d, err := a.drawnOf(ctx, who, job)
	if err != nil {
		return drawing.Drawing{}, err
	}
	return a.draw(ctx, d, "profile", width, d.profile)
}

// HalfBreadths draws a job's hull from above, as BodyPlan does from ahead.
func (a *App) HalfBreadths(ctx context.Context, who auth.Principal, job string, width float64) (drawing.Drawing, error) {
	d, err := a.drawnOf(ctx, who, job)
	if err != nil {
		return drawing.Drawing{}, err
	}
	return a.draw(ctx, d, "half-breadths", width, d.halfBreadths)
}

// FramePlan draws a job's frames with what the option does to them; without an option every frame is unknown.
func (a *App) FramePlan(ctx context.Context, who auth.Principal, job, option string, width float64) (drawing.Drawing, error) {
	d, err := a.drawnOf(ctx, who, job)
	if err != nil {
		return drawing.Drawing{}, err
	}
	if option != "" {
		o, err := a.Option(ctx, who, job, option)
		if err != nil {
			return drawing.Drawing{}, err
		}
		in := a.store.In(who.Yard)
		d.option = o.Name
		if d.remedies, err = in.Document(ctx, kindRemedies, option); err != nil && !gone(err) {
			return drawing.Drawing{}, err
		}
		switch _, err = in.Document(ctx, kindPlanks, option); {
		case err == nil:
			d.planked = true
		case !gone(err):
			return drawing.Drawing{}, err
		}
		if d.species, err = in.DocumentAt(ctx, kindSpecies, yardOwn, o.Versions.Species); err != nil {
			return drawing.Drawing{}, err
		}
		if err := a.piecesOf(ctx, who, o, &d); err != nil {
			return drawing.Drawing{}, err
		}
	}
	return a.draw(ctx, d, "frame plan", width, d.framePlan)
}

// piecesOf has the option taken off where it lets pieces in or doubles frames, so that these are drawn as long as they are.
// What cannot be taken off yet is drawn without them.
func (a *App) piecesOf(ctx context.Context, who auth.Principal, o Option, d *drawn) error {
	remedies, err := asPut[frame.Remedies](d.remedies)
	if err != nil || remedies == nil {
		return err
	}
	if !slices.ContainsFunc(remedies.Remedies, func(r frame.RemedyRow) bool { return r.Remedy == boat.ScarfIn || r.Remedy == boat.Sister }) {
		return nil
	}
	w, err := a.takeoff(ctx, who, o)
	var missing *MissingDocumentError
	var not *ComputeError
	switch {
	case errors.As(err, &missing), errors.As(err, &not):
		return nil
	case err != nil:
		return err
	}
	d.figures, d.worked = w.result.Figures, w.hash
	return nil
}

// IssuedFramePlan draws the frames as the option of an issued revision has them, on the documents that were frozen
// with it; for an owner in plain words.
func (a *App) IssuedFramePlan(ctx context.Context, who auth.Principal, quote string, n int64, option string, width float64) (drawing.Drawing, error) {
	_, r, _, err := a.revisionRecord(ctx, who, quote, n)
	if err != nil {
		return drawing.Drawing{}, err
	}
	s, err := a.snapshot(ctx, who, quote, n)
	if err != nil {
		return drawing.Drawing{}, err
	}
	for i, b := range s.Bases {
		if b.Option != option {
			continue
		}
		d := drawn{boat: s.Job.Boat.Name, note: s.Yard.Note, option: s.Takeoffs[i].Option.Name, plain: who.Role == auth.Owner, figures: s.Takeoffs[i].Figures, worked: b.BasisHash}
		for _, source := range b.Basis {
			doc := s.document(source)
			doc.CreatedAt = r.IssuedAt
			switch source.Kind {
			case kindHull:
				d.hull = doc
			case kindFrames:
				d.frames = doc
			case kindRemedies:
				d.remedies = doc
			case kindPlanks:
				d.planked = true
			case kindSpecies:
				d.species = doc
			}
		}
		return a.draw(ctx, d, "frame plan", width, d.framePlan)
	}
	return drawing.Drawing{}, &store.NotFoundError{Kind: "option", ID: option}
}

// document is a frozen document as a record.
func (s snapshot) document(at Source) store.Document {
	for _, d := range s.Documents {
		if d.Source == at {
			return store.Document{Kind: d.Kind, ID: d.ID, N: d.N, Hash: d.Hash, Body: d.Body}
		}
	}
	return store.Document{}
}

// drawnOf reads what a job's drawings are made from.
func (a *App) drawnOf(ctx context.Context, who auth.Principal, job string) (drawn, error) {
	j, err := a.Job(ctx, who, job)
	if err != nil {
		return drawn{}, err
	}
	yard, _, err := a.letterhead(ctx, who.Yard)
	if err != nil {
		return drawn{}, err
	}
	d := drawn{boat: j.Boat.Name, note: yard.Note}
	in := a.store.In(who.Yard)
	if d.hull, err = in.Document(ctx, kindHull, job); err != nil && !gone(err) {
		return drawn{}, err
	}
	if d.patterns, err = in.Document(ctx, kindPatterns, job); err != nil && !gone(err) {
		return drawn{}, err
	}
	if d.frames, err = in.Document(ctx, kindFrames, job); err != nil && !gone(err) {
		return drawn{}, err
	}
	d.floors, err = in.Document(ctx, kindFloors, job)
	if gone(err) {
		err = nil
	}
	return d, err
}

// draw makes a drawing, or finds it among those kept: the same documents give the same drawing.
func (a *App) draw(ctx context.Context, d drawn, what string, width float64, make func(width float64) (drawing.Drawing, error)) (drawing.Drawing, error) {
	key := store.HashOf(fmt.Appendf(nil, "%s %v %v %v %q %q %q %d %d %s %s %s %s %s %s", what, d.plain, d.planked, width, d.boat, d.note, d.option,
		d.hull.N, d.hull.CreatedAt.UnixMicro(), d.hull.Hash, d.patterns.Hash, d.frames.Hash, d.remedies.Hash, d.species.Hash, d.worked))
	if kept, ok := a.drawings.get(key); ok {
		return kept, nil
	}
	done, err := a.heavy(ctx)
	if err != nil {
		return drawing.Drawing{}, err
	}
	defer done()
	out, err := make(width)
	if err == nil {
		a.drawings.put(key, out)
	}
	return out, err
}

// sheet is the corner of a drawing: the day and the version of what it shows.
func (d drawn) sheet(width float64, shows store.Document) drawing.Sheet {
	s := drawing.Sheet{Boat: d.boat, Note: d.note, Width: width}
	if shows.N > 0 {
		s.Date, s.Revision = shows.CreatedAt.Format(time.DateOnly), itoa(int(shows.N))
	}
	return s
}

// lines are the offsets as read, and the fair curves through them where there are any.
func (d drawn) lines() (*offsets.Table, *hull.Hull, error) {
	if d.hull.N == 0 {
		return nil, nil, nil
	}
	doc, err := stored[offsets.Document](kindHull, d.hull.Body)
	if err != nil {
		return nil, nil, err
	}
	table, faults := offsets.Read(&doc)
	if len(faults) > 0 {
		return nil, nil, &ComputeError{hullFaults(faults)}
	}
	fitted, err := hull.Fit(table)
	var unfair *offsets.FaultsError
	if errors.As(err, &unfair) {
		err = nil // the drawing joins the points and says so
	}
	return table, fitted, err
}

func (d drawn) bodyPlan(width float64) (drawing.Drawing, error) {
	offsets, fitted, err := d.lines()
	if err != nil {
		return drawing.Drawing{}, err
	}
	p := drawing.BodyPlan{Sheet: d.sheet(width, d.hull), Offsets: offsets, Hull: fitted}
	if err := d.patternsInto(&p); err != nil {
		return drawing.Drawing{}, err
	}
	return p.Draw(), nil
}

// patternsInto puts the patterns of frames among the sections, each where its frame stands.
func (d drawn) patternsInto(p *drawing.BodyPlan) error {
	doc, err := asPut[pattern.Document](d.patterns)
	if err != nil || doc == nil {
		return err
	}
	set, faults := pattern.Read(*doc)
	var fitted *pattern.Fitted
	if len(faults) == 0 {
		fitted, faults = set.Fit()
	}
	if len(faults) > 0 {
		p.Notes = append(p.Notes, "The patterns of frames do not make fair curves yet and are not drawn.")
		return nil
	}
	at := map[boat.Member]float64{}
	if frames, err := asPut[frame.Document](d.frames); err != nil {
		return err
	} else if frames != nil {
		read, _ := frame.Read(*frames) // what is wrong with them is told where they are put
		for _, f := range read {
			at[f.Member()] = f.X.InexactFloat64()
		}
	}
	for _, m := range fitted.Members() {
		x, placed := at[m]
		s, _ := fitted.Section(m, x)
		p.Patterns = append(p.Patterns, drawing.FramePattern{Member: m, Section: s, Placed: placed})
	}
	return nil
}

func (d drawn) profile(width float64) (drawing.Drawing, error) {
	offsets, fitted, err := d.lines()
	return drawing.Profile{Sheet: d.sheet(width, d.hull), Offsets: offsets, Hull: fitted}.Draw(), err
}

func (d drawn) halfBreadths(width float64) (drawing.Drawing, error) {
	offsets, fitted, err := d.lines()
	return drawing.HalfBreadths{Sheet: d.sheet(width, d.hull), Offsets: offsets, Hull: fitted}.Draw(), err
}

func (d drawn) framePlan(width float64) (drawing.Drawing, error) {
	table, fitted, err := d.lines()
	if err != nil {
		return drawing.Drawing{}, err
	}
	p := drawing.FramePlan{Sheet: d.sheet(width, d.frames), Option: d.option, Hull: fitted, Plain: d.plain}
	if table != nil {
		p.Notation = table.Notation
	}
	if d.frames.N == 0 {
		return p.Draw(), nil
	}
	written, err := stored[frame.Document](kindFrames, d.frames.Body)
	if err != nil {
		return drawing.Drawing{}, err
	}
	frames, faults := frame.Read(written)
	if len(faults) > 0 {
		return drawing.Drawing{}, &ComputeError{faults}
	}
	p.Frames = frames
	if d.remedies.N == 0 && !d.planked {
		return p.Draw(), nil
	}
	var remedies frame.Remedies
	if d.remedies.N > 0 {
		if remedies, err = stored[frame.Remedies](kindRemedies, d.remedies.Body); err != nil {
			return drawing.Drawing{}, err
		}
	}
	species, err := stored[timber.Catalogue](kindSpecies, d.species.Body)
	if err != nil {
		return drawing.Drawing{}, err
	}
	remedies.Remedies = slices.DeleteFunc(slices.Clone(remedies.Remedies), func(r frame.RemedyRow) bool { return r.Member.Kind == boat.Floor }) // drawn are frames
	choices, faults := frame.ReadRemedies(remedies, frames, species)
	if len(faults) > 0 {
		return drawing.Drawing{}, &ComputeError{faults}
	}
	p.Work = drawing.WorkOf(choices, d.pieces(frames))
	return p.Draw(), nil
}

// pieces of the frames as the option's figures have them.
func (d drawn) pieces(frames []frame.Frame) map[boat.Member][]drawing.Piece {
	members := make([]boat.Member, len(frames))
	for i, f := range frames {
		members[i] = f.Member()
	}
	out := map[boat.Member][]drawing.Piece{}
	for m, stretches := range takeoff.Stretches(d.figures, members) {
		for _, s := range stretches {
			out[m] = append(out[m], drawing.Piece{From: s.From, Low: s.Low, High: s.High, To: s.To})
		}
	}
	return out
}
