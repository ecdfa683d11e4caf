package sheet

import (
	"math/big"
	"slices"
	"strings"

	"ribband/pricing/money"

	"github.com/shopspring/decimal"
)

// Change is what became of a row from one version of a sheet to another.
type Change string

// The changes.
const (
	Added     Change = "added"
	Removed   Change = "removed"
	Changed   Change = "changed"
	Unchanged Change = "same"
)

// Comparison is two versions of a sheet, item by item.
type Comparison struct {
	// Items in the newer version's order, one that was removed after the item it followed.
	Items []ItemChange `json:"items"`
	// How many of each there are.
	Added   int `json:"added"`
	Removed int `json:"removed"`
	Changed int `json:"changed"`
	Same    int `json:"same"`
}

// ItemChange is one item in both versions.
type ItemChange struct {
	Change Change `json:"change"`
	Label  string `json:"label"`
	Kind   Kind   `json:"kind"`
	// Old and New are the rows as written; nil where the version has none.
	Old *Row `json:"old,omitempty"`
	New *Row `json:"new,omitempty"`
	// Cells that differ in meaning, in the order of Columns: 12.50 and 12.5, or 8/4 and 2 inches, are the same.
	Cells []CellChange `json:"cells"`
	// Price is set where the price of one unit moved.
	Price *PriceChange `json:"price,omitempty"`
}

// CellChange is one cell as written in both versions.
type CellChange struct {
	Column string `json:"column"`
	Old    string `json:"old"`
	New    string `json:"new"`
}

// PriceChange is the price of one unit in both versions, in the newer one's unit, exact where it has at most
// PricePlaces places and rounded to them otherwise.
type PriceChange struct {
	Unit Unit   `json:"unit"`
	Old  string `json:"old"`
	New  string `json:"new"`
	// Difference is New - Old as shown.
	Difference string `json:"difference"`
	// Percent of the exact old price by which the exact price moved, to 2 places: "5.60" is up by 5.60 %.
	Percent string `json:"percent"`
}

// PricePlaces is to how many places a unit price that was worked out is shown, and PercentPlaces a percentage.
const (
	PricePlaces   = 6
	PercentPlaces = 2
)

// CurrencyError: two versions in different currencies, whose prices do not compare.
type CurrencyError struct{ Old, New money.Currency }

func (e *CurrencyError) Error() string {
	return "one version is in " + string(e.Old) + " and the other in " + string(e.New) + ": prices compare only in one currency"
}

// Compare sets two versions of a sheet side by side. Timber is matched by species, grade, sizes and supplier, a trade
// by its name, everything else by item, supplier, pack size, unit and the sizes of sheets and rolls, each with its least order where
// several rows differ in it; what is then left over without the sizes, then by item and supplier,
// and last by item alone, where each version has only one such row. A *CurrencyError when the currencies differ.
func Compare(older, newer Content) (Comparison, error) {
	if older.Currency != newer.Currency {
		return Comparison{}, &CurrencyError{older.Currency, newer.Currency}
	}
	pairs := match(older.Items, newer.Items)
	out := Comparison{Items: []ItemChange{}}
	for _, it := range newer.Items {
		out.Items = append(out.Items, ItemChange{Change: Added, Label: it.Label(), Kind: it.Kind, Cells: []CellChange{}})
	}
	for i := range newer.Items {
		row := newer.Items[i].Row()
		out.Items[i].New = &row
	}
	behind := -1 // in newer: where the old item before stands
	removed := map[int][]ItemChange{}
	for i, it := range older.Items {
		row := it.Row()
		if j, ok := pairs[i]; ok {
			out.Items[j].Old = &row
			out.Items[j].between(it, newer.Items[j])
			behind = j
			continue
		}
		removed[behind] = append(removed[behind], ItemChange{Change: Removed, Label: it.Label(), Kind: it.Kind, Old: &row, Cells: []CellChange{}})
	}
	all := slices.Clone(removed[-1])
	for j, it := range out.Items {
		all = append(append(all, it), removed[j]...)
	}
	if all != nil {
		out.Items = all
	}
	out.count()
	return out, nil
}

