package pack

import (
	"fmt"

	"ribband/takeoff/quantity"
)

// ShortError: less of an item for sale than is needed.
type ShortError struct {
	Item   string
	Needed quantity.Quantity
	Short  quantity.Quantity
}

func (e *ShortError) Error() string {
	return fmt.Sprintf("%s: %s %s are needed and the packs for sale are %s short; a row with more for sale would do",
		e.Item, e.Needed, e.Needed.Unit(), e.Short)
}

// RowError: packs of a plan that are not to be found on a sheet.
type RowError struct{ Item, Reason string }

func (e *RowError) Error() string { return e.Item + ": " + e.Reason }
