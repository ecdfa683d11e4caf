package hull

import (
	"errors"
	"fmt"
	"slices"
	"strconv"

	"ribband/takeoff/boat"
	"ribband/takeoff/hull/fair"
	"ribband/takeoff/hull/offsets"
	"ribband/takeoff/notation"
)

// Hull is the shape of a boat between her end stations. It is never changed after Fit and may be shared.
type Hull struct {
	stations        []offsets.Station
	port, starboard *surface
	notation        notation.Notation
	grain           float64 // mm
	worse           float64 // times the grain's error that the points scatter by; 1 where they do not tell
	crossed         []Crossing
}

// surface is one side: the fair curves of its stations, and how much each counts at any x.
type surface struct {
	curves  []*Chain
	grid    *grid
	rows    []row
	points  []int // that differ
	weights *weights
}

// lay divides the girth for all curves alike and tabulates them.
func (f *surface) lay() {
	f.grid = newGrid(f.curves)
	f.rows = make([]row, len(f.curves))
	for i, c := range f.curves {
		f.rows[i] = f.grid.tabulate(c)
	}
}

// Fit draws the fair curve of every station and side and lays the surface through them. Sides written as one are
// fitted once. Where the sections together show that the table was read worse than it was written, all are fitted
// again with the error that their points ask for. Where points do not make a fair curve the error is an
// *offsets.FaultsError that names every such station.
//
// The hull is that of the inside of plank: where the offsets are to the outside, their marks are first laid to the
// inside by ToFace. FitFace gives either.
func Fit(o *offsets.Table) (*Hull, error) { return FitFace(o, offsets.Inside) }

// FitFace is the hull at one face of the plank, offsets.Inside or offsets.Outside.
func FitFace(o *offsets.Table, face string) (*Hull, error) {
	o, crossed, err := toFace(o, face)
	if err != nil {
		return nil, err
	}
	h, err := settled(o)
	if err != nil {
		return nil, err
	}
	h.crossed = crossed
	return h, nil
}

// settled fits the face that was measured, a second time where it was read worse than it was written.
func settled(o *offsets.Table) (*Hull, error) {
	h, err := fit(o, 1)
	if err != nil || h.grain == 0 {
		return h, err // exact lengths have no grain to be read worse than
	}
	if multiple, worse := h.reading().Worse(); worse {
		return fit(o, multiple)
	}
	return h, nil
}

// fit fits with so many times the error of the grain.
func fit(o *offsets.Table, worse float64) (*Hull, error) {
	var found []offsets.Fault
	h := &Hull{stations: o.Stations, notation: o.Notation, grain: o.Grain.MM(), worse: worse}
	var w fair.Workspace
	h.port = fitSide(o, boat.Port, worse, &w, nil, &found)
	h.starboard = fitSide(o, boat.Starboard, worse, &w, h.port, &found)
	if len(found) > 0 {
		return nil, o.Refuse(found)
	}
	return h, nil
}

// fitSide fits one side; where a station is written like that of the other side, fitted already, the curve is
// shared.
func fitSide(o *offsets.Table, side boat.Side, worse float64, w *fair.Workspace, other *surface, found *[]offsets.Fault) *surface {
	n := len(o.Stations)
	f := &surface{curves: make([]*Chain, n), points: make([]int, n)}
	before := len(*found)
	xs := make([]float64, n)
	for i := range o.Stations {
		s := &o.Stations[i]
		xs[i] = s.X.MM()
		f.points[i] = offsets.Differing(s.Marks(side), o.Grain.MM())
		if other != nil && alike(s.Port, s.Starboard) {
			f.curves[i] = other.curves[i]
			continue
		}
		var err error
		corners := corners(s.Marks(side))
		if f.points[i] < offsets.MinMarks && len(corners) == 0 {
			err = &fair.RangeError{Points: f.points[i]}
		} else {
			f.curves[i], err = FitChain(w, points(s.Marks(side)), corners, worse*o.Grain.MM())
		}
		if err != nil {
			*found = append(*found, notFair(s, side, err))
			continue
		}
		if i > 0 && f.curves[0] != nil && !slices.Equal(f.curves[i].names, f.curves[0].names) {
			*found = append(*found, otherKnuckles(s, side, &KnucklesError{xs[i], xs[0], f.curves[i].names, f.curves[0].names}))
		}
	}
	if len(*found) == before && !slices.Contains(f.curves, nil) {
		f.lay()
	}
	var err error
	if f.weights, err = newWeights(xs); err != nil && other == nil {
		*found = append(*found, offsets.Fault{Pointer: "/stations", Detail: fmt.Sprintf("no fair line runs along the stations: %v", err),
			Fix: "space them more evenly"})
	}
	return f
}

