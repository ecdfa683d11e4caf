// Package orders is what of a buy list each supplier is asked for, how long it takes to come and by when it has to be ordered.
package orders

import (
	"cmp"
	"math/big"
	"slices"

	"ribband/pricing/buy"
	"ribband/pricing/freight"
	"ribband/pricing/money"
	"ribband/pricing/sheet"
)

// Order is what one supplier is asked for.
type Order struct {
	// Supplier is empty for rows of the sheet that name none.
	Supplier string `json:"supplier,omitempty"`
	Lines    []Line `json:"lines"`
	// Timber is what is ordered of each species, rough.
	Timber []Timber    `json:"timber"`
	Cost   money.Money `json:"cost"`
	// LeadDays is the longest that any line takes to come, as far as the sheet says; nil where it says nothing.
	LeadDays *int `json:"lead_days,omitempty"`
	// LeadUnknown says that the sheet is silent on some line.
	LeadUnknown bool `json:"lead_unknown"`
	// Freight is what the supplier asks for bringing it; nil where the sheet names none.
	Freight *freight.Charge `json:"freight,omitempty"`
	// OrderBy is the last day to order on, where a day was named by which all is needed and the sheet says how long it takes.
	OrderBy string `json:"order_by,omitempty"`
}

// Line is Count boards or packs of one row of the sheet.
type Line struct {
	What     string     `json:"what"`
	Kind     sheet.Kind `json:"kind"`
	PackSize string     `json:"pack_size,omitempty"`
	// Width and StockLength of sheets and rolls, as the sheet writes them; a board has its own in What.
	Width       string      `json:"width,omitempty"`
	StockLength string      `json:"stock_length,omitempty"`
	Unit        sheet.Unit  `json:"unit"`
	Count       int64       `json:"count"`
	Each        money.Money `json:"each"`
	Cost        money.Money `json:"cost"`
	LeadDays    *int        `json:"lead_days,omitempty"`
	// Measure in Unit is what is ordered of boards of random width, to 6 places; Count is then how many are reckoned with.
	Measure string `json:"measure,omitempty"`
	measure *big.Rat
}

// Timber is the measure of a species' boards, from their rough sizes: to 2 places of a board foot and 4 of a cubic metre.
type Timber struct {
	Species    string `json:"species"`
	BoardFeet  string `json:"board_ft"`
	CubicMetre string `json:"volume_m3"`
}

// Of gathers a list by supplier, in the order of their names. What is on the rack is not ordered. The sheet is the one that the list
// was made from; a *buy.NeedError when it is not.
func Of(l buy.List, c sheet.Content) ([]Order, error) {
	rows, err := l.Rows(c)
	if err != nil {
		return nil, err
	}
	all := map[string]*ordering{}
	for _, row := range rows {
		key := sheet.SupplierKey(row.Supplier)
		if all[key] == nil {
			all[key] = &ordering{Order: Order{Supplier: row.Supplier, Lines: []Line{}, Timber: []Timber{}}, load: freight.NewLoad(row.Supplier, l.Currency)}
		}
		if err := all[key].add(row); err != nil {
			return nil, err
		}
	}
	out := make([]Order, 0, len(all))
	for key, o := range all {
		one := o.done()
		if i := slices.IndexFunc(l.Freight, func(f freight.Charge) bool { return sheet.SupplierKey(f.Supplier) == key }); i >= 0 {
			one.Freight = &l.Freight[i]
		}
		out = append(out, one)
	}
	slices.SortFunc(out, func(a, b Order) int { return cmp.Compare(a.Supplier, b.Supplier) })
	return out, nil
}

// ordering is an order being gathered.
type ordering struct {
	Order
	load *freight.Load
}

// add puts a row of the list on the order.
func (o *ordering) add(row buy.Row) error {
	line := Line{What: row.What, Kind: row.Kind, PackSize: row.PackSize, Unit: row.Unit, Count: row.Count, Each: row.Each, Cost: row.Cost}
	if row.Kind != sheet.Timber {
		line.Width, line.StockLength = row.Width.Text(), row.StockLength.Text()
	}
	if row.RandomWidth() {
		line.measure = new(big.Rat).Mul(row.PieceMeasure(), big.NewRat(row.Count, 1))
		line.Measure = fixed(line.measure)
	}
	if err := o.load.Add(row.Item, row.What, row.Count, row.Cost); err != nil {
		return err
	}
	return o.line(row.Item, line)
}

// line adds a line; one of the same row as another joins it.
func (o *ordering) line(it sheet.Item, add Line) (err error) {
	switch days := it.LeadDays; {
	case days < 0:
		o.LeadUnknown = true
	default:
		add.LeadDays = &days
		if o.LeadDays == nil || days > *o.LeadDays {
			o.LeadDays = &days
		}
	}
	for i, l := range o.Lines {
		if l.What == add.What && l.PackSize == add.PackSize && l.Width == add.Width && l.StockLength == add.StockLength && l.Unit == add.Unit && l.Each == add.Each {
			o.Lines[i].Count += add.Count
			if add.measure != nil {
				o.Lines[i].measure = new(big.Rat).Add(l.measure, add.measure)
				o.Lines[i].Measure = fixed(o.Lines[i].measure)
			}
			o.Lines[i].Cost, err = l.Cost.Add(add.Cost)
			return err
		}
	}
	o.Lines = append(o.Lines, add)
	return nil
}

func (o *ordering) done() Order {
	foot := sheet.Unit("BFT").Factor()
	for species, m3 := range o.load.Volume {
		o.Timber = append(o.Timber, Timber{species, money.HalfUp.RoundRat(new(big.Rat).Quo(m3, foot), 2).StringFixed(2), money.HalfUp.RoundRat(m3, 4).StringFixed(4)})
	}
	slices.SortFunc(o.Timber, func(a, b Timber) int { return cmp.Compare(a.Species, b.Species) })
	o.Cost = o.load.Goods
	return o.Order
}

// fixed writes a measure to 6 places.
func fixed(r *big.Rat) string { return money.HalfUp.RoundRat(r, 6).StringFixed(6) }
