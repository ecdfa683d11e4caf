package takeoff

import (
	"errors"
	"fmt"
	"slices"
	"strings"

	bending "ribband/takeoff/bend"
	"ribband/takeoff/boat"
	"ribband/takeoff/derivation"
	"ribband/takeoff/frame"
	"ribband/takeoff/hull"
	"ribband/takeoff/quantity"

	"github.com/shopspring/decimal"
)

// FormQuestion asks for the form of a frame, or of one piece of it.
type FormQuestion struct {
	Member boat.Member
	// Piece let in, or sister, by its name: "part_1"; empty where there is but one, or the frame is made whole.
	Piece string
	Face  bending.Face
	// Pitch of its ordinates, mm.
	Pitch float64
}

// Form is the form on which a frame's laminates, or a piece's, are glued up, with the laminates that it is for.
type Form struct {
	Member boat.Member
	// Piece is empty for a whole frame. From and To are where it begins and ends, mm along the frame's girth: a part is
	// told with its tapers, from tip to tip. Both are 0 where that is not known.
	Piece    string
	From, To float64
	RestsOn  boat.RestsOn
	frame.Stack
	frame.Form
	// BeyondHeel and BeyondHead are how far the blank runs straight on past the ends, mm: housing, head, trim, and what is
	// allowed for the girth's range. Both are 0 where that is not known.
	BeyondHeel, BeyondHead float64
	// Tapers are where those of a part end at the inner face, as Marks has them in the same order.
	Tapers []string
	// Unknown is what cannot be known of it, and what would tell.
	Unknown []Unknown
}

// Unknown is something that was not measured, and what would tell it.
type Unknown struct {
	Detail string `json:"detail"`
	Fix    string `json:"fix"`
}

// Say whether the form is needed, and why.
func (f Form) Say() string {
	over := max(0, f.Over)
	if f.Straight {
		return fmt.Sprintf("Flat enough to be glued up straight, without a form: its line rises %.1f mm between its ends, and %d laminates are %.1f mm deeper than it is moulded with its bevel, so that it can be cut out of them. The ordinates are those of a form all the same.", f.Camber, f.Laminates, over)
	}
	return fmt.Sprintf("Needed: its line rises %.0f mm between its ends, and %d laminates are only %.1f mm deeper than it is moulded with its bevel.", f.Camber, f.Laminates, over)
}

// Form of one frame, or piece, that the takeoff r of this basis glues up of laminates. Errors are *UnshapedError.
func (b Basis) Form(r Result, q FormQuestion) (Form, error) {
	m := q.Member
	choice, ok := b.Remedies[m]
	if !ok || choice.Remedy != boat.ReplaceLaminated && choice.Remedy != boat.ScarfIn && choice.Remedy != boat.Sister {
		return Form{}, &UnshapedError{m, "the option glues up no new frame there", "a frame that is replaced by laminates, has parts let in or is doubled"}
	}
	of, err := r.pieceOf(m, choice.Remedy, q.Piece)
	if err != nil {
		return Form{}, err
	}
	out := Form{Member: m, Piece: of.name, Stack: frame.Stack{Species: choice.Species, Bevel: of.value("/extra_moulding")}}
	out.Laminates, out.Thickness = of.value("/laminates").IntPart(), of.value("/laminate_thickness")
	f, section, tape, err := b.shaped(m)
	if err != nil {
		return Form{}, err
	}
	asked := frame.FormAsked{Face: q.Face, Pitch: q.Pitch}
	if section == nil {
		err = b.taped(&out, f, tape, asked)
	} else {
		err = b.whole(&out, r, of, f, section, asked)
	}
	var no *frame.FormError
	if errors.As(err, &no) {
		return Form{}, &UnshapedError{m, no.Detail, no.Fix}
	}
	return out, err
}

