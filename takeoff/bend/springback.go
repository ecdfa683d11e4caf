package bend

import (
	"math"
	"strconv"
)

// Springback is how much of its curvature a glued stack loses when it leaves the form, all along it.
type Springback struct {
	Share  float64
	Source string
}

// springSource is where 1/n² comes from, second-hand; that it holds of the curvature and not only of the camber is what
// bending n loose laminates and gluing them leaves: the stiffness of the stack is n² times that of the laminates together.
const springSource = "a stack of n laminates loses 1/n² of its curvature: second-hand from a boatbuilders' forum for camber, all along the curve by the stiffness of the stack"

// ByCount is the springback of n laminates, 1/n². One board springs back altogether.
func ByCount(n int64) (Springback, error) {
	if n < 2 || n > mostPieces {
		return Springback{}, &RangeError{"number of laminates", strconv.FormatInt(n, 10), "at least 2 for a form"}
	}
	return Springback{1 / (float64(n) * float64(n)), springSource}, nil
}

// mostShare is more than any stack of two springs back.
const mostShare = 0.5

// Measured is a share that the yard has measured.
func Measured(share float64, source string) (Springback, error) {
	if !(share >= 0 && share <= mostShare) {
		return Springback{}, &RangeError{"springback measured", strconv.FormatFloat(share, 'g', -1, 64), "a share of the curvature from 0 to 0.5"}
	}
	return Springback{share, "measured by the yard: " + source}, nil
}

// MeasuredAtHead is the share by which a trial piece lost its curvature whose head moved so far, mm, when it left a form of
// this curve, its heel held as it lay. Errors are *CurveError and *RangeError.
func MeasuredAtHead(form Curve, moved float64, source string) (Springback, error) {
	w, err := form.draw(1)
	if err != nil {
		return Springback{}, err
	}
	end := w.spots[len(w.spots)-1]
	move := func(share float64) (float64, error) {
		o, err := form.draw(1 - share)
		if err != nil {
			return 0, err
		}
		e := o.spots[len(o.spots)-1]
		return math.Hypot(e.x-end.x, e.y-end.y), nil
	}
	most, err := move(mostShare)
	if err != nil {
		return Springback{}, err
	}
	if !(moved >= 0 && moved <= most) {
		return Springback{}, &RangeError{"movement at the head, mm,", strconv.FormatFloat(moved, 'g', -1, 64), "from 0 to " + strconv.FormatFloat(math.Floor(most), 'f', -1, 64)}
	}
	low, high := 0.0, mostShare
	for range 60 {
		mid := (low + high) / 2
		m, err := move(mid)
		if err != nil {
			return Springback{}, err
		}
		if m < moved {
			low = mid
		} else {
			high = mid
		}
	}
	return Measured((low+high)/2, source)
}

// tighter is what the form's curvature is of the frame's: 1/(1 - share), for n laminates n2/(n2 - 1).
func (s Springback) tighter() float64 { return 1 / (1 - s.Share) }
