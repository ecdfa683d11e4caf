package pack

import (
	"fmt"
	"strings"

	"ribband/pricing/money"
	"ribband/pricing/sheet"
	"ribband/takeoff/bill"
	"ribband/takeoff/quantity"

	"github.com/shopspring/decimal"
)

// Need is one item in one unit, and the lines of the bill that ask for it.
type Need struct {
	Item  string
	Unit  quantity.Unit
	Lines []bill.Line
}

func (n Need) ids() []string {
	out := make([]string, len(n.Lines))
	for i, l := range n.Lines {
		out[i] = l.ID
	}
	return out
}

func (n Need) total() (net, gross quantity.Quantity, err error) {
	net, gross = quantity.Zero(n.Unit), quantity.Zero(n.Unit)
	for _, l := range n.Lines {
		if net, err = net.Add(l.Net); err != nil {
			return net, gross, err
		}
		if gross, err = gross.Add(l.Gross); err != nil {
			return net, gross, err
		}
	}
	return net, gross, nil
}

// Source is where packs come from.
type Source struct {
	Sheet sheet.Content
	// Whole is all that is for sale, where Sheet is the goods of some suppliers alone; nil where it is that.
	Whole *sheet.Content
	// Price of one pack, where it is not that of the sheet; nil where it is.
	Price func(sheet.Item) (money.Money, error)
}

func (s Source) price(it sheet.Item) (money.Money, error) {
	if s.Price != nil {
		return s.Price(it)
	}
	return it.PiecePrice(s.Sheet.Currency)
}

// Planner plans items. Off the same rows at the prices of the sheet an item is planned once, though suppliers are chosen many times over.
type Planner struct {
	kerf decimal.Decimal
	kept map[string]Plan
}

// NewPlanner is one for sheets that are cut with such a kerf, mm.
func NewPlanner(kerf decimal.Decimal) *Planner { return &Planner{kerf, map[string]Plan{}} }

// Plan is the cheapest whole packs for a need, with what no choice of them costs less than. A *ShortError where too little is for
// sale; a *NoSheetError where goods of some suppliers alone do not give pieces that those of all do.
func (p *Planner) Plan(n Need, from Source) (Plan, error) {
	if from.Price != nil {
		return p.fresh(n, from)
	}
	var key strings.Builder
	for _, l := range n.Lines {
		fmt.Fprintf(&key, "%q %s %s;", l.ID, l.Net, l.Gross)
	}
	for _, it := range from.Sheet.Item(n.Item) {
		fmt.Fprintf(&key, "%q", it.Row())
	}
	if made, ok := p.kept[key.String()]; ok {
		return made, nil
	}
	made, err := p.fresh(n, from)
	if err == nil {
		p.kept[key.String()] = made
	}
	return made, err
}
