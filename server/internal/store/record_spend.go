package store

import "time"

// Spend is one thing spent on a job: a line of an invoice, a credit, or of a time
// sheet. It is never changed; a correction is another row.
type Spend struct {
	ID    string
	JobID string
	// Identity is the SHA-256 of supplier, document and line, in which case does not
	// count; a job has no two rows of one identity. Hash is that of all that the row
	// says. Both are in hexadecimal and worked out by whoever puts the row.
	Identity    string
	Hash        string
	Date        string // calendar date, YYYY-MM-DD
	Kind        string // invoice, credit or hours
	Supplier    string
	Document    string
	Line        string
	Item        string
	Description string
	Quantity    string // a decimal as text; empty where the document names none
	Unit        string // UN/ECE Recommendation 20; empty with the quantity
	AmountMinor int64  // without tax, whole minor units of Currency
	TaxMinor    int64  // on the amount
	Currency    string // ISO 4217
	Step        string // code; empty where nobody has said
	Author      string
	ImportID    string // the import that brought it; empty for one that was typed in
	TokenID     string // who entered it
	EnteredBy   string // the name that went with the token then
	CreatedAt   time.Time
}

type spendRow struct {
	YardID      string `gorm:"primaryKey"`
	ID          string `gorm:"primaryKey"`
	JobID       string
	Identity    string
	Hash        string
	Date        string
	Kind        string
	Supplier    string
	Document    string
	Line        string
	Item        string
	Description string
	Quantity    string
	Unit        string
	AmountMinor int64
	TaxMinor    int64
	Currency    string
	Step        string
	Author      string
	ImportID    *string
	TokenID     string
	EnteredBy   string
	CreatedAt   int64 `gorm:"autoCreateTime:false"`
}

func (spendRow) TableName() string { return "spend" }

func (r spendRow) record() (Spend, error) {
	if _, err := time.Parse(time.DateOnly, r.Date); err != nil {
		return Spend{}, &CorruptError{Table: "spend", ID: r.ID, Reason: "date is no calendar date"}
	}
	return Spend{ID: r.ID, JobID: r.JobID, Identity: r.Identity, Hash: r.Hash, Date: r.Date, Kind: r.Kind, Supplier: r.Supplier,
		Document: r.Document, Line: r.Line, Item: r.Item, Description: r.Description, Quantity: r.Quantity, Unit: r.Unit,
		AmountMinor: r.AmountMinor, TaxMinor: r.TaxMinor, Currency: r.Currency, Step: r.Step, Author: r.Author,
		ImportID: textOf(r.ImportID), TokenID: r.TokenID, EnteredBy: r.EnteredBy, CreatedAt: instant(r.CreatedAt)}, nil
}

func (r spendRow) stamp() (int64, string) { return r.CreatedAt, r.ID }
