package app

import (
	"cmp"
	"context"
	"errors"
	"fmt"
	"strings"

	"ribband/pricing/buy"
	"ribband/pricing/money"
	"ribband/pricing/orders"
	"ribband/pricing/pack"
	"ribband/pricing/ripping"
	"ribband/pricing/sawing"
	"ribband/pricing/sheet"
	"ribband/server/internal/auth"
	"ribband/takeoff"
	"ribband/takeoff/bill"
	"ribband/takeoff/document"
	"ribband/takeoff/rules"
	"ribband/takeoff/timber"
	"ribband/takeoff/timber/tally"
)

// BuyList is what to buy for an option on one version of a price sheet.
type BuyList struct {
	Basis     []Source `json:"basis"`
	BasisHash string   `json:"basis_hash"`
	Prices    Source   `json:"prices"`
	// Rack is what was drawn on in hand; nil for nothing.
	Rack *Source `json:"rack,omitempty"`
	buy.List
	// CostWithScarfs is what Bound stands beside where the plan makes scarfs: their labour is in both. Nil where it makes none.
	CostWithScarfs *money.Money `json:"cost_with_scarfs,omitempty"`
	// Ripping is how the boards are cut, one list a kind of timber, in the order of Timber.
	Ripping []ripping.List `json:"ripping"`
	// Remains is what is left of the boards, likewise.
	Remains []ripping.Remains `json:"remains"`
	// Orders are the same by supplier.
	Orders []orders.Order `json:"orders"`
	// Slowest is whose order takes longest to come; nil where the sheet says it of none.
	Slowest *LongestWait `json:"slowest,omitempty"`
	// Weights are what the boards that are bought weigh, by wood, rough and air-dried to 12 per cent.
	Weights []tally.Load `json:"weights"`
	// Warnings are of prices that no longer hold, and of least orders that decide.
	Warnings []bill.Warning `json:"warnings"`
}

// LongestWait is the order that takes longest to come: LeadDays from order to delivery, OrderBy the last day to order on where a
// day was named by which all is needed. Silent says that the sheet does not tell of some line of some order, which may take longer.
type LongestWait struct {
	Supplier string `json:"supplier,omitempty"`
	LeadDays int    `json:"lead_days"`
	OrderBy  string `json:"order_by,omitempty"`
	Silent   bool   `json:"silent"`
}

// ByDay writes the last day to order on into a buy list whose goods are all needed on a day, written 2026-03-31, with a warning for
// each that is past. A *QuestionError when it is no day.
func (a *App) ByDay(list *BuyList, needed string) error {
	if err := orders.LastDays(list.Orders, needed); err != nil {
		return &QuestionError{"needed", err.Error(), "a day, year-month-day"}
	}
	list.Slowest = longestWait(list.Orders)
	for _, o := range list.Orders {
		if today := a.today(); o.OrderBy != "" && o.OrderBy < today {
			list.Warnings = append(list.Warnings, bill.Warning{Code: "order_late",
				Detail: fmt.Sprintf("To be there on %s, what %s sells had to be ordered by %s, and today is %s.", needed, cmp.Or(o.Supplier, "the supplier not named"), o.OrderBy, today),
				Fix:    "ask what comes sooner, or plan for a later day"})
		}
	}
	return nil
}

func longestWait(all []orders.Order) *LongestWait {
	slowest, silent := orders.Slowest(all)
	if slowest == nil {
		return nil
	}
	return &LongestWait{slowest.Supplier, *slowest.LeadDays, slowest.OrderBy, len(silent) > 0}
}

// BuyList works out what to buy for an option on version n of a sheet, beside version inHand of the rack, 0 for none.
func (a *App) BuyList(ctx context.Context, who auth.Principal, job, option, sheetID string, n, inHand int64) (BuyList, error) {
	o, err := a.Option(ctx, who, job, option)
	if err != nil {
		return BuyList{}, err
	}
	d, content, err := a.published(ctx, who, sheetID, n)
	if err != nil {
		return BuyList{}, err
	}
	yards, from, err := a.inHand(ctx, who, inHand)
	if err != nil {
		return BuyList{}, err
	}
	w, err := a.takeoff(ctx, who, o)
	if err != nil {
		return BuyList{}, err
	}
	shop, err := w.shop()
	if err != nil {
		return BuyList{}, err
	}
	list, err := buy.WithRack(w.result.Bill.Lines, content, yards, shop)
	if err = unbuyable(err); err != nil {
		return BuyList{}, err
	}
	sawn, err := ripping.Lists(list, w.result.Bill.Lines, shop)
	if err != nil {
		return BuyList{}, err
	}
	ordered, err := orders.Of(list, content)
	if err != nil {
		return BuyList{}, err
	}
	least, err := list.Least(w.result.Bill.Lines, content, yards, shop)
	if err != nil {
		return BuyList{}, err
	}
	warnings := append([]bill.Warning{}, lapsed(wanted(content, []buy.List{list}, nil), a.today())...)
	warnings = append(warnings, leastOrders(least)...)
	warnings = append(warnings, unweighedFreight(list)...)
	warnings = append(warnings, plankScarfs(list)...)
	weights, heavy, err := weighed(list, w.papers.Species)
	if err != nil {
		return BuyList{}, err
	}
	scarfed, err := withScarfs(list)
	if err != nil {
		return BuyList{}, err
	}
	return BuyList{w.basis, w.hash, Source{d.Kind, d.ID, d.N, d.Hash}.version(n), from, list, scarfed, sawn, ripping.Remaining(list, sawn), ordered, longestWait(ordered), weights, append(warnings, heavy...)}, nil
}

