package floor

import (
	"math"

	"ribband/takeoff/boat"
	"ribband/takeoff/hull"
)

// Grain is how the grain of a floor sawn from one board lies to it: level, from arm to arm. Where an arm rises above the throat
// no fibre runs through from side to side any more, and the steeper it rises the shorter those across it are.
type Grain struct {
	// Run is the length of the fibre at half depth over the keel, from planking to planking, mm; 0 where only a hand measured.
	Run float64
	// Steepest is the greatest angle, radians, at which grain crosses an arm where none runs through to the other, and Side whose
	// arm that is; 0 and empty where every fibre at half the arms' depth runs through.
	Steepest float64
	Side     boat.Side
	// AtLeast says that the angle follows from a size measured by hand, of which the true one is no less.
	AtLeast bool
	arms    []crossing
}

// crossing is one short step along the middle of an arm that no fibre runs through from: how long, mm, and at what angle.
type crossing struct {
	side        boat.Side
	long, angle float64
}

// Beyond is how much of an arm, mm, is crossed by grain at more than an angle, radians.
func (g Grain) Beyond(side boat.Side, angle float64) float64 {
	sum := 0.0
	for _, c := range g.arms {
		if c.side == side && c.angle > angle {
			sum += c.long
		}
	}
	return sum
}

// Grain of the outline. An arm is crossed at the angle of its middle, halfway between lower face and upper edge.
func (o Outline) Grain() Grain {
	var g Grain
	half := (o.Top + o.keel()) / 2
	for _, side := range boat.Sides {
		low, corner := o.arm(side)
		g.Run += reaches(low, half)
		last := hull.Point{Y: low[0].Y, Z: (low[0].Z + o.Top) / 2}
		for _, p := range low[1:] {
			over := o.Top
			if corner.Y > 0 {
				over += (corner.Z - o.Top) * math.Min(1, p.Y/corner.Y)
			}
			mid := hull.Point{Y: p.Y, Z: (p.Z + over) / 2}
			if (mid.Z+last.Z)/2 > o.Top {
				c := crossing{side, math.Hypot(mid.Y-last.Y, mid.Z-last.Z), math.Atan2(math.Abs(mid.Z-last.Z), math.Abs(mid.Y-last.Y))}
				if c.angle > g.Steepest {
					g.Steepest, g.Side = c.angle, side
				}
				g.arms = append(g.arms, c)
			}
			last = mid
		}
	}
	return g
}

// GrainByHand is what a size measured by hand tells: the arms' upper edges rise at least from the depth over the keel to the
// height of the rectangle, within half its width. No crossing is known place by place.
func GrainByHand(f Floor) Grain {
	if f.ByHand == nil {
		return Grain{}
	}
	rise, half := f.ByHand.Height.Sub(f.Depth).InexactFloat64(), f.ByHand.Across.InexactFloat64()/2
	if !(rise > 0) || !(half > 0) {
		return Grain{AtLeast: true}
	}
	return Grain{Steepest: math.Atan2(rise, half), AtLeast: true}
}

// keel is the height of the lower face over the keel.
func (o Outline) keel() float64 {
	least := math.Inf(1)
	for _, p := range o.Lower {
		if math.Abs(p.Y) <= math.Abs(o.Lower[o.heel].Y) {
			least = math.Min(least, p.Z)
		}
	}
	return least
}

// arm is the lower face of one side from the keel outboard, half-breadths above 0, and the corner at its end.
func (o Outline) arm(side boat.Side) (low []hull.Point, corner hull.Point) {
	if side == boat.Port {
		for i := o.heel; i >= 0; i-- {
			low = append(low, hull.Point{Y: -o.Lower[i].Y, Z: o.Lower[i].Z})
		}
		return low, hull.Point{Y: -o.Upper[2].Y, Z: o.Upper[2].Z}
	}
	return o.Lower[len(o.Lower)-1-looks:], o.Upper[0]
}

// reaches is how far outboard a level at a height gets before it meets the lower face, mm; all of the arm where it does not.
func reaches(low []hull.Point, height float64) float64 {
	for i := 1; i < len(low); i++ {
		a, b := low[i-1], low[i]
		if b.Z >= height && b.Z > a.Z {
			return math.Max(0, a.Y+(b.Y-a.Y)*math.Max(0, height-a.Z)/(b.Z-a.Z))
		}
	}
	return math.Max(0, low[len(low)-1].Y)
}

// StrengthLeft is what share of its strength in bending wood has left whose grain lies at an angle, radians, to its length: least
// and most, by Hankinson's formula N = P Q / (P sin^n + Q cos^n) with n of 1.5 and 2 and Q of 0.04 and 0.10 of P (Wood
// Handbook, USDA Forest Products Laboratory, chapter on mechanical properties: from memory, not seen).
func StrengthLeft(angle float64) (least, most float64) {
	of := func(n, q float64) float64 {
		s, c := math.Sincos(angle)
		return q / (math.Pow(math.Abs(s), n) + q*math.Pow(math.Abs(c), n))
	}
	return math.Min(1, of(1.5, 0.04)), math.Min(1, of(2, 0.10))
}
