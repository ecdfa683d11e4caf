// Package fair fits the fair curve of a section to points that were written
// down to a grain, and reads girth and curvature from it.
//
// A batten sprung through the marks of a section does not pass through every
// mark: it takes the shape whose curvature varies least among those the marks
// allow. Fit does the same. The unknown is the curvature as a function of the
// length along the curve, piecewise linear on Cells equal cells. A point is
// held only along the curve's normal, so an error along the curve costs
// nothing and nearly coincident points do no harm. What is made small is the
// integral over the girth of the square of the curvature's slope, plus ell^2
// times the square of the change of that slope, ell a quarter of the girth: a
// straight line and an arc of a circle cost nothing. How stiff the batten is
// follows from the points themselves: it is the stiffness under which the
// written points are most likely (restricted maximum likelihood), given that
// their error is known to be the grain over the square root of twelve. Nothing
// is set per boat.
//
// Curvature must never be read from a spline through written points: the
// rounding of the points goes into the second derivative, and the more points
// there are the worse it gets.
//
// # Coordinates and sign
//
// Lengths are millimetres and angles radians. y runs outboard from the
// centreline, z up from the baseline, and the points run in order from the
// rabbet to the sheer. Then curvature is positive where the centre of
// curvature lies inboard of the curve (a round bilge) and negative in a hollow
// (the reverse of a wineglass section near the keel). Points given in the
// opposite order, or mirrored across the centreline, change the sign of every
// curvature and nothing else.
//
// # How sure it is
//
// Judge fits as Fit does and gives the range of the girth and of the least
// radius: from a hundred curves drawn from all those that the points allow, each
// stiffness as often as it is likely, from a hundred refits of the fitted
// curve's own points under fresh error, and from what the batten blunts and the
// widest span hides. Over eleven families of sections, three placings of the
// points and 1/8 in of grain the range holds the true least radius in 93 to 97
// of 100 sections of 5 to 20 points, and 2 to 4 are tighter than its low end.
// It is not as good for every shape: a slack V of 9 or more points is tighter
// than its low end in 11 to 17 of 100, a bend that ends at the rabbet or the
// sheer as a parabola's does in 9 to 11, a hard bilge of five points in 26. The
// draws begin at a fixed seed, so the same points have the same range always.
//
// # What it is good for, and what it is not
//
// Points must be split at declared knuckles before they come here: a knuckle
// is rounded off like any other bend. Five points are few: the least radius
// may then be a quarter too small or more than twice too large. Fewer than two
// points in a bend, or two bends close together, may be missed, and between few
// points the batten may swing far outside the boat; Gap tells when. A straight
// bottom and side joined by an arc read a tenth too tight, which is the safe
// side. A least radius at an end of the curve reads high, on some shapes low.
//
// # Fits in a loop
//
// Fit is Workspace.Fit in a fresh workspace. A loop over the sections of a
// boat should keep one Workspace and call its Fit or Judge: then nothing is
// allocated but what is returned. A Curve holds no reference to its workspace,
// is never changed and may be shared; a Workspace serves one goroutine at a
// time.
package fair