// withScarfs is what a list costs with the labour of its scarfs; nil where it makes none.
func withScarfs(l buy.List) (*money.Money, error) {
	if l.ScarfLabour.IsZero() {
		return nil, nil
	}
	sum, err := l.Cost.Add(l.ScarfLabour)
	return &sum, err
}

// unweighedFreight warns of goods that freight by weight leaves out, and where freight did not enter the choice of suppliers.
func unweighedFreight(l buy.List) []bill.Warning {
	var out []bill.Warning
	for _, f := range l.Freight {
		if len(f.Unknown) > 0 {
			out = append(out, bill.Warning{Code: "freight_not_weighed",
				Detail: fmt.Sprintf("What %s asks by weight leaves out %s: what they weigh is not known.", cmp.Or(f.Supplier, "the supplier not named"), plainName(strings.Join(f.Unknown, ", "))),
				Fix:    "reckon with more, or ask for the freight by the order"})
		}
	}
	if len(l.Freight) > 0 && !l.FreightChosen {
		out = append(out, bill.Warning{Code: "freight_not_chosen", Detail: "So many suppliers ask for freight that what they ask by the order does not decide whom to buy from; it is added.",
			Fix: "compare with a sheet of fewer suppliers"})
	}
	return out
}

// leastOrders warns where the least that a supplier sells decides what is bought.
func leastOrders(l buy.LeastOrders) []bill.Warning {
	var out []bill.Warning
	for _, row := range l.Rows {
		what := plainName(row.What)
		if row.Supplier != "" && !strings.HasSuffix(what, row.Supplier) {
			what += ", " + row.Supplier
		}
		out = append(out, bill.Warning{Code: "least_order_governs",
			Detail: fmt.Sprintf("%d of %s would do, and %d are the fewest sold.", row.Needed, what, row.Least),
			Fix:    "ask whether fewer are sold, or find use for the rest"})
	}
	if l.Extra.Sign() > 0 {
		out = append(out, bill.Warning{Code: "least_order_costs",
			Detail: fmt.Sprintf("Least orders cost %s %s here: bought singly, the same would come to so much less.", l.Extra, l.Extra.Currency()),
			Fix:    "ask for fewer, or order for another job together with this one"})
	}
	return out
}

// shop is how boards are cut, as the rules have it, and what scarfs are reckoned by.
func (w *worked) shop() (buy.Rules, error) {
	r, faults := rules.Read(w.papers.Rules)
	out := shopOf(r, w.papers.Species)
	out.Labour = buy.Labour{Steps: w.papers.Steps, Work: w.result.Work}
	return out, faults.Err()
}

// shopOf are the shop's figures that boards are bought by.
func shopOf(r rules.Rules, woods timber.Catalogue) buy.Rules {
	out := buy.Rules{Kerf: r.Kerf, EndTrim: r.EndTrim, LeastShort: r.LeastShort, Densities: densities(woods)}
	if r.Resaw != nil {
		out.Resaw = &sawing.Resaw{Kerf: r.Resaw.Kerf, Planing: r.Resaw.Planing, Height: r.Resaw.Height}
	}
	return out
}

// bought is the buy list of a takeoff's needs; too little for sale comes back as a *ComputeError.
func bought(r takeoff.Result, content sheet.Content, shop buy.Rules) (buy.List, error) {
	list, err := buy.New(r.Bill.Lines, content, shop)
	return list, unbuyable(err)
}

// unbuyable turns what cannot be bought off a sheet into faults that say so.
func unbuyable(err error) error {
	var faults document.Faults
	for _, e := range parts(err) {
		var boards *buy.ShortBoardsError
		var packs *pack.ShortError
		switch {
		case errors.As(e, &boards):
			faults.Add("", "more or longer boards of "+boards.Item+" on the price sheet", "%s", boards.Error())
		case errors.As(e, &packs):
			faults.Add("", "more of "+packs.Item+" on the price sheet", "%s", packs.Error())
		default:
			return err
		}
	}
	if len(faults) == 0 {
		return err
	}
	return &ComputeError{faults}
}

// parts are the errors joined in err, or err alone.
func parts(err error) []error {
	var joined interface{ Unwrap() []error }
	if errors.As(err, &joined) {
		return joined.Unwrap()
	}
	if err == nil {
		return nil
	}
	return []error{err}
}
