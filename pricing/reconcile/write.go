package reconcile

import (
	"bufio"
	"io"
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

// ReconciliationColumns of a reconciliation as a table.
var ReconciliationColumns = []string{
	"row", "step", "step_name", "kind", "item", "member_kind", "currency", "quoted", "price", "spent", "tax", "difference",
	"effect", "price_difference", "price_effect", "quantity_difference", "quantity_effect", "unsplit", "unit",
	"quoted_quantity", "quoted_unit_price", "spent_quantity", "spent_unit_price",
}

// What a row of the table is.
const (
	rowLine   = "line"
	rowNoLine = "no_line"
	rowStep   = "step"
	rowNoStep = "no_step"
	rowTotal  = "total"
)

// WriteCSV writes the reconciliation as RFC 4180 says, texts that a spreadsheet would run defused. The column row says
// what a row is: line and no_line add to the step that follows them, the steps and no_step to the total.
func (r Reconciliation) WriteCSV(w io.Writer) error {
	return write(w, ReconciliationColumns, func(put func(...string)) {
		row := func(what string, s Step, l Line, sums Sums) {
			m := Measure{}
			if l.Measure != nil {
				m = *l.Measure
			}
			d := sums.Difference
			put(what, s.Step, s.Name, string(l.Kind), l.Item, string(l.MemberKind), string(r.Currency), sums.Quoted.String(),
				sums.Price.String(), sums.Spent.String(), sums.Tax.String(), d.Amount.String(), string(d.Effect),
				d.Price.Amount.String(), string(d.Price.Effect), d.Quantity.Amount.String(), string(d.Quantity.Effect),
				d.Unsplit.Amount.String(), string(m.Unit), m.Quoted, m.QuotedPrice, m.Spent, m.SpentPrice)
		}
		for _, s := range r.Steps {
			for _, l := range s.Lines {
				row(rowLine, s, l, l.Sums)
			}
			if len(s.NoLine.Entries) > 0 {
				row(rowNoLine, s, Line{}, s.NoLine.Sums)
			}
			row(rowStep, s, Line{}, s.Sums)
		}
		row(rowNoStep, Step{}, Line{}, r.NoStep.Sums)
		row(rowTotal, Step{}, Line{}, r.Total)
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
