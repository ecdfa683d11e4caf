package store

import (
	"context"
	"time"

	"gorm.io/gorm"
)

// spendAtATime is how many rows one statement enters: SQLite takes 32766 values,
// and a row has 23.
const spendAtATime = 500

// AddSpend enters rows on jobs. ID, TokenID, EnteredBy and CreatedAt are filled
// in. Errors: [ExistsError] where the job has a row of that identity,
// [NotFoundError] for the job, [TextError].
func (t *Tx) AddSpend(ctx context.Context, entries []Spend) ([]Spend, error) {
	rows := make([]spendRow, 0, len(entries))
	for _, e := range entries {
		row, err := t.spendRow(e)
		if err != nil {
			return nil, err
		}
		rows = append(rows, row)
	}
	for from := 0; from < len(rows); from += spendAtATime {
		part := rows[from:min(from+spendAtATime, len(rows))]
		if err := t.do(ctx, func(db *gorm.DB) error { return db.Create(&part).Error }); err != nil {
			return nil, parentMissing(duplicated(err, "spend", ""), "job", part[0].JobID)
		}
	}
	out := make([]Spend, 0, len(rows))
	for _, row := range rows {
		t.changed("spend", row.ID, 0, row.Hash)
		spend, err := row.record()
		if err != nil {
			return nil, err
		}
		out = append(out, spend)
	}
	return out, nil
}

func (t *Tx) spendRow(e Spend) (spendRow, error) {
	if _, err := time.Parse(time.DateOnly, e.Date); err != nil {
		return spendRow{}, &UsageError{"spend has a calendar date"}
	}
	if len(e.Identity) != 64 || len(e.Hash) != 64 {
		return spendRow{}, &UsageError{"spend is entered under its identity, with the hash of what it says"}
	}
	if err := checkText("job", e.JobID, "identity", e.Identity, "supplier", e.Supplier, "document", e.Document, "line", e.Line,
		"item", e.Item, "description", e.Description, "quantity", e.Quantity, "unit", e.Unit, "currency", e.Currency,
		"step", e.Step, "author", e.Author, "import", e.ImportID); err != nil {
		return spendRow{}, err
	}
	at, id, err := t.identify()
	if err != nil {
		return spendRow{}, err
	}
	return spendRow{YardID: t.yard, ID: id, JobID: e.JobID, Identity: e.Identity, Hash: e.Hash, Date: e.Date, Kind: e.Kind,
		Supplier: e.Supplier, Document: e.Document, Line: e.Line, Item: e.Item, Description: e.Description, Quantity: e.Quantity,
		Unit: e.Unit, AmountMinor: e.AmountMinor, TaxMinor: e.TaxMinor, Currency: e.Currency, Step: e.Step, Author: e.Author,
		ImportID: columnOf(e.ImportID), TokenID: t.actor.TokenID, EnteredBy: t.actor.Name, CreatedAt: at}, nil
}
