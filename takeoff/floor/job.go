package floor

import (
	"ribband/takeoff/bill"
	"ribband/takeoff/boat"
	"ribband/takeoff/derivation"
	"ribband/takeoff/quantity"
	"ribband/takeoff/rules"
	"ribband/takeoff/step"
	"ribband/takeoff/timber"

	"github.com/shopspring/decimal"
)

// Job is one new floor. Size is what its outline is bounded by.
type Job struct {
	Floor  Floor
	Size   Size
	Remedy boat.Remedy
	Grade  string
	Wood   timber.Species
}

// Size of a floor, from its outline or by hand. Of one by hand Area is that of the rectangle, since nothing else is known,
// and Bends is empty.
type Size struct {
	ByHand         bool
	Across, Height float64 // mm
	Area           float64 // mm2
	Along          float64 // mm; 0 where it was not measured by hand
	// Turn over the keel from one arm to the other, radians.
	Turn float64
	// Bends that a floor glued up has to lie to, tightest at its own lower face.
	Bends []Bend
	// X is where the floor stands, mm aft of station 0.
	X decimal.Decimal
}

// Bend of an arm: the radius of the lower face at the low end of its range, mm. Hollow has its centre outboard.
type Bend struct {
	Radius float64
	Hollow bool
}

// Replacement is what one new floor takes.
type Replacement struct {
	Lines        []bill.Line
	Measures     []bill.Measure
	Faults       []bill.Fault
	WeightFigure string
}

// work is one floor being worked out.
type work struct {
	Job
	rules rules.Rules
	t     *derivation.Table
	path  string
	out   Replacement
}

func (j Job) work(r rules.Rules, t *derivation.Table) *work {
	return &work{Job: j, rules: r, t: t, path: j.Floor.Member().Path()}
}

func given(symbol, where string, mm decimal.Decimal) derivation.Input {
	return derivation.Given(symbol, where, mm, quantity.Millimetre)
}

// size puts the rectangle round the floor into the table.
func (w *work) size() {
	if h := w.Floor.ByHand; w.Size.ByHand {
		w.t.Derive(w.path+"/across", "floor/by_hand", []derivation.Input{given("a", "floors/by_hand", h.Across)})
		w.t.Derive(w.path+"/height", "floor/by_hand", []derivation.Input{given("a", "floors/by_hand", h.Height)})
		return
	}
	x := given("x", "floors", w.Size.X)
	w.t.Measured(w.path+"/across", "floor/across", w.Size.Across, x)
	w.t.Measured(w.path+"/height", "floor/height", w.Size.Height, x, given("d", "floors", w.Floor.Depth))
}

// need puts one line on the bill.
func (w *work) need(name string, line bill.Line, net string, losses []bill.Loss, gross string) {
	line.ID, line.NetFigure, line.Losses = w.path+"/"+name, net, losses
	line.Member, line.Remedy = w.Floor.Member(), w.Remedy
	w.out.Lines = append(w.out.Lines, bill.Need(w.t, line, gross))
}

func (w *work) count(d step.Driver, figure string) {
	w.out.Measures = append(w.out.Measures, bill.Measure{Driver: string(d), Member: w.Floor.Member(), Remedy: w.Remedy, Quantity: w.t.Quantity(figure), Figure: figure})
}

// worked: the pattern that a floor is marked out from, and the floor as what its work is counted by.
func (w *work) worked() {
	w.t.Derive(w.path+"/pattern_area", "floor/pattern_area", []derivation.Input{w.t.Ref("A", w.path+"/across"), w.t.Ref("H", w.path+"/height")})
	w.need("pattern", bill.Line{Material: bill.Pattern, Item: w.rules.PatternItem, Driver: string(step.Patterns), Rectangles: w.rectangle()}, w.path+"/pattern_area", w.rules.For(bill.Pattern), "bill/gross_area")
	w.t.Derive(w.path+"/patterns", "floor/worked", nil)
	w.count(step.Patterns, w.path+"/patterns")
	w.t.Derive(w.path+"/worked", "floor/worked", nil)
	w.count(step.Floors, w.path+"/worked")
}

// weigh its timber from the net volume.
func (w *work) weigh() error {
	if _, err := w.Wood.Density(w.t); err != nil {
		return err
	}
	w.t.Derive(w.path+"/weight", "timber/weight", []derivation.Input{w.t.Ref("V", w.path+"/net_volume"), w.t.Ref("rho", timber.DensityFigure(w.Wood.Code))})
	w.out.WeightFigure = w.path + "/weight"
	return nil
}

// rectangle that the pattern is cut from, either way round.
func (w *work) rectangle() *bill.Rectangles {
	return bill.ExactRectangles(1, w.t.Quantity(w.path+"/height").Value(), w.t.Quantity(w.path+"/across").Value(), true)
}
