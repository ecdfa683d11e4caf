// Package quote prices options: what is bought and the hours worked, step by step, with the yard's markup and the
// taxes of its place.
//
// A line rounds its cost once and its price once; tax rounds once for each category; every total is the sum of the
// rounded amounts shown, so that the quote foots to the last cent. Out of scope: overhead, discounts, allowances,
// contingency, change orders.
package quote

import (
	"fmt"
	"slices"
	"strings"
	"unicode"
	"unicode/utf8"

	"ribband/pricing/money"
	"ribband/pricing/sheet"
	"ribband/takeoff/document"
	"ribband/takeoff/quantity"

	"github.com/shopspring/decimal"
)

// Terms are what the yard adds and promises, as written: fractions are exact decimals in plain notation ("0.25" is
// 25 %).
type Terms struct {
	// Markup on cost, by kind; a kind not named has none. 0 to 10.
	Markup map[sheet.Kind]string `json:"markup"`
	Taxes  []Tax                 `json:"taxes"`
	// Rounding of lines and taxes; empty is half_up.
	Rounding money.Mode `json:"rounding"`
	// ValidDays from the day of issue, 1 to 3650.
	ValidDays int `json:"valid_days"`
	// RangeLow and RangeHigh are how far below and above the total the yard judges that it may come out, as
	// fractions of it: "0.10" and "0.25". Empty is none. Low is below 1, high at most 10.
	RangeLow  string `json:"range_low"`
	RangeHigh string `json:"range_high"`
	Text      string `json:"text"`
}

// Tax is one category, at one rate, on the prices of the kinds it names. A kind that no tax names pays none; one
// that two name pays both.
type Tax struct {
	Category string       `json:"category"`
	Rate     string       `json:"rate"` // 0 to 1
	Kinds    []sheet.Kind `json:"kinds"`
}

// Limits of terms.
const (
	MaxValidDays     = 3650
	MaxTextBytes     = 20_000
	maxCategoryBytes = 60
	maxTaxes         = 20
)

// terms are Terms read.
type terms struct {
	markup    map[sheet.Kind]decimal.Decimal
	taxes     []tax
	mode      money.Mode
	low, high decimal.Decimal
}

type tax struct {
	category string
	rate     decimal.Decimal
	kinds    []sheet.Kind
}

var ten, one = decimal.NewFromInt(10), decimal.NewFromInt(1)

// Validate tells everything wrong with the terms at once, as document.Faults with JSON pointers; nil when they hold.
func (t Terms) Validate() error {
	_, err := t.read()
	return err
}

func (t Terms) read() (terms, error) {
	var f document.Faults
	out := terms{markup: map[sheet.Kind]decimal.Decimal{}, mode: t.Rounding}
	kinds := make([]sheet.Kind, 0, len(t.Markup))
	for k := range t.Markup {
		kinds = append(kinds, k)
	}
	slices.Sort(kinds)
	for _, k := range kinds {
		at := "/markup/" + escape(string(k))
		if !k.Known() {
			f.Add(at, "one of "+known(), "the kind is not known")
			continue
		}
		out.markup[k] = fraction(&f, at, t.Markup[k], ten)
	}
	out.taxes = readTaxes(&f, t.Taxes)
	if t.Rounding == "" {
		out.mode = money.HalfUp
	} else if !t.Rounding.Known() {
		f.Add("/rounding", "half_up or half_even", "the rounding is not known")
	}
	if t.ValidDays < 1 || t.ValidDays > MaxValidDays {
		f.Add("/valid_days", fmt.Sprintf("1 to %d days", MaxValidDays), "the offer would hold %d days", t.ValidDays)
	}
	if t.RangeLow != "" {
		if out.low = fraction(&f, "/range_low", t.RangeLow, one); out.low.Equal(one) {
			f.Add("/range_low", "below 1, for example 0.10", "the price would come out at nothing")
		}
	}
	if t.RangeHigh != "" {
		out.high = fraction(&f, "/range_high", t.RangeHigh, ten)
	}
	if why := plain(t.Text, MaxTextBytes, true); why != "" {
		f.Add("/text", fmt.Sprintf("plain text of at most %d bytes", MaxTextBytes), "the text %s", why)
	}
	return out, f.Err()
}

func readTaxes(f *document.Faults, taxes []Tax) []tax {
	if len(taxes) > maxTaxes {
		f.Add("/taxes", fmt.Sprintf("at most %d", maxTaxes), "there are %d taxes", len(taxes))
		return nil
	}
	var out []tax
	seen := map[string]bool{}
	for i, t := range taxes {
		at := fmt.Sprintf("/taxes/%d", i)
		name := strings.TrimSpace(t.Category)
		if why := plain(name, maxCategoryBytes, false); why != "" || name == "" {
			f.Add(at+"/category", fmt.Sprintf("a name of 1 to %d bytes, for example Sales tax", maxCategoryBytes), "the tax has no usable name")
		}
		if key := strings.ToLower(name); seen[key] {
			f.Add(at+"/category", "one entry for each category", "the category stands twice")
		} else {
			seen[key] = true
		}
		if len(t.Kinds) == 0 {
			f.Add(at+"/kinds", "one or more of "+known(), "the tax is on nothing")
		}
		for j, k := range t.Kinds {
			switch at := fmt.Sprintf("%s/kinds/%d", at, j); {
			case !k.Known():
				f.Add(at, "one of "+known(), "the kind is not known")
			case slices.Contains(t.Kinds[:j], k):
				f.Add(at, "each kind once", "the kind stands twice")
			}
		}
		out = append(out, tax{name, fraction(f, at+"/rate", t.Rate, one), slices.Clone(t.Kinds)})
	}
	return out
}

// fraction reads a decimal from 0 to most.
func fraction(f *document.Faults, at, text string, most decimal.Decimal) decimal.Decimal {
	fix := fmt.Sprintf("a decimal from 0 to %s, for example 0.25 for 25 %%", most)
	d, err := quantity.ParseDecimal(text)
	switch {
	case err != nil:
		f.Add(at, fix, "%s", err.Error())
	case d.IsNegative() || d.GreaterThan(most):
		f.Add(at, fix, "%s is out of range", text)
	default:
		return d
	}
	return decimal.Zero
}

// plain says why a text is not plain; empty when it is.
func plain(text string, most int, lines bool) string {
	switch {
	case len(text) > most:
		return fmt.Sprintf("has %d bytes", len(text))
	case !utf8.ValidString(text):
		return "is not UTF-8"
	case strings.ContainsFunc(text, func(r rune) bool { return unicode.IsControl(r) && !(lines && (r == '\n' || r == '\t' || r == '\r')) }):
		return "holds a control character"
	}
	return ""
}

func known() string {
	var out []string
	for _, k := range sheet.Kinds {
		out = append(out, string(k))
	}
	return strings.Join(out, ", ")
}

var escapes = strings.NewReplacer("~", "~0", "/", "~1")

// escape makes a name part of a JSON pointer (RFC 6901).
func escape(s string) string { return escapes.Replace(s) }
