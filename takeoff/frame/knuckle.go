package frame

import (
	"fmt"
	"math"
	"strings"

	"ribband/takeoff/bill"
	"ribband/takeoff/quantity"
)

// Knuckle is a declared corner of the section that a frame follows: how far along the girth from the rabbet, mm, and the
// angle it turns by, radians, negative in a reverse.
type Knuckle struct {
	Name     string
	At, Turn float64
}

// MeasuredKnuckle is a Knuckle as measures tell it.
type MeasuredKnuckle struct {
	Name    string  `json:"name"`
	AtMM    float64 `json:"at_mm"`
	TurnDeg float64 `json:"turn_deg"`
}

// noCorner, degrees, is the turn up to which a frame bends past a knuckle as if the section were fair there, as it is
// where a chine runs out: a bend of a metre's radius leaves such a corner by a third of a millimetre. Common practice, no
// source.
const noCorner = 3.0

func (s Shape) knuckles() []MeasuredKnuckle {
	var out []MeasuredKnuckle
	for _, k := range s.Knuckles {
		out = append(out, MeasuredKnuckle{k.Name, quantity.Thousandth(k.At), quantity.Thousandth(k.Turn * 180 / math.Pi)})
	}
	return out
}

// corners is the fault of a frame bent in one length, of laminates or solid, that would have to turn a corner. What would do is common
// practice, no source.
func (b *blank) corners(what string) {
	var sharp []string
	for _, k := range b.shape.knuckles() {
		if math.Abs(k.TurnDeg) > noCorner {
			sharp = append(sharp, fmt.Sprintf("at the knuckle %s, %.0f mm along the girth from the rabbet, the section turns by %.1f degrees", k.Name, k.AtMM, math.Abs(k.TurnDeg)))
		}
	}
	if sharp == nil {
		return
	}
	m := b.frame.Member()
	b.faults = append(b.faults, bill.Fault{
		Code: "knuckle_in_frame", Member: &m, Figure: b.path + "/girth",
		Detail: fmt.Sprintf("Frame %d %s: %s; %s in one length cannot follow a corner.", m.No, m.Side, strings.Join(sharp, ", and "), what),
		Fix:    "Make the frame in pieces that meet at the knuckle, scarfed or with a gusset or bracket over the joint, or saw it.",
	})
}
