package app

import (
	"context"

	"ribband/server/internal/auth"
	"ribband/server/internal/store"
	"ribband/takeoff/finding"
)

// Findings reads the newest findings of a job.
func (a *App) Findings(ctx context.Context, who auth.Principal, job string) (Written[finding.Document], error) {
	return jobDocument[finding.Document](ctx, a, who, kindFindings, job)
}

// PutFindings keeps the findings of a job, all of them or none. Findings of frames that the boat
// does not have are told by the takeoff: either may be put before the other.
func (a *App) PutFindings(ctx context.Context, who auth.Principal, job string, doc finding.Document, seen store.Seen) (Written[finding.Document], error) {
	if _, err := a.Job(ctx, who, job); err != nil {
		return Written[finding.Document]{}, err
	}
	if _, faults := finding.Read(doc); len(faults) > 0 {
		return Written[finding.Document]{}, faults
	}
	return put(ctx, a, who, kindFindings, job, doc, seen, nil)
}
