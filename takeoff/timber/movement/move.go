package movement

import (
	"errors"
	"fmt"

	"ribband/takeoff/document"
	"ribband/takeoff/notation"
	"ribband/takeoff/timber"

	"github.com/shopspring/decimal"
)

// Places that millimetres and shares are told to.
const (
	mmPlaces    = 3
	sharePlaces = 3
)

const (
	byCoefficient = "change = size x C x (to - from), C = (S/F) / (1 - S (F - 10)/F), S the shrinkage from green to oven-dry as a share, F the moisture at which shrinking begins, per cent"
	byTwoLimits   = "change = size x (to - from) / (3000/S - 30 + from), S the shrinkage from green to oven-dry, per cent"
	coefSource    = "Wood Handbook, FPL-GTR-190, USDA Forest Products Laboratory, 2010, ch. 13, equation 13-2; C as worked out from the shrinkage agrees with its Table 13-5"
	limitsSource  = "Wood Handbook, FPL-GTR-190, USDA Forest Products Laboratory, 2010, ch. 13, equation 13-3: its limits were seen, its form is from memory"
)

// Move reads a question and answers it. All that is wrong with it comes back together as document.Faults.
func (d Document) Move(woods timber.Catalogue) (Answer, error) {
	q, faults := d.read(woods)
	if err := faults.Err(); err != nil {
		return Answer{}, err
	}
	a := Answer{Species: q.wood.Code, Sawn: d.Sawn, FromPct: q.from, ToPct: q.to}
	width, err := q.side(q.width, q.widthGrain)
	if err != nil {
		return Answer{}, missing(err)
	}
	a.Width = width
	if d.Thickness != "" {
		t, err := q.side(q.thickness, q.throughGrain)
		if err != nil {
			return Answer{}, missing(err)
		}
		a.Thickness = &t
	}
	if d.Seam != nil {
		if a.Seam, err = q.seam(); err != nil {
			return Answer{}, missing(err)
		}
	}
	q.warn(&a)
	return a, nil
}

// missing puts a value that the wood lacks where the wood is named.
func missing(err error) error {
	var m *timber.MissingValueError
	if !errors.As(err, &m) {
		return err
	}
	var f document.Faults
	f.Add("/species", "that value in the yard's species with its source, or a wood that has it", "species %s has no %s", m.Species, m.Value)
	return f
}

// side is how one size of the board moves.
func (q question) side(mm decimal.Decimal, g timber.Grain) (Side, error) {
	change, err := q.wood.Movement(mm, g, q.from, q.to)
	if err != nil {
		return Side{}, err
	}
	v := q.wood.ShrinkageT
	if g == timber.Radial {
		v = q.wood.ShrinkageR
	}
	shrinkage, err := decimal.NewFromString(v.Number)
	if err != nil {
		return Side{}, err
	}
	after := mm.Add(change)
	s := Side{MM: mm, ChangeMM: change.Round(mmPlaces), ChangePct: change.Shift(2).DivRound(mm, sharePlaces), After: after.Round(mmPlaces), Grain: g, Shrinkage: shrinkage, ValueSource: v.Source, ValueMark: v.Mark,
		Change: q.written(change), AfterWritten: q.written(after)}
	low, high, linear := timber.MovementHolds(q.from, q.to)
	s.HoldsFrom, s.HoldsTo = low, high
	if s.Formula, s.Source = byTwoLimits, limitsSource; linear {
		s.Formula, s.Source = byCoefficient, coefSource
		c, err := q.wood.Coefficient(g)
		if err != nil {
			return Side{}, err
		}
		c = c.Round(5)
		s.Coefficient = &c
	}
	return s, nil
}

// Divisions that a movement is written to: a thousandth of an inch or of a foot's inch, a hundredth of a millimetre.
const (
	inchPlaces   = 3
	metricPlaces = 2
)

// written is a length in the question's notation. A movement is finer than a rule is divided, so inches are decimal.
func (q question) written(mm decimal.Decimal) string {
	switch q.Notation {
	case notation.Millimetres:
		return mm.Round(metricPlaces).String() + " mm"
	case notation.Metres:
		return mm.Shift(-3).Round(metricPlaces+3).String() + " m"
	}
	return mm.DivRound(decimal.RequireFromString("25.4"), inchPlaces).String() + " in"
}

// seam between two planks: half of each moves into it, or out of it.
func (q question) seam() (*Seam, error) {
	change, err := q.wood.Movement(q.width, q.widthGrain, q.from, q.to)
	if err != nil {
		return nil, err
	}
	after := q.opening.Sub(change)
	s := Seam{OpeningMM: q.opening, AfterMM: decimal.Max(after, decimal.Zero).Round(mmPlaces), CrushMM: decimal.Max(after.Neg(), decimal.Zero).Round(mmPlaces), Planks: q.Seam.Planks,
		Source: "computed from the movement of one plank; that fastenings hold a plank's middle where it is: common practice, no source"}
	s.CrushPct = s.CrushMM.Shift(2).DivRound(q.width, sharePlaces)
	s.After = q.written(s.AfterMM)
	if q.Seam.Planks > 0 {
		all := change.Mul(decimal.NewFromInt(q.Seam.Planks)).Round(mmPlaces)
		s.AllMM, s.All = &all, q.written(all)
	}
	switch {
	case s.CrushMM.IsPositive():
		s.Why = fmt.Sprintf("The seam closes and the planks want %s more room, %s %% of a plank's width: they press on each other, the edges crush or the frames and fastenings give. Wood that was crushed stays smaller, so the seam is wider when she dries again.", q.written(s.CrushMM), s.CrushPct)
	case change.IsPositive():
		s.Why = fmt.Sprintf("The seam closes to %s; what is driven into it at the first moisture is squeezed by as much.", s.After)
	case change.IsNegative():
		s.Why = fmt.Sprintf("The seam opens to %s: caulking that filled it at the first moisture no longer does.", s.After)
	default:
		s.Why = "The seam stays as it is."
	}
	return &s, nil
}

// warn adds what to know beside the figures.
func (q question) warn(a *Answer) {
	add := func(source, text string, args ...any) {
		a.Cautions = append(a.Cautions, Caution{fmt.Sprintf(text, args...), source})
	}
	if a.Width.ValueMark == timber.FromMemory {
		add(a.Width.ValueSource, "The shrinkage of %s is from memory: check it before work rests on it.", q.wood.Name)
	}
	if a.Width.Coefficient == nil && q.wood.ShrinksFrom.Number != "" {
		add(q.wood.ShrinksFrom.Source, "%s begins to shrink at %s %%, and the formula beyond 6 to 14 %% takes 30: it tells more movement above that than there is.", q.wood.Name, q.wood.ShrinksFrom.Number)
	}
	add("common practice, no source", "A board between flatsawn and quartersawn moves between the two; paint, oil and the sea on one face slow it and cup it.")
}
