package frame

import (
	"ribband/takeoff/bill"
	"ribband/takeoff/derivation"
	"ribband/takeoff/hull"
	"ribband/takeoff/quantity"
	"ribband/takeoff/rules"
	"ribband/takeoff/spare"
	"ribband/takeoff/step"
	"ribband/takeoff/timber"

	"github.com/shopspring/decimal"
)

// Replacement is what one new frame takes: its needs, what its work is counted by, and what cannot be built.
type Replacement struct {
	Lines    []bill.Line
	Measures []bill.Measure
	Faults   []bill.Fault
	// WeightFigure is the id of the weight of its timber.
	WeightFigure string
	// MadeUp is how its laminates are made up of shorter lengths, nil where each is one length.
	MadeUp *MadeUp
	// Steamed of a frame bent in steam, otherwise nil.
	Steamed *Steamed
}

// Job is one frame that is to be glued up of laminates, or one piece of it.
type Job struct {
	Frame  Frame
	Shape  Shape // of the piece where there is one
	Choice Choice
	Wood   timber.Species
	// Piece is nil for the whole frame.
	Piece *Piece
}

// alone is Make with the spares of its laminates counted as if the yard glued up nothing else.
func (j Job) alone(r rules.Rules, t *derivation.Table) (Replacement, error) {
	out, err := j.Make(r, t)
	if err != nil {
		return out, err
	}
	return out, spare.Laminates(&bill.Bill{Lines: out.Lines, Measures: out.Measures}, t)
}

// Make works out what the job takes: ReplaceLaminated, or MakePiece for a piece. The gross of its laminates is open until
// spare.Laminates shares it over all that are alike.
func (j Job) Make(r rules.Rules, t *derivation.Table) (Replacement, error) {
	b := newBlank(j, r, t)
	thick, err := b.thickness()
	if err != nil {
		return Replacement{}, err
	}
	b.side()
	b.size(thick)
	b.corners("laminates")
	if err := b.weigh(j.Wood); err != nil {
		return Replacement{}, err
	}
	made := b.madeUp(thick)
	switch {
	case made != nil:
		b.lengths(*made, thick)
	case len(b.out) > 0:
		b.taperedLaminates(thick)
	default:
		b.laminates(thick)
	}
	b.glue()
	if j.Piece != nil {
		b.joints(*j.Piece)
	}
	b.pattern()
	b.worked()
	return Replacement{Lines: b.lines, Measures: b.measures, Faults: b.faults, WeightFigure: b.path + "/weight", MadeUp: made}, t.Err()
}

// ReplaceLaminated works out a frame glued up of laminates in place of f, with every figure put into t.
//
// The laminates are as thick as the rules rip them and the frame's bends take: rules that Rip has chosen for the whole
// boat. They are as wide as the siding and together at least as deep as moulded, what the bevel asks for and cleaning up; the blank is as long as
// heel housing, girth at the high end of its range, head and trim. Timber, glue and pattern stock are needs: net, losses
// by name, gross.
func ReplaceLaminated(f Frame, s Shape, c Choice, wood timber.Species, r rules.Rules, t *derivation.Table) (Replacement, error) {
	return Job{Frame: f, Shape: s, Choice: c, Wood: wood}.alone(r, t)
}

// blank is one replacement being worked out.
type blank struct {
	frame    Frame
	shape    Shape
	choice   Choice
	wood     timber.Species
	rules    rules.Rules
	t        *derivation.Table
	path     string
	lines    []bill.Line
	measures []bill.Measure
	faults   []bill.Fault
	length   quantity.Quantity
	siding   derivation.Input // of the blank
	wide     decimal.Decimal  // the same, mm
	extra    decimal.Decimal  // moulding for the bevel, mm
	piece    string           // name of the piece, empty for the whole frame
	from     decimal.Decimal  // where it begins along the girth, mm
	// out are the laminates of a tapering frame that run out, longest first.
	out []runOut
	// stock and sided are what solid stock is sawn to, mm.
	stock, sided decimal.Decimal
}

