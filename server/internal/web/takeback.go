package web

import (
	"bytes"

	"ribband/pricing/reconcile"
	"ribband/server/internal/app"
)

// takeBack fills the form of an entry with what takes another back: the same with amount, tax and quantity the other
// way round, on a line of its own. A credit cannot be above nothing, so an invoice takes it back. An entry that is
// none of the job's is not there.
func (p *Pages) takeBack(v *visit, body *entryPage, id string) error {
	all, err := p.allSpend(v, body.Job.ID)
	if err != nil {
		return err
	}
	for _, s := range all {
		if s.ID != id {
			continue
		}
		row := opposite(s).Row()
		for name, text := range map[string]string{"date": row.Date, "kind": row.Kind, "supplier": row.Supplier, "document": row.Document, "line": row.Line,
			"item": row.Item, "description": row.Description, "quantity": row.Quantity, "unit": row.Unit, "amount": row.Amount, "tax": row.Tax, "step": row.Step, "author": row.Author} {
			body.Values[name] = text
		}
		body.Back = s.Document + ", " + s.Line
		return nil
	}
	return errNothing
}

func opposite(s app.Spend) reconcile.Entry {
	e := s.Entry
	e.Amount, e.Tax, e.Quantity = e.Amount.Neg(), e.Tax.Neg(), e.Quantity.Neg()
	if e.Kind == reconcile.Credit {
		e.Kind = reconcile.Invoice
	}
	e.Line += " taken back"
	return e
}

// sampleTable is an empty table of spend with one row that shows how rows are written. Its day is before any job, so
// that nobody enters it by mistake.
func (p *Pages) sampleTable(v *visit) error {
	j, err := p.app.Job(v.Context(), v.who, v.PathValue("job"))
	if err != nil {
		return err
	}
	var b bytes.Buffer
	if err := reconcile.WriteCSV(&b, nil); err != nil {
		return err
	}
	b.WriteString(sampleDay + ",invoice,Sample supplier (delete this row),A-1,1,brushes,what it was,2,C62,18.40," + string(j.Currency) + ",1.10,,\n")
	return v.sendCSV("spend-to-fill-in.csv", b.Bytes())
}

const sampleDay = "1900-01-01"
