package store

import (
	"context"
	"strconv"

	"gorm.io/gorm"
)

// Quote reads one quote.
func (r Reader) Quote(ctx context.Context, id string) (Quote, error) {
	return byID[quoteRow](ctx, r, "quote", id)
}

// Quotes lists a job's quotes.
func (r Reader) Quotes(ctx context.Context, jobID string, page Page) (List[Quote], error) {
	return listOf[quoteRow](ctx, r, page, " AND job_id = ?", jobID)
}

// light leaves the snapshot and the PDF where they are.
func light(db *gorm.DB) *gorm.DB { return db.Omit("snapshot", "pdf") }

// Revision reads revision n of a quote without its snapshot and PDF, for which
// see [Reader.Frozen].
func (r Reader) Revision(ctx context.Context, quoteID string, n int64) (Revision, error) {
	row, err := r.revisionRow(ctx, quoteID, n, light)
	if err != nil {
		return Revision{}, err
	}
	return r.withTotals(ctx, row)
}

// Revisions lists all revisions of a quote, the first one first.
func (r Reader) Revisions(ctx context.Context, quoteID string) ([]Revision, error) {
	if _, err := r.Quote(ctx, quoteID); err != nil {
		return nil, err
	}
	var rows []revisionRow
	err := r.do(ctx, func(db *gorm.DB) error {
		return light(db).Where("yard_id = ? AND quote_id = ?", r.yard, quoteID).Order("n").Find(&rows).Error
	})
	if err != nil {
		return nil, err
	}
	revisions := make([]Revision, 0, len(rows))
	for _, row := range rows {
		revision, err := r.withTotals(ctx, row)
		if err != nil {
			return nil, err
		}
		revisions = append(revisions, revision)
	}
	return revisions, nil
}

// Frozen reads the snapshot and the PDF of an issued revision, byte for byte as
// they were issued. A draft has none and is not found.
func (r Reader) Frozen(ctx context.Context, quoteID string, n int64) (Frozen, error) {
	row, err := r.revisionRow(ctx, quoteID, n, func(db *gorm.DB) *gorm.DB { return db.Where("issued_at IS NOT NULL") })
	if err != nil {
		return Frozen{}, err
	}
	return row.frozen()
}

// QuoteEvents lists what happened to a quote.
func (r Reader) QuoteEvents(ctx context.Context, quoteID string, page Page) (List[QuoteEvent], error) {
	return listOf[eventRow](ctx, r, page, " AND quote_id = ?", quoteID)
}

func (r Reader) revisionRow(ctx context.Context, quoteID string, n int64, also func(*gorm.DB) *gorm.DB) (revisionRow, error) {
	var row revisionRow
	if textFault(quoteID) != "" {
		return row, &NotFoundError{Kind: "quote", ID: quoteID}
	}
	err := r.do(ctx, func(db *gorm.DB) error {
		return also(db.Where("yard_id = ? AND quote_id = ? AND n = ?", r.yard, quoteID, n)).Take(&row).Error
	})
	if missing(err) {
		return row, &NotFoundError{Kind: "revision", ID: quoteID + " revision " + strconv.FormatInt(n, 10)}
	}
	return row, err
}

// withTotals adds the totals of an issued revision.
func (r Reader) withTotals(ctx context.Context, row revisionRow) (Revision, error) {
	revision, err := row.record()
	if err != nil || !revision.Issued() {
		return revision, err
	}
	var rows []totalRow
	err = r.do(ctx, func(db *gorm.DB) error {
		return db.Where("yard_id = ? AND quote_id = ? AND revision = ?", r.yard, row.QuoteID, row.N).Order("option_id").Find(&rows).Error
	})
	if err != nil {
		return Revision{}, err
	}
	for _, totalRow := range rows {
		total, err := totalRow.record()
		if err != nil {
			return Revision{}, err
		}
		revision.Totals = append(revision.Totals, total)
	}
	return revision, nil
}
