package bill

import (
	"ribband/takeoff/quantity"

	"github.com/shopspring/decimal"
)

// RectangleOf is count rectangles of measured sides, mm, each rounded up to the whole millimetre so that it suffices; nil
// where a side is none.
func RectangleOf(count int64, width, length float64, mayTurn bool) *Rectangles {
	w, err := quantity.Decimal(width, quantity.Millimetre)
	if err != nil || w.Sign() <= 0 {
		return nil
	}
	l, err := quantity.Decimal(length, quantity.Millimetre)
	if err != nil || l.Sign() <= 0 {
		return nil
	}
	return ExactRectangles(count, w, l, mayTurn)
}

// ExactRectangles is RectangleOf of exact sides.
func ExactRectangles(count int64, width, length decimal.Decimal, mayTurn bool) *Rectangles {
	if count < 1 || width.Sign() <= 0 || length.Sign() <= 0 {
		return nil
	}
	return &Rectangles{Count: count, Width: width.Ceil(), Length: length.Ceil(), MayTurn: mayTurn}
}