// reading gathers what all sections say of how the table was read. Sections written alike, as in a parallel body, say
// it once: they are no further witnesses.
func (h *Hull) reading() *fair.Reading {
	var r fair.Reading
	var heard [][]offsets.Mark
	for _, side := range []struct {
		of boat.Side
		f  *surface
	}{{boat.Port, h.port}, {boat.Starboard, h.starboard}} {
		for i, c := range side.f.curves {
			marks := h.stations[i].Marks(side.of)
			if slices.ContainsFunc(heard, func(m []offsets.Mark) bool { return alike(m, marks) }) {
				continue
			}
			heard = append(heard, marks)
			c.Heard(&r)
		}
	}
	return &r
}

// ReadWorse says whether the table was read worse than it was written, by how many times the error that its grain
// allows, and what that grain is, mm. The curves and their ranges reckon with it.
func (h *Hull) ReadWorse() (multiple, grain float64, surely bool) {
	return h.worse, h.grain, h.worse > 1
}

// Notation is how the table was written.
func (h *Hull) Notation() notation.Notation { return h.notation }

// notFair is the fault of a side whose points make no fair curve.
func notFair(s *offsets.Station, side boat.Side, err error) offsets.Fault {
	piece, err := wrong(err)
	f := offsets.Fault{Pointer: s.Pointer, Station: strconv.Itoa(s.No), Side: side, Detail: "no fair curve follows the points" + piece + ": " + err.Error(),
		Fix: "check the figures of this side against the boat or the paper"}
	if s.Mirrored {
		f.Side = boat.Both
	}
	var order *fair.OrderError
	if errors.As(err, &order) {
		if piece == "" {
			piece = " from the rabbet to the sheer"
		}
		f.Detail = "the points do not follow one fair curve" + piece
	}
	return f
}

// otherKnuckles is the fault of a side whose knuckles are not those of the first station's.
func otherKnuckles(s *offsets.Station, side boat.Side, err *KnucklesError) offsets.Fault {
	return offsets.Fault{Pointer: s.Pointer, Station: strconv.Itoa(s.No), Side: side, Detail: err.Error(),
		Fix: "give every knuckle at every station, in one order from the rabbet; where the section is fair there, give the point that the line of the knuckle runs through"}
}

// corners are the knuckles among marks.
func corners(marks []offsets.Mark) []Corner {
	var out []Corner
	for i, m := range marks {
		if m.Knuckle != "" {
			out = append(out, Corner{m.Knuckle, i})
		}
	}
	return out
}

// alike reports points at the same places, read the same way.
func alike(a, b []offsets.Mark) bool {
	return slices.EqualFunc(a, b, func(m, n offsets.Mark) bool {
		return m.Y == n.Y && m.Z == n.Z && m.Kind == n.Kind && m.DY == n.DY && m.DZ == n.DZ && m.Knuckle == n.Knuckle
	})
}

func points(marks []offsets.Mark) []fair.Point {
	pts := make([]fair.Point, len(marks))
	for i, m := range marks {
		pts[i] = fair.Point{Y: m.Y.MM(), Z: m.Z.MM(), Kind: m.Kind, DY: m.DY, DZ: m.DZ}
	}
	return pts
}

// side of the hull; a *SideError for anything but port and starboard.
func (h *Hull) side(s boat.Side) (*surface, error) {
	switch s {
	case boat.Port:
		return h.port, nil
	case boat.Starboard:
		return h.starboard, nil
	}
	return nil, &SideError{s}
}

// SideError: a section was asked for on something else than one side.
type SideError struct{ Side boat.Side }

func (e *SideError) Error() string {
	return fmt.Sprintf("%q is not one side: port or starboard is needed", string(e.Side))
}

// Reach is the x of the first and the last station, mm: nothing is known outside.
func (h *Hull) Reach() (forward, aft float64) {
	return h.stations[0].X.MM(), h.stations[len(h.stations)-1].X.MM()
}
