// Package derivation keeps how every number came about: the formula, what went in, the factors with their source,
// and the rounding. A takeoff hands its figures out as one flat table; lines, faults and drivers name them by id.
package derivation

import (
	"fmt"

	"ribband/takeoff/quantity"

	"github.com/shopspring/decimal"
)

// Audience is who may open a figure. Whatever shows cost, wage or the yard's factors is for the yard alone.
type Audience string

// A figure is for the yard, or for the owner too.
const (
	Yard  Audience = "yard"
	Owner Audience = "owner"
)

// Input is one quantity that went into a figure: another figure, by id, or something given, with the place where.
type Input struct {
	Symbol string        `json:"symbol"`
	Figure string        `json:"figure,omitempty"`
	Given  string        `json:"given,omitempty"`
	Value  string        `json:"value"`
	Unit   quantity.Unit `json:"unit"`
}

// Factor is a constant of the trade, of the yard or of nature, with its source.
type Factor struct {
	Symbol string `json:"symbol"`
	Value  string `json:"value"`
	Source string `json:"source"`
}

// Rounding tells how the figure was rounded, and from what.
type Rounding struct {
	Mode   Mode   `json:"mode"`
	Places int32  `json:"places"`
	From   string `json:"from"`
}

// Mode of rounding.
type Mode string

// Half away from zero; up, where something must suffice; down, where something must not be exceeded; none.
const (
	HalfAway Mode = "half_away"
	Up       Mode = "up"
	Down     Mode = "down"
	None     Mode = "none"
)

func (m Mode) apply(d decimal.Decimal, places int32) decimal.Decimal {
	switch m {
	case Up:
		return d.RoundCeil(places)
	case Down:
		return d.RoundFloor(places)
	case None:
		return d
	}
	return d.Round(places)
}

// Figure is one number and how it came about. Value is exact text in Unit.
type Figure struct {
	ID       string        `json:"id"`
	Value    string        `json:"value"`
	Unit     quantity.Unit `json:"unit"`
	Formula  string        `json:"formula"`
	Inputs   []Input       `json:"inputs"`
	Factors  []Factor      `json:"factors"`
	Rounding Rounding      `json:"rounding"`
	Audience Audience      `json:"audience"`
}

// Table collects figures in the order they are worked out. Ids are unique. The first error stops it: every later
// call returns zeros, and Err tells what went wrong, so that a chain of figures reads as arithmetic.
type Table struct {
	figures []Figure
	at      map[string]int
	err     error
}

// NewTable is an empty table.
func NewTable() *Table { return &Table{at: map[string]int{}} }

// Err is the first thing that went wrong, nil when nothing did.
func (t *Table) Err() error { return t.err }

// Figures in the order they were worked out. The slice is the table's own.
func (t *Table) Figures() []Figure { return t.figures }

// Find is the figure with this id.
func (t *Table) Find(id string) (Figure, bool) {
	i, ok := t.at[id]
	if !ok {
		return Figure{}, false
	}
	return t.figures[i], true
}

// Ref is an input taken from a figure worked out before.
func (t *Table) Ref(symbol, id string) Input {
	f, ok := t.Find(id)
	if !ok && t.err == nil {
		t.err = fmt.Errorf("figure %s is not in the table", id)
	}
	return Input{Symbol: symbol, Figure: id, Value: f.Value, Unit: f.Unit}
}

// Given is an input that somebody stated; where is the place it was stated in. Its value is exact and not rounded.
func Given(symbol, where string, value decimal.Decimal, unit quantity.Unit) Input {
	return Input{Symbol: symbol, Given: where, Value: value.String(), Unit: unit}
}

// ByFactor is a factor with its source.
func ByFactor(symbol string, value decimal.Decimal, source string) Factor {
	return Factor{Symbol: symbol, Value: value.String(), Source: source}
}

// Measured adds a figure read off the geometry: x in the formula's unit, rounded once by the formula's mode.
func (t *Table) Measured(id, formula string, x float64, inputs ...Input) quantity.Quantity {
	f, ok := t.formula(id, formula)
	if !ok {
		return quantity.Quantity{}
	}
	exact, err := quantity.Decimal(x, f.Unit)
	if err != nil {
		t.err = fmt.Errorf("figure %s: %w", id, err)
		return quantity.Quantity{}
	}
	return t.add(id, f, exact, inputs, nil)
}

// Derive adds a figure worked out exactly from inputs and factors by a formula of the register.
func (t *Table) Derive(id, formula string, inputs []Input, factors ...Factor) quantity.Quantity {
	f, ok := t.formula(id, formula)
	if !ok {
		return quantity.Quantity{}
	}
	exact, err := f.Compute(inputs, factors)
	if err != nil {
		t.err = fmt.Errorf("figure %s: %w", id, err)
		return quantity.Quantity{}
	}
	return t.add(id, f, exact, inputs, factors)
}

func (t *Table) formula(id, formula string) (Formula, bool) {
	if t.err != nil {
		return Formula{}, false
	}
	f, ok := register[formula]
	if !ok {
		t.err = fmt.Errorf("figure %s: formula %s is not in the register", id, formula)
		return Formula{}, false
	}
	if _, twice := t.at[id]; twice {
		t.err = fmt.Errorf("figure %s is worked out twice", id)
		return Formula{}, false
	}
	return f, true
}

func (t *Table) add(id string, f Formula, exact decimal.Decimal, inputs []Input, factors []Factor) quantity.Quantity {
	places := f.places()
	q, err := quantity.Of(f.Mode.apply(exact, places), f.Unit)
	if err != nil {
		t.err = fmt.Errorf("figure %s: %w", id, err)
		return quantity.Quantity{}
	}
	if inputs == nil {
		inputs = []Input{}
	}
	if factors == nil {
		factors = []Factor{}
	}
	t.at[id] = len(t.figures)
	t.figures = append(t.figures, Figure{
		ID: id, Value: q.Value().StringFixed(places), Unit: f.Unit, Formula: f.ID, Inputs: inputs, Factors: factors,
		Rounding: Rounding{f.Mode, places, exact.String()}, Audience: f.Audience,
	})
	return q
}

// Quantity is the value of a figure worked out before.
func (t *Table) Quantity(id string) quantity.Quantity {
	f, ok := t.Find(id)
	if !ok {
		if t.err == nil {
			t.err = fmt.Errorf("figure %s is not in the table", id)
		}
		return quantity.Quantity{}
	}
	d, err := decimal.NewFromString(f.Value)
	if err == nil {
		var q quantity.Quantity
		if q, err = quantity.Of(d, f.Unit); err == nil {
			return q
		}
	}
	if t.err == nil {
		t.err = fmt.Errorf("figure %s: %w", id, err)
	}
	return quantity.Quantity{}
}
