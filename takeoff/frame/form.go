package frame

import (
	"fmt"
	"math"
	"sort"

	"ribband/takeoff/bend"
	"ribband/takeoff/derivation"
	"ribband/takeoff/hull"
	"ribband/takeoff/quantity"
	"ribband/takeoff/rules"

	"github.com/shopspring/decimal"
)

// Stack is the laminates that are glued up on a form.
type Stack struct {
	Species   string
	Thickness decimal.Decimal // mm
	Laminates int64
	// Bevel is how much deeper than moulded they have to be for the bevel, mm.
	Bevel decimal.Decimal
}

// deep is how deep they are together, mm.
func (s Stack) deep() decimal.Decimal { return s.Thickness.Mul(decimal.NewFromInt(s.Laminates)) }

// FormAsked is what is asked of a form.
type FormAsked struct {
	Face bend.Face
	// Pitch of its ordinates, mm.
	Pitch float64
	// From and To are mm along the girth, both 0 for all of it; Marks are places along it to be told on the form.
	From, To float64
	Marks    []float64
}

// Form of a stack. Straight says that none is needed: the frame can be cut out of the stack glued up straight, of whose
// depth so much, mm, is over what the frame is moulded with its bevel.
type Form struct {
	bend.Form
	Straight bool
	Over     float64
}

// FormError: a frame for which no form can be drawn, with what would change that.
type FormError struct{ Detail, Fix string }

func (e *FormError) Error() string { return e.Detail }

// NewForm is the form on which laminates are glued up that follow a frame whose section is s: from rabbet to sheer or a
// stretch of that. A yard's own springback for the wood and thickness goes before that by the number of laminates, which of a
// frame that tapers are fewer from each place on where one runs out. Errors are *FormError.
func NewForm(f Frame, s *hull.Section, stack Stack, r rules.Rules, on FormAsked) (Form, error) {
	faying := Faying(s)
	// the line read in steps is as long as the section's girth but for its last digits
	scale := faying.Length / s.Girth.MM
	from, to := on.From*scale, on.To*scale
	if on.To == 0 {
		from, to = 0, faying.Length
	} else {
		f = f.parallel()
	}
	for _, k := range s.Knuckles() {
		at := k.S * scale
		if turn := math.Abs(k.Turn) * 180 / math.Pi; turn > noCorner && from < at && at < to {
			return Form{}, &FormError{fmt.Sprintf("at the knuckle %s the section turns by %.1f degrees, and laminates in one length cannot follow a corner", k.Name, turn),
				"the frame in pieces that meet at the knuckle, or sawn"}
		}
	}
	laid := bend.Laid{Face: on.Face, Pitch: on.Pitch}
	for _, m := range on.Marks {
		laid.Marks = append(laid.Marks, m*scale-from)
	}
	return newForm(f, faying.Between(from, to), laid, stack, r)
}

// TapedForm is the form of a frame that was taken by a tape: the arc of the chord and rise that were laid over its bilge, from
// one end of the chord to the other. Errors are *FormError.
func TapedForm(f Frame, tape *Tape, stack Stack, r rules.Rules, on FormAsked) (Form, error) {
	c, h := tape.Chord.InexactFloat64(), tape.Rise.InexactFloat64()
	if !(c > 0) || !(h > 0) {
		return Form{}, &FormError{"its tape tells no bend: chord and rise are above 0 where there is one", "the chord and rise over its bilge, or its pattern"}
	}
	radius := RadiusOfChord(c, h)
	// the angle over the chord, more than half a circle where the rise is more than half of it
	arc := bend.Curve{Length: radius * 4 * math.Atan2(2*h, c), Kappa: func(float64) float64 { return 1 / radius }}
	return newForm(f, arc, bend.Laid{Face: on.Face, Pitch: on.Pitch}, stack, r)
}

func newForm(f Frame, faying bend.Curve, laid bend.Laid, stack Stack, r rules.Rules) (Form, error) {
	if stack.Laminates < 2 {
		return Form{}, &FormError{"one piece of this thickness is deep enough, so nothing is glued up on a form", "a thinner laminate, where it is to be laminated"}
	}
	laid.Moulded, laid.MouldedHead, laid.Stack = f.Moulded.InexactFloat64(), f.MouldedHead.InexactFloat64(), stack.deep().InexactFloat64()
	back, err := springback(stack, r)
	if err == nil {
		laid.RunsOut, err = runsOut(f, stack, r, faying.Length)
	}
	if err == nil {
		out := Form{Over: stack.deep().Sub(f.Moulded).Sub(stack.Bevel).InexactFloat64()}
		if out.Form, err = bend.NewForm(faying, laid, back); err == nil {
			out.Straight = quantity.Snap(out.Camber) <= quantity.Snap(out.Over)
			return out, nil
		}
	}
	return Form{}, &FormError{err.Error(), "another pitch or face, at least two laminates, or more points round its bend"}
}

