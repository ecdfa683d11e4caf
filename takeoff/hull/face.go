package hull

import (
	"fmt"
	"math"
	"slices"

	"ribband/takeoff/boat"
	"ribband/takeoff/hull/offsets"
	"ribband/takeoff/notation"
)

// ToFace is the table with every measured mark laid to the other face of the plank, square off the hull by the plank's
// thickness; the same table where its offsets are to that face already. The marks move, not the curve: what was written
// with an error keeps it.
//
// The plank's other face at a station lies square off a place of the measured face that stands before or abaft it, where
// the hull is wider or narrower. That place is sought on the surface through the stations, at the mark's own part of the
// girth. At an end station it may lie beyond the measured length; there the distance in the body plan is the thickness
// times the secant of the bevel, laid off square to the section, which is right to the first order of the thickness
// (practice: Gougeon Brothers on Boat Construction, p. 184). A mark that would come to lie across the centreline, where
// the planks of both sides meet, is put on it; Crossed of the hull names it.
//
// At a knuckle the other face has its corner where the faces of both panels meet in the station's plane, as planks do whose
// edges are mitred; marks that would come to lie beyond it are left out.
//
// The error is an *offsets.FaultsError: where points make no fair curve, where a thickness is missing, and where the plank is
// thicker than the bend of the hull leaves room for. Points of a plank's two faces have the grain of the table.
func ToFace(o *offsets.Table, face string) (*offsets.Table, error) {
	out, _, err := toFace(o, face)
	return out, err
}

// toFace is ToFace, and the marks that were put on the centreline.
func toFace(o *offsets.Table, face string) (*offsets.Table, []Crossing, error) {
	if o.Surface == face {
		return o, nil, nil
	}
	h, err := settled(o)
	if err != nil {
		return nil, nil, err
	}
	l := laying{from: h, sign: 1}
	if face == offsets.Inside {
		l.sign = -1
	}
	out := *o
	out.Surface = face
	out.Stations = slices.Clone(o.Stations)
	for i := range out.Stations {
		s := &out.Stations[i]
		if s.Thickness.Sign() <= 0 {
			l.found = append(l.found, offsets.Fault{Pointer: s.Pointer, Station: fmt.Sprint(s.No), Cell: "plank_thickness",
				Detail: "it is missing, so the other face of the plank is not known", Fix: "give plank_thickness for the whole table, or at every station"})
			continue
		}
		s.Port = l.lay(i, boat.Port)
		if s.Mirrored {
			s.Starboard = s.Port
		} else {
			s.Starboard = l.lay(i, boat.Starboard)
		}
	}
	if len(l.found) > 0 {
		return nil, nil, o.Refuse(l.found)
	}
	return &out, l.crossed, nil
}

// laying lays marks off a face, outward where sign is 1 and inward where it is -1.
type laying struct {
	from    *Hull
	sign    float64
	found   []offsets.Fault
	crossed []Crossing
}

// lay moves the marks of one side of station i.
func (l *laying) lay(i int, side boat.Side) []offsets.Mark {
	st := &l.from.stations[i]
	f, _ := l.from.side(side) // port or starboard
	surface := &Surface{f}
	at := &layingAt{l, surface, i, st.X.MM(), st.Thickness.MM()}
	out := slices.Clone(st.Marks(side))
	tight := -1
	var spots []laidMark
	if f.grid.pieces() > 1 {
		spots = at.chain(out)
	} else {
		curve := f.curves[i].pieces[0].curve
		for k := range out {
			spots = append(spots, at.mark(0, max(0, min(1, curve.Foot(k)/curve.Girth()))))
		}
	}
	kept := out[:0]
	for k, m := range out {
		to := spots[k]
		y, errY := notation.FromMM(max(0, m.Y.MM()+to.dy))
		z, errZ := notation.FromMM(m.Z.MM() + to.dz)
		if !to.ok || errY != nil || errZ != nil {
			if tight < 0 {
				tight = k
			}
			continue
		}
		if !to.gone {
			if half := m.Y.MM() + to.dy; half < -acrossNear {
				l.crossed = append(l.crossed, crossing(st, side, m.Cell, -half))
			}
			m.Y, m.Z = y, z
			kept = append(kept, m)
		}
	}
	out = kept
	if tight >= 0 {
		m := st.Marks(side)[tight]
		fault := offsets.Fault{Pointer: m.Pointer, Station: fmt.Sprint(st.No), Side: side, Cell: m.Cell,
			Detail: fmt.Sprintf("a plank %v thick is thicker than the bend here leaves room for", st.Thickness), Fix: "check plank_thickness, and the figures about this bend"}
		if st.Mirrored {
			fault.Side = boat.Both
		}
		l.found = append(l.found, fault)
	}
	return out
}

const (
	layings  = 60   // steps in search of a place; each leaves far less than half of the error on any hull that is a boat
	laidNear = 1e-9 // mm of x: the count of written lengths is no finer
)

// step is the measured face's place at u and x in piece k, and where on the other face one comes to at x; foot is the place
// of the measured face that this is square off. It is not ok where the plank is thicker than the bend's radius.
func (l *laying) step(s *Surface, k int, u, x, t float64) (from, foot Jet, to Point, ok bool) {
	jet := func(x float64) Jet {
		var one [1]Jet
		s.within(x, []int{k}, []float64{u}, one[:])
		return one[0]
	}
	from = jet(x)
	forward, aft := s.Reach()
	at := x
	for range layings {
		j := jet(at)
		nx, ny, nz := j.Normal()
		next := x - l.sign*t*nx
		if next < forward || next > aft {
			to, ok = l.atEnd(from, t)
			return from, from, to, ok
		}
		if math.Abs(next-at) <= laidNear {
			return from, j, Point{j.Y + l.sign*t*ny, j.Z + l.sign*t*nz}, l.roomy(j, t)
		}
		at = next
	}
	return from, from, Point{}, false // the hull turns so fast fore and aft that no place is found
}

// atEnd lays the thickness off in the body plan.
func (l *laying) atEnd(j Jet, t float64) (Point, bool) {
	v := math.Hypot(j.Yu, j.Zu)
	if v == 0 {
		return Point{j.Y, j.Z}, true
	}
	d := l.sign * t * math.Hypot(1, j.TanBevel())
	return Point{j.Y + d*j.Zu/v, j.Z - d*j.Yu/v}, l.roomy(j, t)
}

// roomy reports whether the section's bend leaves room for the plank on the side it is laid to.
func (l *laying) roomy(j Jet, t float64) bool {
	v := math.Hypot(j.Yu, j.Zu)
	if v == 0 {
		return true
	}
	k := (j.Yu*j.Zuu - j.Zu*j.Yuu) / (v * v * v) // positive where the centre lies inboard
	return 1+l.sign*k*t*math.Hypot(1, j.TanBevel()) > 0
}
