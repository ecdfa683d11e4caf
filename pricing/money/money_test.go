package money_test

import (
	"encoding/json"
	"errors"
	"math"
	"strings"
	"testing"

	"ribband/pricing/money"

	"github.com/shopspring/decimal"
	"pgregory.net/rapid"
)

func TestCurrenciesNeverMix(t *testing.T) {
	var mixed *money.MixedError
	if _, err := amount(t, "1.00", "USD").Add(amount(t, "1.00", "EUR")); !errors.As(err, &mixed) {
		t.Errorf("dollars and euros added: %v", err)
	}
	if _, err := amount(t, "1.00", "USD").Sub(money.Money{}); !errors.As(err, &mixed) {
		t.Errorf("an amount without a currency taken off dollars: %v", err)
	}
	if _, err := money.Sum("USD", amount(t, "1.00", "EUR")); !errors.As(err, &mixed) {
		t.Errorf("euros in a sum of dollars: %v", err)
	}
}

func TestNothingWrapsRound(t *testing.T) {
	most := amount(t, "999999999999.99", "USD")
	var out *money.RangeError
	for name, try := range map[string]func() (money.Money, error){
		"a cent more":             func() (money.Money, error) { return most.Add(amount(t, "0.01", "USD")) },
		"a cent less":             func() (money.Money, error) { return most.Neg().Sub(amount(t, "0.01", "USD")) },
		"twice":                   func() (money.Money, error) { return most.Times(decimal.NewFromInt(2), money.HalfUp) },
		"the largest int64":       func() (money.Money, error) { return money.New(math.MaxInt64, "USD") },
		"the smallest int64":      func() (money.Money, error) { return money.New(math.MinInt64, "USD") },
		"a decimal of 10^1000000": func() (money.Money, error) { return money.Round(decimal.New(1, 1_000_000), "USD", money.HalfUp) },
		"10^-1000000":             func() (money.Money, error) { return money.Round(decimal.New(1, -1_000_000), "USD", money.HalfUp) },
		"a factor of 10^1000000":  func() (money.Money, error) { return most.Times(decimal.New(1, 1_000_000), money.HalfUp) },
		"four places, int64 edge": func() (money.Money, error) { return money.New(math.MaxInt64, "CLF") },
	} {
		if _, err := try(); !errors.As(err, &out) {
			t.Errorf("%s: %v", name, err)
		}
	}
}

func TestPlacesOfCurrencies(t *testing.T) {
	for c, want := range map[money.Currency]string{"USD": "7.00", "JPY": "7", "KWD": "7.000", "CLF": "7.0000", "COP": "7.00", "IQD": "7.000"} {
		m, err := money.Round(decimal.NewFromInt(7), c, money.HalfUp)
		if err != nil || m.String() != want {
			t.Errorf("%s: %s (%v), want %s", c, m, err, want)
		}
	}
	for _, c := range []money.Currency{"", "usd", "XXX", "US", "DOLLARS", "XAU"} {
		var unknown *money.CurrencyError
		if _, err := money.New(1, c); !errors.As(err, &unknown) {
			t.Errorf("%q taken as a currency: %v", c, err)
		}
	}
}

func TestJSON(t *testing.T) {
	m := amount(t, "-1240.50", "USD")
	b, err := json.Marshal(m)
	if err != nil || string(b) != `{"amount":"-1240.50","currency":"USD"}` {
		t.Fatalf("%s %v", b, err)
	}
	var back money.Money
	if err := json.Unmarshal(b, &back); err != nil || back != m || !back.Equal(m) {
		t.Errorf("%v %v", back, err)
	}
	if _, err := json.Marshal(money.Money{}); err == nil {
		t.Error("an amount without a currency was written")
	}
	for _, bad := range []string{
		`{"amount":1240.50,"currency":"USD"}`, `{"amount":"1.005","currency":"USD"}`, `{"amount":"1e1000000","currency":"USD"}`,
		`{"amount":"1","currency":"ZZZ"}`, `{"amount":"1","currency":"USD","x":1}`, `{"amount":"","currency":"USD"}`, `null`, `{}`,
		`{"amount":"NaN","currency":"USD"}`, `{"amount":"+1","currency":"USD"}`, `{"amount":"1\u0000","currency":"USD"}`,
		`{"amount":"` + strings.Repeat("9", 100_000) + `","currency":"USD"}`,
	} {
		if err := json.Unmarshal([]byte(bad), &back); err == nil {
			t.Errorf("%.60s was read as %s", bad, back)
		}
	}
}

