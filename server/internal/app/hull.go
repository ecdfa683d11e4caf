package app

import (
	"context"

	"ribband/server/internal/auth"
	"ribband/server/internal/store"
	"ribband/takeoff/document"
	"ribband/takeoff/hull"
)

// Hull reads the newest table of offsets of a job.
func (a *App) Hull(ctx context.Context, who auth.Principal, job string) (Written[hull.Document], error) {
	return jobDocument[hull.Document](ctx, a, who, kindHull, job)
}

// PutHull keeps a table of offsets, all of it or nothing.
func (a *App) PutHull(ctx context.Context, who auth.Principal, job string, doc hull.Document, seen store.Seen) (Written[hull.Document], error) {
	if _, err := a.Job(ctx, who, job); err != nil {
		return Written[hull.Document]{}, err
	}
	offsets, faults := hull.Read(&doc)
	if len(faults) > 0 {
		return Written[hull.Document]{}, hullFaults(faults)
	}
	declare(&doc, offsets)
	return put(ctx, a, who, kindHull, job, doc, seen, nil)
}

// PutHullTable is PutHull for a table in the long layout.
func (a *App) PutHullTable(ctx context.Context, who auth.Principal, job string, table []byte, as hull.Written, seen store.Seen) (Written[hull.Document], error) {
	if _, err := a.Job(ctx, who, job); err != nil {
		return Written[hull.Document]{}, err
	}
	doc, offsets, faults := hull.ReadCSV(table, as)
	if len(faults) > 0 {
		return Written[hull.Document]{}, hullFaults(faults)
	}
	declare(doc, offsets)
	return put(ctx, a, who, kindHull, job, *doc, seen, nil)
}

// declare writes the grain that was assumed into the table, so that whoever reads it finds what its ranges rest on.
func declare(doc *hull.Document, o *hull.Offsets) {
	if o.GrainAssumed {
		doc.Grain, doc.GrainAssumed = o.Notation.Format(o.Grain), true
	}
}

// hullFaults are a hull's faults as those of any document.
func hullFaults(in []hull.Fault) document.Faults {
	out := make(document.Faults, len(in))
	for i, f := range in {
		out[i] = document.Fault{Pointer: f.Pointer, Row: f.Row, Column: f.Column, Detail: f.Detail, Fix: f.Fix}
		if f.Row > 0 {
			out[i].Pointer = ""
		}
	}
	return out
}