// newBlank is the blank of a job, with what was measured of it in the table.
func newBlank(j Job, r rules.Rules, t *derivation.Table) *blank {
	b := &blank{frame: j.Frame, shape: j.Shape, choice: j.Choice, wood: j.Wood, rules: r, t: t, path: j.Frame.Member().Path()}
	p := j.Piece
	if p == nil {
		j.Shape.Record(t, j.Frame)
		b.bevelled()
		return b
	}
	b.frame = b.frame.parallel() // a piece of a frame that tapers is made as heavy as its heel, and dressed to it
	b.path += "/" + p.Name
	b.piece, b.from = p.Name, p.From
	b.frame.Siding = p.Siding
	if !p.Heel {
		b.rules.Heel = decimal.Zero
	}
	if !p.Head {
		b.rules.Head = decimal.Zero
	}
	j.Shape.recordPiece(t, b.frame, *p, b.path)
	b.bevelled()
	return b
}

// bevelled puts into the table how much deeper the blank has to be for its widest bevel; nothing where it has none that
// is known, or lies flat on the planking. Less than half a thousandth is none: a frame that stands square is not to be given
// a laminate more for the last bits of a slope.
func (b *blank) bevelled() {
	x := hull.Bevel{Angle: b.shape.Bevel}.Extra(b.frame.Siding.InexactFloat64())
	if !b.shape.BevelKnown || b.shape.Lie != nil || quantity.Thousandth(x) <= 0 {
		return
	}
	b.extra = b.t.Measured(b.path+"/extra_moulding", "frame/extra_moulding", x, derivation.Given("S", "frames", b.frame.Siding, quantity.Millimetre)).Value()
}

// depth of the blank, mm: moulded, what its bevel asks for and what is cleaned up.
func (b *blank) depth() decimal.Decimal {
	return b.frame.Moulded.Add(b.extra).Add(b.rules.CleaningUp)
}

// size: how many laminates, how long, and what follows from that.
func (b *blank) size(thick decimal.Decimal) {
	mm := func(symbol, where string, d decimal.Decimal) derivation.Input {
		return derivation.Given(symbol, where, d, quantity.Millimetre)
	}
	t := b.t
	deep := []derivation.Input{mm("m", "frames", b.frame.Moulded), mm("c", "rules/cleaning_up", b.rules.CleaningUp), t.Ref("t", b.path+"/laminate_thickness")}
	if b.extra.Sign() > 0 {
		deep = append(deep, t.Ref("e", b.path+"/extra_moulding"))
	}
	n := t.Derive(b.path+"/laminates", "frame/laminates", deep)
	b.long()
	if n.Value().GreaterThan(decimal.NewFromInt(1)) {
		t.Derive(b.path+"/springback", "frame/springback", []derivation.Input{t.Ref("n", b.path+"/laminates")})
	}
	count, _ := n.Int()
	if b.out = b.runningOut(deep, count); len(b.out) > 0 {
		b.taperedArea()
		return
	}
	t.Derive(b.path+"/glue_line_area", "frame/glue_line_area", []derivation.Input{
		t.Ref("n", b.path+"/laminates"), b.siding, t.Ref("L", b.path+"/blank_length")})
	t.Derive(b.path+"/net_volume", "frame/net_volume", []derivation.Input{
		t.Ref("n", b.path+"/laminates"), t.Ref("t", b.path+"/laminate_thickness"), b.siding, t.Ref("L", b.path+"/blank_length")})
}

// long: how long the blank is.
func (b *blank) long() {
	mm := func(symbol, where string, d decimal.Decimal) derivation.Input {
		return derivation.Given(symbol, where, d, quantity.Millimetre)
	}
	b.t.Derive(b.path+"/girth_high", "frame/girth_high", []derivation.Input{b.t.Ref("G", b.path+"/girth")},
		derivation.ByFactor("f", b.multiple(b.shape.GirthHigh), b.shape.RangeSource()))
	b.length = b.t.Derive(b.path+"/blank_length", "frame/blank_length", []derivation.Input{
		mm("e", "rules/heel", b.rules.Heel), b.t.Ref("G", b.path+"/girth_high"), mm("h", "rules/head", b.rules.Head), mm("a", "rules/blank_trim", b.rules.BlankTrim)})
}

func (b *blank) weigh(wood timber.Species) error {
	if _, err := wood.Density(b.t); err != nil {
		return err
	}
	b.t.Derive(b.path+"/board_feet", "timber/board_feet", []derivation.Input{b.t.Ref("V", b.path+"/net_volume")})
	b.t.Derive(b.path+"/weight", "timber/weight", []derivation.Input{
		b.t.Ref("V", b.path+"/net_volume"), b.t.Ref("rho", timber.DensityFigure(wood.Code))})
	return nil
}

