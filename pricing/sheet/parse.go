package sheet

import (
	"fmt"
	"sort"
	"strconv"
	"strings"
	"time"

	"ribband/pricing/money"
	"ribband/takeoff/notation"
	"ribband/takeoff/table"

	"github.com/shopspring/decimal"
)

// Limits of one sheet. They are far above any yard's list and far below what would hurt.
const (
	MaxItems      = 10_000
	MaxCellBytes  = table.MaxCellBytes
	MaxFaults     = 200 // listed; the rest are counted
	mostLeadDays  = 3650
	mostAvailable = 1_000_000
)

// reader reads rows into items and collects every fault.
type reader struct {
	content Content
	faults  []Fault
	// where names the place of a fault: a row of a table or an item of a document.
	where func(row int, column string) Fault
	row   int
	comma bool
	// marks are the decimal marks that the table shows; they are looked at where it may have a comma.
	marks marks
	seen  map[string]int
	kinds map[string]named
}

type named struct {
	kind Kind
	row  int
}

// FromRows reads a sheet from rows as written. Every fault is told at once, by item and by JSON pointer, in a
// *FaultsError.
func FromRows(currency money.Currency, n notation.Notation, rows []Row) (Content, error) {
	r := newReader(currency, n, func(row int, column string) Fault {
		f := Fault{Row: row, Column: column}
		switch {
		case row > 0 && column == "":
			f.Pointer = fmt.Sprintf("/items/%d", row-1)
		case row > 0:
			f.Pointer = fmt.Sprintf("/items/%d/%s", row-1, column)
		case column != "":
			f.Pointer = "/" + column
		}
		return f
	})
	if len(rows) > MaxItems {
		r.fault("items", fmt.Sprintf("%d items are more than a sheet holds", len(rows)), fmt.Sprintf("at most %d items", MaxItems))
		rows = nil
	}
	for i, row := range rows {
		r.row = i + 1
		r.read(row)
	}
	return r.done()
}

func newReader(currency money.Currency, n notation.Notation, where func(int, string) Fault) *reader {
	r := &reader{
		content: Content{Currency: currency, Notation: n, Items: []Item{}},
		where:   where, seen: map[string]int{}, kinds: map[string]named{},
	}
	if !currency.Known() {
		r.fault("currency", (&money.CurrencyError{Code: currency}).Error(), "write the code of the currency all prices of the sheet are in")
	}
	if !n.Known() {
		r.fault("notation", fmt.Sprintf("notation %s is not known", notation.Quote(string(n))),
			"one of feet_inches_eighths, inches, mm, m")
	}
	return r
}

func (r *reader) fault(column, detail, fix string) {
	f := r.where(r.row, column)
	f.Detail, f.Fix = detail, fix
	r.faults = append(r.faults, f)
}

func (r *reader) done() (Content, error) {
	if len(r.faults) == 0 {
		return r.content, nil
	}
	order := map[string]int{}
	for i, c := range Columns {
		order[c] = i
	}
	sort.SliceStable(r.faults, func(a, b int) bool {
		x, y := r.faults[a], r.faults[b]
		if x.Row != y.Row {
			return x.Row < y.Row
		}
		return order[x.Column] < order[y.Column]
	})
	e := &FaultsError{Faults: r.faults}
	if len(e.Faults) > MaxFaults {
		e.Faults, e.More = e.Faults[:MaxFaults], len(r.faults)-MaxFaults
	}
	return Content{}, e
}

