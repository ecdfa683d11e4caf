package app

import (
	"context"
	"errors"

	"ribband/server/internal/auth"
	"ribband/server/internal/store"
	"ribband/takeoff"
	"ribband/takeoff/boat"
	"ribband/takeoff/document"
	"ribband/takeoff/finding"
	"ribband/takeoff/floor"
	"ribband/takeoff/frame"
	"ribband/takeoff/hull/offsets"
	"ribband/takeoff/hull/planking"
	"ribband/takeoff/pattern"
	"ribband/takeoff/plank"
	"ribband/takeoff/rules"
	"ribband/takeoff/step"
	"ribband/takeoff/timber"
)

// Source is one document that a takeoff read.
type Source struct {
	Kind string `json:"kind"`
	ID   string `json:"id"`
	N    int64  `json:"n"`
	Hash string `json:"hash"`
}

// version is prices as people count them: a version of the sheet is a document of its own, put as often as it took.
func (s Source) version(n int64) Source { s.N = n; return s }

// sources are documents by value, in the order of a basis: hull, patterns and findings where the job has them, frames, floors where
// it has any, how she is planked where the option renews planks, remedies, those planks,
// species, steps, rules.
type sources []store.Document

// list is the basis: which documents, without their bodies.
func (s sources) list() []Source {
	out := make([]Source, len(s))
	for i, d := range s {
		out[i] = Source{d.Kind, d.ID, d.N, d.Hash}
	}
	return out
}

// hash is the basis' own hash.
func (s sources) hash() (string, error) {
	b, err := encode("basis", s.list())
	return store.HashOf(b), err
}

// sourcesOf reads the documents that the takeoff of an option rests on, as they stand.
func (a *App) sourcesOf(ctx context.Context, who auth.Principal, o Option) (sources, error) {
	in := a.store.In(who.Yard)
	var out sources
	_, err := in.Document(ctx, kindPlanks, o.ID)
	if err != nil && !gone(err) {
		return nil, err
	}
	planks := err == nil
	for _, w := range []struct{ kind, id, what, fix string }{
		{kindHull, o.Job, "", ""},
		{kindPatterns, o.Job, "", ""},
		{kindFindings, o.Job, "", ""},
		{kindFrames, o.Job, "the job has no frames yet", "put the frames of the job first"},
		{kindFloors, o.Job, "", ""},
		{kindPlanking, o.Job, "", ""},
		{kindRemedies, o.ID, "the option has no remedies yet", "put what the option does first"},
		{kindPlanks, o.ID, "", ""},
	} {
		if w.kind == kindPlanking && !planks {
			continue // how she is planked says nothing to an option that renews no plank
		}
		d, err := in.Document(ctx, w.kind, w.id)
		if w.kind == kindRemedies && gone(err) && planks {
			continue // it may be for planks alone
		}
		if w.what == "" && gone(err) {
			continue // a boat of taped frames has no lines, and few have patterns; findings may be still to come
		}
		if err != nil {
			return nil, absent(err, w.what, w.fix)
		}
		out = append(out, d)
	}
	for _, w := range []struct {
		kind string
		n    int64
	}{{kindSpecies, o.Versions.Species}, {kindSteps, o.Versions.StepLibrary}, {kindRules, o.Versions.Rules}} {
		d, err := in.DocumentAt(ctx, w.kind, yardOwn, w.n)
		if err != nil {
			return nil, err
		}
		out = append(out, d)
	}
	return out, nil
}

// Papers are the documents of a takeoff as they are written. Hull, Patterns, Findings, Floors, Planking and Planks are nil where
// there are none.
type Papers struct {
	Hull     *offsets.Document
	Patterns *pattern.Document
	Findings *finding.Document
	Frames   frame.Document
	Floors   *floor.Document
	Planking *planking.Boat
	Remedies frame.Remedies
	Planks   *plank.Document
	Species  timber.Catalogue
	Steps    step.Library
	Rules    rules.Document
}

func (s sources) papers() (p Papers, err error) {
	for _, d := range s {
		switch d.Kind {
		case kindHull:
			p.Hull, err = optional[offsets.Document](d)
		case kindPatterns:
			p.Patterns, err = optional[pattern.Document](d)
		case kindFindings:
			p.Findings, err = optional[finding.Document](d)
		case kindFrames:
			p.Frames, err = stored[frame.Document](d.Kind, d.Body)
		case kindFloors:
			p.Floors, err = optional[floor.Document](d)
		case kindPlanking:
			p.Planking, err = optional[planking.Boat](d)
		case kindPlanks:
			p.Planks, err = optional[plank.Document](d)
		case kindRemedies:
			p.Remedies, err = stored[frame.Remedies](d.Kind, d.Body)
		case kindSpecies:
			p.Species, err = stored[timber.Catalogue](d.Kind, d.Body)
		case kindSteps:
			p.Steps, err = stored[step.Library](d.Kind, d.Body)
		case kindRules:
			p.Rules, err = stored[rules.Document](d.Kind, d.Body)
		}
		if err != nil {
			return p, err
		}
	}
	return p, nil
}

