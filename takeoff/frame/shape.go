package frame

import (
	"math"

	"ribband/takeoff/bill"
	"ribband/takeoff/boat"
	"ribband/takeoff/derivation"
	"ribband/takeoff/hull"
	"ribband/takeoff/quantity"

	"github.com/shopspring/decimal"
)

// Shape is what the boat's lines, a pattern or a tape say about one frame: its section at the inside of the plank, which
// is the frame's faying face. Lengths are millimetres.
type Shape struct {
	Girth float64
	// GirthLow and GirthHigh are the ends of the girth's range as multiples of what was read.
	GirthLow, GirthHigh float64
	// Bilge is the tightest place whose centre lies inboard, Hollow the tightest whose centre lies outboard.
	Bilge, Hollow Bend
	// Enclosing is the area, mm2, of the smallest rectangle round the frame's shape from faying to inner face.
	Enclosing float64
	// Long and Broad are the sides of that rectangle, mm; 0 where only its area is bounded.
	Long, Broad float64
	RestsOn     boat.RestsOn
	// Bevel is the widest angle from square, radians, of either sign as hull.Bevel has it; BevelKnown that the lines fore
	// and aft of the frame are known, without which nobody knows it.
	Bevel      float64
	BevelKnown bool
	// Tape is what the shape was read from where it rests on a tape, otherwise nil.
	Tape *Tape
	// Points is the number of points that the range rests on.
	Points int
	// Doubtful says that the fair curve did not settle, so that bends may be off by more than their range.
	Doubtful bool
	// Knuckles of the section from the rabbet.
	Knuckles []Knuckle
	// Lie of a frame that lies flat on the planking, otherwise nil. Girth is then its length, and its bends those of its
	// laminates.
	Lie *Lie
}

// Bend is a tightest place: its radius at the faying face and where it lies along the girth from the rabbet. A
// Radius of 0 stands for no bend of that kind.
type Bend struct {
	Radius, At float64
	// Low and High are the ends of the radius' range as multiples of it; High is infinite where there may be no such
	// bend.
	Low, High float64
}

// tighter is the bend with the smaller radius at the faying face, and whether it is a hollow.
func (s Shape) tighter() (b Bend, hollow, any bool) {
	switch {
	case s.Bilge.Radius <= 0 && s.Hollow.Radius <= 0:
		return Bend{}, false, false
	case s.Bilge.Radius <= 0 || s.Hollow.Radius > 0 && quantity.Snap(s.Hollow.Radius) < quantity.Snap(s.Bilge.Radius):
		return s.Hollow, true, true
	}
	return s.Bilge, false, true
}

// Measures is what a frame and side measures, with the range that holds nine times in ten. Millimetres to three
// places; a radius is absent where the frame is straight.
type Measures struct {
	Member      boat.Member  `json:"member"`
	XMM         float64      `json:"x_mm"`
	RestsOn     boat.RestsOn `json:"rests_on"`
	Points      int          `json:"points"`
	GirthMM     float64      `json:"girth_mm"`
	GirthLowMM  float64      `json:"girth_low_mm"`
	GirthHighMM float64      `json:"girth_high_mm"`
	// Straight: the frame has no bend to speak of. Doubtful: the curve did not settle; measure this frame again.
	Straight          bool     `json:"straight"`
	Doubtful          bool     `json:"doubtful"`
	LeastRadiusMM     *float64 `json:"least_radius_mm,omitempty"`
	LeastRadiusLowMM  *float64 `json:"least_radius_low_mm,omitempty"`
	LeastRadiusHighMM *float64 `json:"least_radius_high_mm,omitempty"`
	// A high end is absent where the points do not tell the bend from none: it is no tighter than the low end.
	// LeastAtMM is the place along the girth from the rabbet; Bend says bilge or hollow.
	// A tape does not tell the place.
	LeastAtMM *float64 `json:"least_at_mm,omitempty"`
	Bend      string   `json:"bend,omitempty"`
	// GreatestBevelDeg is the widest angle of the faying face from square, and ExtraMouldingMM how much deeper than moulded
	// the blank has to be so that it can be cut. Absent where the lines fore and aft of the frame are not known.
	GreatestBevelDeg *float64 `json:"greatest_bevel_deg,omitempty"`
	ExtraMouldingMM  *float64 `json:"extra_moulding_mm,omitempty"`
	Shown
	// Of a frame that lies flat on the planking: its length along the planks, how much wider than sided its blank has to be
	// for its sweep fore and aft, how far its faying face turns from heel to head, positive where it comes to look aft, and
	// siding and sweep together, before cleaning up.
	LengthMM      *float64 `json:"length_mm,omitempty"`
	SweepMM       *float64 `json:"sweep_mm,omitempty"`
	TwistDeg      *float64 `json:"twist_deg,omitempty"`
	BlankSidingMM *float64 `json:"blank_siding_mm,omitempty"`
	// Knuckles of the section; a frame in one length cannot follow one.
	Knuckles []MeasuredKnuckle `json:"knuckles,omitempty"`
	// Target is what the measures are of where that is not the frame as found; Difference is how far it lies off that.
	Target     Target      `json:"target,omitempty"`
	Difference *Difference `json:"difference,omitempty"`
}

