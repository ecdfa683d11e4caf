package pdf_test

import (
	"bytes"
	"flag"
	"fmt"
	"os"
	"path/filepath"
	"reflect"
	"strings"
	"sync"
	"testing"
	"time"

	"github.com/google/go-cmp/cmp"

	"ribband/pdf"
)

var update = flag.Bool("update", false, "write the golden files anew")

// states are the estimates that every general check runs on.
func states() map[string]pdf.Estimate {
	letter := withOptions(3)
	letter.PageSize = pdf.Letter
	return map[string]pdf.Estimate{
		"issued": demo(), "draft": draft(), "one option": withOptions(1), "three options on Letter": letter,
		"five options": withOptions(5), "thirty options": withOptions(30), "one line": withLines(1), "700 lines": withLines(700),
		"nothing at all": {}, "an empty draft": {Draft: true}, "awkward text": ugly(), "amounts of 12 digits": wide(),
	}
}

func TestSameEstimateGivesSameBytes(t *testing.T) {
	for name, e := range states() {
		t.Run(name, func(t *testing.T) {
			first, err := pdf.WriteEstimate(e)
			if err != nil {
				t.Fatal(err)
			}
			var wait sync.WaitGroup
			for range 4 {
				wait.Go(func() {
					again, err := pdf.WriteEstimate(e)
					if err != nil || !bytes.Equal(first, again) {
						t.Errorf("written again it differs (error %v)", err)
					}
				})
			}
			wait.Wait()
		})
	}
}

func TestGolden(t *testing.T) {
	for name, e := range map[string]pdf.Estimate{"issued": demo(), "draft": draft()} {
		path := filepath.Join("testdata", "golden", "estimate-"+name+".txt")
		got := readable(written(t, e))
		if *update {
			if err := os.MkdirAll(filepath.Dir(path), 0o755); err != nil {
				t.Fatal(err)
			}
			if err := os.WriteFile(path, []byte(got), 0o644); err != nil {
				t.Fatal(err)
			}
		}
		want, err := os.ReadFile(path)
		if err != nil {
			t.Fatal(err)
		}
		if diff := cmp.Diff(strings.Split(string(want), "\n"), strings.Split(got, "\n")); diff != "" {
			t.Errorf("%s differs; if that is wanted, look at the pages and run with -update:\n%s", path, diff)
		}
	}
}

func TestEverythingSaidIsPrinted(t *testing.T) {
	for name, e := range map[string]pdf.Estimate{"issued": demo(), "draft": draft(), "one option": withOptions(1), "five options": withOptions(5)} {
		t.Run(name, func(t *testing.T) {
			text := flat(pages(t, written(t, e)))
			for _, want := range said(e) {
				if !strings.Contains(text, oneSpace(want)) {
					t.Errorf("not printed: %q", want)
				}
			}
		})
	}
}

// said is every sentence, name and amount of an estimate as it must be read in
// print.
func said(e pdf.Estimate) []string {
	all := []string{"Estimate for " + e.Boat.Name, e.Boat.Description, e.Yard.Name, e.Yard.Contact, e.Yard.Note, e.Customer.Name, e.Deferral, e.LinesNote}
	for _, lines := range [][]string{e.Yard.Address, e.Customer.Address, e.Intro, e.Terms} {
		all = append(all, lines...)
	}
	money := func(a pdf.Amount) string { return a.Currency + "\u00a0" + pdf.Grouped(a.Text) }
	for i, o := range e.Options {
		all = append(all, o.Name, money(o.Gross), money(o.Net), money(o.RangeLow), money(o.RangeHigh), o.RangeNote, o.WeightKg+"\u00a0kg", o.TimeText)
		if len(e.Options) > 1 {
			all = append(all, fmt.Sprintf("Option %c: %s", 'A'+i, o.Name))
		}
		all = append(append(all, o.InPlainWords...), o.Undone...)
		for _, x := range o.Taxes {
			all = append(all, fmt.Sprintf("%s, %s\u00a0%% of %s", x.Category, x.Rate, pdf.Grouped(x.Taxable.Text)), pdf.Grouped(x.Amount.Text))
		}
		for _, s := range o.Steps {
			all = append(all, s.Title, pdf.Grouped(s.Subtotal.Text))
			for _, l := range s.Lines {
				all = append(all, l.Text, pdf.Grouped(l.Quantity), l.Unit, pdf.Grouped(l.Amount.Text))
			}
		}
	}
	for _, c := range e.Cautions {
		all = append(all, c.Step, c.Text)
	}
	if e.Draft {
		return append(all, "Draft, not an offer")
	}
	for _, s := range e.Signatures {
		all = append(all, s.Role)
	}
	return append(all, "Estimate "+e.Number+", revision 2", "issued "+e.IssuedDate, "The prices hold until "+e.ValidUntilDate,
		"fingerprint "+e.HashText, "Name", "Date", "Signature")
}