// runsOut is where the laminates of a frame that tapers end along a faying line so long, mm; none where it keeps its depth, or where
// so many would end that all are reckoned to run through.
func runsOut(f Frame, stack Stack, r rules.Rules, length float64) ([]bend.RunOut, error) {
	if f.MouldedHead.Sign() <= 0 {
		return nil, nil
	}
	more := stack.Bevel.Add(r.CleaningUp)
	heel, head := f.Moulded.Add(more), f.MouldedHead.Add(more)
	atHead := bend.Laminates(head, stack.Thickness)
	if stack.Laminates-atHead > mostRunOut {
		return nil, nil
	}
	var out []bend.RunOut
	for n := stack.Laminates - 1; n >= atHead; n-- {
		left := Stack{stack.Species, stack.Thickness, n, stack.Bevel}
		back, err := springback(left, r)
		if err != nil {
			return nil, err
		}
		share := heel.Sub(left.deep()).DivRound(heel.Sub(head), derivation.DivisionPlaces)
		out = append(out, bend.RunOut{From: length * max(0, share.InexactFloat64()), Laminates: n, Stack: left.deep().InexactFloat64(), Share: back.Share})
	}
	return out, nil
}

// springback of a stack: the yard's own where it measured this wood at this thickness.
func springback(s Stack, r rules.Rules) (bend.Springback, error) {
	for _, own := range r.Springback {
		if own.Species != s.Species || !own.Thickness.Equal(s.Thickness) {
			continue
		}
		if own.Moved.Sign() > 0 {
			radius := own.Radius.InexactFloat64()
			trial := bend.Curve{Length: own.Length.InexactFloat64(), Kappa: func(float64) float64 { return 1 / radius }}
			return bend.MeasuredAtHead(trial, own.Moved.InexactFloat64(), own.Source)
		}
		return bend.Measured(own.Share.InexactFloat64(), own.Source)
	}
	return bend.ByCount(s.Laminates)
}

// read is how many steps of the girth fraction each piece of a section is read in: on 2 m of girth every 5 mm.
const read = 400

// pastCorner, mm, is the radius that a frame bends past a corner of up to noCorner degrees with.
const pastCorner = 1000.0

// Faying is a section as a curve by length: its curvature read at close places and straight between them. Corners of no more
// than 3 degrees are bent past with a metre's radius.
func Faying(s *hull.Section) bend.Curve {
	knuckles := s.Knuckles()
	at := []float64{0}
	for _, k := range knuckles {
		at = append(at, k.U)
	}
	at = append(at, 1)
	var along, kappa []float64
	var c bend.Curve
	for i := 0; i+1 < len(at); i++ {
		if i > 0 {
			c.Corners = append(c.Corners, c.Length)
		}
		var before hull.Place
		for j := range read + 1 {
			p := s.At(at[i] + (at[i+1]-at[i])*float64(j)/read)
			if j == read {
				p, _ = s.Either(at[i+1])
			}
			if j > 0 {
				// an arc is longer than its chord by the square of the turn over 24
				chord := math.Hypot(p.Y-before.Y, p.Z-before.Z)
				turn := chord * (p.Kappa + before.Kappa) / 2
				c.Length += chord * (1 + turn*turn/24)
			}
			along, kappa, before = append(along, c.Length), append(kappa, p.Kappa), p
		}
	}
	type bump struct{ from, to, kappa float64 }
	var bumps []bump
	for i, k := range knuckles {
		half := math.Abs(k.Turn) * pastCorner / 2
		b := bump{max(0, c.Corners[i]-half), min(c.Length, c.Corners[i]+half), 0}
		if b.to > b.from {
			b.kappa = k.Turn / (b.to - b.from)
		}
		bumps = append(bumps, b)
	}
	for _, b := range bumps {
		c.Corners = append(c.Corners, b.from, b.to)
	}
	c.Kappa = func(x float64) float64 {
		i := min(max(1, sort.SearchFloat64s(along, x)), len(along)-1)
		k := kappa[i]
		if w := along[i] - along[i-1]; w > 0 {
			k = kappa[i-1] + (kappa[i]-kappa[i-1])*(x-along[i-1])/w
		}
		for _, b := range bumps {
			if b.from <= x && x < b.to {
				k += b.kappa
			}
		}
		return k
	}
	return c
}
