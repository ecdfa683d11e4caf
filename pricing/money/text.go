package money

import (
	"bytes"
	"encoding/json"
	"fmt"

	"ribband/takeoff/quantity"

	"github.com/shopspring/decimal"
)

// PlacesError: an amount with more decimal places than its currency has.
type PlacesError struct {
	Amount   string
	Currency Currency
}

func (e *PlacesError) Error() string {
	return fmt.Sprintf("%s has more places than %s, which has %d", e.Amount, e.Currency, e.Currency.Digits())
}

// Exact is d with nothing rounded away; a *PlacesError when the currency has no such small unit.
func Exact(d decimal.Decimal, c Currency) (Money, error) {
	m, err := Round(d, c, HalfUp)
	if err != nil {
		return Money{}, err
	}
	if !m.Decimal().Equal(d) {
		return Money{}, &PlacesError{d.String(), c}
	}
	return m, nil
}

// Parse reads an amount in plain notation, "1240.50", within the limits of exact input; nothing is rounded.
func Parse(amount string, c Currency) (Money, error) {
	if !c.Known() {
		return Money{}, &CurrencyError{c}
	}
	d, err := quantity.ParseDecimal(amount)
	if err != nil {
		return Money{}, err
	}
	return Exact(d, c)
}

type wire struct {
	Amount   string   `json:"amount"`
	Currency Currency `json:"currency"`
}

// MarshalJSON writes {"amount": "1240.50", "currency": "USD"}, always with the currency's places. An amount without
// a currency is refused.
func (m Money) MarshalJSON() ([]byte, error) {
	if !m.currency.Known() {
		return nil, &CurrencyError{m.currency}
	}
	return json.Marshal(wire{m.String(), m.currency})
}

// UnmarshalJSON reads what MarshalJSON writes; a number in place of the text, an unknown member or a place too many
// is refused.
func (m *Money) UnmarshalJSON(b []byte) error {
	dec := json.NewDecoder(bytes.NewReader(b))
	dec.DisallowUnknownFields()
	var w wire
	if err := dec.Decode(&w); err != nil {
		return fmt.Errorf(`an amount is written {"amount": "1240.50", "currency": "USD"}: %w`, err)
	}
	got, err := Parse(w.Amount, w.Currency)
	if err != nil {
		return err
	}
	*m = got
	return nil
}
