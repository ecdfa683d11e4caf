package buy

import (
	"slices"
	"strings"

	"ribband/pricing/sheet"
)

// carriers are the suppliers that ask for freight and sell something needed; of glue that only scarfs of the plan would ask for, where
// they are not too many with them.
func (g groups) carriers(c sheet.Content) []string {
	var out []string
	add := func(rows []sheet.Item) {
		for _, it := range rows {
			if len(c.Freight(it.Supplier)) > 0 && !slices.ContainsFunc(out, func(name string) bool { return same(name, it.Supplier) }) {
				out = append(out, it.Supplier)
			}
		}
	}
	for _, t := range g.timber {
		add(c.Boards(t.pieces.Species, t.pieces.Grade))
	}
	for _, p := range g.packs {
		add(c.Item(p.item))
	}
	needed := slices.Clone(out)
	for _, n := range g.needs {
		if n.Pieces != nil && n.Pieces.Scarf != nil {
			add(c.Item(n.Pieces.Scarf.Glue.Item))
		}
	}
	if len(out) > mostSuppliers {
		out = needed
	}
	slices.Sort(out)
	return out
}

// without is a sheet without the goods of some suppliers.
func without(c sheet.Content, suppliers []string) sheet.Content {
	c.Items = slices.DeleteFunc(slices.Clone(c.Items), func(it sheet.Item) bool {
		return it.Kind.Goods() && slices.ContainsFunc(suppliers, func(name string) bool { return same(name, it.Supplier) })
	})
	return c
}

// rows of freight of some suppliers.
func (d *delivering) rows(suppliers []string) []sheet.Item {
	var out []sheet.Item
	for _, name := range suppliers {
		out = append(out, d.sheet.Freight(name)...)
	}
	return out
}

// mostFree is up to how many rows of freight of a set may be asked or not for which every choice is looked at; beyond that they are
// taken as not asked, in the floor alone.
const mostFree = 4

// asked are the choices of freight rows of some suppliers that are asked, by which rows with a sum are free.
func (d *delivering) asked(suppliers []string) [][]sheet.Item {
	var always, free []sheet.Item
	for _, it := range d.rows(suppliers) {
		if it.FreeFrom.IsZero() {
			always = append(always, it)
		} else {
			free = append(free, it)
		}
	}
	if len(free) > mostFree {
		return [][]sheet.Item{always}
	}
	var out [][]sheet.Item
	seen := map[string]bool{}
	for set := range 1 << len(free) {
		rows := slices.Clone(always)
		for i, it := range free {
			if set>>i&1 == 0 {
				rows = append(rows, it)
			}
		}
		if name := names(rows); !seen[name] {
			seen[name] = true
			out = append(out, rows)
		}
	}
	return out
}

// names of the rows that go by measure or weight, in an order of their own.
func names(rows []sheet.Item) string {
	var out []string
	for _, it := range rows {
		if it.Unit.Dimension() != sheet.ByCount {
			out = append(out, it.Article())
		}
	}
	slices.Sort(out)
	return strings.Join(out, "\x00\x00")
}
