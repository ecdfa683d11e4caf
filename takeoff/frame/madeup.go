package frame

import (
	"errors"
	"fmt"
	"strings"

	"ribband/takeoff/bill"
	"ribband/takeoff/boat"
	"ribband/takeoff/quantity"
	"ribband/takeoff/rules"
	"ribband/takeoff/scarf"
	"ribband/takeoff/stagger"

	"github.com/shopspring/decimal"
)

// MadeUp is how the laminates of one blank are made up of lengths that the stock gives. Places are mm along the blank from
// its end at the heel.
type MadeUp struct {
	Member boat.Member `json:"member"`
	// Piece of the frame, empty where the blank is that of the whole frame.
	Piece string          `json:"piece,omitempty"`
	Joint rules.JointKind `json:"joint"`
	// TaperMM is how long a joint is, 0 of a butt; FaceMM the length of a scarf's glued face.
	Slope   float64 `json:"slope,omitempty"`
	TaperMM float64 `json:"taper_mm"`
	FaceMM  float64 `json:"face_mm,omitempty"`
	BlankMM float64 `json:"blank_mm"`
	// LongestMM is the stock's, ApartMM and Across what the rule asks of joints.
	LongestMM float64 `json:"longest_mm"`
	ApartMM   float64 `json:"apart_mm"`
	Across    int     `json:"across"`
	// Joints in all laminates together.
	Joints int64 `json:"joints"`
	// Clear are the stretches that the rule keeps clear of joints.
	Clear []KeptClear `json:"kept_clear"`
	// Laminates from the faying face.
	Laminates []Lengths `json:"laminates"`
	Why       string    `json:"why"`
	// Change says what would do with fewer joints.
	Change string `json:"change"`
	// BendUnplaced says that a tape does not tell where the bend lies that joints keep clear of: halfway up stands for it.
	BendUnplaced bool `json:"bend_unplaced,omitempty"`

	ends [][]span
}

// Path of the blank, the head of its figures' ids.
func (m MadeUp) Path() string {
	if m.Piece == "" {
		return m.Member.Path()
	}
	return m.Member.Path() + "/" + m.Piece
}

// KeptClear is a stretch without joints: at the heel, the head or the bend.
type KeptClear struct {
	What   string  `json:"what"`
	FromMM float64 `json:"from_mm"`
	ToMM   float64 `json:"to_mm"`
}

// Lengths is one laminate: the middles of its joints, and the lengths that it is made up of, tapers counted in.
type Lengths struct {
	No        int       `json:"no"`
	JointsMM  []float64 `json:"joints_mm"`
	LengthsMM []float64 `json:"lengths_mm"`
}

// span is where one length lies in the blank, exact mm.
type span struct{ from, to decimal.Decimal }

// madeUp is how the blank's laminates are made up by the yard's rule; nil where it has none, where the stock is long enough,
// and where no joints keep to the rule, which is then a fault.
func (b *blank) madeUp(thick decimal.Decimal) *MadeUp {
	rule := b.rules.LaminateJoints
	n, whole := b.t.Quantity(b.path + "/laminates").Int()
	if rule == nil || b.t.Err() != nil || !whole {
		return nil
	}
	length, taper, apart := b.length.Value().Shift(3), rule.Slope.Mul(thick), rule.ApartOf(thick)
	if !length.GreaterThan(rule.Longest.Floor()) {
		return nil
	}
	out := &MadeUp{Member: b.frame.Member(), Piece: b.piece, Joint: rule.Joint, Slope: rule.Slope.InexactFloat64(), Across: rule.Across,
		TaperMM: taper.InexactFloat64(), BlankMM: length.InexactFloat64(), LongestMM: rule.Longest.InexactFloat64(), ApartMM: apart.InexactFloat64(), Clear: []KeptClear{}}
	b.keepClear(out, *rule, length)
	of := stagger.Blank{Length: nanoUp(length), Laminates: int(n)}
	for _, c := range out.Clear {
		of.Barred = append(of.Barred, stagger.Span{From: nanoUp(decimal.NewFromFloat(c.FromMM)), To: nanoUp(decimal.NewFromFloat(c.ToMM))})
	}
	for _, r := range b.out {
		of.Short = append(of.Short, nanoUp(r.length.Value().Shift(3)))
	}
	terms := stagger.Terms{Longest: nanoUp(rule.Longest.Floor()), Joint: nanoUp(taper), Apart: nanoUp(apart), Across: rule.Across}
	terms.Joint += terms.Joint % 2
	plan, err := stagger.Arrange(of, terms)
	if err != nil {
		b.notStaggered(err, *out, *rule)
		return nil
	}
	out.lay(plan, of, terms)
	if rule.Joint == rules.FeatherJoint {
		out.FaceMM = quantity.Thousandth(scarf.Feather{Slope: rule.Slope.InexactFloat64(), Depth: thick.InexactFloat64()}.Face())
	}
	out.Why = fmt.Sprintf("The blank is %s long and the stock gives %s: %d joints are the fewest in any %d neighbouring laminates that keep %s apart (%s).",
		b.rules.Shown(length), b.rules.Shown(rule.Longest), plan.Joints(), len(plan.Sets), b.rules.Shown(apart), rule.Source)
	if len(b.out) > 0 {
		out.Why += " Of the laminates that run out each has as many of them as it needs."
	}
	out.Change = "Lengths of " + b.rules.Shown(length) + " would need no joint."
	return out
}

