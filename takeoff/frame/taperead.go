package frame

import (
	"fmt"

	"github.com/shopspring/decimal"
)

// MaxGirth, mm, is the longest girth, chord or distance that a tape is taken for.
const MaxGirth = 30_000

// maxGrain, mm: nobody reads a tape to the nearest two inches.
var maxGrain = decimal.NewFromInt(50)

// readGrain reads what lengths were read to; usual where nothing is written.
func (r *reader) readGrain(pointer, text string, usual decimal.Decimal) decimal.Decimal {
	if text == "" {
		return usual
	}
	before := len(r.faults)
	d := r.length(pointer, text)
	if r.n.Known() && len(r.faults) == before && (d.Sign() < 0 || d.GreaterThan(maxGrain)) {
		r.faults.Add(pointer, "from 0 (exact) to "+maxGrain.String()+" mm", "the grain is %s mm", d)
	}
	return d
}

// tape reads the tape of a row, nil where it has none, and holds its lengths against one another.
func (r *reader) tape(p string, row Row) *Tape {
	w := row.Tape
	if w == nil {
		return nil
	}
	before, most := len(r.faults), decimal.NewFromInt(MaxGirth)
	t := &Tape{Girth: r.within(p+"/girth", w.Girth, most), Chord: r.within(p+"/chord", w.Chord, most),
		Rise: r.length(p+"/rise", w.Rise), Grain: r.readGrain(p+"/grain", w.Grain, r.grain)}
	if w.HeelToHead != "" {
		t.HeelToHead = r.within(p+"/heel_to_head", w.HeelToHead, most)
	}
	if w.Depth != "" {
		t.Depth = r.within(p+"/depth", w.Depth, most)
	}
	if r.n.Known() && len(r.faults) == before {
		r.sensible(p, fmt.Sprintf("frame %d %s", row.No, row.Side), t)
	}
	return t
}

// sensible holds taped lengths against one another: a straight line is the shortest way, and a rise above half its chord
// means that the chord spans more than half a circle and no longer gives the radius.
func (r *reader) sensible(p, who string, t *Tape) {
	two := decimal.NewFromInt(2)
	switch {
	case t.Rise.Sign() <= 0:
		r.faults.Add(p+"/rise", "a rise above 0: lay a longer chord over the bilge, or read the rise finer",
			"%s: the rise over the chord is %s mm, which shows no bend", who, t.Rise)
	case t.Rise.Mul(two).GreaterThan(t.Chord):
		r.faults.Add(p+"/rise", "a rise of at most half the chord: lay a shorter chord, and do not mistake the one for the other",
			"%s: the rise is %s mm and half the chord %s mm", who, t.Rise, t.Chord.Div(two))
	}
	if t.Girth.LessThan(t.Chord) {
		r.faults.Add(p+"/girth", "a girth no shorter than its chord: measure along the faying face from heel to head",
			"%s: the girth, %s mm, is shorter than the chord laid over part of it, %s mm", who, t.Girth, t.Chord)
	}
	if t.Depth.Sign() > 0 && t.HeelToHead.Sign() == 0 {
		r.faults.Add(p+"/heel_to_head", "the straight distance from heel to head, which the depth is measured from",
			"%s: a depth is given, and not the straight distance that it lies off", who)
	}
	// The way from one end out to the depth and back to the other is at least as long as over the point of a triangle.
	least := t.HeelToHead.Mul(t.HeelToHead).Add(t.Depth.Mul(t.Depth).Mul(decimal.NewFromInt(4)))
	girth := t.Girth.Add(t.Grain)
	if least.GreaterThan(girth.Mul(girth)) {
		r.faults.Add(p+"/heel_to_head", "a straight distance, and a depth off it, that the girth can reach round",
			"%s: the girth, %s mm, cannot reach from heel to head, %s mm, by way of a depth of %s mm", who, t.Girth, t.HeelToHead, t.Depth)
	}
}
