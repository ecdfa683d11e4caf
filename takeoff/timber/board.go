package timber

import (
	"fmt"

	"github.com/shopspring/decimal"
)

// Board is one board as it is tallied: thickness and width in inches, length in feet.
type Board struct{ Thickness, Width, Length decimal.Decimal }

// BoardError: a board that cannot be tallied, with what would be right.
type BoardError struct{ Detail, Fix string }

func (e *BoardError) Error() string { return e.Detail + ": " + e.Fix }

var (
	twelve = decimal.NewFromInt(12)
	half   = decimal.RequireFromString("0.5")
	one    = decimal.NewFromInt(1)
)

// BoardFootM3 is a board foot in cubic metres: 144 in3, exactly.
var BoardFootM3 = decimal.RequireFromString("0.002359737216")

// BoardFeet is exact board measure, thickness x width x length / 12, with no tally's rounding; to eight places where the
// twelfth does not end.
func (b Board) BoardFeet() decimal.Decimal {
	return b.Thickness.Mul(b.Width).Mul(b.Length).DivRound(twelve, 8)
}

// CubicMetres of so many board feet, exact.
func CubicMetres(boardFeet decimal.Decimal) decimal.Decimal { return boardFeet.Mul(BoardFootM3) }

// BoardFeetOf cubic metres, to eight places.
func BoardFeetOf(m3 decimal.Decimal) decimal.Decimal { return m3.DivRound(BoardFootM3, 8) }

// MetricBoard is one board measured in millimetres, as metric stock is sold: by the cubic metre.
type MetricBoard struct{ Thickness, Width, Length decimal.Decimal }

// CubicMetres of the board, exact; a *BoardError where a side is not above nothing.
func (b MetricBoard) CubicMetres() (decimal.Decimal, error) {
	for _, side := range []struct {
		name string
		mm   decimal.Decimal
	}{{"thickness", b.Thickness}, {"width", b.Width}, {"length", b.Length}} {
		if side.mm.Sign() <= 0 {
			return decimal.Zero, &BoardError{fmt.Sprintf("the %s of the board is %s mm", side.name, side.mm), "a length above 0"}
		}
	}
	return b.Thickness.Mul(b.Width).Mul(b.Length).Shift(-9), nil
}

// Tie says what a surface measure of exactly half a foot becomes.
type Tie string

// A half counts up, down, or up and down by turns from board to board, up first. That the grading rule has them alternate
// is from memory; it is not in any page seen, so a yard says which.
const (
	TieUp        Tie = "up"
	TieDown      Tie = "down"
	TieAlternate Tie = "alternate"
)

// Known reports whether t is one of the ties above.
func (t Tie) Known() bool { return t == TieUp || t == TieDown || t == TieAlternate }

// Lengths that rough hardwood is sold in: whole feet, from 4 to 16.
const shortest, longest = 4, 16

// StandardLength is the length by which hardwood is tallied, feet: the lower whole foot, from 4 to 16. A *BoardError below
// and above them.
func StandardLength(feet decimal.Decimal) (decimal.Decimal, error) {
	whole := feet.Floor()
	if whole.LessThan(decimal.NewFromInt(shortest)) || whole.GreaterThan(decimal.NewFromInt(longest)) {
		return decimal.Zero, &BoardError{fmt.Sprintf("a board %s ft long is not one of the standard lengths", feet), "hardwood from 4 to 16 ft long, tallied by the lower whole foot"}
	}
	return whole, nil
}

// SurfaceMeasure is a board's face in whole square feet: width with its fractions x standard length / 12, rounded to the
// nearest; ties counts the halves so far, for those that alternate.
//
// Sources: the grading rules of the National Hardwood Lumber Association, as restated in its measuring guide and by
// Goodwood's terminology page, both undated.
func (b Board) SurfaceMeasure(tie Tie, ties *int) (int64, error) {
	if !tie.Known() {
		return 0, &BoardError{fmt.Sprintf("the rule %q for half a foot is not known", string(tie)), "one of up, down, alternate"}
	}
	if b.Width.Sign() <= 0 {
		return 0, &BoardError{fmt.Sprintf("the width of the board is %s in", b.Width), "a width above 0"}
	}
	length, err := StandardLength(b.Length)
	if err != nil {
		return 0, err
	}
	twelfths := b.Width.Mul(length)
	whole := twelfths.Div(twelve).Floor()
	rest := twelfths.Sub(whole.Mul(twelve)) // of twelve, exact
	up := false
	switch rest.Cmp(twelve.Mul(half)) {
	case 1:
		up = true
	case 0:
		up = tie == TieUp || tie == TieAlternate && *ties%2 == 0
		*ties++
	}
	if up {
		whole = whole.Add(one)
	}
	return whole.IntPart(), nil
}

// Faced is the boards of one nominal thickness in a tally: Thickness in inches as it counts, an inch at least; Face the sum of
// their surface measures; Feet the two multiplied, before and after rounding.
type Faced struct {
	Thickness decimal.Decimal
	Boards    int
	Face      int64
	Exact     decimal.Decimal
	Feet      int64
}

// Tally is the board feet by which a pack of rough hardwood is sold: the surface measures of all boards of one nominal
// thickness are added, multiplied by that thickness (an inch at least), and rounded to the nearest foot; then the
// thicknesses are added. Halves in that last step go up.
func Tally(boards []Board, tie Tie) (int64, error) {
	all, err := TallyByThickness(boards, tie)
	var total int64
	for _, f := range all {
		total += f.Feet
	}
	return total, err
}

// TallyByThickness is Tally's sum thickness by thickness, in the order in which they first come.
func TallyByThickness(boards []Board, tie Tie) ([]Faced, error) {
	var out []Faced
	at := map[string]int{}
	ties := 0
	for i, b := range boards {
		if b.Thickness.Sign() <= 0 {
			return nil, &BoardError{fmt.Sprintf("the thickness of board %d is %s in", i+1, b.Thickness), "a thickness above 0"}
		}
		sm, err := b.SurfaceMeasure(tie, &ties)
		if err != nil {
			return nil, fmt.Errorf("board %d: %w", i+1, err)
		}
		t := decimal.Max(b.Thickness, one)
		k, ok := at[t.String()]
		if !ok {
			k = len(out)
			at[t.String()], out = k, append(out, Faced{Thickness: t})
		}
		out[k].Boards++
		out[k].Face += sm
	}
	for i := range out {
		f := &out[i]
		f.Exact = decimal.NewFromInt(f.Face).Mul(f.Thickness)
		f.Feet = f.Exact.Round(0).IntPart()
	}
	return out, nil
}
