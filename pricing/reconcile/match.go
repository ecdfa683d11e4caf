package reconcile

import (
	"fmt"
	"slices"
	"strings"

	"ribband/pricing/money"
	"ribband/pricing/quote"
	"ribband/pricing/sheet"
)

// TwiceError: two entries of one name that say different things.
type TwiceError struct{ First, Second Entry }

func (e *TwiceError) Error() string {
	return fmt.Sprintf("line %s of document %s of %s stands twice: %s", e.First.Line, e.First.Document, e.First.Supplier,
		differences(e.First, e.Second))
}

// once leaves out entries that repeat another with the same content. A *TwiceError where the content differs, a
// *money.MixedError where an entry is not in currency c.
func once(entries []Entry, c money.Currency) ([]Entry, error) {
	seen := map[string]Entry{}
	var out []Entry
	for _, e := range entries {
		if e.Amount.Currency() != c || e.Tax.Currency() != c {
			return nil, &money.MixedError{Left: c, Right: e.Amount.Currency()}
		}
		f, ok := seen[e.ID()]
		if !ok {
			seen[e.ID()] = e
			out = append(out, e)
			continue
		}
		if f.Hash() != e.Hash() {
			return nil, &TwiceError{f, e}
		}
	}
	return out, nil
}

// fold makes item names comparable: case, outer blanks, and whether words are parted by blanks or underscores do not
// count.
func fold(item string) string {
	return strings.Join(strings.FieldsFunc(strings.ToLower(item), func(r rune) bool { return r == '_' || r == ' ' || r == '\u00a0' }), " ")
}

// lineOf is the key of the one line that the entry belongs to: its step's, of the same item. Hours belong to lines
// of labour, everything else to those of goods and outside work first. Empty where no line or more than one fits.
// With any step, the step of the entry does not count.
func lineOf(e Entry, lines []quote.Line, anyStep bool) string {
	item := fold(e.Item)
	if item == "" {
		return ""
	}
	var labour, other []string
	for _, l := range lines {
		switch {
		case fold(l.Item) != item || !anyStep && l.Step != e.Step:
		case l.Kind == sheet.Labour:
			labour = append(labour, l.Key)
		default:
			other = append(other, l.Key)
		}
	}
	fits := other
	if e.Kind == Hours || len(other) == 0 {
		fits = labour
	}
	if len(fits) != 1 {
		return ""
	}
	return fits[0]
}

// inOrder sorts entries by date, then by name, so that an answer does not depend on how they were kept.
func inOrder(entries []Entry) {
	slices.SortStableFunc(entries, func(a, b Entry) int {
		if d := strings.Compare(a.Date, b.Date); d != 0 {
			return d
		}
		return strings.Compare(a.ID(), b.ID())
	})
}
