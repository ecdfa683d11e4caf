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

// Outline is what a piece lies in with half of Room about it, round it in order, whole millimetres along the greater side of its
// rectangle and across it. Of few points, outside of which nothing lies.
type Outline struct {
	// Room is what a saw finds between two pieces whose outlines touch, mm.
	Room   decimal.Decimal `json:"room_mm"`
	Points [][2]int64      `json:"points"`
}