// keepClear are the stretches that the rule keeps clear of joints, to the thousandth. The trim of the blank is half at each
// end. The bend is that with the smallest radius at the faying face, wherever the girth's range may put it.
func (b *blank) keepClear(out *MadeUp, rule rules.LaminateJoints, length decimal.Decimal) {
	trim := b.rules.BlankTrim.InexactFloat64() / 2
	clear := func(what string, from, to float64) {
		out.Clear = append(out.Clear, KeptClear{what, quantity.Thousandth(from), quantity.Thousandth(to)})
	}
	if rule.FromHeel.IsPositive() {
		clear("heel", 0, trim+rule.FromHeel.InexactFloat64())
	}
	if bend, _, bent := b.shape.tighter(); bent && rule.FromBend.IsPositive() {
		at, most := bend.At-b.from.InexactFloat64(), rule.FromBend.InexactFloat64()
		heel := trim + b.rules.Heel.InexactFloat64()
		clear("bend", heel+min(at*b.shape.GirthLow, at)-most, heel+max(at*b.shape.GirthHigh, at)+most)
		out.BendUnplaced = b.shape.Tape != nil
	}
	if rule.FromHead.IsPositive() {
		clear("head", length.InexactFloat64()-trim-rule.FromHead.InexactFloat64(), length.InexactFloat64())
	}
}

// lay writes the plan down, laminate by laminate.
func (m *MadeUp) lay(plan stagger.Plan, of stagger.Blank, terms stagger.Terms) {
	half := terms.Joint / 2
	for i := range of.Laminates {
		joints, end := plan.In(of, terms, i), of.Length
		if k := i - (of.Laminates - len(of.Short)); k >= 0 {
			end = of.Short[k]
		}
		one, from := Lengths{No: i + 1, JointsMM: []float64{}}, int64(0)
		var ends []span
		add := func(to int64) {
			ends = append(ends, span{decimal.New(from, -6), decimal.New(to, -6)})
			one.LengthsMM = append(one.LengthsMM, quantity.Thousandth(decimal.New(to-from, -6).InexactFloat64()))
		}
		for _, x := range joints {
			add(x + half)
			from = x - half
			one.JointsMM = append(one.JointsMM, quantity.Thousandth(decimal.New(x, -6).InexactFloat64()))
		}
		add(end)
		m.Laminates, m.ends = append(m.Laminates, one), append(m.ends, ends)
		m.Joints += int64(len(joints))
	}
}

// notStaggered is the fault of a blank whose joints cannot keep to the rule, with the nearest that would do.
func (b *blank) notStaggered(err error, m MadeUp, rule rules.LaminateJoints) {
	who := b.frame.Member()
	f := bill.Fault{Code: "joints_not_staggered", Member: &who, Figure: b.path + "/blank_length"}
	name := fmt.Sprintf("Frame %d %s", who.No, who.Side)
	if m.Piece != "" {
		name += ", " + strings.ReplaceAll(m.Piece, "_", " ")
	}
	f.Detail = fmt.Sprintf("%s: laminates %s long cannot be made up of lengths of at most %s with their joints %s apart and clear of %s.",
		name, b.rules.Shown(decimal.NewFromFloat(m.BlankMM)), b.rules.Shown(rule.Longest), b.rules.Shown(decimal.NewFromFloat(m.ApartMM)), m.clearOf())
	var not *stagger.ImpossibleError
	if !errors.As(err, &not) {
		f.Fix = "In the rule of laminate joints: " + err.Error() + "."
		b.faults = append(b.faults, f)
		return
	}
	f.Limit = &bill.Limit{Value: decimal.New(not.Longest, -6).String(), Unit: quantity.Millimetre}
	f.Fix = "Lengths of " + b.rules.Shown(decimal.New(not.Longest, -6)) + " would do"
	if not.Apart >= 0 {
		f.Fix += ", or of these lengths joints " + b.rules.Shown(decimal.New(not.Apart, -6)) + " apart"
	}
	f.Fix += "."
	b.faults = append(b.faults, f)
}

func (m MadeUp) clearOf() string {
	if len(m.Clear) == 0 {
		return "one another"
	}
	var of []string
	for _, c := range m.Clear {
		of = append(of, c.What)
	}
	return strings.Join(of, ", ")
}

// nanoUp is millimetres in whole nanometres, rounded up.
func nanoUp(mm decimal.Decimal) int64 { return mm.Shift(6).Ceil().IntPart() }
