package reconcile

import (
	"bufio"
	"io"
	"strconv"
	"strings"
)

// WriteCSV writes entries as RFC 4180 says, parted by commas, in the order of Columns, texts in quotes and defused
// where a spreadsheet would run them. ReadCSV makes the same entries of it.
func WriteCSV(w io.Writer, entries []Entry) error {
	return write(w, Columns, func(put func(...string)) {
		for _, e := range entries {
			row := e.Row()
			var cells []string
			for _, c := range row.cells() {
				cells = append(cells, *c)
			}
			put(cells...)
		}
	})
}

// About says what a reconciliation is of. Its texts stand in every row of the table, so that a table by itself, or
// several put under each other, still tell it.
type About struct {
	Job, Boat string
	// Quote is the estimate's number, Revision the revision's, and Option the option's name.
	Quote    string
	Revision int64
	Option   string
	// Accepted is the day on which the option was accepted; empty where it is not.
	Accepted string
}

// ReconciliationColumns of a reconciliation as a table.
var ReconciliationColumns = []string{
	"job", "boat", "quote", "revision", "option", "accepted_date", "level", "row", "step", "step_name", "kind", "item",
	"member_kind", "currency", "quoted", "price", "spent", "tax", "difference", "effect", "price_difference", "price_effect",
	"quantity_difference", "quantity_effect", "unsplit", "unit", "quoted_quantity", "quoted_unit_price", "spent_quantity",
	"spent_unit_price",
}

// What a row of the table is.
const (
	rowLine   = "line"
	rowNoLine = "no_line"
	rowStep   = "step"
	rowNoStep = "no_step"
	rowTotal  = "total"
)

// Levels of the table: the rows of each add to the total.
const (
	levelLine  = "line"
	levelStep  = "step"
	levelTotal = "total"
)

// WriteCSV writes the reconciliation as RFC 4180 says, texts that a spreadsheet would run defused, effects in the words
// of Effect.Word. The rows of one level add to the total, so who sums a column keeps to one of them. The column row
// says what a row is: line and no_line add to the step that follows them; no_step, what names no step, stands at the
// levels of lines and of steps.
func (r Reconciliation) WriteCSV(w io.Writer, of About) error {
	return write(w, ReconciliationColumns, func(put func(...string)) {
		row := func(level, what string, s Step, l Line, sums Sums) {
			m := Measure{}
			if l.Measure != nil {
				m = *l.Measure
			}
			d := sums.Difference
			put(of.Job, of.Boat, of.Quote, strconv.FormatInt(of.Revision, 10), of.Option, of.Accepted, level, what, s.Step, s.Name,
				string(l.Kind), l.Item, string(l.MemberKind), string(r.Currency), sums.Quoted.String(), sums.Price.String(),
				sums.Spent.String(), sums.Tax.String(), d.Amount.String(), d.Effect.Word(), d.Price.Amount.String(), d.Price.Effect.Word(),
				d.Quantity.Amount.String(), d.Quantity.Effect.Word(), d.Unsplit.Amount.String(), string(m.Unit), m.Quoted, m.QuotedPrice,
				m.Spent, m.SpentPrice)
		}
		for _, s := range r.Steps {
			for _, l := range s.Lines {
				row(levelLine, rowLine, s, l, l.Sums)
			}
			if len(s.NoLine.Entries) > 0 {
				row(levelLine, rowNoLine, s, Line{}, s.NoLine.Sums)
			}
			row(levelStep, rowStep, s, Line{}, s.Sums)
		}
		row(levelLine, rowNoStep, Step{}, Line{}, r.NoStep.Sums)
		row(levelStep, rowNoStep, Step{}, Line{}, r.NoStep.Sums)
		row(levelTotal, rowTotal, Step{}, Line{}, r.Total)
	})
}

// write makes a table of a header and rows, every cell defused.
func write(w io.Writer, header []string, rows func(put func(...string))) error {
	out := bufio.NewWriter(w) // keeps its first error until Flush
	line := func(cells []string) {
		_, _ = out.WriteString(strings.Join(cells, ",") + "\r\n")
	}
	line(header)
	rows(func(cells ...string) {
		safe := make([]string, len(cells))
		for i, c := range cells {
			safe[i] = quoted(c)
		}
		line(safe)
	})
	return out.Flush()
}
