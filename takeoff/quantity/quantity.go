// Package quantity is the one crossing from measured floats to exact decimals.
//
// Geometry is float64 and is never rounded inside. What leaves it, to be counted, bought or priced, goes through
// FromMeasured or a Ceil or Floor here, which refuse NaN and infinity, snap to twelve significant digits (so that
// the last bits, which differ between processors, decide nothing) and round once. After that everything is
// decimal.
package quantity

import (
	"encoding/json"
	"fmt"
	"math"
	"strconv"

	"github.com/shopspring/decimal"
)

// Quantity is an exact decimal amount of one unit, kept to the unit's places. The zero value has no unit and is
// not a quantity; make one with a function of this package.
type Quantity struct {
	value decimal.Decimal
	unit  Unit
}

// NotMeasurableError: a measured number that is no number, or too large to be anything in a boatyard.
type NotMeasurableError struct {
	Value float64
	Unit  Unit
}

func (e *NotMeasurableError) Error() string {
	return fmt.Sprintf("%v is not a measure in %s: a finite number below 1e12 is needed", e.Value, e.Unit)
}

// UnitError: a unit that is unknown, or two that do not go together.
type UnitError struct{ Left, Right Unit }

func (e *UnitError) Error() string {
	if e.Right == "" {
		return fmt.Sprintf("unit %q is not known", string(e.Left))
	}
	return fmt.Sprintf("%s and %s cannot be added: one unit is needed", e.Left, e.Right)
}

// Snap rounds x to twelve significant digits. No ceil, floor or comparison that decides a count may be made on an
// unsnapped float: exactly 12 laminates computed in floating point come out as 12.000000000000002 on some
// dimensions, and 13 would be bought.
func Snap(x float64) float64 {
	if x == 0 || math.IsNaN(x) || math.IsInf(x, 0) {
		return x
	}
	s, err := strconv.ParseFloat(strconv.FormatFloat(x, 'e', 11, 64), 64)
	if err != nil {
		return x
	}
	return s
}

// SnapDecimal is Snap of an exact decimal, for a quotient that is to be counted: twelve laminates of a third of an inch,
// whose millimetres no decimal writes out, are twelve.
func SnapDecimal(d decimal.Decimal) decimal.Decimal {
	if d.IsZero() {
		return d
	}
	whole := int32(d.NumDigits()) + d.Exponent() // digits before the point, below 1 the noughts after it as a negative
	return d.Round(12 - whole)
}

// Thousandth rounds a measured length in millimetres to the micrometre, on the snapped value, as measured lengths are
// told.
func Thousandth(mm float64) float64 { return math.Round(Snap(mm*1000)) / 1000 }

// Decimal is x snapped to twelve significant digits, as an exact decimal with no further rounding.
func Decimal(x float64, unit Unit) (decimal.Decimal, error) {
	if math.IsNaN(x) || math.IsInf(x, 0) || math.Abs(x) >= 1e12 {
		return decimal.Zero, &NotMeasurableError{x, unit}
	}
	return decimal.NewFromString(strconv.FormatFloat(x, 'e', 11, 64))
}

// FromMeasured turns a measured x, already in unit, into a quantity: snapped, then rounded half away from zero to
// the unit's places.
func FromMeasured(x float64, unit Unit) (Quantity, error) {
	if !unit.Known() {
		return Quantity{}, &UnitError{Left: unit}
	}
	d, err := Decimal(x, unit)
	if err != nil {
		return Quantity{}, err
	}
	return Quantity{d.Round(unit.Places()), unit}, nil
}

// CeilMeasured is FromMeasured rounding up, for lengths that must suffice.
func CeilMeasured(x float64, unit Unit) (Quantity, error) {
	if !unit.Known() {
		return Quantity{}, &UnitError{Left: unit}
	}
	d, err := Decimal(x, unit)
	if err != nil {
		return Quantity{}, err
	}
	return Quantity{d.RoundCeil(unit.Places()), unit}, nil
}

// Of is an exact decimal in unit, rounded half away from zero to the unit's places.
func Of(d decimal.Decimal, unit Unit) (Quantity, error) {
	if !unit.Known() {
		return Quantity{}, &UnitError{Left: unit}
	}
	return Quantity{d.Round(unit.Places()), unit}, nil
}

// Count is n pieces.
func Count(n int64) Quantity { return Quantity{decimal.NewFromInt(n), Each} }

// CeilTo rounds an exact decimal up to the unit's places: how many must be had so that d suffices.
func CeilTo(d decimal.Decimal, unit Unit) (Quantity, error) {
	if !unit.Known() {
		return Quantity{}, &UnitError{Left: unit}
	}
	return Quantity{d.RoundCeil(unit.Places()), unit}, nil
}

// Zero is nothing of unit.
func Zero(unit Unit) Quantity { return Quantity{decimal.Zero, unit} }

// Value is the exact amount.
func (q Quantity) Value() decimal.Decimal { return q.value }

// Unit is the unit counted in.
func (q Quantity) Unit() Unit { return q.unit }

// IsZero reports an amount of nothing, in whatever unit.
func (q Quantity) IsZero() bool { return q.value.IsZero() }

// Int is the amount as a whole number; ok is false when it has a fraction or does not fit.
func (q Quantity) Int() (n int64, ok bool) {
	if !q.value.IsInteger() || q.value.Abs().GreaterThan(decimal.NewFromInt(math.MaxInt64)) {
		return 0, false
	}
	return q.value.IntPart(), true
}

// String is the amount with the unit's places, without the unit: "12.50".
func (q Quantity) String() string { return q.value.StringFixed(q.unit.Places()) }

// Equal reports the same amount of the same unit.
func (q Quantity) Equal(o Quantity) bool { return q.unit == o.unit && q.value.Equal(o.value) }

// Add is q + o; a *UnitError when the units differ.
func (q Quantity) Add(o Quantity) (Quantity, error) {
	if q.unit != o.unit {
		return Quantity{}, &UnitError{q.unit, o.unit}
	}
	return Quantity{q.value.Add(o.value), q.unit}, nil
}

// Sum adds quantities of one unit.
func Sum(unit Unit, qs ...Quantity) (Quantity, error) {
	total := Zero(unit)
	var err error
	for _, q := range qs {
		if total, err = total.Add(q); err != nil {
			return Quantity{}, err
		}
	}
	return total, nil
}

// MarshalJSON writes {"value": "12.50", "unit": "board_ft"}: a string, because a JSON number is a binary float.
func (q Quantity) MarshalJSON() ([]byte, error) {
	return json.Marshal(struct {
		Value string `json:"value"`
		Unit  Unit   `json:"unit"`
	}{q.String(), q.unit})
}

// UnmarshalJSON reads what MarshalJSON writes.
func (q *Quantity) UnmarshalJSON(b []byte) error {
	var w struct {
		Value string `json:"value"`
		Unit  Unit   `json:"unit"`
	}
	if err := json.Unmarshal(b, &w); err != nil {
		return err
	}
	d, err := ParseDecimal(w.Value)
	if err != nil {
		return err
	}
	got, err := Of(d, w.Unit)
	if err != nil {
		return err
	}
	if !got.value.Equal(d) {
		return fmt.Errorf("%s has more places than %s keeps (%d)", w.Value, w.Unit, w.Unit.Places())
	}
	*q = got
	return nil
}
