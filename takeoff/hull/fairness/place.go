package fairness

import (
	"math"

	"ribband/takeoff/boat"
	"ribband/takeoff/hull/offsets"
)

const (
	// placeFrom is how many sloping lines must speak for a station to be judged as a whole, and placeSlope what slopes.
	placeFrom  = 4
	placeSlope = 0.02
	// placeShare of what its marks are off along the boat must be explained by moving the station.
	placeShare = 0.7
)

// place judges where a station stands. All its marks would lie on their lines if it stood so much aft; what each line
// is wrong about between the stations is much the same for its neighbours, so that many lines make it no surer than one.
func (j *judge) place(cells []*cell, of boat.Side, st *offsets.Station) (Offset, bool) {
	own := j.grain * j.worse / math.Sqrt(12)
	var ss, sr, rr float64
	n := 0
	for _, c := range cells {
		s, ok := j.slope[c]
		if !ok || c.aside || math.IsNaN(c.now.along) || math.Abs(s) < placeSlope {
			continue
		}
		w := 1 / (c.now.alongSure*c.now.alongSure + own*own)
		// The line is c.written - along at x; were the station dx farther aft it would be s dx more there.
		ss, sr, rr = ss+w*s*s, sr+w*s*c.now.along, rr+w*c.now.along*c.now.along
		n++
	}
	if n < placeFrom {
		return Offset{}, false
	}
	dx := sr / ss
	times := math.Abs(dx) * math.Sqrt(ss/float64(n))
	o := Offset{Station: st.No, Side: of, Cell: "x", Line: "x", Written: st.X, Off: -dx, Grains: -dx / j.grain, Way: Forward,
		Times: times, Beyond: times > Threshold && dx*sr >= placeShare*rr, Across: math.NaN(), Along: -dx, Pointer: st.Pointer + "/x"}
	if dx < 0 {
		o.Way = Aft
	}
	o.Fair = toGrain(st.X.MM()+dx, j.grain, true)
	j.words(&o)
	return o, true
}
