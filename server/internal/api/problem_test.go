package api

import (
	"fmt"
	"strings"
	"testing"

	"ribband/pricing/buy"
	"ribband/pricing/money"
	"ribband/pricing/pack"
	"ribband/pricing/quote"
	"ribband/pricing/reconcile"
	"ribband/pricing/sheet"
	"ribband/takeoff/bill"
	"ribband/takeoff/document"

	"ribband/server/internal/app"
)

// What pricing cannot work out is told in its own words, however deep it lies, and not as a failure of the server.
func TestTypedErrorsAreToldInWords(t *testing.T) {
	for _, c := range []struct {
		err    error
		status int
		says   string
	}{
		{&money.RangeError{Currency: "USD"}, 409, "USD"},
		{&money.MixedError{Left: "USD", Right: "EUR"}, 409, "EUR"},
		{&buy.NeedError{Line: "frame/12/port/laminates", Reason: "it has no length"}, 409, "frame/12/port"},
		{&buy.ShortBoardsError{Item: "white_oak FAS", Short: 3, Offer: "o", More: 2}, 409, "white_oak FAS"},
		{&pack.ShortError{Item: "epoxy"}, 409, "epoxy"},
		{&sheet.MissingPriceError{Items: []sheet.Missing{{Kind: sheet.Labour, Item: "rigger", Fix: "a row"}}}, 422, "no price"},
		{&sheet.CurrencyError{Old: "USD", New: "EUR"}, 409, "EUR"},
		{&quote.CurrencyError{Job: "USD", Sheet: "EUR"}, 409, "EUR"},
		{&reconcile.TwiceError{First: reconcile.Entry{Supplier: "A Sawmill", Document: "I-1", Line: "2"}}, 409, "A Sawmill"},
		// Only a damaged database can lead to these.
		{&quote.FootingError{Option: "All frames", What: "net"}, 500, "does not add up"},
		{&quote.BasisError{Reason: "a step stands twice"}, 500, "a step stands twice"},
	} {
		p := problemOf(&quote.OptionError{ID: "x", Name: "All frames", Err: fmt.Errorf("deeper: %w", c.err)})
		if p.Status != c.status || !strings.Contains(p.Detail, c.says) {
			t.Errorf("%T is told as %d: %s", c.err, p.Status, p.Detail)
		}
	}
}

// One is told as one, several as several.
func TestNumbersOfThings(t *testing.T) {
	faults := func(n int) (out document.Faults) {
		for range n {
			out.Add("/x", "y", "z")
		}
		return out
	}
	for n, words := range map[int][2]string{1: {"1 thing ", " is "}, 2: {"2 things ", " are "}} {
		missing, uses := &sheet.MissingPriceError{}, &app.MemberInUseError{}
		twin, stops := &app.FaultyTwinError{}, &app.FaultyTakeoffError{}
		for range n {
			missing.Items = append(missing.Items, sheet.Missing{Item: "i", Kind: sheet.Glue})
			uses.Uses = append(uses.Uses, app.Use{})
			twin.Faults = append(twin.Faults, app.PlacedFault{})
			stops.Faults = append(stops.Faults, bill.Fault{})
		}
		for _, err := range []error{faults(n), missing, twin, stops} {
			if p := problemOf(err); !strings.Contains(p.Detail, words[0]) || len(p.Errors) != n {
				t.Errorf("%T of %d: %s", err, n, p.Detail)
			}
		}
		if p := problemOf(uses); !strings.Contains(p.Detail, map[int]string{1: "1 frame that", 2: "2 frames that"}[n]) {
			t.Errorf("%d uses: %s", n, p.Detail)
		}
		if p := problemOf(missing); !strings.Contains(p.Detail, words[1]+"needed") {
			t.Errorf("%d missing: %s", n, p.Detail)
		}
	}
}
