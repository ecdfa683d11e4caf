package quote_test

import (
	"encoding/json"
	"errors"
	"strings"
	"testing"
	"time"

	"ribband/pricing/quote"
	"ribband/pricing/sheet"
	"ribband/takeoff/document"

	"github.com/google/go-cmp/cmp"
)

// Everything wrong with terms at once, by JSON pointer.
func TestAllFaultsOfTerms(t *testing.T) {
	var bad quote.Terms
	if err := json.Unmarshal([]byte(`{
		"markup": {"timber": "0.2", "wood": "0.1", "glue": "1e1000000", "labour": "-0.1", "metal": "10.01"},
		"taxes": [{"category": "", "rate": "1.5", "kinds": []}, {"category": "VAT", "rate": "", "kinds": ["glue", "glue", "tar"]}, {"category": "vat", "rate": "0.2", "kinds": ["glue"]}],
		"rounding": "up", "valid_days": 0, "range_low": "1", "range_high": "NaN", "text": "a\u0000b"}`), &bad); err != nil {
		t.Fatal(err)
	}
	err := bad.Validate()
	var faults document.Faults
	if !errors.As(err, &faults) {
		t.Fatal(err)
	}
	var got []string
	for _, f := range faults {
		got = append(got, f.Pointer)
		if f.Detail == "" || f.Fix == "" {
			t.Errorf("%+v", f)
		}
	}
	want := []string{"/markup/glue", "/markup/labour", "/markup/metal", "/markup/wood", "/taxes/0/category", "/taxes/0/kinds", "/taxes/0/rate",
		"/taxes/1/kinds/1", "/taxes/1/kinds/2", "/taxes/1/rate", "/taxes/2/category", "/rounding", "/valid_days", "/range_low", "/range_high", "/text"}
	if d := cmp.Diff(want, got); d != "" {
		t.Error(d)
	}
	long := terms()
	long.Text = strings.Repeat("a", quote.MaxTextBytes+1)
	long.Markup = map[sheet.Kind]string{sheet.Timber: strings.Repeat("9", 100_000)}
	if err := long.Validate(); !errors.As(err, &faults) || len(faults) != 2 || len(err.Error()) > 1000 {
		t.Errorf("%d faults in %d bytes", len(faults), len(err.Error()))
	}
	if err := terms().Validate(); err != nil {
		t.Error(err)
	}
	if _, err := quote.Price(nil, sheet.Content{Currency: "USD"}, bad); !errors.As(err, &faults) {
		t.Errorf("priced on bad terms: %v", err)
	}
}

func TestNumbersOfAYear(t *testing.T) {
	issued := time.Date(2026, 12, 31, 23, 0, 0, 0, time.UTC)
	for n, want := range map[int]string{1: "2026-0001", 42: "2026-0042", 9999: "2026-9999", 10000: "2026-10000"} {
		if got, err := quote.Number(issued, n); err != nil || got != want {
			t.Errorf("%d: %s (%v), want %s", n, got, err, want)
		}
	}
	for _, n := range []int{0, -1, 1_000_000_000} {
		if got, err := quote.Number(issued, n); err == nil {
			t.Errorf("%d has the number %s", n, got)
		}
	}
	// The year is that of the yard's clock: an hour later in Kiritimati it is 2027 already.
	if got, err := quote.Number(issued.In(time.FixedZone("+14", 14*3600)), 1); err != nil || got != "2027-0001" {
		t.Errorf("%s %v", got, err)
	}
	if got := quote.ValidUntil(issued, 60); got != "2027-03-01" {
		t.Errorf("60 days from the last of December end on %s", got)
	}
}
