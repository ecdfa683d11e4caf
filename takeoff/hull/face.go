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
// the planks of both sides meet, is put on it.
//
// The error is an *offsets.FaultsError: where points make no fair curve, where a thickness is missing, where the hull has knuckles, and where the
// plank is thicker than the bend of the hull leaves room for. Points of a plank's two faces have the grain of the table.
func ToFace(o *offsets.Table, face string) (*offsets.Table, error) {
	if o.Surface == face {
		return o, nil
	}
	if found := sharp(o); len(found) > 0 {
		return nil, o.Refuse(found)
	}
	h, err := settled(o)
	if err != nil {
		return nil, err
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
		return nil, o.Refuse(l.found)
	}
	return &out, nil
}

// sharp are the faults of a table whose hull has knuckles: where two planks meet at an angle it depends on how their edges
// are cut where the other face has its corner, so a mark there is not laid over.
func sharp(o *offsets.Table) (found []offsets.Fault) {
	for i := range o.Stations {
		s := &o.Stations[i]
		for _, side := range boat.Sides {
			for _, m := range s.Marks(side) {
				if m.Knuckle == "" || s.Mirrored && side == boat.Starboard {
					continue
				}
				found = append(found, offsets.Fault{Pointer: m.Pointer, Station: fmt.Sprint(s.No), Side: side, Cell: m.Cell,
					Detail: "the other face of the plank is not known at a knuckle", Fix: "give the offsets of a hull with knuckles to the face that is wanted, the inside of plank for frames"})
			}
		}
	}
	return found
}

// laying lays marks off a face, outward where sign is 1 and inward where it is -1.
type laying struct {
	from  *Hull
	sign  float64
	found []offsets.Fault
}

// lay moves the marks of one side of station i.
func (l *laying) lay(i int, side boat.Side) []offsets.Mark {
	st := &l.from.stations[i]
	f, _ := l.from.side(side) // port or starboard
	surface := &Surface{f}
	curve, t := f.curves[i].pieces[0].curve, st.Thickness.MM()
	out := slices.Clone(st.Marks(side))
	tight := -1
	for k := range out {
		u := max(0, min(1, curve.Foot(k)/curve.Girth()))
		from, dy, dz, ok := l.step(surface, u, st.X.MM(), t)
		if !ok {
			if tight < 0 {
				tight = k
			}
			continue
		}
		y, errY := notation.FromMM(max(0, out[k].Y.MM()-from.Y+dy))
		z, errZ := notation.FromMM(out[k].Z.MM() - from.Z + dz)
		if errY != nil || errZ != nil {
			tight = k
			continue
		}
		out[k].Y, out[k].Z = y, z
	}
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

// step is the measured face's place at u and x, and where on the other face one comes to at x. It is not ok where the
// plank is thicker than the bend's radius.
func (l *laying) step(s *Surface, u, x, t float64) (from Jet, y, z float64, ok bool) {
	from = s.Jet(u, x)
	forward, aft := s.Reach()
	at := x
	for range layings {
		j := s.Jet(u, at)
		nx, ny, nz := j.Normal()
		next := x - l.sign*t*nx
		if next < forward || next > aft {
			return l.atEnd(from, t)
		}
		if math.Abs(next-at) <= laidNear {
			return from, j.Y + l.sign*t*ny, j.Z + l.sign*t*nz, l.roomy(j, t)
		}
		at = next
	}
	return from, 0, 0, false // the hull turns so fast fore and aft that no place is found
}

// atEnd lays the thickness off in the body plan.
func (l *laying) atEnd(j Jet, t float64) (from Jet, y, z float64, ok bool) {
	v := math.Hypot(j.Yu, j.Zu)
	if v == 0 {
		return j, j.Y, j.Z, true
	}
	d := l.sign * t * math.Hypot(1, j.TanBevel())
	return j, j.Y + d*j.Zu/v, j.Z - d*j.Yu/v, l.roomy(j, t)
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
