package table

import (
	"fmt"
	"strings"
	"unicode"
	"unicode/utf8"

	"ribband/takeoff/notation"
	"ribband/takeoff/quantity"

	"github.com/shopspring/decimal"
)

// MaxCellBytes is the longest cell of a table or of a row that is typed in.
const MaxCellBytes = 500

// CellError is a cell that cannot be taken: what is wrong, and what would be right.
type CellError struct{ Detail, Fix string }

func (e *CellError) Error() string { return e.Detail + "; " + e.Fix }

// Unfit is what makes a cell no text that anybody reads: too long, not UTF-8, or with a control character in it,
// blanks at its ends apart. Nil for a cell that will do.
func Unfit(cell string) *CellError { return unfit(cell, "cell", "save the table as UTF-8") }

// UnfitField is Unfit in the words for a text that is typed in.
func UnfitField(text string) *CellError { return unfit(text, "field", "write it as UTF-8") }

func unfit(cell, what, encode string) *CellError {
	trimmed := strings.TrimSpace(cell)
	switch {
	case len(cell) > MaxCellBytes:
		return &CellError{fmt.Sprintf("the %s has %d bytes", what, len(cell)), fmt.Sprintf("at most %d bytes", MaxCellBytes)}
	case !utf8.ValidString(cell):
		return &CellError{"the " + what + " is not UTF-8 text", encode}
	case strings.ContainsFunc(trimmed, unicode.IsControl):
		return &CellError{fmt.Sprintf("the %s %s holds a control character", what, notation.Quote(trimmed)), "write plain text on one line"}
	}
	return nil
}

// Decimal reads a cell as a plain decimal number within the limits of quantity.ParseDecimal, of either sign. With
// comma it may have a decimal comma.
func Decimal(cell string, comma bool) (decimal.Decimal, *CellError) {
	text := cell
	if strings.Count(cell, ",") == 1 && !strings.Contains(cell, ".") {
		if !comma {
			return decimal.Zero, &CellError{
				notation.Quote(cell) + " has a decimal comma, which is read only in a table parted by semicolons or tabs",
				"write a decimal point, for example 12.50",
			}
		}
		text = strings.Replace(cell, ",", ".", 1)
	}
	d, err := quantity.ParseDecimal(text)
	if err != nil {
		return decimal.Zero, &CellError{err.Error(), "write for example 12.50, without currency sign or thousands mark"}
	}
	return d, nil
}
