package area

import (
	"fmt"
	"math"

	"ribband/takeoff/hull"
)

// ThicknessError: a thickness of planking that is none.
type ThicknessError struct{ MM float64 }

func (e *ThicknessError) Error() string {
	return fmt.Sprintf("a plank %v mm thick is none: a number from 0 up is needed", e.MM)
}

// Outside is the area, mm², of the window's outside of plank: of the surface that lies the thickness, mm, outboard of the
// inside, square to it everywhere. Where the planking is hollow and tighter than it is thick, no such surface can be
// planked, and the figure means nothing. Errors are *WindowError, *OutsideError and *ThicknessError.
func (d *Side) Outside(w Window, thickness float64) (float64, error) {
	if !(thickness >= 0) || math.IsInf(thickness, 0) {
		return 0, &ThicknessError{thickness}
	}
	w, err := w.within(d.of.Reach())
	if err != nil {
		return 0, err
	}
	sum := 0.0
	b := around{us: make([]float64, len(d.jets))}
	for i := range b.jets {
		b.jets[i] = make([]hull.Jet, len(d.jets))
	}
	d.sweep(w, func(x, dx float64) { sum += dx * d.proud(x, thickness, &b) })
	return sum, nil
}

// around are the jets a little forward, aft, towards the rabbet and towards the sheer of those at one x.
type around struct {
	jets [4][]hull.Jet
	us   []float64
}

// aside is how far from each place its normal is looked at, of the girth and of a mean bay: well within the piece between
// two corners, and far above what float64 loses.
const aside = 1e-4

// proud is the outside over d.spans at x to one mm of x.
func (d *Side) proud(x, thickness float64, b *around) float64 {
	d.sum(x) // fills us, share and jets
	n := len(d.us)
	step := aside * (d.stations[len(d.stations)-1] - d.stations[0]) / float64(len(d.stations)-1)
	d.of.Along(x-step, d.us, b.jets[0][:n])
	d.of.Along(x+step, d.us, b.jets[1][:n])
	for k, toward := range [2]float64{-aside, aside} {
		for i, u := range d.us {
			b.us[i] = u + toward
		}
		d.of.Along(x, b.us[:n], b.jets[2+k][:n])
	}
	out := 0.0
	for i := range n {
		j := &d.jets[i]
		// The sides of a patch of the outer surface: r_x + t n_x and r_u + t n_u.
		ax, ay, az := turned(b.jets[0][i], b.jets[1][i], thickness/(2*step))
		ux, uy, uz := turned(b.jets[2][i], b.jets[3][i], thickness/(2*aside))
		ax, ay, az = ax+1, ay+j.Yx, az+j.Zx
		uy, uz = uy+j.Yu, uz+j.Zu
		cx, cy, cz := ay*uz-az*uy, az*ux-ax*uz, ax*uy-ay*ux
		out += d.share[i] * math.Sqrt(cx*cx+cy*cy+cz*cz)
	}
	return out
}

// turned is by how much the normal turns from one place to another, times by.
func turned(from, to hull.Jet, by float64) (x, y, z float64) {
	ax, ay, az := from.Normal()
	bx, by2, bz := to.Normal()
	return (bx - ax) * by, (by2 - ay) * by, (bz - az) * by
}