func TestEveryPageSaysWhatItIs(t *testing.T) {
	for name, e := range states() {
		t.Run(name, func(t *testing.T) {
			all := pages(t, written(t, e))
			for i, lines := range all {
				page := strings.Join(lines, "\n")
				want := []string{fmt.Sprintf("Page %d of %d", i+1, len(all))}
				if e.Draft {
					want = append(want, "Draft, not an offer")
				} else if name == "issued" || name == "700 lines" {
					want = append(want, "Estimate 2026-014, revision 2", "issued 2026-11-25", "fingerprint 3f9a1c2047be")
				}
				for _, w := range want {
					if !strings.Contains(page, w) {
						t.Errorf("page %d does not say %q", i+1, w)
					}
				}
				if strings.Count(page, "Page ") != 1 && name == "issued" && i > 0 {
					t.Errorf("page %d gives its number more than once", i+1)
				}
			}
		})
	}
}

func TestDraftCannotBeSigned(t *testing.T) {
	text := flat(pages(t, written(t, draft())))
	for _, never := range []string{"Signature", "I accept", "Valid until", "fingerprint", "Acceptance"} {
		if strings.Contains(text, never) {
			t.Errorf("a draft says %q", never)
		}
	}
}

func TestPriceWithoutTaxSaysSo(t *testing.T) {
	e := demo()
	for i := range e.Options {
		e.Options[i].Taxes = nil
	}
	text := flat(pages(t, written(t, e)))
	if strings.Contains(text, "tax included") || !strings.Contains(text, "Price, no tax added, USD") {
		t.Error("a price without tax does not say that none is added")
	}
}

// The type is the guard: what has no field cannot be printed to an owner.
func TestNoFieldForWhatTheYardPays(t *testing.T) {
	var walk func(t reflect.Type, path string)
	walk = func(typ reflect.Type, path string) {
		for _, never := range []string{"cost", "margin", "markup", "wage", "supplier", "overhead", "profit", "buy"} {
			if strings.Contains(strings.ToLower(path), never) {
				t.Errorf("%s: an estimate for an owner carries selling prices only", path)
			}
		}
		switch typ.Kind() {
		case reflect.Slice:
			walk(typ.Elem(), path)
		case reflect.Struct:
			for i := range typ.NumField() {
				if typ.Field(i).IsExported() {
					walk(typ.Field(i).Type, path+"."+typ.Field(i).Name)
				}
			}
		}
	}
	walk(reflect.TypeFor[pdf.Estimate](), "Estimate")
}

func TestFileDatesComeFromTheRecord(t *testing.T) {
	e := demo()
	e.CreatedAt = time.Date(2026, 11, 25, 1, 2, 3, 0, time.FixedZone("east", 2*3600))
	for given, want := range map[time.Time]string{
		e.CreatedAt: "(D:20261124230203)",
		{}:          "(D:19700101000000)", // the library would take the clock for it
		time.Date(12345, 1, 1, 0, 0, 0, 0, time.UTC): "(D:19700101000000)",
	} {
		e.CreatedAt = given
		file := written(t, e)
		for _, key := range []string{"/CreationDate ", "/ModDate "} {
			if !bytes.Contains(file, []byte(key+want)) {
				t.Errorf("created at %v: no %s%s", given, key, want)
			}
		}
	}
}
