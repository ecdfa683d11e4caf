// Package flatcut is a list of rectangles as a yard writes it, with what they may be cut from and at what price: sheets,
// wide boards and rolls. Lengths stand in one notation and prices are exact; what the cutting counts in is worked out here.
package flatcut

import (
	"ribband/pricing/money"
	"ribband/takeoff/cutting/flat"
	"ribband/takeoff/notation"

	"github.com/shopspring/decimal"
)

// What one document may hold, so that a plan takes some seconds at the most: ten sheets and 100 kinds of piece took 2.8 s
// of two stages and 4.8 s of three, three outlines of 40 points 1.6 s, measured on 2026-11-28 on a busy machine of two cores.
const (
	MostRows   = 10
	MostKinds  = 100
	MostPieces = 2_000
)

// Document is a list to cut.
type Document struct {
	Currency money.Currency    `json:"currency"`
	Notation notation.Notation `json:"notation"`
	Stock    []Row             `json:"stock"`
	Pieces   []Piece           `json:"pieces"`
	Rules    Rules             `json:"rules"`
}

// Row is a board or sheet for sale, or a roll: then Per is the length that Price is for, and Length the longest that is
// cut off at once, or left out. The grain runs along Length. What is left out of Avail means no limit.
type Row struct {
	ID     string          `json:"id"`
	Width  string          `json:"width"`
	Length string          `json:"length,omitempty"`
	Price  decimal.Decimal `json:"price"`
	Per    string          `json:"per,omitempty"`
	// Avail sheets are for sale; AvailLength of a roll.
	Avail       *int64 `json:"avail,omitempty"`
	AvailLength string `json:"avail_length,omitempty"`
}

// Piece is Qty rectangles, Length along the grain. Outline stands in the place of width and length for a curved one: it goes
// in as its bounding rectangle, and as the least rectangle that two of it lie in. Pair is that rectangle where it is known.
type Piece struct {
	ID      string  `json:"id"`
	Width   string  `json:"width,omitempty"`
	Length  string  `json:"length,omitempty"`
	Qty     int64   `json:"qty"`
	MayTurn bool    `json:"may_turn,omitempty"`
	Pair    *Size   `json:"pair,omitempty"`
	Outline []Point `json:"outline,omitempty"`
}

// Size of a rectangle, lying as a Piece does.
type Size struct {
	Width  string `json:"width"`
	Length string `json:"length"`
}

// Point of an outline.
type Point struct {
	Across string `json:"across"`
	Along  string `json:"along"`
}

// Rules are what the saw takes. First is "either" unless given, Stages 2.
type Rules struct {
	Kerf     string     `json:"kerf"`
	TrimEach string     `json:"trim_each"`
	First    flat.First `json:"first,omitempty"`
	Stages   int        `json:"stages,omitempty"`
}
