package glue

import (
	"fmt"
	"math"

	"ribband/takeoff/quantity"

	"github.com/shopspring/decimal"
)

// Times is how long a glue works and holds, as written on its pots: hours at AtC degrees Celsius. Every ten degrees
// warmer divide them by Factor, and ten degrees cooler multiply them, between LowC and HighC.
//
// A factor of 2 in 10 C (18 F) is what several makers of epoxy state, without a standard; by hardener it lies between
// 1.5 and 2.5. A pot stated to work 1 h works so in a thin layer: more mass in the pot is quicker.
type Times struct {
	WorkingH decimal.Decimal // from the first mixing to the last clamp
	ClampH   decimal.Decimal // until clamps may come off
	LoadH    decimal.Decimal // until the piece may carry load
	AtC      decimal.Decimal
	Factor   decimal.Decimal
	LowC     decimal.Decimal
	HighC    decimal.Decimal
}

// OutsideError: a shop, or a hull, warmer or cooler than the times of the glue are stated for.
type OutsideError struct {
	C, LowC, HighC decimal.Decimal
	Where          Place
}

func (e *OutsideError) Error() string {
	return fmt.Sprintf("the %s is at %s C, and the times of this glue are known from %s to %s C", e.Where.word(), e.C, e.LowC, e.HighC)
}

// Fix says what would do.
func (e *OutsideError) Fix() string {
	return fmt.Sprintf("warm or cool the %s to between %s and %s C, or take a glue that is made for %s C", e.Where.word(), e.LowC, e.HighC, e.C)
}

// InputError: a value that nothing can be worked out from. What names it.
type InputError struct{ What, Detail, Fix string }

func (e *InputError) Error() string { return e.What + ": " + e.Detail }

// InShop is Times as they are at one temperature, in whole seconds: Working rounded down, Clamp and Load up.
type InShop struct{ Working, Clamp, Load int64 }

// longest, h: a glue that takes a year is no glue, and its seconds still fit every sum made here.
const longest = 8766

// At is the times in a shop at c degrees Celsius. An *InputError for a glue without times, an *OutsideError outside of
// the range that they are stated for.
func (t Times) At(c decimal.Decimal) (InShop, error) {
	if err := t.Check(); err != nil {
		return InShop{}, err
	}
	if c.LessThan(t.LowC) || c.GreaterThan(t.HighC) {
		return InShop{}, &OutsideError{C: c, LowC: t.LowC, HighC: t.HighC}
	}
	by := t.stretch(c)
	working, err := quantity.Decimal(t.WorkingH.InexactFloat64()*3600*by, quantity.Each)
	if err != nil {
		return InShop{}, err
	}
	clamp, err := quantity.CeilCount(t.ClampH.InexactFloat64() * 3600 * by)
	if err != nil {
		return InShop{}, err
	}
	load, err := quantity.CeilCount(t.LoadH.InexactFloat64() * 3600 * by)
	return InShop{working.Floor().IntPart(), clamp, load}, err
}

// Coolest is the warmest shop, whole degrees Celsius, in which the glue works for at least this many seconds; false
// where that is outside of its range.
func (t Times) Coolest(working int64) (decimal.Decimal, bool) {
	if t.Check() != nil || working <= 0 || t.Factor.Equal(one) {
		return decimal.Zero, false
	}
	tens := math.Log(float64(working)/(t.WorkingH.InexactFloat64()*3600)) / math.Log(t.Factor.InexactFloat64())
	c, err := quantity.Decimal(t.AtC.InexactFloat64()-10*tens, quantity.Each)
	if err != nil {
		return decimal.Zero, false
	}
	c = c.Floor()
	if c.GreaterThan(t.HighC) {
		c = t.HighC
	}
	return c, c.GreaterThanOrEqual(t.LowC)
}

// stretch is by how much every time is longer at c than at AtC.
func (t Times) stretch(c decimal.Decimal) float64 {
	return math.Pow(t.Factor.InexactFloat64(), t.AtC.Sub(c).InexactFloat64()/10)
}

// Check is an *InputError of the first value that no glue has.
func (t Times) Check() error {
	for _, h := range []struct {
		what string
		of   decimal.Decimal
	}{{"working_h", t.WorkingH}, {"clamp_h", t.ClampH}, {"load_h", t.LoadH}} {
		if h.of.Sign() <= 0 || h.of.GreaterThan(decimal.NewFromInt(longest)) {
			return &InputError{h.what, fmt.Sprintf("%s hours are no time that a glue takes", h.of), "hours above 0 and at most 8766"}
		}
	}
	switch {
	case t.Factor.LessThan(one) || t.Factor.GreaterThan(decimal.NewFromInt(10)):
		return &InputError{"factor_10c", fmt.Sprintf("a factor of %s in ten degrees is no glue's", t.Factor), "from 1 to 10; 2 is usual"}
	case t.LowC.GreaterThan(t.AtC) || t.HighC.LessThan(t.AtC) || t.HighC.Sub(t.LowC).GreaterThan(decimal.NewFromInt(100)):
		return &InputError{"low_c", fmt.Sprintf("%s C does not lie between %s and %s C, or they are more than 100 apart", t.AtC, t.LowC, t.HighC), "a range round the temperature that the times are stated at"}
	}
	return nil
}

var one = decimal.NewFromInt(1)
