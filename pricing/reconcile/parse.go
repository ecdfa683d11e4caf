package reconcile

import (
	"fmt"
	"strings"
	"time"

	"ribband/pricing/money"
	"ribband/pricing/sheet"
	"ribband/takeoff/notation"
)

// Job is what spend must fit.
type Job struct {
	Currency money.Currency
	// OpenedDate is the day before which nothing can have been spent on the job: 2026-03-31. Empty for no such limit.
	OpenedDate string
	// Today is the day after which nothing can have been spent yet. Empty for no such limit.
	Today string
	// Steps are the yard's steps, to which quote.General is added; one code may have had several names. Nil leaves
	// steps unchecked.
	Steps []KnownStep
}

// KnownStep is a step that spend can be posted to. Entries keep its code; in a table either may stand.
type KnownStep struct{ Code, Name string }

// entry reads the cells and looks at what they mean together.
func (r *reader) entry(row Row) Entry {
	e := Entry{
		Date: row.Date, Kind: Kind(strings.ToLower(row.Kind)), Supplier: row.Supplier, Document: row.Document, Line: row.Line, Item: row.Item,
		Description: row.Description, Unit: sheet.Unit(row.Unit), Step: r.step(row.Step), Author: row.Author,
	}
	r.day(row.Date)
	if !e.Kind.Known() {
		r.fault("kind", fmt.Sprintf("kind %s is not known", notation.Quote(row.Kind)), "invoice, credit or hours")
	}
	for _, c := range []struct{ column, cell, fix string }{
		{"supplier", row.Supplier, "write who sent the document; for hours, who worked them"},
		{"document", row.Document, "write the number of the invoice or credit, or the name of the time sheet"},
		{"line", row.Line, "write the line of the document; 1 where it has only one"},
	} {
		if c.cell == "" {
			r.fault(c.column, "the "+r.cell()+" is empty; supplier, document and line together name an entry", c.fix)
		}
	}
	r.amounts(&e, row)
	return e
}

func (r *reader) day(cell string) {
	const fix = "year-month-day, for example 2026-03-31"
	if _, err := time.Parse(time.DateOnly, cell); err != nil {
		r.fault("date", notation.Quote(cell)+" is not a day of the calendar", fix)
		return
	}
	if cell < r.job.OpenedDate {
		r.fault("date", fmt.Sprintf("%s is before the job was opened on %s", cell, r.job.OpenedDate),
			"a day from "+r.job.OpenedDate+" on, or the job that this was spent on")
	}
	if r.job.Today != "" && cell > r.job.Today {
		r.fault("date", fmt.Sprintf("%s is after today, %s", cell, r.job.Today), "the day of the document, "+r.job.Today+" at the latest")
	}
}

// amounts reads quantity, amount and tax.
func (r *reader) amounts(e *Entry, row Row) {
	c := r.job.Currency
	same := row.Currency == string(c)
	if !same {
		r.fault("currency", fmt.Sprintf("%s is not the currency of the job, which is %s", notation.Quote(row.Currency), c),
			"write the amount in "+string(c)+"; nothing is exchanged here")
	}
	read := func(column, cell string) (money.Money, bool) {
		d, ok := r.decimal(column, cell)
		if !ok || !same || !r.places(column, cell, c) {
			return money.Zero(c), false
		}
		m, err := money.Exact(d, c)
		if err != nil {
			r.fault(column, err.Error(), fmt.Sprintf("at most %d places", c.Digits()))
			return money.Zero(c), false
		}
		return m, true
	}
	e.Tax = money.Zero(c)
	whole := false
	if row.Amount == "" {
		r.fault("amount", "the amount is empty", "write the amount without tax, for example 1240.50")
	} else {
		e.Amount, whole = read("amount", row.Amount)
	}
	if whole && e.Kind == Credit && e.Amount.Sign() >= 0 {
		r.fault("amount", fmt.Sprintf("a credit of %s does not take anything off", e.Amount), "write it below nothing, for example "+credited(e.Amount))
		whole = false
	}
	if row.Tax != "" {
		var ok bool
		if e.Tax, ok = read("tax", row.Tax); ok && whole && e.Tax.Sign()*e.Amount.Sign() < 0 {
			r.fault("tax", fmt.Sprintf("the tax is %s on an amount of %s", e.Tax, e.Amount), "write amount and tax with the same sign")
		}
	}
	r.quantity(e, row, whole)
}

func credited(m money.Money) string {
	if m.IsZero() {
		return "-120.00"
	}
	return m.Neg().String()
}

// quantity reads quantity and unit; whole says that the amount could be read.
func (r *reader) quantity(e *Entry, row Row, whole bool) {
	if row.Unit != "" && !e.Unit.Known() {
		r.fault("unit", fmt.Sprintf("unit %s is not known", notation.Quote(row.Unit)),
			"a code of UN/ECE Recommendation 20, for example BFT board foot, C62 piece, LTR litre, KGM kilogram, HUR hour")
	}
	if e.Kind == Hours && e.Unit.Known() && e.Unit.Dimension() != sheet.ByTime {
		r.fault("unit", "hours are not counted by the "+e.Unit.Name(), "HUR, or MIN for minutes")
	}
	switch {
	case row.Quantity == "" && e.Kind == Hours:
		r.fault("quantity", "hours without a number of hours", "write how many, for example 7.5")
	case row.Quantity == "" && row.Unit != "":
		r.fault("quantity", "there is a unit and no quantity", "write how many, or leave the unit empty as well")
	}
	if row.Quantity == "" {
		return
	}
	if row.Unit == "" {
		r.fault("unit", "there is a quantity and no unit", "write its unit, for example BFT, LTR, C62 or HUR")
	}
	d, ok := r.decimal("quantity", row.Quantity)
	if !ok {
		return
	}
	e.Quantity = d
	switch {
	case d.IsZero():
		r.fault("quantity", "the quantity is 0", "leave quantity and unit empty where the document names none")
	case whole && d.Sign()*e.Amount.Sign() < 0:
		r.fault("quantity", fmt.Sprintf("the quantity is %s and the amount %s", d, e.Amount),
			"write both with the same sign; where only money is taken off, leave quantity and unit empty")
	}
}
