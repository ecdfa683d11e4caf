package takeoff

import (
	"math"

	"ribband/takeoff/bill"
	"ribband/takeoff/boat"
	"ribband/takeoff/derivation"
	"ribband/takeoff/frame"
	"ribband/takeoff/hull"
	"ribband/takeoff/quantity"
	"ribband/takeoff/strap"

	"github.com/shopspring/decimal"
)

// strapped puts the strap inside a frame on the bill, whatever else is done to the frame.
func (b Basis) strapped(s stand, c frame.Choice, t *derivation.Table, out *bill.Bill) error {
	if c.Strap == "" {
		return nil
	}
	m := s.frame.Member()
	rule, ok := b.Rules.Strap(c.Strap)
	if !ok {
		out.Faults = append(out.Faults, s.refused("no_such_strap", "the yard's rules have no strap named "+c.Strap, "Name a strap of the rules, or enter it there.").faults...)
		return nil
	}
	f := strap.Frame{Member: m, Remedy: c.Remedy, High: decimal.NewFromInt(1), Source: s.shape.RangeSource()}
	if f.Remedy == "" {
		f.Remedy = boat.Leave
	}
	if high, err := quantity.Decimal(s.shape.GirthHigh, quantity.Ratio); err == nil {
		f.High = high
	}
	if f.Inner, ok = s.inner(); !ok {
		f.Inner, f.Faying = s.shape.Girth, true
	}
	lines, measures, err := strap.Take(f, rule, b.Rules, t)
	if err != nil {
		return err
	}
	out.Lines, out.Measures = append(out.Lines, lines...), append(out.Measures, measures...)
	return nil
}

// inner is the length of the frame's inner face, mm; false where its line is not known in a plane.
func (s stand) inner() (float64, bool) {
	if s.target == nil {
		return 0, false
	}
	const looks = 800
	at := func(i int) hull.Point {
		share := float64(i) / looks
		return s.target.At(s.target.Share(share)).Inboard(s.frame.MouldedAt(share))
	}
	sum, last := 0.0, at(0)
	for i := 1; i <= looks; i++ {
		p := at(i)
		sum += math.Hypot(p.Y-last.Y, p.Z-last.Z)
		last = p
	}
	return sum, true
}
