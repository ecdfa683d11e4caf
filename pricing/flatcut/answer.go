package flatcut

import (
	"errors"
	"fmt"
	"slices"

	"ribband/pricing/money"
	"ribband/takeoff/cutting/flat"
	"ribband/takeoff/document"
	"ribband/takeoff/notation"

	"github.com/shopspring/decimal"
)

// Answer is what to buy and how it is cut.
type Answer struct {
	// Says is what the plan costs and what none can be below.
	Says  string      `json:"says"`
	Cost  money.Money `json:"cost"`
	Bound money.Money `json:"bound"`
	// Proven: no plan of such cuts costs less.
	Proven  bool     `json:"proven"`
	Bought  []Lot    `json:"bought"`
	Layouts []Layout `json:"layouts"`
	// Certificate shows the bound without any search, for the list as it was counted.
	Certificate flat.Certificate `json:"certificate"`
	Counted     Counted          `json:"counted"`
}

// Counted is the list in whole units of UnitMM. Where a size is no whole number of them, pieces and saw were counted up and
// stock down, and Exact is false: then the bound is of the pieces so counted.
type Counted struct {
	UnitMM decimal.Decimal `json:"unit_mm"`
	Exact  bool            `json:"exact"`
	List   flat.List       `json:"list"`
}

// Lot is N sheets of a kind, or LengthMM off a roll.
type Lot struct {
	StockID  string           `json:"stock_id"`
	N        int64            `json:"n,omitempty"`
	LengthMM *decimal.Decimal `json:"length_mm,omitempty"`
	Cost     money.Money      `json:"cost"`
}

// Layout is sheets number FirstSheet to LastSheet of their kind, cut alike, or one length off a roll.
type Layout struct {
	StockID    string          `json:"stock_id"`
	FirstSheet int64           `json:"first_sheet"`
	LastSheet  int64           `json:"last_sheet"`
	WidthMM    decimal.Decimal `json:"width_mm"`
	LengthMM   decimal.Decimal `json:"length_mm"`
	First      flat.First      `json:"first_cuts"`
	Rectangles []Rectangle     `json:"rectangles"`
	Cuts       []Cut           `json:"cuts"`
}

// Rectangle is where a piece lies, XMM across the grain from one edge and YMM along it from one end of the untrimmed sheet.
type Rectangle struct {
	PieceID  string          `json:"piece_id"`
	XMM      decimal.Decimal `json:"x_mm"`
	YMM      decimal.Decimal `json:"y_mm"`
	WidthMM  decimal.Decimal `json:"width_mm"`
	LengthMM decimal.Decimal `json:"length_mm"`
	Turned   bool            `json:"turned,omitempty"`
	Paired   bool            `json:"paired,omitempty"`
}

// Cut is one step at the saw, MeasureMM from the edge that the last cut left.
type Cut struct {
	Says string `json:"says"`
	// Of is what is cut, strips and lengths of these by their numbers; nothing for the whole sheet.
	Of        flat.Place      `json:"of"`
	Runs      flat.First      `json:"runs"`
	Times     int64           `json:"times"`
	MeasureMM decimal.Decimal `json:"measure_mm"`
	Frees     flat.Freed      `json:"frees"`
	PieceID   string          `json:"piece_id,omitempty"`
	Paired    bool            `json:"paired,omitempty"`
}

// In tells the cut in another notation, with its piece as it is called.
func (c Cut) In(in notation.Notation, rolled bool, piece string) string {
	saw := flat.SawCut{Of: c.Of, Frees: c.Frees, Runs: c.Runs, Times: c.Times, Measure: c.MeasureMM.Shift(6).IntPart(), PieceID: c.PieceID, Paired: c.Paired}
	return saw.Says(rolled, func(n int64) string { return Written(in, n) }, func(string) string { return piece })
}

// Limits a document is planned within, so that the most it may hold takes some seconds.
var Limits = flat.Limits{Work: 60_000_000, Pivots: 10_000, Nodes: 5_000}

