package notation

import (
	"cmp"
	"fmt"
	"math"

	"github.com/shopspring/decimal"
)

// Lengths are counted in millionths of a thousandth of a millimetre: the finest count that an int64 carries to a
// kilometre, and one in which a sixty-fourth of an inch and six decimals of an inch are whole numbers.
const (
	millimetre int64 = 1_000_000_000
	metre            = 1000 * millimetre
	inch             = 25_400_000_000 // 25.4 mm exactly, by the international agreement of 1959
	foot             = 12 * inch
	longest          = 1000 * metre
)

// Length is an exact length, positive or negative, at most a kilometre. The zero value is nothing. Lengths
// compare with ==.
type Length struct{ n int64 }

// RangeError: a measured number that is no length: not a number, infinite, or over a kilometre.
type RangeError struct{ MM float64 }

func (e *RangeError) Error() string {
	return fmt.Sprintf("%v mm is not a length: a number of at most 1 km either way is needed", e.MM)
}

// FromMM is the length of mm millimetres to the nearest thousand-millionth; a *RangeError when mm is no length.
func FromMM(mm float64) (Length, error) {
	if math.IsNaN(mm) || math.Abs(mm) > float64(longest/millimetre) {
		return Length{}, &RangeError{mm}
	}
	return Length{int64(math.Round(mm * float64(millimetre)))}, nil
}

// OfNanometres is so many nanometres, brought to a kilometre where they are more.
func OfNanometres(n int64) Length {
	const most = longest / (millimetre / 1_000_000)
	return Length{max(-most, min(most, n)) * (millimetre / 1_000_000)}
}

// MM is the length in millimetres, correctly rounded to a float64.
func (l Length) MM() float64 { return float64(l.n) / float64(millimetre) }

// Decimal is the length in millimetres, exact; it never has more than nine decimal places.
func (l Length) Decimal() decimal.Decimal { return decimal.New(l.n, -9) }

// String is the length in millimetres with its unit: "698.5 mm".
func (l Length) String() string { return plain(l.n, millimetre, 9) + " mm" }

// Sign is -1, 0 or 1 as the length is below, at or above nothing.
func (l Length) Sign() int { return cmp.Compare(l.n, 0) }

// Compare is -1, 0 or 1 as l is shorter than, equal to or longer than m.
func (l Length) Compare(m Length) int { return cmp.Compare(l.n, m.n) }
