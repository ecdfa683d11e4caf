package app

import (
	"context"

	"ribband/takeoff/cutting"
)

// CuttingPlan is boards to buy for a list that came along and how they are cut, with what no plan can cost less than.
type CuttingPlan struct {
	cutting.Plan
	// Net is the cost less what is kept. Proven: no plan's is less.
	Net    int64 `json:"net"`
	Proven bool  `json:"proven"`
}

// PlanCutting finds the cheapest boards for a list. Faults of the list refuse it.
func (a *App) PlanCutting(ctx context.Context, d cutting.Document) (CuttingPlan, error) {
	done, err := a.heavy(ctx)
	if err != nil {
		return CuttingPlan{}, err
	}
	defer done()
	plan, err := d.Solve()
	return CuttingPlan{plan, plan.Net(), plan.Proven()}, err
}
