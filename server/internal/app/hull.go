package app

import (
	"context"

	"ribband/server/internal/auth"
	"ribband/server/internal/store"
	"ribband/takeoff/document"
	"ribband/takeoff/hull/offsets"
)

// Hull reads the newest table of offsets of a job.
func (a *App) Hull(ctx context.Context, who auth.Principal, job string) (Written[offsets.Document], error) {
	return jobDocument[offsets.Document](ctx, a, who, kindHull, job)
}

// PutHull keeps a table of offsets, all of it or nothing.
func (a *App) PutHull(ctx context.Context, who auth.Principal, job string, doc offsets.Document, seen store.Seen) (Written[offsets.Document], error) {
	if _, err := a.Job(ctx, who, job); err != nil {
		return Written[offsets.Document]{}, err
	}
	table, faults := offsets.Read(&doc)
	if len(faults) > 0 {
		return Written[offsets.Document]{}, hullFaults(faults)
	}
	declare(&doc, table)
	return put(ctx, a, who, kindHull, job, doc, seen, nil)
}

// PutHullTable is PutHull for a table in the long layout.
func (a *App) PutHullTable(ctx context.Context, who auth.Principal, job string, table []byte, as offsets.Written, seen store.Seen) (Written[offsets.Document], error) {
	if _, err := a.Job(ctx, who, job); err != nil {
		return Written[offsets.Document]{}, err
	}
	doc, read, faults := offsets.ReadCSV(table, as)
	if len(faults) > 0 {
		return Written[offsets.Document]{}, hullFaults(faults)
	}
	declare(doc, read)
	return put(ctx, a, who, kindHull, job, *doc, seen, nil)
}

// declare writes the grain that was assumed into the table, so that whoever reads it finds what its ranges rest on.
func declare(doc *offsets.Document, o *offsets.Table) {
	if o.GrainAssumed {
		doc.Grain, doc.GrainAssumed = o.Notation.Format(o.Grain), true
	}
}

// hullFaults are a hull's faults as those of any document.
func hullFaults(in []offsets.Fault) document.Faults {
	out := make(document.Faults, len(in))
	for i, f := range in {
		out[i] = document.Fault{Pointer: f.Pointer, Row: f.Row, Column: f.Column, Detail: f.Detail, Fix: f.Fix}
		if f.Row > 0 {
			out[i].Pointer = ""
		}
	}
	return out
}

// HullReading is a table as far as it can be read.
type HullReading struct {
	// Document holds the good cells; what is at fault is left out of it.
	Document offsets.Document  `json:"document"`
	BadCells []offsets.BadCell `json:"bad_cells"`
	Faults   document.Faults   `json:"faults"`
}

// TryHullTable reads a table that may have faults, so that it can be shown with only the bad cells to be filled in.
func TryHullTable(table []byte, as offsets.Written) HullReading {
	r := offsets.TryCSV(table, as)
	out := HullReading{Document: *r.Document, BadCells: append([]offsets.BadCell{}, r.Bad...), Faults: document.Faults{}}
	if out.Document.Stations == nil {
		out.Document.Stations = []offsets.StationOffsets{}
	}
	for i := range out.Document.Stations {
		if s := &out.Document.Stations[i]; s.Sides == nil {
			s.Sides = []offsets.SideOffsets{}
		}
	}
	for _, f := range r.Faults {
		out.Faults = append(out.Faults, document.Fault{Pointer: f.Pointer, Row: f.Row, Column: f.Column, Detail: f.Detail, Fix: f.Fix})
	}
	if r.Table != nil {
		declare(&out.Document, r.Table)
	}
	return out
}
