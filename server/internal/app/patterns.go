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
	if set.GrainAssumed {
		doc.Grain, doc.GrainAssumed = set.Notation.Format(set.Grain), true // so that whoever reads it finds what its ranges rest on
	}
	return put(ctx, a, who, kindPatterns, job, doc, seen, nil)
}
