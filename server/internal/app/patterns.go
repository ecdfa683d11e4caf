package app

import (
	"context"

	"ribband/server/internal/auth"
	"ribband/server/internal/store"
	"ribband/takeoff/document"
	"ribband/takeoff/pattern"
)

// Patterns reads the newest patterns of a job's frames.
func (a *App) Patterns(ctx context.Context, who auth.Principal, job string) (Written[pattern.Document], error) {
	return jobDocument[pattern.Document](ctx, a, who, kindPatterns, job)
}

// PutPatterns keeps the patterns of a job, all of them or none.
func (a *App) PutPatterns(ctx context.Context, who auth.Principal, job string, doc pattern.Document, seen store.Seen) (Written[pattern.Document], error) {
	if _, err := a.Job(ctx, who, job); err != nil {
		return Written[pattern.Document]{}, err
	}
	set, faults := pattern.Read(doc)
	return a.keepPatterns(ctx, who, job, doc, set, faults, seen)
}

// PutPatternsTable is PutPatterns for a table of points.
func (a *App) PutPatternsTable(ctx context.Context, who auth.Principal, job string, table []byte, as pattern.Written, seen store.Seen) (Written[pattern.Document], error) {
	if _, err := a.Job(ctx, who, job); err != nil {
		return Written[pattern.Document]{}, err
	}
	doc, set, faults := pattern.ReadCSV(table, as)
	if err := faults.Err(); err != nil {
		return Written[pattern.Document]{}, err
	}
	return a.keepPatterns(ctx, who, job, *doc, set, faults, seen)
}

// keepPatterns keeps what was read. What is measured is kept, also where no fair curve follows it: the takeoff says so.
func (a *App) keepPatterns(ctx context.Context, who auth.Principal, job string, doc pattern.Document, set *pattern.Set, faults document.Faults, seen store.Seen) (Written[pattern.Document], error) {
	if err := faults.Err(); err != nil {
		return Written[pattern.Document]{}, err
	}
	declareGrain(&doc, set)
	return put(ctx, a, who, kindPatterns, job, doc, seen, nil)
}

// PatternsReading is a table of patterns as far as it can be read.
type PatternsReading struct {
	// Document holds the good cells; what is at fault is left out of it.
	Document  pattern.Document   `json:"document"`
	BadCells  []pattern.BadCell  `json:"bad_cells"`
	LooseRows []pattern.LooseRow `json:"loose_rows"`
	Faults    document.Faults    `json:"faults"`
}

// TryPatternsTable reads a table of points that may have faults, so that only what is bad need be written anew. Nothing is
// kept.
func TryPatternsTable(table []byte, as pattern.Written) PatternsReading {
	r := pattern.TryCSV(table, as)
	out := PatternsReading{Document: *r.Document, BadCells: append([]pattern.BadCell{}, r.Bad...),
		LooseRows: append([]pattern.LooseRow{}, r.Loose...), Faults: append(document.Faults{}, r.Faults...)}
	if out.Document.Patterns == nil {
		out.Document.Patterns = []pattern.Rows{}
	}
	if r.Set != nil {
		declareGrain(&out.Document, r.Set)
	}
	return out
}

// declareGrain writes the grain that was assumed into the document, so that whoever reads it finds what its ranges rest on.
func declareGrain(doc *pattern.Document, set *pattern.Set) {
	if set.GrainAssumed {
		doc.Grain, doc.GrainAssumed = set.Notation.Format(set.Grain), true
	}
}
