package area

import "math"

// Part is what a part of one side measures. Parts that do not overlap add up.
type Part struct {
	Area   float64 // of the inside of plank, mm²
	Girths float64 // what girths alone give: the integral of the girth along x, without the slant of the surface, mm²
	Volume float64 // to the centreline, mm³
	// MomentX and MomentZ are the volume's, about station 0 and about the baseline, mm⁴.
	MomentX, MomentZ float64
	// SecondX and SecondZ are the volume's second moments about the same, mm⁵: how far it is spread from its centre.
	SecondX, SecondZ float64
	// PlankX is the moment of the area about station 0, mm³, for the place of planking along the boat.
	PlankX float64
}

// Plus adds another part, or takes it away where sign is -1.
func (p Part) Plus(o Part, sign float64) Part {
	return Part{p.Area + sign*o.Area, p.Girths + sign*o.Girths, p.Volume + sign*o.Volume,
		p.MomentX + sign*o.MomentX, p.MomentZ + sign*o.MomentZ, p.SecondX + sign*o.SecondX, p.SecondZ + sign*o.SecondZ, p.PlankX + sign*o.PlankX}
}

// Centre of the volume: x aft of station 0 and z above the baseline, mm. There is none where there is no volume.
func (p Part) Centre() (x, z float64, ok bool) {
	x, z = p.MomentX/p.Volume, p.MomentZ/p.Volume
	return x, z, !math.IsNaN(x+z) && !math.IsInf(x+z, 0)
}

// take adds a strip of the width dx.
func (p *Part) take(x, dx float64, s Strip) {
	p.Area += dx * s.Slanted
	p.Girths += dx * s.Girth
	p.Volume += dx * s.Section
	p.MomentX += dx * x * s.Section
	p.MomentZ += dx * s.MomentZ
	p.SecondX += dx * x * x * s.Section
	p.SecondZ += dx * s.SecondZ
	p.PlankX += dx * x * s.Slanted
}

// Plane is the water plane of one side at some height.
type Plane struct {
	Area   float64 // mm²
	Moment float64 // about station 0, mm³
	Second float64 // its second moment about station 0, mm⁴
	// Length is how much of the boat's length it has, mm.
	Length float64
}

// Centre of the plane, mm aft of station 0; there is none where there is no plane.
func (p Plane) Centre() (x float64, ok bool) {
	x = p.Moment / p.Area
	return x, !math.IsNaN(x) && !math.IsInf(x, 0)
}
