package pdf_test

import (
	"testing"

	"ribband/pdf"
)

// FuzzEstimate puts any text into every field: there is always a file, never an
// error, never a panic.
func FuzzEstimate(f *testing.F) {
	for i, s := range awkward {
		f.Add(s, awkward[(i+1)%len(awkward)], "12345.60", "USD", uint8(i), i%2 == 0)
	}
	f.Add("", "", "", "", uint8(0), false)
	f.Add("a", "b", "-0.00", "€", uint8(255), true)
	f.Add("\xff", "\n", "999999999999999999999999999999999999999999", "\u202e", uint8(40), false)
	f.Fuzz(func(t *testing.T, a, b, number, currency string, n uint8, draft bool) {
		file, err := pdf.WriteUncompressed(filled(a, b, number, currency, int(n), draft))
		if err != nil {
			t.Fatal(err)
		}
		wellFormed(t, file)
		pages(t, file)
	})
}

// filled is an estimate with the given texts in all of its fields.
func filled(a, b, number, currency string, n int, draft bool) pdf.Estimate {
	m := pdf.Amount{Text: number, Currency: currency}
	some := make([]string, n%7)
	for i := range some {
		some[i] = a + b
	}
	step := pdf.StepLines{Title: b, Subtotal: m}
	for range n {
		step.Lines = append(step.Lines, pdf.Line{Text: a, Quantity: number, Unit: b, Amount: m})
	}
	option := pdf.Option{
		Name: a, InPlainWords: some, Undone: some, Net: m, Gross: m, RangeLow: m, RangeHigh: m, RangeNote: b,
		WeightKg: number, TimeText: a, Steps: []pdf.StepLines{step, {Title: a}, step},
		Taxes: []pdf.Tax{{Category: a, Rate: number, Taxable: m, Amount: m}},
	}
	e := pdf.Estimate{
		Yard:     pdf.Yard{Name: a, Address: some, Contact: b, Note: a},
		Customer: pdf.Customer{Name: b, Address: some},
		Boat:     pdf.Boat{Name: a, Description: b},
		Number:   b, Revision: n - 3, IssuedDate: a, ValidUntilDate: b, Draft: draft,
		Intro: some, Terms: some, Deferral: b, LinesNote: b, HashText: a, PageSize: pdf.PageSize(b),
		Cautions:   []pdf.Caution{{Step: a, Text: b}, {Step: a, Text: a}, {Step: b, Text: a}},
		Signatures: []pdf.SignaturePlace{{Role: a}, {Role: b}},
	}
	if n%2 == 0 {
		e.PageSize = pdf.Letter
	}
	for range n % 6 {
		e.Options = append(e.Options, option)
	}
	return e
}
