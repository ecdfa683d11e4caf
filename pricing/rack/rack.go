// Package rack is what the yard has in hand: boards on the rack, some with checks and knots marked, and what a job is
// charged for them.
package rack

import (
	"ribband/pricing/money"
	"ribband/pricing/sheet"
	"ribband/takeoff/notation"

	"github.com/shopspring/decimal"
)

// Document is a rack as it is written.
type Document struct {
	Note     string            `json:"note,omitempty"`
	Notation notation.Notation `json:"notation"`
	// Currency of what boards are worth; it may stay empty where none has a worth.
	Currency money.Currency `json:"currency,omitempty"`
	Boards   []Row          `json:"boards"`
}

// Row is boards alike: Count of them, rough sizes as on a price sheet, a thickness also in quarters of an inch.
type Row struct {
	// ID is what is chalked on them.
	ID        string `json:"id"`
	Count     int64  `json:"count"`
	Species   string `json:"species"`
	Grade     string `json:"grade"`
	Thickness string `json:"thickness"`
	Width     string `json:"width"`
	Length    string `json:"length"`
	// Clear are the stretches free of faults, along the board from one end; none where all of it is as good as its grade.
	Clear []Stretch `json:"clear,omitempty"`
	// Worth is what a job is charged for one board; empty where it is charged nothing.
	Worth string `json:"worth,omitempty"`
	// Place is where they lie.
	Place string `json:"place,omitempty"`
}

// Stretch of a board, along it from one end.
type Stretch struct {
	From string `json:"from"`
	To   string `json:"to"`
}

// Rack is a document taken over.
type Rack struct{ Boards []Board }

// Board is boards alike, in exact millimetres.
type Board struct {
	ID                       string
	Count                    int64
	Species, Grade           string
	Thickness, Width, Length sheet.Size
	// Clear are the stretches that pieces may come from: the whole length where none is marked.
	Clear []Clear
	// Marked says that the stretches were marked on the board, which then needs no end trim.
	Marked bool
	// Worth of one board; nothing where the job is charged nothing.
	Worth money.Money
	Place string
}

// Worths of its clear stretches: that of the board split over them by length.
func (b Board) Worths() ([]money.Money, error) {
	out := make([]money.Money, len(b.Clear))
	if b.Worth.IsZero() {
		return out, nil
	}
	lengths := make([]decimal.Decimal, len(b.Clear))
	for k, c := range b.Clear {
		lengths[k] = c.Length()
	}
	return b.Worth.Split(lengths)
}

// Clear is a stretch of a board, mm from one end.
type Clear struct{ From, To decimal.Decimal }

// Length of the stretch, mm.
func (c Clear) Length() decimal.Decimal { return c.To.Sub(c.From) }
