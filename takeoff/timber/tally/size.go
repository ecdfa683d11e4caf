package tally

import (
	"errors"
	"regexp"
	"slices"
	"strconv"
	"strings"

	"ribband/takeoff/document"
	"ribband/takeoff/notation"

	"github.com/shopspring/decimal"
)

var (
	quartersForm = regexp.MustCompile(`^([1-9][0-9]?)/4$`)
	inchMM       = decimal.RequireFromString("25.4")
	footInches   = decimal.NewFromInt(12)
)

// Inches, and feet, of millimetres go to so many places: every size that is written in inches or feet comes back as it was.
const places = 12

// size is one side of a board, exact in millimetres.
type size struct{ mm decimal.Decimal }

func (s size) inches() decimal.Decimal { return s.mm.DivRound(inchMM, places) }

func (s size) feet() decimal.Decimal { return s.mm.DivRound(inchMM.Mul(footInches), places) }

// side says which of a board's sizes is read.
type side struct {
	name string
	most int64 // inches, of a length feet
}

var (
	thicknessSide = side{"thickness", MostThickness}
	widthSide     = side{"width", MostWidth}
	lengthSide    = side{"length", MostLength}
)

// read a size; what is wrong with it goes to f.
func (w Written) read(text string, of side, pointer string, f *document.Faults) size {
	var mm decimal.Decimal
	var err error
	n := notation.Notation(w)
	feet := w == InchesAndFeet && of == lengthSide
	if w == InchesAndFeet {
		n = notation.Inches
	}
	if m := quartersForm.FindStringSubmatch(strings.TrimSpace(text)); m != nil && of == thicknessSide {
		quarters, _ := strconv.ParseInt(m[1], 10, 64)
		mm = decimal.NewFromInt(quarters).Mul(inchMM).Div(decimal.NewFromInt(4))
	} else {
		var l notation.Length
		if l, err = n.ParseCell(text, false); err == nil {
			mm = l.Decimal()
		}
		if feet {
			mm = mm.Mul(footInches)
		}
	}
	var told *notation.Error
	if errors.As(err, &told) {
		fix := told.Example
		switch {
		case feet:
			f.Add(pointer, "feet with a fraction or decimals, for example 8 or 8 1/2", "%s is not a length in feet", notation.Quote(text))
			return size{}
		case of == thicknessSide:
			fix += ", or quarters of an inch such as 8/4"
		}
		f.Add(pointer, "written like "+fix, "%s is not a %s in %s: %s", notation.Quote(text), of.name, n.Name(), told.Reason)
		return size{}
	}
	out := size{mm}
	most, unit := decimal.NewFromInt(of.most).Mul(inchMM), " in"
	if of == lengthSide {
		most, unit = most.Mul(footInches), " ft"
	}
	if mm.Sign() <= 0 || mm.GreaterThan(most) {
		f.Add(pointer, "above 0 and at most "+strconv.FormatInt(of.most, 10)+unit, "a %s of %s", of.name, out.say(n))
		return size{}
	}
	return out
}

// say writes a size with its unit.
func (s size) say(n notation.Notation) string {
	switch n {
	case notation.Millimetres, notation.Metres:
		return s.mm.String() + " mm"
	}
	return s.inches().Round(4).String() + " in"
}

// known reports whether the sizes may be written so.
func (w Written) known() bool { return slices.Contains(Ways, w) }
