// Package strake divides one side's girth into strakes and lays each out flat, to tell what board a spiled plank
// needs.
//
// Lengths are millimetres, areas square millimetres. x runs aft from station 0; u is the fraction of the girth from
// the rabbet (0) to the sheer (1). A strake lies between two edges, each a fraction of the girth along the boat. It
// is laid out triangle by triangle, two rows across, with lengths over the surface: the chord bent as the two normals
// say, for chords alone cut across the hollow and never converge when only the count along the strake grows.
package strake

import "ribband/takeoff/hull"

// Surface is what a strake needs of the hull's side; *hull.Surface is one.
type Surface interface {
	Jet(u, x float64) hull.Jet
	Reach() (forward, aft float64)
	Stations() []float64
}
