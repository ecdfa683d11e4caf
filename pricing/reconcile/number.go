package reconcile

import (
	"fmt"
	"regexp"
	"strings"

	"ribband/pricing/money"
	"ribband/takeoff/notation"
	"ribband/takeoff/table"

	"github.com/shopspring/decimal"
)

// A mark with exactly three digits behind it, and one to three before it that do not begin with 0, may part thousands
// or places: 1,240 is one thousand two hundred and forty, or a little more than one. Taken for the wrong one it is a
// thousandfold off, so it is read only where the other numbers show which mark is the decimal one.
var (
	oneMark   = regexp.MustCompile(`^-?([0-9]+)([.,])([0-9]+)$`)
	thousands = regexp.MustCompile(`^-?[1-9][0-9]{0,2}[.,][0-9]{3}$`)
)

// marks are the first number with a decimal comma and the first with a decimal point, of those that can be read in one
// way only; nil where there is none.
type marks struct{ comma, point *shownMark }

type shownMark struct {
	row  int
	cell string
}

// marksOf looks at all numbers there are.
func marksOf(rows []taken) marks {
	var m marks
	for _, t := range rows {
		for _, cell := range []string{t.cells.Quantity, t.cells.Amount, t.cells.Tax} {
			parts := oneMark.FindStringSubmatch(cell)
			if parts == nil || thousands.MatchString(cell) {
				continue
			}
			into := &m.comma
			if parts[2] == "." {
				into = &m.point
			}
			if *into == nil {
				*into = &shownMark{t.row, cell}
			}
		}
	}
	return m
}

// decimal reads a number within the limits of exact input; it may be below nothing. Where numbers may have a decimal
// comma, all of them have the same mark.
func (r *reader) decimal(column, cell string) (decimal.Decimal, bool) {
	if r.comma && r.doubtful(column, cell) {
		return decimal.Zero, false
	}
	d, bad := table.Decimal(cell, r.comma)
	if bad != nil {
		r.fault(column, bad.Detail, bad.Fix)
	}
	return d, bad == nil
}

// doubtful tells of a number whose mark may be either.
func (r *reader) doubtful(column, cell string) bool {
	parts := oneMark.FindStringSubmatch(cell)
	if parts == nil {
		return false
	}
	lone := thousands.MatchString(cell)
	same, other, mark, name := r.marks.comma, r.marks.point, ".", "point"
	if parts[2] == "." {
		same, other, mark, name = other, same, ",", "comma"
	}
	detail := notation.Quote(cell)
	if lone {
		detail += " can be read as " + readings(cell)
	}
	switch {
	case other != nil:
		r.fault(column, fmt.Sprintf("%s, and %s %s has a decimal %s: only one of the two marks can be the decimal one", detail, notation.Quote(other.cell),
			r.at(other.row), name), r.both(column, cell, mark, lone, "write all numbers with the same decimal mark and without a thousands mark"))
	case lone && same == nil:
		r.fault(column, detail, r.both(column, cell, parts[2], lone, ""))
	default:
		return false
	}
	return true
}

// at says where a row is, for who reads it.
func (r *reader) at(row int) string {
	switch {
	case row == r.row && r.typed:
		return "beside it"
	case r.typed:
		return fmt.Sprintf("in entry %d", row)
	}
	return fmt.Sprintf("in row %d", row)
}

// readings are the two numbers that a cell with one mark before three digits may stand for, plainly written.
func readings(cell string) string {
	large, small := bothWays(cell)
	return large + " or as " + small
}

func bothWays(cell string) (large, small string) {
	cell = strings.Replace(cell, ",", ".", 1)
	return strings.Replace(cell, ".", "", 1), cell
}

// both is how to write either reading of a lone group, so that it can be read in one way only; of another number it is
// otherwise.
func (r *reader) both(column, cell, mark string, lone bool, otherwise string) string {
	if !lone {
		return otherwise
	}
	large, small := bothWays(cell)
	// A place less or more makes no group of three.
	short := strings.TrimSuffix(strings.TrimRight(small, "0"), ".")
	if short == small {
		short += "0"
	}
	_, places, _ := strings.Cut(short, ".")
	if column != "quantity" && len(places) > int(r.job.Currency.Digits()) {
		return fmt.Sprintf("write %s, without a thousands mark; %s has %d places", large, r.job.Currency, r.job.Currency.Digits())
	}
	return fmt.Sprintf("write %s, without a thousands mark, or %s", large, strings.Replace(short, ".", mark, 1))
}

// places refuses an amount that is written to more places than the currency has, whatever they are: more often than
// not the mark parts thousands.
func (r *reader) places(column, cell string, c money.Currency) bool {
	parts := oneMark.FindStringSubmatch(cell)
	if parts == nil || len(parts[3]) <= int(c.Digits()) {
		return true
	}
	detail := fmt.Sprintf("%s has %d places and %s has %d", notation.Quote(cell), len(parts[3]), c, c.Digits())
	fix := fmt.Sprintf("at most %d places", c.Digits())
	if thousands.MatchString(cell) {
		large, _ := bothWays(cell)
		detail += "; it can be read as " + readings(cell)
		fix += "; write " + large + " where that is meant"
	}
	r.fault(column, detail, fix)
	return false
}
