package quote

import (
	"fmt"
	"regexp"
	"time"
)

var numberForm = regexp.MustCompile(`^[0-9]{4}-[0-9]{4,9}$`)

// Number is the number of a yard's n-th quote of a year, counted from 1: "2026-0007". The year is that of the moment
// of issue, as the yard's clock gives it; past 9999 the count grows a digit.
func Number(issued time.Time, n int) (string, error) {
	s := fmt.Sprintf("%04d-%04d", issued.Year(), n)
	if n < 1 || !numberForm.MatchString(s) {
		return "", fmt.Errorf("quote %d of %d has no number: the count runs from 1 to 999999999 in a year of four figures", n, issued.Year())
	}
	return s, nil
}

// ValidUntil is the last day on which an offer issued at that moment holds: "2026-03-31".
func ValidUntil(issued time.Time, days int) string {
	return issued.AddDate(0, 0, days).Format(time.DateOnly)
}
