package takeoff

import (
	"math"

	"ribband/takeoff/frame"
	"ribband/takeoff/hull"
	"ribband/takeoff/quantity"
	"ribband/takeoff/rules"

	"github.com/shopspring/decimal"
)

const (
	tenths = 10
	// laid is how many steps of the girth two sections are laid over one another by: 7 mm on 2 m, where a bend of 300 mm
	// radius stands a fiftieth of a millimetre proud of the straight.
	laid = 300
)

// differenceOf is how far the target lies from what was found: at each tenth of the found girth the distance to the
// target, square to it, and the greatest along the whole girth. Beyond its ends the target runs on straight.
func differenceOf(found, target *hull.Section) frame.Difference {
	line := target.Line(laid + 1)
	out := frame.Difference{FoundGirthMM: quantity.Thousandth(found.Girth.MM)}
	greatest := 0.0
	for i := range laid + 1 {
		at := found.At(found.Share(float64(i) / laid))
		p := hull.Point{Y: at.Y, Z: at.Z}
		off := outboard(line, p)
		place := frame.Offset{AtMM: quantity.Thousandth(found.Girth.MM * float64(i) / laid), OutboardMM: quantity.Thousandth(off)}
		if i%(laid/tenths) == 0 {
			out.Tenths = append(out.Tenths, place)
		}
		if i == 0 || quantity.Snap(math.Abs(off)) > quantity.Snap(greatest) {
			greatest, out.Greatest = math.Abs(off), place
		}
	}
	return out
}

// outboard is the distance of a line, run from heel to head, from p: positive where the line lies outboard of p. The
// first and the last of its steps run on for ever.
func outboard(line []hull.Point, p hull.Point) float64 {
	near, off := math.Inf(1), 0.0
	for i := 0; i+1 < len(line); i++ {
		a, b := line[i], line[i+1]
		ty, tz := b.Y-a.Y, b.Z-a.Z
		square := ty*ty + tz*tz
		if square == 0 {
			continue
		}
		along := ((p.Y-a.Y)*ty + (p.Z-a.Z)*tz) / square // of the step
		if i > 0 {
			along = max(0, along)
		}
		if i+2 < len(line) {
			along = min(1, along)
		}
		dy, dz := p.Y-a.Y-along*ty, p.Z-a.Z-along*tz
		if d := dy*dy + dz*dz; d < near {
			// inboard lies to the left of the run from heel to head
			near, off = d, math.Copysign(math.Sqrt(d), ty*dz-tz*dy)
		}
	}
	return off
}

// tolerance that a shape may be out by, mm.
func tolerance(r rules.Rules) decimal.Decimal {
	if r.ShapeTolerance.Sign() > 0 {
		return r.ShapeTolerance
	}
	return rules.DefaultShapeTolerance
}

// beyond says that an offset is more than the rules let pass.
func (b Basis) beyond(o frame.Offset) bool {
	d, err := quantity.Decimal(math.Abs(o.OutboardMM), quantity.Millimetre)
	return err == nil && d.Round(3).GreaterThan(tolerance(b.Rules))
}
