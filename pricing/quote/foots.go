package quote

import (
	"fmt"

	"ribband/pricing/money"
)

// FootingError: an option whose totals are not the sums of what it shows, as a stored one may be that was tampered
// with.
type FootingError struct {
	Option      string
	What        string // "net", "tax", "total"
	Sum, Stated money.Money
}

func (e *FootingError) Error() string {
	return fmt.Sprintf("option %s: its parts add to %s and its %s is %s", e.Option, e.Sum, e.What, e.Stated)
}

// foots checks that the totals of an option are the sums of its parts, and that every part stands once.
func foots(o OwnerOption) error {
	c := o.Net.Currency()
	var prices, taxes []money.Money
	seen := map[string]bool{}
	twice := func(name string) error {
		if seen[name] {
			return &BasisError{fmt.Sprintf("%s stands twice in option %s", name, o.Name)}
		}
		seen[name] = true
		return nil
	}
	for _, s := range o.Steps {
		for _, l := range s.Lines {
			prices = append(prices, l.Price)
			if err := twice("line " + l.Key); err != nil {
				return err
			}
		}
	}
	for _, t := range o.Taxes {
		taxes = append(taxes, t.Amount)
		if err := twice("tax " + t.Category); err != nil {
			return err
		}
	}
	for _, x := range []struct {
		what   string
		stated money.Money
		parts  []money.Money
	}{{"net", o.Net, prices}, {"tax", o.Tax, taxes}, {"total", o.Total, []money.Money{o.Net, o.Tax}}} {
		sum, err := money.Sum(c, x.parts...)
		if err != nil {
			return err
		}
		if sum != x.stated {
			return &FootingError{o.Name, x.what, sum, x.stated}
		}
	}
	return nil
}
