package frame

import (
	"math"

	"ribband/takeoff/boat"
	"ribband/takeoff/quantity"

	"github.com/shopspring/decimal"
)

// TapeRow is a frame taken by a tape, as it is written in the notation of the document.
type TapeRow struct {
	// Girth along the faying face from heel to head.
	Girth string `json:"girth"`
	// Chord is a straight length laid over the bilge, Rise the greatest distance of the faying face from it.
	Chord string `json:"chord"`
	Rise  string `json:"rise"`
	// Grain is what these were read to; empty takes the document's.
	Grain string `json:"grain,omitempty"`
	// HeelToHead is the straight distance between the ends of the faying face, Depth how far the face lies from that
	// straight line, both sides of it together. With them the pattern stock is bounded closely; without, widely.
	HeelToHead string `json:"heel_to_head,omitempty"`
	Depth      string `json:"depth,omitempty"`
}

// Tape is TapeRow read: exact millimetres. HeelToHead and Depth are 0 where they were not taken.
type Tape struct {
	Girth, Chord, Rise, Grain, HeelToHead, Depth decimal.Decimal
}

// ChordHides is the share of the radius over a chord that the tightest bend under it keeps to in nineteen sections of
// twenty, so that the whole range holds nine in ten: the chord gives the mean of the bend, and a bilge is harder in its
// middle. Measured, see TestWhatAChordHides: eleven families of sections, chords of a fifth to two fifths of the girth
// laid over the bilge, lengths written to 1/8 in. It is not as good for every shape: of hard bilges 15 in 100 are tighter
// than the low end, of sections whose tightest place is at an end, as a cosine's, 31.
const ChordHides = 0.50

// RadiusOfChord is the radius of the circle through the ends of a chord c and the top of its rise h: c2/(8h) + h/2, mm.
func RadiusOfChord(c, h float64) float64 { return c*c/(8*h) + h/2 }

// TapeRange is the range, mm, of the tightest bend under a chord and a rise that were read to a grain: the low end with
// the chord half a grain shorter, the rise half a grain greater, and what a chord hides; the high end the other way
// about, infinite where the rise may be none.
func TapeRange(chord, rise, grain float64) (low, high float64) {
	c, h := max(0, chord-grain/2), rise+grain/2
	low = RadiusOfChord(max(c, 2*h), h) * ChordHides // no chord of a circle is shorter than twice a rise below half of it
	if h = rise - grain/2; quantity.Snap(h) <= 0 {
		return low, math.Inf(1)
	}
	return low, RadiusOfChord(chord+grain/2, h)
}

// Shape is what the tape says of a frame moulded so deep, mm: girth and bilge with their ranges. It tells no hollow.
func (t *Tape) Shape(moulded float64) Shape {
	g, grain := t.Girth.InexactFloat64(), t.Grain.InexactFloat64()
	c, h := t.Chord.InexactFloat64(), t.Rise.InexactFloat64()
	radius := RadiusOfChord(c, h)
	low, high := TapeRange(c, h, grain)
	return Shape{
		// Each end of the girth may be off by half a grain.
		Girth: g, GirthLow: max(0, g-grain) / g, GirthHigh: (g + grain) / g,
		// Where along the girth the chord lay is not taped; halfway stands for it.
		Bilge:     Bend{Radius: radius, At: g / 2, Low: min(1, low/radius), High: max(1, high/radius)},
		Enclosing: t.enclosing(moulded), RestsOn: boat.OnTape, Tape: t,
	}
}

// Bounded says that the tape bounds the pattern's stock closely: with the straight distance and the depth off it.
func (t *Tape) Bounded() bool { return t.HeelToHead.Sign() > 0 && t.Depth.Sign() > 0 }

// enclosing is the area, mm2, of a rectangle that surely holds the frame's shape, whatever it is.
//
// Let the faying face be a curve of length G whose ends are D apart, and lay the rectangle along the line through its
// ends. The curve reaches a along that line and b across it, both sides together. Starting at one end and ending at the
// other it passes along the line at least 2a - D, and across it, where it starts and ends at nothing, at least 2b. Steps
// along and across are the sides of right triangles on the curve, so (2a - D)2 + (2b)2 <= G2. The inner face lies nowhere
// farther than m from the faying face, so a rectangle of a + 2m by b + 2m holds the frame.
//
// With D and b (the depth) taped: a <= (D + sqrt(G2 - 4 b2)) / 2.
//
// With D alone: a <= (D + G) / 2 and b <= sqrt(G2 - D2) / 2, since a is not less than D.
//
// With neither: since D <= a, also a2 + (2b)2 <= G2. Put a = G cos v, 2b = G sin v at most: then
// (a + 2m)(b + 2m) = (G2/4) sin 2v + m G (2 cos v + sin v) + 4 m2 <= G2/4 + sqrt(5) m G + 4 m2.
//
// Every length is taken at the end of its grain that asks for more.
func (t *Tape) enclosing(m float64) float64 {
	grain := t.Grain.InexactFloat64()
	g, d, b := t.Girth.InexactFloat64()+grain, t.HeelToHead.InexactFloat64(), t.Depth.InexactFloat64()
	switch {
	case t.Bounded():
		shallow := max(0, b-grain)
		a := (d + grain + math.Sqrt(max(0, g*g-4*shallow*shallow))) / 2
		return (a + 2*m) * (b + grain + 2*m)
	case d > 0:
		near := min(g, max(0, d-grain))
		return ((min(g, d+grain)+g)/2 + 2*m) * (math.Sqrt(g*g-near*near)/2 + 2*m)
	}
	return g*g/4 + math.Sqrt(5)*m*g + 4*m*m
}