// whole is the form of a frame's line or of a stretch of it.
func (b Basis) whole(out *Form, r Result, of pieceFigures, f frame.Frame, section *hull.Section, asked frame.FormAsked) error {
	out.RestsOn, out.To = section.RestsOn, section.Girth.MM
	heel, head := b.Rules.Heel, b.Rules.Head
	if of.name != "" {
		out.From, out.To = of.stretch()
		out.To = min(out.To, section.Girth.MM) // the findings' girth is the high end of its range
		asked.From, asked.To = out.From, out.To
		if out.From > 0 {
			heel = decimal.Zero
		}
		if quantity.Snap(out.To) < quantity.Snap(section.Girth.MM) {
			head = decimal.Zero
		}
	}
	for _, x := range r.Scarfs {
		if x.Member == out.Member && x.Piece == of.name {
			asked.Marks, out.Tapers = append(asked.Marks, x.InnerTipMM), append(out.Tapers, x.End)
		}
	}
	trim := (of.value("/blank_length").Mul(decimal.NewFromInt(1000)).InexactFloat64() - (out.To - out.From) - heel.Add(head).InexactFloat64()) / 2
	out.BeyondHeel, out.BeyondHead = heel.InexactFloat64()+trim, head.InexactFloat64()+trim
	var err error
	out.Form, err = frame.NewForm(f, section, out.Stack, b.Rules, asked)
	return err
}

// taped is the form of a frame of which only chord and rise are known.
func (b Basis) taped(out *Form, f frame.Frame, tape *frame.Tape, asked frame.FormAsked) error {
	if out.Piece != "" {
		return &frame.FormError{Detail: "it was taken by a tape, which tells how hard the frame bends and not how its piece does", Fix: "its pattern, points from heel to head"}
	}
	const pattern = "its pattern, points from heel to head"
	out.RestsOn = boat.OnTape
	c, h := tape.Chord.InexactFloat64(), tape.Rise.InexactFloat64()
	low, _ := frame.TapeRange(c, h, tape.Grain.InexactFloat64())
	out.Unknown = []Unknown{
		{"Where along the frame the bilge lies: the form is the arc under the chord that was laid over it, from one end of the chord to the other.", pattern},
		{fmt.Sprintf("How the frame runs on beyond the chord: of its girth of %.0f mm the arc holds only a part, and what lies past either end is drawn straight on in the direction told.", tape.Girth.InexactFloat64()), pattern},
		{fmt.Sprintf("Whether the bend is even: the arc has a radius of %.0f mm, and the hardest place under the chord may have one of %.0f mm.", frame.RadiusOfChord(c, h), low),
			"a shorter chord and its rise over the hardest place, or " + pattern},
	}
	var err error
	out.Form, err = frame.TapedForm(f, tape, out.Stack, b.Rules, asked)
	return err
}

// pieceFigures are the figures of a frame's piece, or of a frame, in a takeoff.
type pieceFigures struct {
	name, path string
	figures    []derivation.Figure
}

// pieceOf a frame by its name.
func (r Result) pieceOf(m boat.Member, remedy boat.Remedy, name string) (pieceFigures, error) {
	out := pieceFigures{path: m.Path(), figures: r.Figures}
	if remedy == boat.ReplaceLaminated {
		if name != "" {
			return out, &UnshapedError{m, "it is made in one piece, and " + name + " is none of it", "the frame without a piece"}
		}
		return out, nil
	}
	var names []string
	for _, f := range r.Figures {
		rest, of := strings.CutPrefix(f.ID, m.Path()+"/")
		if piece, ok := strings.CutSuffix(rest, "/girth"); of && ok && f.Formula == "frame/stretch" {
			names = append(names, piece)
		}
	}
	switch {
	case len(names) == 0:
		return out, &UnshapedError{m, "nothing can be made for it as it was found", "what the faults of the takeoff ask for"}
	case name == "" && len(names) == 1:
		name = names[0]
	case !slices.Contains(names, name):
		return out, &UnshapedError{m, fmt.Sprintf("it has the pieces %s, and which of them is not said", strings.Join(names, ", ")), "one of them"}
	}
	out.name, out.path = name, m.Path()+"/"+name
	return out, nil
}

// value of a figure of the piece; 0 where it has none such.
func (p pieceFigures) value(name string) decimal.Decimal {
	i := slices.IndexFunc(p.figures, func(f derivation.Figure) bool { return f.ID == p.path+name })
	if i < 0 {
		return decimal.Zero
	}
	d, _ := quantity.ParseDecimal(p.figures[i].Value)
	return d
}

// stretch of the piece along the girth, as the figure of its length was worked out.
func (p pieceFigures) stretch() (from, to float64) {
	i := slices.IndexFunc(p.figures, func(f derivation.Figure) bool { return f.ID == p.path+"/girth" })
	return given(p.figures[i], "a"), given(p.figures[i], "b")
}
