package frame

import (
	"ribband/takeoff/bill"
	"ribband/takeoff/derivation"
	"ribband/takeoff/quantity"
	"ribband/takeoff/rules"
	"ribband/takeoff/step"
	"ribband/takeoff/timber"

	"github.com/shopspring/decimal"
)

// Piece is a new piece glued up of laminates that follows part of a frame: let into it by scarfs, or alongside it.
type Piece struct {
	// Name stands below the member in figures' ids: "part_1".
	Name string
	// From and To are mm along the girth from the rabbet, the tapers of scarfs counted in. Heel and Head say that the piece
	// runs to the frame's own heel and head, and is longer there by the yard's rules.
	From, To   decimal.Decimal
	Heel, Head bool
	// Siding, mm.
	Siding decimal.Decimal
	// Scarfs that join it to the old frame; Faces is the length of their glued faces together, mm.
	Scarfs int
	Faces  float64
	// Alongside says that one of its sides is glued to the frame.
	Alongside bool
}

// MakePiece works out what a piece of f takes, with every figure put into t: what ReplaceLaminated works out of a whole
// frame, for the stretch, and the glue of its joints. s is the shape of the stretch.
func MakePiece(f Frame, s Shape, p Piece, c Choice, wood timber.Species, r rules.Rules, t *derivation.Table) (Replacement, error) {
	return Job{f, s, c, wood, &p}.alone(r, t)
}

// recordPiece puts the figures of a stretch into the table under the names that those of a whole frame have.
func (s Shape) recordPiece(t *derivation.Table, f Frame, p Piece, path string) {
	t.Derive(path+"/girth", "frame/stretch", []derivation.Input{
		derivation.Given("a", "findings", p.From, quantity.Millimetre), derivation.Given("b", "findings", p.To, quantity.Millimetre)})
	if s.Tape != nil {
		s.Tape.recordRadius(t, path)
		return
	}
	x := derivation.Given("x", "frames", f.X, quantity.Millimetre)
	s.Bilge.record(t, path, "/bilge_radius", x)
	s.Hollow.record(t, path, "/hollow_radius", x)
}

// joints: the scarfs and the glue on their faces, and that between a sister and its frame.
func (b *blank) joints(p Piece) {
	s := derivation.Given("S", "frames", b.frame.Siding, quantity.Millimetre)
	if p.Scarfs > 0 {
		b.t.Derive(b.path+"/scarfs", "frame/scarfs", []derivation.Input{derivation.Given("n", "findings", decimal.NewFromInt(int64(p.Scarfs)), quantity.Each)})
		b.t.Measured(b.path+"/scarf_faces", "frame/scarf_faces", p.Faces, derivation.Given("m", "frames", b.frame.Moulded, quantity.Millimetre),
			derivation.Given("s", "rules/scarf", b.rules.Scarf.Slope, quantity.Ratio))
		b.t.Derive(b.path+"/scarf_area", "frame/scarf_area", []derivation.Input{b.t.Ref("F", b.path+"/scarf_faces"), s})
		b.spread("scarf_glue", b.path+"/scarf_area", step.Scarfs)
		b.count(step.Scarfs, b.path+"/scarfs")
		if y := b.rules.Glue.Layup; y != nil {
			b.t.Derive(b.path+"/scarf_clamps", "glue/scarf_clamps", []derivation.Input{b.t.Ref("n", b.path+"/scarfs"), derivation.Given("m", "frames", b.frame.Moulded, quantity.Millimetre),
				derivation.Given("s", "rules/scarf", b.rules.Scarf.Slope, quantity.Ratio), derivation.Given("p", "rules/glue/layup/clamp_pitch", y.PitchMM, quantity.Millimetre)})
		}
	}
	if p.Alongside {
		b.t.Derive(b.path+"/side_area", "frame/side_area", []derivation.Input{b.t.Ref("G", b.path+"/girth"), derivation.Given("m", "frames", b.frame.Moulded, quantity.Millimetre)})
		b.spread("side_glue", b.path+"/side_area", step.Frames)
		if y := b.rules.Glue.Layup; y != nil {
			b.t.Derive(b.path+"/side_clamps", "glue/side_clamps", []derivation.Input{b.t.Ref("G", b.path+"/girth"), derivation.Given("p", "rules/glue/layup/clamp_pitch", y.PitchMM, quantity.Millimetre)})
		}
	}
}

// spread is the glue of one joint by its area.
func (b *blank) spread(name, area string, driver step.Driver) {
	net := b.path + "/" + name + "_net"
	b.rules.Glue.On().Net(b.t, net, area)
	b.need(name, bill.Line{Material: bill.Glue, Item: b.rules.Glue.Item, Driver: string(driver)}, net, "bill/gross_litres")
	if h := b.rules.Glue.Handling; h != nil {
		h.Mix().Parts(b.t, b.path+"/"+name, b.path+"/"+name+"_gross")
	}
}
