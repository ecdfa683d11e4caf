package reconcile

// Columns of a table of spend, in the order they are written.
var Columns = []string{
	"date", "kind", "supplier", "document", "line", "item", "description", "quantity", "unit", "amount", "currency",
	"tax", "step", "author",
}

// needed are the columns that a table must have.
var needed = []string{"date", "kind", "supplier", "document", "line", "amount", "currency"}

// Row is one entry as it is written, every cell a text; what does not apply is empty. It is the shape of an entry
// that is typed in, and of a row in a table.
type Row struct {
	Date        string `json:"date"`
	Kind        string `json:"kind"`
	Supplier    string `json:"supplier"`
	Document    string `json:"document"`
	Line        string `json:"line"`
	Item        string `json:"item"`
	Description string `json:"description"`
	Quantity    string `json:"quantity"`
	Unit        string `json:"unit"`
	Amount      string `json:"amount"`
	Currency    string `json:"currency"`
	Tax         string `json:"tax"`
	Step        string `json:"step"`
	Author      string `json:"author"`
}

// cells are the places of a row's texts in the order of Columns.
func (r *Row) cells() []*string {
	return []*string{
		&r.Date, &r.Kind, &r.Supplier, &r.Document, &r.Line, &r.Item, &r.Description, &r.Quantity, &r.Unit, &r.Amount,
		&r.Currency, &r.Tax, &r.Step, &r.Author,
	}
}

// Row is the entry as it is written.
func (e Entry) Row() Row {
	r := Row{
		Date: e.Date, Kind: string(e.Kind), Supplier: e.Supplier, Document: e.Document, Line: e.Line, Item: e.Item,
		Description: e.Description, Unit: string(e.Unit), Amount: e.Amount.String(), Currency: string(e.Amount.Currency()),
		Step: e.Step, Author: e.Author,
	}
	if !e.Quantity.IsZero() {
		r.Quantity = e.Quantity.String()
	}
	if !e.Tax.IsZero() {
		r.Tax = e.Tax.String()
	}
	return r
}
