package tally

import (
	"fmt"

	"ribband/takeoff/timber"

	"github.com/shopspring/decimal"
)

// compare holds what the supplier states against the orders of rounding.
func (l list) compare(a *Answer) {
	if l.stated.IsZero() {
		return
	}
	s := Stated{BoardFeet: l.stated, Difference: l.stated.Sub(a.BoardFeet)}
	for _, o := range a.Orders {
		if o.BoardFeet.Equal(l.stated) {
			s.Like = o.Name
			break
		}
	}
	switch {
	case s.Difference.IsZero():
		s.Why = "The supplier's footage is the rule's."
	case s.Like != "":
		s.Why = "The supplier's footage is not the rule's, but what another order of rounding comes to: ask by which rule the pack was tallied."
	default:
		s.Why = "No order of rounding looked at gives the supplier's footage: have the pack tallied again, board by board."
	}
	a.Stated = &s
}

// dry tells what the footage is in the other state.
func (l list) dry(a *Answer) {
	low, high := one.Sub(timber.DryingLossHigh), one.Sub(timber.DryingLossLow)
	d := Drying{Measured: l.Measured, Source: "range of the trade: 3 to 8 per cent or more by a trade article of 1993; a rough mill's 6 to 7 (Woodworking Network, undated) lies within"}
	if l.Measured == Green {
		d.Tally, d.OtherLow, d.OtherHigh = "gross", a.BoardFeet.Mul(low).Round(0), a.BoardFeet.Mul(high).Round(0)
		d.Why = fmt.Sprintf("This is a gross tally: measured before drying, it shrinks to about %s when the same boards are measured dry. Say in the quote which of the two is paid for.", l.span(a, low, high))
	} else {
		d.Tally, d.OtherLow, d.OtherHigh = "net", a.BoardFeet.DivRound(high, 0), a.BoardFeet.DivRound(low, 0)
		d.Why = fmt.Sprintf("This is a net tally: the boards were measured dry. Measured green they would have been about %s; a price by gross tally is a price for that much.", l.span(a, one.DivRound(high, 6), one.DivRound(low, 6)))
	}
	a.Drying = d
}

// span is the list between two factors, in the unit that it is counted in.
func (l list) span(a *Answer, low, high decimal.Decimal) string {
	if l.Rule == CubicMetre {
		return fmt.Sprintf("%s to %s m3", a.M3.Mul(low).Round(3), a.M3.Mul(high).Round(3))
	}
	return fmt.Sprintf("%s to %s board feet", a.BoardFeet.Mul(low).Round(0), a.BoardFeet.Mul(high).Round(0))
}

// floor tells what the grade promises.
func (l list) floor(a *Answer) {
	if l.grade == nil {
		return
	}
	g := l.grade
	out := Floor{Grade: g.Name, Cutting: g.Cutting, Source: "grade chart of Hood Distribution, undated; FAS also in the 2007 rules, par. 37, as quoted on a forestry forum"}
	var faces int64
	for i, r := range l.rows {
		b := r.board()
		if b.Width.LessThan(decimal.NewFromInt(int64(g.BoardWidth))) || b.Length.LessThan(decimal.NewFromInt(int64(g.BoardLength))) {
			out.TooSmall = append(out.TooSmall, i)
		}
		faces += *a.Rows[i].Face
	}
	out.Clear = g.ClearUnits(faces)
	if faces > 0 {
		out.ClearPct = decimal.NewFromInt(int64(g.Units*100)).DivRound(twelve, 12).RoundFloor(1)
	}
	out.Why = fmt.Sprintf("At least %d of %d twelfths of these faces are clear on the poorer side, in pieces of %s and more. That is a floor for the merchant, not what boat parts come to: never take it for a waste factor, and never put it on top of one.", out.Clear, faces*12, g.Cutting)
	if g.Inferred {
		out.Why += " The figure is that of the better face's rule."
	}
	a.Grade = &out
}
