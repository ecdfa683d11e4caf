package pack

import (
	"slices"

	"ribband/pricing/flatcut"
	"ribband/pricing/money"
	"ribband/pricing/sheet"
	"ribband/takeoff/cutting/flat"
	"ribband/takeoff/quantity"

	"github.com/shopspring/decimal"
)

// Sheets is a plan of sheets and rolls. Kerf is what a cut takes.
type Sheets struct {
	Kerf    decimal.Decimal  `json:"kerf_mm"`
	Layouts []flatcut.Layout `json:"layouts"`
	// Floor is the least of the floors of all lists that were weighed: Bound is not above it. Elsewise are the others.
	Floor
	Elsewise []Floor `json:"elsewise,omitempty"`
	// Laid is the list as the plan cuts it, where it is not the one that the floor is of.
	Laid *flat.List `json:"laid,omitempty"`
	// Pairs are pieces that are cut two from one rectangle, which has the id of First.
	Pairs []Pair `json:"pairs,omitempty"`
}

// Floor is what no plan of a list costs less than, whole packs counted. The lists differ in which prices hold and in which pieces
// may be laid into each other, each such pair together or apart.
type Floor struct {
	// Certificate shows the floor of the list as it was counted, in millimetres and minor units.
	Certificate flat.Certificate `json:"certificate"`
	Counted     flat.List        `json:"counted"`
	Least       money.Money      `json:"least"`
	// Paid is what least orders cost in any case; Least is that and what goes beyond. Then PriceScale is set: Counted has what is paid
	// at 1 and all else at PriceScale times its price.
	Paid       money.Money `json:"paid,omitzero"`
	PriceScale int64       `json:"price_scale,omitempty"`
}

// Pair is the lines of two pieces laid into each other, and what they are called together.
type Pair struct {
	First  string `json:"first"`
	Second string `json:"second"`
	Called string `json:"called"`
	// Turned: the second lies end for end.
	Turned bool `json:"turned"`
	// Room is what the saw finds between the two, mm.
	Room decimal.Decimal `json:"room_mm"`
	// Outlines are the first's and the second's, with half of Room about each, from a corner of their rectangle along its length
	// and across it, mm.
	Outlines [2][][2]int64 `json:"outlines_mm"`
}

// tell puts the cheapest plan and what none can be below into out.
func (y *laying) tell(out *Plan, c sheet.Content) error {
	names := map[string]string{}
	for i := range y.need.Lines {
		names[y.need.Lines[i].ID] = y.need.Lines[i].Member.String()
	}
	for i, two := range y.best.pairs {
		if !two.second {
			names[y.need.Lines[i].ID] = y.need.called(i, two)
		}
	}
	least := slices.MinFunc(y.floors, func(a, b sheetFloor) int { return int(min(1, max(-1, a.floor-b.floor))) })
	var err error
	if out.Bound, err = money.New(min(least.floor, y.best.cost), c.Currency); err != nil {
		return err
	}
	out.Sheets = &Sheets{Kerf: decimal.NewFromInt(y.best.list.Rules.Kerf), Pairs: y.need.told(y.best.pairs),
		Layouts: flatcut.Layouts(y.best.list, y.best.plan, millimetre, c.Notation, func(id string) string { return names[id] })}
	if out.Sheets.Floor, err = least.shown(c.Currency); err != nil {
		return err
	}
	if laid := y.best.list; !sameList(laid, out.Sheets.Counted) {
		out.Sheets.Laid = &laid
	}
	for _, f := range y.floors {
		if other, err := f.shown(c.Currency); err != nil {
			return err
		} else if f.floor != least.floor || !sameList(f.list, least.list) {
			out.Sheets.Elsewise = append(out.Sheets.Elsewise, other)
		}
	}
	if err := out.fill(y.packs, y.best.counts, out.Net.Value().Rat()); err != nil {
		return err
	}
	if out.LeftOver.Value().IsNegative() {
		out.LeftOver = quantity.Zero(y.need.Unit)
	}
	if out.Method = SeveralRows; len(out.Bought) == 1 {
		out.Method = OneRow
	}
	out.Proven = out.Bound == out.Cost
	return nil
}

func sameList(a, b flat.List) bool {
	return slices.Equal(a.Stock, b.Stock) && a.Rules == b.Rules && slices.EqualFunc(a.Pieces, b.Pieces, func(p, q flat.Piece) bool {
		return p.ID == q.ID && p.Width == q.Width && p.Length == q.Length && p.Qty == q.Qty && p.MayTurn == q.MayTurn &&
			(p.Pair == nil) == (q.Pair == nil) && (p.Pair == nil || *p.Pair == *q.Pair)
	})
}