// Splitting never loses a cent, stays within one of the exact part, mirrors, and gives nothing to a weight of zero.
func TestSplitProperties(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		m, err := money.New(rapid.Int64Range(-1e12, 1e12).Draw(t, "minor"), "USD")
		if err != nil {
			t.Fatal(err)
		}
		weights := rapid.SliceOfN(rapid.Custom(func(t *rapid.T) decimal.Decimal {
			return decimal.New(rapid.Int64Range(0, 1e9).Draw(t, "w"), -rapid.Int32Range(0, 6).Draw(t, "places"))
		}), 1, 40).Draw(t, "weights")
		total := decimal.Zero
		for _, w := range weights {
			total = total.Add(w)
		}
		shares, err := m.Split(weights)
		if total.IsZero() {
			if !errors.Is(err, money.ErrWeights) {
				t.Fatalf("split by nothing: %v", err)
			}
			return
		}
		if err != nil {
			t.Fatal(err)
		}
		sum, err := money.Sum("USD", shares...)
		if err != nil || sum != m {
			t.Fatalf("%s split adds to %s (%v)", m, sum, err)
		}
		mirror, err := m.Neg().Split(weights)
		if err != nil {
			t.Fatal(err)
		}
		for i, s := range shares {
			// |share x total - minor x weight| < total is within one unit without a division.
			off := decimal.NewFromInt(s.Minor()).Mul(total).Sub(decimal.NewFromInt(m.Minor()).Mul(weights[i])).Abs()
			if !off.LessThan(total) || mirror[i] != s.Neg() || weights[i].IsZero() && !s.IsZero() {
				t.Fatalf("share %d of %s by %s is %s, mirrored %s", i, m, weights[i], s, mirror[i])
			}
		}
	})
}

func TestSplitTiesGoToTheEarlier(t *testing.T) {
	two := decimal.NewFromInt(2)
	shares, err := amount(t, "0.05", "USD").Split([]decimal.Decimal{two, two, two})
	if err != nil {
		t.Fatal(err)
	}
	if shares[0].Minor() != 2 || shares[1].Minor() != 2 || shares[2].Minor() != 1 {
		t.Errorf("%v", shares)
	}
	for _, bad := range [][]decimal.Decimal{nil, {decimal.Zero}, {two, two.Neg()}, {decimal.New(1, 1_000_000)}} {
		if _, err := shares[0].Split(bad); !errors.Is(err, money.ErrWeights) {
			t.Errorf("split by %v: %v", len(bad), err)
		}
	}
}

// Rounding a fraction is never off by more than half a unit, and its mirror image rounds alike.
func TestRoundingProperties(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		d := decimal.New(rapid.Int64Range(1-1e12, 1e12-1).Draw(t, "coefficient"), -rapid.Int32Range(0, 8).Draw(t, "places"))
		for _, mode := range []money.Mode{money.HalfUp, money.HalfEven} {
			m, err := money.Round(d, "USD", mode)
			if err != nil {
				t.Fatal(err)
			}
			n, err := money.Round(d.Neg(), "USD", mode)
			if err != nil || n != m.Neg() {
				t.Fatalf("%s %s: %s and mirrored %s (%v)", d, mode, m, n, err)
			}
			if m.Decimal().Sub(d).Abs().GreaterThan(decimal.New(5, -3)) || !m.Decimal().Equal(mode.Round(d, 2)) {
				t.Fatalf("%s %s gives %s", d, mode, m)
			}
		}
	})
}
