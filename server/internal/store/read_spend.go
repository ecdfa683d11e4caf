package store

import (
	"context"

	"gorm.io/gorm"
)

// SpendOf lists what was spent on a job.
func (r Reader) SpendOf(ctx context.Context, jobID string, page Page) (List[Spend], error) {
	return listOf[spendRow](ctx, r, page, " AND job_id = ?", jobID)
}

// AllSpendOf is everything that was spent on a job, in one reading: a sum over
// pages could miss what is entered between them.
func (r Reader) AllSpendOf(ctx context.Context, jobID string) ([]Spend, error) {
	if textFault(jobID) != "" {
		return []Spend{}, nil
	}
	var rows []spendRow
	err := r.do(ctx, func(db *gorm.DB) error {
		return db.Where("yard_id = ? AND job_id = ?", r.yard, jobID).Order("created_at, id").Find(&rows).Error
	})
	if err != nil {
		return nil, err
	}
	out := make([]Spend, 0, len(rows))
	for _, row := range rows {
		spend, err := row.record()
		if err != nil {
			return nil, err
		}
		out = append(out, spend)
	}
	return out, nil
}