// read takes one row. An item with a fault is not kept, but the rest of the row is still looked at.
func (r *reader) read(row Row) {
	before := len(r.faults)
	for i, cell := range row.cells() {
		*cell = strings.TrimSpace(*cell)
		r.text(Columns[i], *cell)
	}
	if len(r.faults) > before {
		return
	}
	it := Item{
		Item: row.Item, Description: row.Description, Kind: Kind(row.Kind), Supplier: row.Supplier, Unit: Unit(row.Unit),
		Species: row.Species, Grade: row.Grade,
		Price: r.decimal("price", row.Price, decimal.Zero), Per: r.decimal("per", row.Per, decimal.NewFromInt(1)),
		PackSize: r.decimal("pack_size", row.PackSize, decimal.Zero), MinQty: r.decimal("min_qty", row.MinQty, decimal.Zero),
		Thickness: r.size("thickness", row.Thickness, ReadThickness), Width: r.size("width", row.Width, ReadSize),
		StockLength: r.size("stock_length", row.StockLength, ReadSize), Widest: r.size("widest", row.Widest, ReadSize),
		LeadDays: int(r.whole("lead_days", row.LeadDays, mostLeadDays)), Available: r.whole("available", row.Available, mostAvailable),
		ValidUntil: r.day(row.ValidUntil), FreeFrom: r.decimal("free_from", row.FreeFrom, decimal.Zero),
	}
	r.check(it, row, len(r.faults) == before)
	if len(r.faults) == before {
		r.content.Items = append(r.content.Items, it)
	}
}

// text refuses what no cell may hold. A text that a spreadsheet would run as a formula is refused as well, so that
// what is written out is what was read in, and hurts nobody who opens it.
func (r *reader) text(column, cell string) {
	bad := table.Unfit(cell)
	switch {
	case bad != nil:
		r.fault(column, bad.Detail, bad.Fix)
	case words[column] && cell != "" && strings.ContainsRune("=+-@", rune(cell[0])):
		r.fault(column, fmt.Sprintf("the cell %s begins with %q, which a spreadsheet runs as a formula", notation.Quote(cell), cell[0]),
			"begin with a letter or a figure")
	}
}

var words = map[string]bool{"item": true, "description": true, "supplier": true, "species": true, "grade": true}

// decimal reads a number above nothing; an empty cell is what it stands for.
func (r *reader) decimal(column, cell string, empty decimal.Decimal) decimal.Decimal {
	if cell == "" {
		return empty
	}
	if r.comma && r.doubtful(column, cell) {
		return empty
	}
	d, bad := table.Decimal(cell, r.comma)
	if bad != nil {
		r.fault(column, bad.Detail, bad.Fix)
		return empty
	}
	if d.Sign() <= 0 {
		r.fault(column, fmt.Sprintf("%s is not above 0", cell), "write an amount above 0, or leave the cell empty where it does not apply")
		return empty
	}
	return d
}

func (r *reader) size(column, cell string, read func(string, notation.Notation) (Size, error)) Size {
	if cell == "" || !r.content.Notation.Known() {
		return Size{}
	}
	s, err := read(cell, r.content.Notation)
	if err == nil && r.comma && !quarters.MatchString(cell) {
		_, err = r.content.Notation.ParseCell(cell, r.marks.comma != nil)
	}
	if err != nil {
		fix := "write a length in " + r.content.Notation.Name() + ", for example " + r.content.Notation.Example()
		if column == "thickness" {
			fix += ", or quarters of an inch, for example 8/4"
		}
		r.fault(column, err.Error(), fix)
	}
	return s
}

func (r *reader) whole(column, cell string, most int64) int64 {
	if cell == "" {
		return -1
	}
	n, err := strconv.ParseInt(cell, 10, 64)
	if err != nil || n < 0 || n > most || cell[0] == '+' || cell[0] == '-' {
		r.fault(column, notation.Quote(cell)+" is not a whole number in range", fmt.Sprintf("0 to %d, or empty", most))
		return -1
	}
	return n
}

func (r *reader) day(cell string) string {
	if cell == "" {
		return ""
	}
	if _, err := time.Parse(time.DateOnly, cell); err != nil {
		r.fault("valid_until", notation.Quote(cell)+" is not a day", "year-month-day, for example 2026-03-31")
	}
	return cell
}
