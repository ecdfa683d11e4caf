// Package fastening is screws, bolts and drifts: what size a planking screw has and how many a plank takes on a frame, what lead
// hole it wants in a wood, what it may carry, and what rod weighs.
//
// It is pure arithmetic on published tables, in inches and pounds as these are printed; lengths of boats come in millimetres.
// Out of scope: the size of keel bolts, for which no table was found, and copper nails and roves, for which none was either.
package fastening

import (
	"fmt"

	"github.com/shopspring/decimal"
)

// RangeError: a figure that no table or formula here holds for, with what would do.
type RangeError struct{ Detail, Fix string }

func (e *RangeError) Error() string { return e.Detail + ": " + e.Fix }

func dec(text string) decimal.Decimal { return decimal.RequireFromString(text) }

// fault is a *RangeError of a formatted detail.
func fault(fix, detail string, args ...any) error {
	return &RangeError{fmt.Sprintf(detail, args...), fix}
}