// Difference is how far the target lies from the frame as found, along the found face's girth and square to the target:
// positive where the target lies outboard, negative inboard.
type Difference struct {
	// FoundGirthMM is the girth of the frame as found.
	FoundGirthMM float64 `json:"found_girth_mm"`
	// Tenths of the found girth from the rabbet, both ends counted.
	Tenths []Offset `json:"tenths"`
	// Greatest is the place where the two lie farthest apart.
	Greatest Offset `json:"greatest"`
	// Shored says that it is more than the rules' tolerance: the hull is shored to shape first.
	Shored bool `json:"shored"`
}

// Offset is how far the target lies off at one place along the girth of the frame as found, from the rabbet.
type Offset struct {
	AtMM       float64 `json:"at_mm"`
	OutboardMM float64 `json:"outboard_mm"`
}

// Measure is the shape as measures of f.
func (s Shape) Measure(f Frame) Measures {
	m := Measures{
		Member: f.Member(), XMM: quantity.Thousandth(f.X.InexactFloat64()), RestsOn: s.RestsOn, Points: s.Points, Doubtful: s.Doubtful, Knuckles: s.knuckles(),
		GirthMM: quantity.Thousandth(s.Girth), GirthLowMM: quantity.Thousandth(s.Girth * s.GirthLow), GirthHighMM: quantity.Thousandth(s.Girth * s.GirthHigh),
	}
	of := func(x float64) *float64 { x = quantity.Thousandth(x); return &x }
	if s.BevelKnown {
		m.GreatestBevelDeg = of(s.Bevel * 180 / math.Pi)
		m.ExtraMouldingMM = of(hull.Bevel{Angle: s.Bevel}.Extra(f.Siding.InexactFloat64()))
	}
	s.lies(&m, f)
	b, hollow, bent := s.tighter()
	if !bent {
		m.Straight = true
		return m
	}
	m.Bend = bendName(hollow)
	m.LeastRadiusMM = of(b.Radius)
	if s.Tape == nil {
		m.LeastAtMM = of(b.At)
	} else {
		m.taped(b, f.Moulded.InexactFloat64())
	}
	m.LeastRadiusLowMM = of(b.Radius * b.Low)
	if high := b.Radius * b.High; !math.IsInf(high, 0) {
		m.LeastRadiusHighMM = of(high)
	}
	return m
}

// Record puts the measured figures of a frame into the table, with where the frame stands.
func (s Shape) Record(t *derivation.Table, f Frame) {
	path := f.Member().Path()
	x := derivation.Given("x", "frames", f.X, quantity.Millimetre)
	if s.Tape != nil {
		s.Tape.record(t, path)
		return
	}
	if s.Lie != nil {
		t.Measured(path+"/girth", "frame/lying_length", s.Girth, x, derivation.Given("r", "frames", *f.Run, quantity.Millimetre))
	} else {
		t.Measured(path+"/girth", "frame/girth", s.Girth, x)
	}
	s.Bilge.record(t, path, "/bilge_radius", x)
	s.Hollow.record(t, path, "/hollow_radius", x)
}

func (b Bend) record(t *derivation.Table, path, name string, x derivation.Input) {
	if b.Radius <= 0 {
		return
	}
	at, err := quantity.Decimal(quantity.Thousandth(b.At), quantity.Millimetre)
	if err != nil {
		return // the girth is finite, and so is a place along it
	}
	t.Measured(path+name, "frame"+name, b.Radius, x, derivation.Given("s", "section", at, quantity.Millimetre))
}

// record puts the taped figures into the table: they are exact, and so is the radius that follows from them.
func (t *Tape) record(table *derivation.Table, path string) {
	table.Derive(path+"/girth", "frame/tape_girth", []derivation.Input{derivation.Given("G", "frames/tape", t.Girth, quantity.Millimetre)})
	t.recordRadius(table, path)
}

func (t *Tape) recordRadius(table *derivation.Table, path string) {
	given := func(symbol string, d decimal.Decimal) derivation.Input {
		return derivation.Given(symbol, "frames/tape", d, quantity.Millimetre)
	}
	table.Derive(path+"/bilge_radius", "frame/tape_radius", []derivation.Input{given("c", t.Chord), given("h", t.Rise)})
}

// RangeSource says where the ends of the shape's ranges come from.
func (s Shape) RangeSource() string {
	if s.RestsOn == boat.OnTape {
		return tapeSource
	}
	return rangeSource
}

// patternRectangle is what the pattern is cut from, either way round; nil where only its area is bounded.
func (s Shape) patternRectangle() *bill.Rectangles {
	return bill.RectangleOf(1, s.Broad, s.Long, true)
}