// need puts one line on the bill: the figure net, its named losses, and the gross they lead to.
func (b *blank) need(name string, line bill.Line, net, grossFormula string) {
	line.ID, line.NetFigure, line.Losses = b.path+"/"+name, net, b.rules.For(line.Material)
	line.Member, line.Remedy = b.frame.Member(), b.choice.Remedy
	b.lines = append(b.lines, bill.Need(b.t, line, grossFormula))
}

func (b *blank) laminates(thick decimal.Decimal) {
	b.laminate("laminates_timber", "", b.path+"/laminates", thick, b.length)
	b.countRipped()
}

// laminate puts laminates of one length on the bill, of which the figure net says how many stay in the boat; their gross is open.
func (b *blank) laminate(name, part, net string, thick decimal.Decimal, length quantity.Quantity) {
	b.lines = append(b.lines, spare.Laminate(b.path, name, net, bill.Line{Losses: b.rules.For(bill.Timber), Member: b.frame.Member(), Part: part, Remedy: b.choice.Remedy,
		Pieces: &bill.Pieces{Species: b.choice.Species, Grade: b.choice.Grade, Thickness: thick, Siding: b.wide, Planing: b.rules.Planing, Length: length}}, b.t))
}

// countRipped is what the work on the laminates is counted by, likewise open.
func (b *blank) countRipped() {
	b.measures = append(b.measures, spare.Ripped(b.path, bill.Line{Member: b.frame.Member(), Remedy: b.choice.Remedy}))
}

func (b *blank) glue() {
	net := b.path + "/glue_net"
	b.rules.Glue.On().Net(b.t, net, b.path+"/glue_line_area")
	if !b.t.Quantity(net).IsZero() {
		b.need("glue", bill.Line{Material: bill.Glue, Item: b.rules.Glue.Item, Driver: string(step.GlueLine)}, net, "bill/gross_litres")
		if h := b.rules.Glue.Handling; h != nil {
			h.Mix().Parts(b.t, b.path+"/glue", b.path+"/glue_gross")
		}
		b.clamps()
	}
	b.count(step.GlueLine, b.path+"/glue_line_area")
}

// clamps along the blank, where the rules say how far apart they stand.
func (b *blank) clamps() {
	if y := b.rules.Glue.Layup; y != nil {
		b.t.Derive(b.path+"/clamps", "glue/clamps", []derivation.Input{b.t.Ref("L", b.path+"/blank_length"), derivation.Given("p", "rules/glue/layup/clamp_pitch", y.PitchMM, quantity.Millimetre)})
	}
}

func (b *blank) pattern() {
	net := b.path + "/pattern_area"
	formula := "frame/pattern_area"
	if b.frame.MouldedHead.Sign() > 0 {
		formula = "frame/pattern_area_taper"
	}
	if b.shape.Tape != nil {
		formula = "frame/pattern_area_bound"
	}
	b.t.Measured(net, formula, b.shape.Enclosing/1e6,
		derivation.Given("x", "frames", b.frame.X, quantity.Millimetre), derivation.Given("m", "frames", b.frame.Moulded, quantity.Millimetre))
	b.need("pattern", bill.Line{Material: bill.Pattern, Item: b.rules.PatternItem, Driver: string(step.Patterns), Rectangles: b.shape.patternRectangle()}, net, "bill/gross_area")
	b.t.Derive(b.path+"/patterns", "frame/patterns", nil)
	b.count(step.Patterns, b.path+"/patterns")
}

// worked: the drivers of work that follow from the frame itself.
func (b *blank) worked() {
	b.t.Derive(b.path+"/worked", "frame/worked", nil)
	b.count(step.Frames, b.path+"/worked")
	b.t.Derive(b.path+"/girth_m", "frame/girth_m", []derivation.Input{b.t.Ref("G", b.path+"/girth")})
	b.count(step.Girth, b.path+"/girth_m")
}

func (b *blank) count(d step.Driver, figure string) {
	b.measures = append(b.measures, bill.Measure{
		Driver: string(d), Member: b.frame.Member(), Remedy: b.choice.Remedy, Quantity: b.t.Quantity(figure), Figure: figure})
}
