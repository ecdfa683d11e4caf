// Package sheet holds price sheets: what is for sale, in which unit, at what price, in which packs and lengths.
//
// A sheet is read from a table or a document, whole or not at all, with every fault told at once. Its content has a
// hash, so that a quote can say which prices it rests on. A price that
// falls with the quantity is a row of its own with its least order. Out of scope: rates of exchange.
package sheet

import (
	"math"
	"math/big"
	"strings"

	"ribband/pricing/money"

	"github.com/shopspring/decimal"
)

// Item is one row of a price sheet. Fields that do not apply are zero.
type Item struct {
	// Item is the name it is found by; a trade for Labour. Timber may have none: it is found by species, grade and
	// size.
	Item        string
	Description string
	Kind        Kind
	Supplier    string
	// Unit that Price and MinQty are in: Price is for Per units (1 where the row leaves it empty).
	Unit  Unit
	Price decimal.Decimal
	Per   decimal.Decimal
	// PackSize is how many units one pack holds; zero where the row leaves it empty: then goods other than timber
	// are sold by the whole unit. A board is its own pack.
	PackSize decimal.Decimal
	Species  string
	Grade    string
	// Thickness, Width and StockLength of a board as it is sold, rough.
	Thickness, Width, StockLength Size
	// Widest is set where boards come in random widths, from Width to Widest: they are sold by what they hold, and nobody knows how
	// wide the next one is. Reckoned, mm, is how wide one of them is taken to be; zero for Width.
	Widest   Size
	Reckoned decimal.Decimal
	// MinQty is the least that is sold at once, in Unit; zero for no such limit.
	MinQty decimal.Decimal
	// LeadDays from order to delivery; -1 where the row leaves it empty.
	LeadDays int
	// ValidUntil is the last day the price holds, 2026-03-31; empty where the row leaves it empty.
	ValidUntil string
	// Available is how many pieces (boards, packs) are for sale; -1 for no limit.
	Available int64
	// FreeFrom is the sum of a supplier's goods from which on this freight is not asked; zero where it always is.
	FreeFrom decimal.Decimal
}

// Label is how a person would name the row: the item, or a board by species, grade and sizes as written.
func (it Item) Label() string {
	if it.Kind == Freight {
		return strings.TrimSpace("freight " + it.Supplier)
	}
	if it.Kind != Timber {
		return it.Item
	}
	across := it.Width.Text()
	if it.RandomWidth() {
		across += " to " + it.Widest.Text()
	}
	return it.Species + " " + it.Grade + " " + it.Thickness.Text() + " x " + across + " x " + it.StockLength.Text()
}

// PieceMeasure is how many units of the row's Unit one piece holds: the exact measure of one board, from its exact
// dimensions, or the pack size. Nil when the unit does not measure a board.
func (it Item) PieceMeasure() *big.Rat {
	if it.Kind != Timber {
		if it.PackSize.IsZero() {
			return big.NewRat(1, 1)
		}
		return it.PackSize.Rat()
	}
	metres := func(mm decimal.Decimal) *big.Rat { return new(big.Rat).Quo(mm.Rat(), big.NewRat(1000, 1)) }
	m := metres(it.StockLength.MM())
	switch it.Unit.Dimension() {
	case ByCount:
		m = big.NewRat(1, 1)
	case ByLength:
	case ByVolume:
		m.Mul(m, metres(it.Across())).Mul(m, metres(it.Thickness.MM()))
	default:
		return nil
	}
	return m.Quo(m, it.Unit.Factor())
}

// PiecePrice is what one board or pack costs: the unit price times its measure, rounded once, half away from zero,
// to the minor unit of c.
func (it Item) PiecePrice(c money.Currency) (money.Money, error) {
	m := it.PieceMeasure()
	if m == nil {
		return money.Money{}, &UnitError{it.Label(), it.Unit, "a board"}
	}
	m.Mul(m, it.Price.Rat())
	return money.RoundRat(m.Quo(m, it.BaseQuantity().Rat()), c, money.HalfUp)
}

// LeastPrice is the least price, in the places that prices are written with, at which one board or pack costs as much as the smallest
// coin of c, rounded; zero where one has no measure.
func (it Item) LeastPrice(c money.Currency) decimal.Decimal {
	const places = 6
	m := it.PieceMeasure()
	if m == nil || m.Sign() <= 0 {
		return decimal.Zero
	}
	least := decimal.New(5, -c.Digits()-1).Rat()
	least.Mul(least, it.BaseQuantity().Rat()).Quo(least, m)
	out := decimal.NewFromBigRat(least, places)
	if out.Rat().Cmp(least) < 0 {
		out = out.Add(decimal.New(1, -places))
	}
	return out
}

// BaseQuantity is how many units Price is for: Per, or 1 where an item was made without one.
func (it Item) BaseQuantity() decimal.Decimal {
	if it.Per.Sign() <= 0 {
		return decimal.NewFromInt(1)
	}
	return it.Per
}

// UnitPrice is the exact price of one unit: Price divided by Per, not rounded.
func (it Item) UnitPrice() *big.Rat {
	return new(big.Rat).Quo(it.Price.Rat(), it.BaseQuantity().Rat())
}

// MinPieces is the least number of pieces sold at once, at least 0.
func (it Item) MinPieces() int64 {
	m := it.PieceMeasure()
	if it.MinQty.Sign() <= 0 || m == nil || m.Sign() <= 0 {
		return 0
	}
	n := new(big.Rat).Quo(it.MinQty.Rat(), m)
	return ceil(n)
}

// ceil is the least whole number not below r, r above nothing; at most what an int64 holds.
func ceil(r *big.Rat) int64 {
	q, rest := new(big.Int).QuoRem(r.Num(), r.Denom(), new(big.Int))
	if rest.Sign() > 0 {
		q.Add(q, big.NewInt(1))
	}
	if !q.IsInt64() {
		return math.MaxInt64
	}
	return q.Int64()
}