func (c *Comparison) count() {
	for _, it := range c.Items {
		switch it.Change {
		case Added:
			c.Added++
		case Removed:
			c.Removed++
		case Changed:
			c.Changed++
		default:
			c.Same++
		}
	}
}

// match pairs places in older with places in newer.
func match(older, newer []Item) map[int]int {
	pairs, taken := map[int]int{}, map[int]bool{}
	for _, name := range []func(Item) string{byBreak, Item.key, byPack, byOffer, byName} {
		a, b := map[string][]int{}, map[string][]int{}
		for i, it := range older {
			if _, ok := pairs[i]; !ok {
				a[name(it)] = append(a[name(it)], i)
			}
		}
		for j, it := range newer {
			if !taken[j] {
				b[name(it)] = append(b[name(it)], j)
			}
		}
		for k, i := range a {
			if j := b[k]; k != "" && len(i) == 1 && len(j) == 1 {
				pairs[i[0]] = j[0]
				taken[j[0]] = true
			}
		}
	}
	return pairs
}

// byBreak tells the prices of one article at several quantities apart.
func byBreak(it Item) string { return it.key() + "\x00" + it.MinQty.String() }

// byPack is the key without sizes, so that rows are known again when a later version says them.
func byPack(it Item) string {
	if it.Kind == Timber || it.Kind == Labour || it.Kind == Freight {
		return ""
	}
	return keyOf(it.Kind, it.packed())
}

// byOffer and byName are looser names than the key; a board and a trade have none, they are what their key says.
func byOffer(it Item) string {
	if it.Kind == Timber || it.Kind == Labour || it.Kind == Freight {
		return ""
	}
	return strings.ToLower(it.Item + "\x00" + it.Supplier)
}

func byName(it Item) string {
	if it.Kind == Timber || it.Kind == Labour || it.Kind == Freight {
		return ""
	}
	return strings.ToLower(it.Item)
}

// between fills in what differs.
func (c *ItemChange) between(older, newer Item) {
	c.Change = Unchanged
	a, b := older.Row(), newer.Row()
	x, y := a.cells(), b.cells()
	for i, column := range Columns {
		if meaning(older, column, *x[i]) != meaning(newer, column, *y[i]) {
			c.Change = Changed
			c.Cells = append(c.Cells, CellChange{column, *x[i], *y[i]})
		}
	}
	c.Price = priceChange(older, newer)
}

// meaning of a cell: a size counts by its millimetres, everything else as it is written out.
func meaning(it Item, column, cell string) string {
	switch {
	case cell == "":
	case column == "thickness":
		return it.Thickness.MM().String()
	case column == "width":
		return it.Width.MM().String()
	case column == "stock_length":
		return it.StockLength.MM().String()
	case column == "widest":
		return it.Widest.MM().String()
	}
	return cell
}

// priceChange is nil where the price of one unit is the same, and where the units do not convert.
func priceChange(older, newer Item) *PriceChange {
	// So many old units are one new unit, and cost so much in the older version.
	units, ok := Convert(big.NewRat(1, 1), newer.Unit, older.Unit)
	if !ok {
		return nil
	}
	was, is := units.Mul(units, older.UnitPrice()), newer.UnitPrice()
	if was.Cmp(is) == 0 || was.Sign() == 0 {
		return nil
	}
	show := func(r *big.Rat) decimal.Decimal { return money.HalfUp.RoundRat(r, PricePlaces) }
	moved := new(big.Rat).Sub(is, was)
	percent := moved.Mul(moved.Quo(moved, was), big.NewRat(100, 1))
	return &PriceChange{
		Unit: newer.Unit, Old: show(was).String(), New: show(is).String(), Difference: show(is).Sub(show(was)).String(),
		Percent: money.HalfUp.RoundRat(percent, PercentPlaces).StringFixed(PercentPlaces),
	}
}
