package hull

import (
	"fmt"
	"math"
)

// Plane is the plane that a frame's moulding face lies in. Most frames stand square across the boat: Cant and Lean are 0.
type Plane struct {
	// X is where it meets the centreline at the height of the heel, mm aft of station 0.
	X float64
	// Cant is how far the plane is turned about the plumb line at X, radians: positive where the frame runs aft as it
	// goes outboard, negative where it runs forward. It is told of each side by itself, so a pair of cant frames like
	// the arms of a V that opens aft has the same positive cant on both.
	Cant float64
	// Lean is how far the head stands abaft of where the frame upright would have it, measured along the boat, mm;
	// negative where it stands before. The plane is then turned about the level line across it at the heel.
	Lean float64
}

// Square says that the plane stands square across the boat.
func (p Plane) Square() bool { return p.Cant == 0 && p.Lean == 0 }

// MaxCant and MaxLean, radians, are the most that a plane may be turned from square, and leant from upright. Assumption,
// the house's: beyond 60 degrees the planks would meet the frame so sharply that no bevel could be cut on it.
const (
	MaxCant = math.Pi / 3
	MaxLean = math.Pi / 3
)

// PlaneError: a plane in which no frame can stand.
type PlaneError struct{ Detail string }

func (e *PlaneError) Error() string { return e.Detail }

// check the plane as far as that needs no hull.
func (p Plane) check() error {
	if !(math.Abs(p.Cant) <= MaxCant) {
		return &PlaneError{fmt.Sprintf("a cant of %.1f degrees is more than the %.0f that are taken", p.Cant*180/math.Pi, MaxCant*180/math.Pi)}
	}
	if math.IsNaN(p.Lean) || math.IsInf(p.Lean, 0) {
		return &PlaneError{fmt.Sprintf("a lean of %v mm is no length", p.Lean)}
	}
	return nil
}

// ReachError: a frame that does not stand square across the boat leaves the measured stations. From and To are how far it
// would reach, as near as the end stations tell; mm aft of station 0.
type ReachError struct{ From, To, Forward, Aft float64 }

func (e *ReachError) Error() string {
	return fmt.Sprintf("the frame reaches from about %.0f to %.0f mm and leaves the measured stations, which reach from %.0f to %.0f mm; nothing is extrapolated: measure a station beyond it, or take the frame by a pattern or a tape",
		e.From, e.To, e.Forward, e.Aft)
}

// alongSine is the sine of the angle between a plane and the fore-and-aft lines of the hull below which the frame would
// lie along the planks rather than across them: about six degrees, where the bevel nears a right angle and the section
// may break in two.
const alongSine = 0.1

// upAndOut are the axes in which the section is told: out is level in the plane, from the plumb line at X, and up rises
// square to that, with the heel at its own height. For a plane square across the boat they are half-breadth and height.
type upAndOut struct {
	x0, z0 float64 // where they start: the plumb line, and the heel's height
	a, b   float64 // how far the plane runs aft to one mm outboard, and to one mm up
	// out = across y + aslant (z - z0), up = z0 + rising (z - z0)
	across, aslant, rising float64
}

func axesOf(x0, z0, a, b float64) upAndOut {
	c := math.Sqrt(1 + a*a)
	return upAndOut{x0, z0, a, b, c, a * b / c, math.Sqrt(1 + b*b/(c*c))}
}

// ahead is how far aft of x0 the plane stands at a half-breadth and height.
func (p *upAndOut) ahead(y, z float64) float64 { return p.a*y + p.b*(z-p.z0) }

// onBoat is the place of out and up on the boat.
func (p *upAndOut) onBoat(out, up float64) (x, y, z float64) {
	rise := (up - p.z0) / p.rising
	y = (out - p.aslant*rise) / p.across
	return p.x0 + p.a*y + p.b*rise, y, p.z0 + rise
}

// tanBevel is TanBevel of a surface's place to this plane: the tangent of the angle between the surface and square to
// the plane, positive where the boat widens going aft.
func (p *upAndOut) tanBevel(j Jet) float64 {
	nx, ny, nz := j.across(), j.Zu, -j.Yu
	through := (p.a*ny + p.b*nz - nx) / math.Sqrt(1+p.a*p.a+p.b*p.b)
	in := nx*nx + ny*ny + nz*nz - through*through
	if !(in > 0) {
		return 0
	}
	return through / math.Sqrt(in)
}
