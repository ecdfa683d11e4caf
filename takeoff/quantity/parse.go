package quantity

import (
	"fmt"
	"regexp"

	"github.com/shopspring/decimal"
)

// Limits of every exact number that comes in: they are checked before any arithmetic, so that 1e1000000 or a
// number of a hundred thousand digits costs nothing.
const (
	MaxWholeDigits    = 12
	MaxFractionDigits = 6
)

var plainDecimal = regexp.MustCompile(`^-?[0-9]{1,12}(\.[0-9]{1,6})?$`)

// DecimalError: a text that is not an exact decimal within the limits.
type DecimalError struct{ Text string }

func (e *DecimalError) Error() string {
	shown := e.Text
	if len(shown) > 24 {
		shown = shown[:24] + "…"
	}
	return fmt.Sprintf("%q is not a plain decimal: at most %d digits before the point and %d after it, no exponent, for example 1240.50",
		shown, MaxWholeDigits, MaxFractionDigits)
}

// ParseDecimal reads an exact decimal in plain notation within the limits; a *DecimalError otherwise.
func ParseDecimal(text string) (decimal.Decimal, error) {
	if len(text) > MaxWholeDigits+MaxFractionDigits+2 || !plainDecimal.MatchString(text) {
		return decimal.Zero, &DecimalError{text}
	}
	d, err := decimal.NewFromString(text)
	if err != nil {
		return decimal.Zero, &DecimalError{text}
	}
	return d, nil
}

// CeilCount is the least whole number of pieces not below x, decided on the snapped x.
func CeilCount(x float64) (int64, error) {
	q, err := CeilMeasured(x, Each)
	if err != nil {
		return 0, err
	}
	n, _ := q.Int()
	return n, nil
}