// optional is a document that a job may do without.
func optional[T any](d store.Document) (*T, error) {
	doc, err := stored[T](d.Kind, d.Body)
	return &doc, err
}

// basis reads the papers, or says everything that is wrong, each fault under the name of its paper.
func (p Papers) basis() (takeoff.Basis, document.Faults) {
	var all document.Faults
	b := takeoff.Basis{Species: p.Species, Steps: p.Steps, Notation: p.Frames.Notation}
	if p.Hull != nil {
		b.Notation = p.Hull.Notation
	}
	shapes, inShapes := readShapes(p.Hull, p.Patterns)
	all = append(all, inShapes...)
	frames, inFrames := frame.Read(p.Frames)
	all = append(all, inFrames.Under("/frames")...)
	b.Frames = frames
	var inFloors document.Faults
	if p.Floors != nil {
		b.Floors, inFloors = floor.Read(*p.Floors)
		all = append(all, inFloors.Under("/floors")...)
	}
	if p.Findings != nil {
		found, inFindings := finding.Read(*p.Findings)
		all = append(all, inFindings.Under("/findings")...)
		b.Findings = found
	}
	all = append(all, p.Species.Check().Under("/species")...)
	all = append(all, p.Steps.Check().Under("/steps")...)
	r, inRules := rules.Read(p.Rules)
	all = append(all, inRules.Under("/rules")...)
	b.Rules = r
	if len(inFrames)+len(inFloors) == 0 { // else every member would be missing
		remedies, inRemedies := frame.ReadRemedies(p.Remedies, frames, p.Species, membersOf(b.Floors)...)
		all = append(all, inRemedies.Under("/remedies")...)
		b.Remedies = remedies
	}
	if len(inFrames) == 0 {
		var inPlanks document.Faults
		b.Planks, inPlanks = p.readPlanks(frames)
		all = append(all, inPlanks...)
	}
	if len(all) > 0 {
		return b, all
	}
	all = shapes.fit(&b)
	if len(all) == 0 {
		b.Fairness = shapes.judged(b.Hull)
		all = p.readPlanking(&b, shapes.offsets)
	}
	return b, all
}

// run is the takeoff of a basis; what stands in its way comes back as faults of the papers.
func run(b takeoff.Basis) (takeoff.Result, document.Faults, error) {
	result, err := takeoff.Run(b)
	if err == nil {
		return result, nil, nil
	}
	var faults document.Faults
	var beyond *takeoff.UnmeasuredError
	var valueless *timber.MissingValueError
	var unknown *takeoff.TargetError
	var head *finding.BeyondError
	switch {
	case errors.As(err, &unknown):
		return result, unknown.Faults.Under("/frames"), nil
	case errors.As(err, &beyond):
		for _, m := range beyond.Members {
			faults.Add("/frames"+beyond.At[m], beyond.Fix(), "%s", beyond.Detail(m))
		}
		return result, faults, nil
	case errors.As(err, &valueless):
		faults.Add("/species", "enter the value with its source, or choose a species that has it", "%s has no %s", valueless.Species, valueless.Value)
		return result, faults, nil
	case errors.As(err, &head):
		faults.Add("/findings/findings/"+itoa(head.Row), "a place within the girth, or no \"to\" where the finding runs to the head", "%s", head.Error())
		return result, faults, nil
	case errors.As(err, &faults):
		return result, faults.Under("/remedies"), nil
	}
	return result, nil, err
}

// rowOf is the place of the remedy that a member got, as a pointer into the papers; of a strake that of its first plank.
func (p Papers) rowOf(m *boat.Member) string {
	if m == nil {
		return "/steps"
	}
	if m.Kind == boat.Strake {
		return p.rowOfPlank(*m)
	}
	for i, row := range p.Remedies.Remedies {
		for _, of := range members(frame.Remedies{Remedies: []frame.RemedyRow{row}}) {
			if of == *m {
				return "/remedies/remedies/" + itoa(i)
			}
		}
	}
	return "/remedies"
}
