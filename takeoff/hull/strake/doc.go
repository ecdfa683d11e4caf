// Package strake divides one side's girth into strakes and lays each out flat, to tell what board a spiled plank
// needs.
//
// Lengths are millimetres, areas square millimetres. x runs aft from station 0; u is the fraction of the girth from
// the rabbet (0) to the sheer (1). A strake lies between two edges, each a fraction of the girth along the boat. It
// is laid out triangle by triangle, two rows across, with lengths over the surface: the chord bent as the two normals
// say, for chords alone cut across the hollow and never converge when only the count along the strake grows.
//
// No strake lies across a knuckle: each knuckle is a seam, and the strakes on either side take the surface as it is
// on theirs.
//
// Where lines of stem and transom are given, strakes are carried on to them: see ending for how, and ranges.go for what is
// open there. Their areas together came within 0.04 % of the planking of a side with raked, plumb and round bows and raked
// transoms, see planking's TestStrakesAreThePlankingToTheEnds.
//
// # How near it comes
//
// On a cylinder the lengths over the surface are exact, whatever their direction; what is left is that the outline is
// straight between the places laid out, which falls with the square of their distance. On other surfaces a length
// across a strake is found from its two ends alone, so that some error stays however close the places stand along
// her: 3e-7 of the area and a thousandth of a millimetre of the round on a cone of half-angle 12.7 degrees in eight
// strakes a quarter; it falls with the fourth power of the strake's width.
//
// The lengths are those of the surface given, the inside of plank: the planks' own middle and outer faces are longer
// where she is round, by thickness over radius.
package strake

import "ribband/takeoff/hull"

// Surface is what a strake needs of the hull's side; *hull.Surface is one.
type Surface interface {
	// Along fills out with the jets at x and each of us.
	Along(x float64, us []float64, out []hull.Jet)
	// Corners are the u of the knuckles, rising; Below is the jet there of the panel towards the rabbet, Along gives that
	// of the panel above.
	Corners() []float64
	Below(u, x float64) hull.Jet
	Reach() (forward, aft float64)
	Stations() []float64
	// GirthRange is the range of the girth at x, as parts of the girth as it is drawn.
	GirthRange(x float64) (low, high float64)
}
