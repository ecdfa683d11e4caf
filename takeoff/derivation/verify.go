package derivation

import (
	"fmt"

	"github.com/shopspring/decimal"
)

// Finder looks figures up by id; a Table is one.
type Finder interface {
	Find(id string) (Figure, bool)
}

// Verify recomputes a figure from what it shows and nothing else: the formula of the register, the inputs, the
// factors, the rounding. An input taken from another figure must be that figure's value. A measured figure is held
// to its rounding alone, since it was read off the geometry.
func Verify(f Figure, others Finder) error {
	formula, ok := Lookup(f.Formula)
	if !ok {
		return fmt.Errorf("%s: formula %s is not in the register", f.ID, f.Formula)
	}
	for _, in := range f.Inputs {
		if in.Figure == "" {
			continue
		}
		from, ok := others.Find(in.Figure)
		if !ok || from.Value != in.Value || from.Unit != in.Unit {
			return fmt.Errorf("%s: input %s shows %s %s, figure %s is %s %s", f.ID, in.Symbol, in.Value, in.Unit, in.Figure, from.Value, from.Unit)
		}
	}
	exact, err := decimal.NewFromString(f.Rounding.From)
	if err != nil {
		return fmt.Errorf("%s: rounded from %q: %w", f.ID, f.Rounding.From, err)
	}
	if !formula.Measured() {
		again, err := formula.Compute(f.Inputs, f.Factors)
		if err != nil {
			return fmt.Errorf("%s: %w", f.ID, err)
		}
		if !again.Equal(exact) {
			return fmt.Errorf("%s: shows %s before rounding, its formula gives %s", f.ID, exact, again)
		}
	}
	if got := f.Rounding.Mode.apply(exact, f.Rounding.Places).StringFixed(f.Rounding.Places); got != f.Value {
		return fmt.Errorf("%s: shows %s, rounding gives %s", f.ID, f.Value, got)
	}
	return nil
}

// Index makes a list of figures findable by id.
func Index(figures []Figure) Finder {
	t := NewTable()
	for i, f := range figures {
		t.at[f.ID] = i
	}
	t.figures = figures
	return t
}
