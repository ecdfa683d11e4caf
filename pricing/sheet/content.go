package sheet

import (
	"sort"
	"strings"

	"ribband/pricing/money"
	"ribband/takeoff/notation"
)

// Content is what one version of a price sheet says, in the order of its rows. Make one with FromRows, ReadCSV or
// from its JSON; those refuse what is faulty.
type Content struct {
	Currency money.Currency
	// Notation that widths and lengths are written in.
	Notation notation.Notation
	Items    []Item
}

// same reports two names that mean the same: case and outer spaces do not count.
func same(a, b string) bool { return strings.EqualFold(strings.TrimSpace(a), strings.TrimSpace(b)) }

// SupplierKey is one for all ways of writing a supplier that mean the same.
func SupplierKey(name string) string { return strings.ToLower(strings.TrimSpace(name)) }

// Labour is the price of an hour of a trade.
func (c Content) Labour(trade string) (Item, bool) {
	for _, it := range c.Items {
		if it.Kind == Labour && same(it.Item, trade) {
			return it, true
		}
	}
	return Item{}, false
}

// Item is every row of that name which is neither timber nor labour: packs of several sizes, several suppliers. All
// are of one kind.
func (c Content) Item(name string) []Item {
	var out []Item
	for _, it := range c.Items {
		if it.Kind != Timber && it.Kind != Labour && it.Kind != Freight && same(it.Item, name) {
			out = append(out, it)
		}
	}
	return out
}

// Boards is every board of that species and grade, in the order of the sheet.
func (c Content) Boards(species, grade string) []Item {
	var out []Item
	for _, it := range c.Items {
		if it.Kind == Timber && same(it.Species, species) && same(it.Grade, grade) {
			out = append(out, it)
		}
	}
	return out
}

// Freight is what a supplier asks for bringing an order, a row for each way that it is counted.
func (c Content) Freight(supplier string) []Item {
	var out []Item
	for _, it := range c.Items {
		if it.Kind == Freight && same(it.Supplier, supplier) {
			out = append(out, it)
		}
	}
	return out
}

// Breaks are the rows of what it offers, at all quantities: itself, and those that differ in price and least order alone.
func (c Content) Breaks(it Item) []Item {
	var out []Item
	for _, other := range c.Items {
		if other.Kind == it.Kind && other.Article() == it.Article() {
			out = append(out, other)
		}
	}
	return out
}

// Grades is the grades in which a species is sold, sorted.
func (c Content) Grades(species string) []string {
	seen := map[string]bool{}
	var out []string
	for _, it := range c.Items {
		if it.Kind == Timber && same(it.Species, species) && !seen[strings.ToLower(it.Grade)] {
			seen[strings.ToLower(it.Grade)] = true
			out = append(out, it.Grade)
		}
	}
	sort.Strings(out)
	return out
}

// Expired is the rows whose price no longer holds on a day written 2026-03-31.
func (c Content) Expired(day string) []Item {
	var out []Item
	for _, it := range c.Items {
		if it.ValidUntil != "" && it.ValidUntil < day {
			out = append(out, it)
		}
	}
	return out
}
