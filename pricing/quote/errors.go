package quote

import "fmt"

// OptionError says which option could not be priced.
type OptionError struct {
	ID, Name string
	Err      error
}

func (e *OptionError) Error() string { return fmt.Sprintf("option %s: %s", e.Name, e.Err) }

// Unwrap is what went wrong.
func (e *OptionError) Unwrap() error { return e.Err }

// BasisError: options, sheet and buy lists that do not go together.
type BasisError struct{ Reason string }

func (e *BasisError) Error() string { return e.Reason }

// CurrencyError: the job is priced in one currency and the sheet in another.
type CurrencyError struct{ Job, Sheet string }

func (e *CurrencyError) Error() string {
	return fmt.Sprintf("the job is in %s and the price sheet in %s: a sheet in %s is needed", e.Job, e.Sheet, e.Job)
}
