package document

import (
	"ribband/takeoff/notation"

	"github.com/shopspring/decimal"
)

// Length reads a length of a document written in a notation, mm; one that cannot be read is a fault, and nothing. While the
// notation is not known nothing is said of lengths.
func (f *Faults) Length(in notation.Notation, pointer, text string) decimal.Decimal {
	if !in.Known() {
		return decimal.Decimal{}
	}
	l, err := in.Parse(text)
	if err != nil {
		f.Add(pointer, "a length in "+in.Name()+", for example "+in.Example(), "%v", err)
	}
	return l.Decimal()
}

// LengthWithin is a Length above 0 and not above most, mm.
func (f *Faults) LengthWithin(in notation.Notation, pointer, text string, most decimal.Decimal) decimal.Decimal {
	before := len(*f)
	d := f.Length(in, pointer, text)
	if in.Known() && len(*f) == before && (d.Sign() <= 0 || d.GreaterThan(most)) {
		f.Add(pointer, "a length above 0 and not above "+most.String()+" mm", "%s is %s mm", notation.Quote(text), d)
	}
	return d
}
