package fair

import "math"

// The curvature of a fair curve is taken to be a constant plus the integral of
// a slope that wanders: an Ornstein-Uhlenbeck process which forgets itself
// over the length ell. Taking the likeliest curve under this process is the
// same as making the penalty of the package's description small. The
// process is driven by knots independent unit normals; the roughness rho
// multiplies it.

// ell is the length over which the slope of the curvature may change.
const ell = 0.25

var (
	forget = math.Exp(-cell / ell)
	fresh  = math.Sqrt(1 - forget*forget)
	slope  = cell / 2 / math.Sqrt(2*ell) // half a cell of a slope of variance 1/(2 ell)
)

// curvature adds up the curvature at the knots from the constant and the
// drives.
func curvature(constant float64, drive, k *[knots]float64) {
	x := drive[0]
	k[0] = constant
	for j := 1; j < knots; j++ {
		next := forget*x + fresh*drive[j]
		k[j] = k[j-1] + slope*(x+next)
		x = next
	}
}

// drivesOf finds drives whose curvature is k but for its kinks: the slope at a
// knot is taken from the knots on either side.
func drivesOf(k, drive *[knots]float64) {
	last := 0.0
	for j := range knots {
		lo, hi := max(j-1, 0), min(j+1, Cells)
		x := (k[hi] - k[lo]) / (2 * slope * float64(hi-lo))
		if j == 0 {
			drive[j] = x
		} else {
			drive[j] = (x - forget*last) / fresh
		}
		last = x
	}
}

// driveRow turns a row of effects of the knots' curvature into the row of
// effects of the drives: the transpose of curvature, by backward recursion.
func driveRow(knot *[knots]float64, scale float64, row []float64) {
	row = row[:knots]
	c := slope * scale
	sum, x := 0.0, 0.0
	for j := Cells; j >= 1; j-- {
		sum += knot[j]
		x += c * sum
		row[j] = fresh * x
		x = forget*x + c*sum
	}
	row[0] = x
}
