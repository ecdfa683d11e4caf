package sheet

import (
	"fmt"
	"regexp"
	"strconv"
	"strings"

	"ribband/takeoff/notation"

	"github.com/shopspring/decimal"
)

// Size is one dimension of a board: as it was written, and exactly. The zero value is no size. Sizes compare
// with ==.
type Size struct {
	text   string
	length notation.Length
}

// Text is the size as it was written: "8/4", "0-8-0".
func (s Size) Text() string { return s.text }

// MM is the size in millimetres, exact.
func (s Size) MM() decimal.Decimal { return s.length.Decimal() }

// Empty reports that no size was written.
func (s Size) Empty() bool { return s.text == "" }

var quarters = regexp.MustCompile(`^([1-9][0-9]?)/4$`)

// ReadThickness reads a thickness in quarters of an inch, the way rough hardwood is sold (8/4 is two inches), or in
// the sheet's notation.
func ReadThickness(text string, n notation.Notation) (Size, error) {
	m := quarters.FindStringSubmatch(text)
	if m == nil {
		return ReadSize(text, n)
	}
	q, err := strconv.Atoi(m[1])
	if err != nil {
		return Size{}, err
	}
	l, err := notation.Inches.Parse(decimal.New(int64(q)*25, -2).String())
	if err != nil {
		return Size{}, err
	}
	return Size{text, l}, nil
}

// ReadSize reads a length above nothing in the notation.
func ReadSize(text string, n notation.Notation) (Size, error) {
	l, err := n.Parse(text)
	if err != nil {
		return Size{}, err
	}
	if l.Sign() <= 0 {
		return Size{}, fmt.Errorf("%s is not a size: it must be above nothing", notation.Quote(text))
	}
	return Size{strings.TrimSpace(text), l}, nil
}
