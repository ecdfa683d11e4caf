package derivation

import (
	"fmt"
	"sort"

	"ribband/takeoff/quantity"

	"github.com/shopspring/decimal"
)

// DivisionPlaces is how many places a quotient keeps before a figure rounds it.
const DivisionPlaces = 16

// Formula is one entry of the register: what it says, what its letters mean, where it comes from, and the
// arithmetic itself. A figure with a Work function is exact and can be recomputed from what it shows; one without
// was read off the geometry.
type Formula struct {
	ID string `json:"id"`
	// Text in the book's symbols.
	Text   string            `json:"text"`
	Legend map[string]string `json:"legend"`
	Source string            `json:"source"`
	Unit   quantity.Unit     `json:"unit"`
	Mode   Mode              `json:"rounding"`
	// Places to round to where that is fewer than the unit keeps; 0 for the unit's own.
	Places int32 `json:"places,omitempty"`
	// Audience may open the figures of this formula.
	Audience Audience `json:"audience"`
	// Work is the arithmetic on exact decimals; nil for what is read off the geometry.
	Work func(Terms) (decimal.Decimal, error) `json:"-"`
}

func (f Formula) places() int32 {
	if f.Places > 0 {
		return f.Places
	}
	return f.Unit.Places()
}

// Measured reports a formula whose figures are read off the geometry and cannot be recomputed from decimals.
func (f Formula) Measured() bool { return f.Work == nil }

// Terms are the values of a formula's symbols. A symbol that stands several times (losses, thicknesses) gives a list.
type Terms map[string][]decimal.Decimal

// One is the value of a symbol that must stand exactly once.
func (v Terms) One(symbol string) (decimal.Decimal, error) {
	if len(v[symbol]) != 1 {
		return decimal.Zero, fmt.Errorf("symbol %s stands %d times, once is needed", symbol, len(v[symbol]))
	}
	return v[symbol][0], nil
}

// Some are the values of several symbols, each standing exactly once.
func (v Terms) Some(symbols ...string) ([]decimal.Decimal, error) {
	out := make([]decimal.Decimal, len(symbols))
	for i, s := range symbols {
		d, err := v.One(s)
		if err != nil {
			return nil, err
		}
		out[i] = d
	}
	return out, nil
}

// Compute works the formula out, unrounded, from the very inputs and factors that a figure shows.
func (f Formula) Compute(inputs []Input, factors []Factor) (decimal.Decimal, error) {
	if f.Work == nil {
		return decimal.Zero, fmt.Errorf("formula %s is measured, not computed", f.ID)
	}
	terms := Terms{}
	put := func(symbol, value string) error {
		if _, ok := f.Legend[symbol]; !ok {
			return fmt.Errorf("formula %s has no symbol %s", f.ID, symbol)
		}
		d, err := decimal.NewFromString(value)
		if err != nil {
			return fmt.Errorf("symbol %s: %w", symbol, err)
		}
		terms[symbol] = append(terms[symbol], d)
		return nil
	}
	for _, in := range inputs {
		if err := put(in.Symbol, in.Value); err != nil {
			return decimal.Zero, err
		}
	}
	for _, fa := range factors {
		if err := put(fa.Symbol, fa.Value); err != nil {
			return decimal.Zero, err
		}
	}
	return f.Work(terms)
}

var register = map[string]Formula{}

// enter is called from the register's own files while the program starts; a formula entered twice is a mistake of
// the programmer.
func enter(formulas ...Formula) bool {
	for _, f := range formulas {
		if _, twice := register[f.ID]; twice {
			panic("formula entered twice: " + f.ID)
		}
		register[f.ID] = f
	}
	return true
}

// Formulas is the whole register, sorted by id.
func Formulas() []Formula {
	out := make([]Formula, 0, len(register))
	for _, f := range register {
		out = append(out, f)
	}
	sort.Slice(out, func(i, j int) bool { return out[i].ID < out[j].ID })
	return out
}

// Lookup is the formula with this id.
func Lookup(id string) (Formula, bool) { f, ok := register[id]; return f, ok }
