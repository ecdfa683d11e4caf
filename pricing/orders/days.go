package orders

import (
	"fmt"
	"time"
)

// LastDays writes on every order the last day to place it so that all is there on needed, a day written 2026-03-31; the sheet's
// days from order to delivery are taken as days of the calendar. Orders of which the sheet does not say how long they take get
// none. A *DayError when needed is no day.
func LastDays(orders []Order, needed string) error {
	day, err := time.Parse(time.DateOnly, needed)
	if err != nil {
		return &DayError{needed}
	}
	for i := range orders {
		if o := &orders[i]; o.LeadDays != nil {
			o.OrderBy = day.AddDate(0, 0, -*o.LeadDays).Format(time.DateOnly)
		}
	}
	return nil
}

// DayError: a text that is no day.
type DayError struct{ Text string }

func (e *DayError) Error() string {
	return fmt.Sprintf("%q is not a day; year-month-day, for example 2026-03-31", e.Text)
}

// Slowest is the order that takes longest to come, the first by supplier of those that take as long; nil where the sheet says it
// of none. Silent are the suppliers of lines of which it says nothing, which may take longer.
func Slowest(orders []Order) (slowest *Order, silent []string) {
	for i := range orders {
		o := &orders[i]
		if o.LeadUnknown {
			silent = append(silent, o.Supplier)
		}
		if o.LeadDays != nil && (slowest == nil || *o.LeadDays > *slowest.LeadDays) {
			slowest = o
		}
	}
	return slowest, silent
}
