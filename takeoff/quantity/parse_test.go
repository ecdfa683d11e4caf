package quantity_test

import (
	"errors"
	"strings"
	"testing"

	"ribband/takeoff/quantity"
)

func TestReadsPlainDecimals(t *testing.T) {
	for text, want := range map[string]string{
		"0": "0", "12.50": "12.5", "-0.000001": "-0.000001", "999999999999.999999": "999999999999.999999", "007": "7", "-0": "0",
	} {
		d, err := quantity.ParseDecimal(text)
		if err != nil || d.String() != want {
			t.Errorf("%s: %s (%v), want %s", text, d, err, want)
		}
	}
}

func TestRefusesWhatIsNoPlainDecimal(t *testing.T) {
	for name, text := range map[string]string{
		"nothing": "", "a space": " ", "spaces round it": " 1 ", "a plus": "+1", "an exponent": "1e3", "a huge exponent": "1e1000000",
		"a tiny exponent": "1E-1000000", "not a number": "NaN", "infinity": "Inf", "a comma": "1,5", "thousands": "1,000.00",
		"thirteen digits": "1234567890123", "seven places": "0.1234567", "no digit before the point": ".5", "none after": "5.",
		"two points": "1.2.3", "hexadecimal": "0x1F", "underscores": "1_000", "NUL": "1\x00", "NUL within": "1\x002", "a line end": "1\n",
		"Arabic-Indic figures": "١٢", "full-width figures": "１２", "a minus sign that is no hyphen": "−1", "bad UTF-8": "1\xff",
		"100000 digits": strings.Repeat("9", 100_000), "100000 places": "0." + strings.Repeat("3", 100_000), "two minuses": "--1",
	} {
		d, err := quantity.ParseDecimal(text)
		var refused *quantity.DecimalError
		if !errors.As(err, &refused) || !d.IsZero() {
			t.Errorf("%s was read as %s (%v)", name, d, err)
		} else if len(err.Error()) > 250 {
			t.Errorf("%s: the refusal has %d bytes", name, len(err.Error()))
		}
	}
}

// FuzzParseDecimal: whatever is read is plain, within the limits, and the number that stands there.
func FuzzParseDecimal(f *testing.F) {
	for _, s := range []string{"0", "12.50", "-999999999999.999999", "1e1000000", "NaN", "1\x00", "١", "", ".", "-", "1,5"} {
		f.Add(s)
	}
	f.Fuzz(func(t *testing.T, text string) {
		d, err := quantity.ParseDecimal(text)
		if err != nil {
			var refused *quantity.DecimalError
			if !errors.As(err, &refused) {
				t.Fatalf("%q: %v", text, err)
			}
			return
		}
		whole, fraction, _ := strings.Cut(strings.TrimPrefix(text, "-"), ".")
		if len(whole) > quantity.MaxWholeDigits || len(fraction) > quantity.MaxFractionDigits || strings.Trim(whole+fraction, "0123456789") != "" {
			t.Fatalf("%q was read", text)
		}
		if back := d.StringFixed(int32(len(fraction))); strings.TrimLeft(strings.TrimPrefix(back, "-"), "0") != strings.TrimLeft(strings.TrimPrefix(text, "-"), "0") {
			t.Fatalf("%q was read as %s", text, back)
		}
	})
}