// Solve reads the document and finds its cheapest plan. Everything wrong with it comes back together as document.Faults,
// each where it stands and with what would be right; so does a list that cannot be cut.
func (d Document) Solve() (Answer, error) {
	c, faults := d.read()
	if len(faults) > 0 {
		return Answer{}, faults
	}
	plan, err := flat.SolveWithin(c.list, Limits)
	if err != nil {
		return Answer{}, d.told(c, err)
	}
	return d.answer(c, plan)
}

// told puts what cannot be cut where its piece or stock stands.
func (d Document) told(c counted, err error) error {
	var faults document.Faults
	var large *flat.LargeError
	var short *flat.ShortError
	var refused *flat.RequestError
	size := func(w, l int64) string { return d.length(c, w) + " x " + d.length(c, l) }
	piece := func(id string) string {
		return fmt.Sprintf("/pieces/%d", slices.IndexFunc(d.Pieces, func(p Piece) bool { return p.ID == id }))
	}
	switch {
	case errors.As(err, &large):
		d.tooLarge(c, large, piece(large.Piece.ID), &faults)
	case errors.As(err, &short):
		more := fmt.Sprint(short.More)
		if s := c.stock(short.StockID); s.Roll() {
			more = d.length(c, short.More)
		}
		fix := "more for sale, or fewer pieces"
		if short.StockID != "" {
			fix = fmt.Sprintf("%s more of %s for sale, or fewer pieces", more, short.StockID)
		}
		faults.Add(piece(short.Piece.ID)+"/qty", fix, "%d of %s, %s, found no room: not enough is for sale", short.Short, short.Piece.ID, size(short.Piece.Width, short.Piece.Length))
	case errors.As(err, &refused):
		at, fix := "", "fewer or smaller pieces, or lower prices"
		if i := slices.IndexFunc(d.Stock, func(s Row) bool { return s.ID == refused.ID }); i >= 0 && refused.What == "stock" {
			at = fmt.Sprintf("/stock/%d", i)
		}
		faults.Add(at, fix, "%s", refused.Reason)
	default:
		return err
	}
	return faults
}

func (d Document) tooLarge(c counted, e *flat.LargeError, at string, faults *document.Faults) {
	size := d.length(c, e.Piece.Width) + " x " + d.length(c, e.Piece.Length)
	if e.StockID == "" {
		faults.Add("/stock", "a sheet, a board or a roll at least "+size, "nothing is for sale to cut %s from", e.Piece.ID)
		return
	}
	need := d.length(c, e.Width)
	if e.Length > 0 {
		need += " x " + d.length(c, e.Length)
	}
	turned := e.Piece
	turned.Width, turned.Length, turned.MayTurn = turned.Length, turned.Width, false
	if !e.Piece.MayTurn && c.gives(turned) {
		faults.Add(at+"/may_turn", fmt.Sprintf("true, if its grain may run across; else %s at least %s, width by length", e.StockID, need),
			"%s, %s, fits what is for sale only turned, and it may not lie across the grain", e.Piece.ID, size)
		return
	}
	would := fmt.Sprintf("%s at least %s, width by length, is the nearest that would do", e.StockID, need)
	if untrimmed := c; untrimmed.list.Rules.TrimEach > 0 {
		if untrimmed.list.Rules.TrimEach = 0; untrimmed.gives(e.Piece) {
			would += ", or less trim_each among the rules: it is taken off every edge"
		}
	}
	faults.Add(at, would, "%s, %s, is larger than anything for sale gives", e.Piece.ID, size)
}

// gives reports whether some stock is large enough for a piece.
func (c counted) gives(p flat.Piece) bool {
	return slices.ContainsFunc(c.list.Stock, func(s flat.Stock) bool { return s.Takes(p, c.list.Rules) })
}

func (c counted) stock(id string) flat.Stock {
	for _, s := range c.list.Stock {
		if s.ID == id {
			return s
		}
	}
	return flat.Stock{}
}

// mm of so many units.
func (c counted) mm(n int64) decimal.Decimal {
	return decimal.NewFromInt(n).Mul(decimal.New(c.unit, -6))
}
