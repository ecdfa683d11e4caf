package buy

import (
	"cmp"
	"math/big"
	"slices"
	"strings"

	"ribband/pricing/money"
	"ribband/pricing/sheet"

	"github.com/shopspring/decimal"
)

// Order is what one supplier is asked for.
type Order struct {
	// Supplier is empty for rows of the sheet that name none.
	Supplier string      `json:"supplier,omitempty"`
	Lines    []OrderLine `json:"lines"`
	// Timber is what is ordered of each species, rough.
	Timber []OrderedTimber `json:"timber"`
	Cost   money.Money     `json:"cost"`
	// LeadDays is the longest that any line takes to come, as far as the sheet says; nil where it says nothing.
	LeadDays *int `json:"lead_days,omitempty"`
	// LeadUnknown says that the sheet is silent on some line.
	LeadUnknown bool `json:"lead_unknown"`
	// Freight is what the supplier asks for bringing it; nil where the sheet names none.
	Freight *FreightCharge `json:"freight,omitempty"`
	// OrderBy is the last day to order on, where a day was named by which all is needed and the sheet says how long it takes.
	OrderBy string `json:"order_by,omitempty"`
}

// OrderLine is Count boards or packs of one row of the sheet.
type OrderLine struct {
	What     string      `json:"what"`
	Kind     sheet.Kind  `json:"kind"`
	PackSize string      `json:"pack_size,omitempty"`
	Unit     sheet.Unit  `json:"unit"`
	Count    int64       `json:"count"`
	Each     money.Money `json:"each"`
	Cost     money.Money `json:"cost"`
	LeadDays *int        `json:"lead_days,omitempty"`
	// Measure in Unit is what is ordered of boards of random width, to 6 places; Count is then how many are reckoned with.
	Measure string `json:"measure,omitempty"`
	measure *big.Rat
}

// OrderedTimber is the measure of a species' boards, from their rough sizes: to 2 places of a board foot and 4 of a cubic metre.
type OrderedTimber struct {
	Species    string `json:"species"`
	BoardFeet  string `json:"board_ft"`
	CubicMetre string `json:"volume_m3"`
}

// Orders gathers a list by supplier, in the order of their names. What is on the rack is not ordered. The sheet is the one
// that the list was made from; a *NeedError when it is not.
func Orders(l List, c sheet.Content) ([]Order, error) {
	all, err := gather(l, c)
	if err != nil {
		return nil, err
	}
	out := make([]Order, 0, len(all))
	for _, o := range all {
		one := o.done()
		if i := slices.IndexFunc(l.Freight, func(f FreightCharge) bool { return same(f.Supplier, one.Supplier) }); i >= 0 {
			one.Freight = &l.Freight[i]
		}
		out = append(out, one)
	}
	slices.SortFunc(out, func(a, b Order) int { return cmp.Compare(a.Supplier, b.Supplier) })
	return out, nil
}

// supplierKey is what tells suppliers apart: small letters and capitals do not.
func supplierKey(name string) string { return strings.ToLower(strings.TrimSpace(name)) }

// gather is what is ordered, by the key of its supplier.
func gather(l List, c sheet.Content) (map[string]*ordering, error) {
	all := map[string]*ordering{}
	at := func(supplier string) *ordering {
		key := supplierKey(supplier)
		if all[key] == nil {
			all[key] = &ordering{Order: Order{Supplier: supplier, Lines: []OrderLine{}, Timber: []OrderedTimber{}, Cost: money.Zero(l.Currency)}, volume: map[string]*big.Rat{}, mass: new(big.Rat)}
		}
		return all[key]
	}
	for _, t := range l.Timber {
		for _, b := range t.Boards {
			offer, ok := findOffer(t.Offers, b.Offer)
			if !ok || offer.Rack != nil {
				continue
			}
			it, ok := offer.row(t, c)
			if !ok {
				return nil, &NeedError{b.Offer, "this board is not on the sheet that the list was made from"}
			}
			o := at(it.Supplier)
			o.board(it, b)
			line := OrderLine{What: it.Label(), Kind: sheet.Timber, Unit: it.Unit, Count: b.Count, Each: b.Price, Cost: b.Cost}
			if it.RandomWidth() {
				line.measure = new(big.Rat).Mul(it.PieceMeasure(), big.NewRat(b.Count, 1))
				line.Measure = fixed(line.measure)
			}
			if err := o.line(it, line); err != nil {
				return nil, err
			}
		}
	}
	for _, p := range l.Packs {
		for _, lot := range p.Bought {
			it, ok := lot.row(p.Item, c)
			if !ok {
				return nil, &NeedError{p.Item, "this pack is not on the sheet that the list was made from"}
			}
			at(it.Supplier).weigh(it, p.Item, lot.Count)
			if err := at(it.Supplier).line(it, OrderLine{What: p.Item, Kind: p.Kind, PackSize: lot.PackSize, Unit: lot.Unit, Count: lot.Count, Each: lot.Price, Cost: lot.Cost}); err != nil {
				return nil, err
			}
		}
	}
	return all, nil
}

// ordering is an order being gathered, with exact volumes by species in cubic metres.
type ordering struct {
	Order
	volume map[string]*big.Rat
	// mass of goods sold by weight, kg; unweighed are goods whose weight the sheet does not say.
	mass      *big.Rat
	unweighed []string
}

func (o *ordering) board(it sheet.Item, b Boards) {
	if o.volume[it.Species] == nil {
		o.volume[it.Species] = new(big.Rat)
	}
	mm3 := it.BoardVolume().Mul(decimal.NewFromInt(b.Count))
	o.volume[it.Species].Add(o.volume[it.Species], mm3.Shift(-9).Rat())
}

// weigh adds what packs hold by weight.
func (o *ordering) weigh(it sheet.Item, item string, count int64) {
	kg, ok := sheet.Convert(it.PieceMeasure(), it.Unit, "KGM")
	if !ok {
		o.unweighed = append(o.unweighed, item)
		return
	}
	o.mass.Add(o.mass, kg.Mul(kg, big.NewRat(count, 1)))
}

// line adds a line; one of the same row as another joins it.
func (o *ordering) line(it sheet.Item, add OrderLine) (err error) {
	if o.Cost, err = o.Cost.Add(add.Cost); err != nil {
		return err
	}
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
		if l.What == add.What && l.PackSize == add.PackSize && l.Unit == add.Unit && l.Each == add.Each {
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
	for species, m3 := range o.volume {
		o.Timber = append(o.Timber, OrderedTimber{species, money.HalfUp.RoundRat(new(big.Rat).Quo(m3, foot), 2).StringFixed(2), money.HalfUp.RoundRat(m3, 4).StringFixed(4)})
	}
	slices.SortFunc(o.Timber, func(a, b OrderedTimber) int { return cmp.Compare(a.Species, b.Species) })
	return o.Order
}

func find(items []sheet.Item, is func(sheet.Item) bool) (sheet.Item, bool) {
	if i := slices.IndexFunc(items, is); i >= 0 {
		return items[i], true
	}
	return sheet.Item{}, false
}
