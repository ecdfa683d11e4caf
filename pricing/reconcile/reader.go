package reconcile

import (
	"cmp"
	"slices"
	"strings"

	"ribband/pricing/sheet"
	"ribband/takeoff/table"

	"golang.org/x/text/unicode/norm"
)

// reader reads rows into entries and collects every fault. Rows are taken first and judged when all are there,
// because what one means may hang on the others.
type reader struct {
	job   Job
	out   Import
	where func(row int, column string) sheet.Fault
	// typed says that rows are entries that somebody typed in, and comma that numbers may have a decimal comma.
	typed, comma bool
	marks        marks
	taken        []taken
	// read are the entries of rows without a fault, in order.
	read []Numbered
	// held is what the job has already, and posted the same by name.
	held   []Entry
	posted map[string]Entry
	faults []sheet.Fault
	// row is the one being judged, and spoiled its columns that hold no text at all, which are not judged twice.
	row     int
	spoiled map[string]bool
}

// taken is a row whose cells are clean.
type taken struct {
	row     int
	cells   Row
	spoiled map[string]bool
}

func newReader(job Job, posted []Entry, where func(int, string) sheet.Fault) *reader {
	r := &reader{job: job, where: where, held: posted, posted: map[string]Entry{},
		out: Import{Good: []Numbered{}, Again: []Numbered{}, Bad: []int{}, Faults: []sheet.Fault{}}}
	for _, e := range posted {
		r.posted[e.ID()] = e
	}
	return r
}

func (r *reader) fault(column, detail, fix string) {
	if r.spoiled[column] {
		return
	}
	f := r.where(r.row, column)
	f.Detail, f.Fix = detail, fix
	r.add(f)
}

func (r *reader) add(f sheet.Fault) { r.faults = append(r.faults, f) }

// take cleans the cells of a row: composed characters, no blanks at the ends, no apostrophe that only keeps a
// spreadsheet from running it.
func (r *reader) take(n int, row Row) {
	r.row = n
	t := taken{n, row, map[string]bool{}}
	for i, cell := range t.cells.cells() {
		clean := armed(strings.TrimSpace(norm.NFC.String(*cell)))
		if bad := r.unfit(clean); bad != nil {
			r.fault(Columns[i], bad.Detail, bad.Fix)
			clean, t.spoiled[Columns[i]] = "", true
		}
		*cell = strings.TrimSpace(clean)
	}
	r.taken = append(r.taken, t)
}

func (r *reader) unfit(text string) *table.CellError {
	if r.typed {
		return table.UnfitField(text)
	}
	return table.Unfit(text)
}

// cell is what a text stands in.
func (r *reader) cell() string {
	if r.typed {
		return "field"
	}
	return "cell"
}

// done judges the rows that were taken.
func (r *reader) done() Import {
	r.marks = marksOf(r.taken)
	for _, t := range r.taken {
		r.row, r.spoiled = t.row, t.spoiled
		if r.typed { // each by itself, others may have typed the rest
			r.marks = marksOf([]taken{t})
		}
		before := len(r.faults)
		e := r.entry(t.cells)
		if len(r.faults) > before || len(t.spoiled) > 0 {
			r.out.Bad = append(r.out.Bad, t.row)
			continue
		}
		r.read = append(r.read, Numbered{t.row, e})
	}
	r.spoiled = nil
	r.once()
	r.notice()
	slices.Sort(r.out.Bad)
	r.list()
	return r.out
}

// list puts the faults in the order of the rows and of the columns, as many as are listed.
func (r *reader) list() {
	slices.SortStableFunc(r.faults, func(a, b sheet.Fault) int {
		return cmp.Or(cmp.Compare(a.Row, b.Row), cmp.Compare(slices.Index(Columns, a.Column), slices.Index(Columns, b.Column)))
	})
	listed := min(len(r.faults), MaxFaults)
	r.out.Faults = append(r.out.Faults, r.faults[:listed]...)
	r.out.More = len(r.faults) - listed
	for i := range r.out.Faults {
		if r.typed {
			r.out.Faults[i].Row = 0 // who typed an entry in knows of no rows; the pointer says which
		}
	}
}
