package api_test

import (
	"fmt"
	"net/http"
	"strings"
	"testing"
	"time"

	"ribband/seed"
)

// The demo's prices hold until 2027-12-31. An offer that outlasts them says so, and so does everything that uses them
// once they have lapsed; what a quote does not use is no matter.
func TestPricesPastTheirDayAreTold(t *testing.T) {
	d := open(t, file(t))
	day := func(s string) {
		at, err := time.Parse(time.DateOnly, s)
		if err != nil {
			t.Fatal(err)
		}
		d.clock.set(at.Add(8 * time.Hour))
	}
	list := d.option(0, "buy-list") + "?version=2&sheet=" + d.demo.Sheet
	_, revision := d.draft(d.demo.Options[0])
	for _, c := range []struct{ day, draft, list string }{
		{"2027-11-30", "freight_not_priced fastenings_not_counted", ""},
		{"2027-12-02", "freight_not_priced price_ends_first fastenings_not_counted", ""}, // thirty days on is the first of January
		{"2027-12-31", "freight_not_priced price_ends_first fastenings_not_counted", ""},
		{"2028-01-01", "freight_not_priced price_lapsed fastenings_not_counted", "price_lapsed"},
	} {
		day(c.day)
		if got := d.get(revision).warned(); got != c.draft {
			t.Errorf("on %s the draft warns of %q, want %q", c.day, got, c.draft)
		}
		if got := d.get(list).warned(); got != c.list {
			t.Errorf("on %s the buy list warns of %q, want %q", c.day, got, c.list)
		}
	}
	told := string(d.get(revision).want(200).body)
	for _, want := range []string{"held until 2027-12-31, and today is 2028-01-01", "white_oak FAS"} {
		if !strings.Contains(told, want) {
			t.Errorf("the draft does not say %q", want)
		}
	}
	if strings.Contains(told, "teak first") {
		t.Error("the draft warns of teak, which it does not use")
	}
	d.send(http.MethodPost, revision+"/issue", nil, d.key()).want(200)
	day("2028-01-09")
	if got := d.get(revision).warned(); got != "freight_not_priced price_lapsed fastenings_not_counted" {
		t.Errorf("the issued revision warns of %q", got)
	}
}

// What the paper cannot show is told of the draft by the name of its field, and stops issuing.
func TestWhatCannotBePrintedIsNotIssued(t *testing.T) {
	d := open(t, file(t))
	option := d.send(http.MethodPost, d.job("options"), map[string]any{"name": "Ten pairs", "scope": []string{"Frames of \u6a2b."}}, d.key()).want(201).header.Get("Location")
	d.send(http.MethodPut, option+"/remedies", replace(14, 15), firstPut).want(201)
	fields := d.quoteFields(id(option))
	fields["terms"].(map[string]any)["text"] = "Paid in \U0001f6a2."
	revision := d.send(http.MethodPost, d.job("quotes"), fields, d.key()).want(201).header.Get("Location") + "/revisions/1"
	if got := d.get(revision).warned(); got != "freight_not_priced cannot_be_printed cannot_be_printed fastenings_not_counted" {
		t.Errorf("the draft warns of %q", got)
	}
	p := d.send(http.MethodPost, revision+"/issue", nil, d.key()).refused(409, "cannot-be-printed")
	if len(p.Errors) != 2 || !strings.Contains(p.Errors[0].Detail, "the scope of the option") || !strings.Contains(p.Errors[1].Detail, "the text of the terms") {
		t.Errorf("refused for %+v", p.Errors)
	}
	fields["terms"] = terms()
	fields["options"] = d.demo.Options[:1]
	d.send(http.MethodPost, strings.TrimSuffix(revision, "/1"), fields, d.key()).want(200)
	d.send(http.MethodPost, revision+"/issue", nil, d.key()).want(200)
}

// Characters that turn the direction of writing are refused wherever text comes in.
func TestTextThatTurnsIsRefused(t *testing.T) {
	d := open(t, file(t))
	for _, r := range "\u061c\u200e\u200f\u202a\u202e\u2066\u2069" {
		fields := jobFields()
		fields["boat"] = map[string]any{"name": "Marsh" + string(r) + "Wren"}
		p := d.send(http.MethodPost, "/api/v1/jobs", fields, d.key()).refused(422, "document-faults")
		if len(p.Errors) != 1 || p.Errors[0].Pointer != "/boat/name" || !strings.Contains(p.Errors[0].Detail, fmt.Sprintf("U+%04X", r)) {
			t.Errorf("U+%04X: %+v", r, p.Errors)
		}
	}
	table := strings.Replace(string(seed.PricesCSV(1)), "Shipwright", "Ship\u202ewright", 1)
	p := d.send(http.MethodPut, d.sheet("versions", "3"), table, asCSV, firstPut).refused(422, "document-faults")
	if len(p.Errors) != 1 || p.Errors[0].Row < 2 {
		t.Errorf("faults of the table: %+v", p.Errors)
	}
}
