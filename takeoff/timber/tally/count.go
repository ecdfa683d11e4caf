package tally

import (
	"ribband/takeoff/timber"

	"github.com/shopspring/decimal"
)

var (
	twelve = decimal.NewFromInt(12)
	one    = decimal.NewFromInt(1)
)

// Places that sizes, volumes and weights are told to; sums are of exact figures.
const (
	sizePlaces   = 4
	volumePlaces = 6
	weightPlaces = 1
)

// board is one of a row's, in inches and feet.
func (r row) board() timber.Board {
	return timber.Board{Thickness: r.thickness.inches(), Width: r.width.inches(), Length: r.length.feet()}
}

// m3 of one board at the sizes as written, exact.
func (r row) m3() decimal.Decimal {
	return r.thickness.mm.Mul(r.width.mm).Mul(r.length.mm).Shift(-9)
}

// each is every board of the list.
func (l list) each() []timber.Board {
	var out []timber.Board
	for _, r := range l.rows {
		b := r.board()
		for range r.count {
			out = append(out, b)
		}
	}
	return out
}

// lines fills in the rows, and adds up the volume.
func (l list) lines(a *Answer) {
	volume := decimal.Zero
	for _, r := range l.rows {
		b, n := r.board(), decimal.NewFromInt(r.count)
		m3 := r.m3().Mul(n)
		volume = volume.Add(m3)
		a.Boards += r.count
		x := Line{Count: r.count, ThicknessIn: b.Thickness.Round(sizePlaces), WidthIn: b.Width.Round(sizePlaces), LengthFt: b.Length.Round(sizePlaces),
			BoardFeet: timber.BoardFeetOf(m3).Round(sizePlaces), M3: m3.Round(volumePlaces)}
		if s, ok := l.actual(b); ok {
			x.Actual = &s
		}
		a.Rows = append(a.Rows, x)
	}
	a.M3 = volume.Round(volumePlaces)
}

// faces counts rough hardwood by the rule, thickness by thickness.
func (l list) faces(a *Answer) error {
	a.HalfFoot, a.HalfFootSource = l.HalfFoot, l.halfFrom
	ties := 0
	for i, r := range l.rows {
		b := r.board()
		length, err := timber.StandardLength(b.Length)
		if err != nil {
			return err
		}
		face := b.Width.Mul(length).DivRound(twelve, sizePlaces)
		var sum int64
		for range r.count {
			sm, err := b.SurfaceMeasure(l.HalfFoot, &ties)
			if err != nil {
				return err
			}
			sum += sm
		}
		x := &a.Rows[i]
		x.CountedLengthFt, x.ExactFace, x.Face = &length, &face, &sum
	}
	all, err := timber.TallyByThickness(l.each(), l.HalfFoot)
	if err != nil {
		return err
	}
	for _, f := range all {
		t := Thickness{NominalIn: f.Thickness.Round(sizePlaces), Boards: f.Boards, Face: f.Face, Exact: f.Exact.Round(sizePlaces), BoardFeet: f.Feet}
		if q, ok := timber.SurfacedOf(f.Thickness); ok {
			t.SurfacedTwoSides, t.SurfacedOneSide = q.S2S, q.S1S
		}
		if s, ok := timber.KilnDriedScant(f.Thickness); ok {
			least := f.Thickness.Sub(s.Thickness).Round(sizePlaces)
			t.LeastKilnDriedIn = &least
		}
		a.Thicknesses = append(a.Thicknesses, t)
		a.BoardFeet = a.BoardFeet.Add(decimal.NewFromInt(f.Feet))
	}
	return l.orders(a)
}

// orders are the other ways in which the same boards are rounded.
func (l list) orders(a *Answer) error {
	add := func(name, says string, feet decimal.Decimal) {
		a.Orders = append(a.Orders, Order{name, says, feet, feet.Sub(a.BoardFeet)})
	}
	add("faces_by_thickness", "the rule: faces rounded, added by thickness, times the thickness, rounded", a.BoardFeet)

	whole := l.each()
	for i := range whole {
		whole[i].Width = l.wholeInch(whole[i].Width)
	}
	// a strip under half an inch wide has no width left, and no face
	kept := whole[:0]
	for _, b := range whole {
		if b.Width.IsPositive() {
			kept = append(kept, b)
		}
	}
	first, err := timber.Tally(kept, l.HalfFoot)
	if err != nil {
		return err
	}
	add("widths_first", "widths rounded to the whole inch before the faces are taken", decimal.NewFromInt(first))

	each, ties := decimal.Zero, 0
	exact := decimal.Zero
	for _, b := range l.each() {
		sm, err := b.SurfaceMeasure(l.HalfFoot, &ties)
		if err != nil {
			return err
		}
		each = each.Add(decimal.NewFromInt(sm).Mul(decimal.Max(b.Thickness, one)).Round(0))
		exact = exact.Add(b.BoardFeet())
	}
	add("board_by_board", "every board's face rounded, times its thickness, rounded board by board", each)
	add("no_rounding", "thickness x width x length / 12 at the lengths as written, nothing rounded", exact.Round(2))
	return nil
}

// wholeInch rounds a width to the inch; half an inch goes up, or down where half a foot does.
func (l list) wholeInch(width decimal.Decimal) decimal.Decimal {
	if l.HalfFoot == timber.TieDown {
		return width.Sub(decimal.New(5, -1)).Ceil()
	}
	return width.Add(decimal.New(5, -1)).Floor()
}

// actual is what a board of nominal softwood measures.
func (l list) actual(b timber.Board) (Actual, bool) {
	if l.Rule != NominalSoftwood {
		return Actual{}, false
	}
	of := func(nominal decimal.Decimal) string {
		s, err := timber.SoftwoodSize(nominal.String())
		if err != nil {
			return ""
		}
		switch l.Dressed {
		case SurfacedGreen:
			return s.Green
		case RoughDry:
			return s.RoughDry
		}
		return s.Dry
	}
	out := Actual{of(b.Thickness), of(b.Width)}
	return out, out.Thickness != "" && out.Width != ""
}
