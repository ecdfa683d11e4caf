package offsets

import (
	"fmt"

	"ribband/takeoff/boat"
	"ribband/takeoff/notation"
)

// Names of the lines in profile, and of the thickness of plank, as in the column `line`.
const (
	stemLine      = "stem_x"
	transomLine   = "transom_x"
	thicknessLine = "plank_thickness"
)

// profile reads the stem or the transom: heights rise, and nothing of it lies within the boat beside an end station's
// own section. Below that station's rabbet the forefoot and the heel may run in under her.
func (r *reader) profile(o *Table, in []ProfileOffsets, name string) []Profile {
	at := "/stem"
	if name == transomLine {
		at = "/transom"
	}
	if len(in) > MaxProfile {
		r.add(Fault{Pointer: at, Cell: name, Detail: fmt.Sprintf("%d heights are more than the %d that are taken", len(in), MaxProfile), Fix: "leave out heights that lie close together"})
		return nil
	}
	var out []Profile
	for i, p := range in {
		if p.X == "" {
			continue // not measured
		}
		pointer := fmt.Sprintf("%s/%d", at, i)
		cell := notation.Shorten(name + ":" + p.Height)
		z, errZ := r.length(p.Height)
		if errZ != nil {
			r.add(cellFault(errZ, pointer+"/height", "", "", cell))
		}
		x, errX := r.length(p.X)
		if errX != nil {
			r.add(cellFault(errX, pointer+"/x", "", "", cell))
		}
		if errZ != nil || errX != nil {
			continue
		}
		if n := len(out); n > 0 && z.Compare(out[n-1].Z) <= 0 {
			r.add(Fault{Pointer: pointer + "/height", Cell: cell, Detail: fmt.Sprintf("its height, %s, is not above the one before it, %s", r.said(z), r.said(out[n-1].Z)), Fix: "list the heights from the lowest up, each once"})
			continue
		}
		r.within(o, name, cell, pointer+"/x", z, x)
		out = append(out, Profile{Z: z, X: x})
	}
	return out
}

// within reports a place of the profile that lies inside the boat.
func (r *reader) within(o *Table, name, cell, pointer string, z, x notation.Length) {
	n := len(o.Stations)
	if n < MinStations || !r.sound[0] || !r.sound[n-1] {
		return // told already
	}
	first, last := &o.Stations[0], &o.Stations[n-1]
	end, beyond, where := first, x.MM()-first.X.MM(), "aft"
	if name == transomLine {
		end, beyond, where = last, last.X.MM()-x.MM(), "forward"
	}
	foot, known := lowest(end)
	past := known && z.MM() > foot+o.Grain.MM() && beyond > o.Grain.MM()
	if past || beyond > (last.X.MM()-first.X.MM())/2 {
		r.add(Fault{Pointer: pointer, Station: itoa(end.No), Cell: cell,
			Detail: fmt.Sprintf("it lies at %s, %s of this station at %s, which has a section at that height", r.said(x), where, r.said(end.X)),
			Fix:    "check x, measured aft from station 0; give a place forward of station 0 with a leading minus"})
	}
}

// lowest is the height of the lower rabbet of a station, mm; false where neither could be read.
func lowest(s *Station) (z float64, ok bool) {
	for _, side := range boat.Sides {
		if m := s.Marks(side); len(m) > 0 && (!ok || m[0].Z.MM() < z) {
			z, ok = m[0].Z.MM(), true
		}
	}
	return z, ok
}

// thickness reads the plank's thickness at one station: its own, or the table's.
func (r *reader) thickness(in *StationOffsets, pointer string) notation.Length {
	text, at, no := in.PlankThickness, pointer+"/plank_thickness", itoa(in.No)
	own := text != ""
	if !own {
		text, at, no = r.doc.PlankThickness, "/plank_thickness", ""
	}
	if text == "" {
		if r.doc.Surface == Outside {
			r.add(Fault{Pointer: pointer, Station: itoa(in.No), Cell: thicknessLine, Detail: "it is missing, and the offsets are to the outside of plank",
				Fix: "give plank_thickness for the whole table, or at every station", absence: true})
		}
		return notation.Length{}
	}
	if !own && r.plankTold {
		return notation.Length{}
	}
	l, err := r.length(text)
	switch {
	case err != nil:
		r.add(cellFault(err, at, no, "", thicknessLine))
	case l.Sign() <= 0 || l.MM() > maxPlank:
		r.add(Fault{Pointer: at, Station: no, Cell: thicknessLine, Detail: fmt.Sprintf("a plank %v thick is none; the thickness lies above 0 and up to %g mm", l, maxPlank),
			Fix: "give the thickness of the plank as it stands on the boat"})
	default:
		return l
	}
	r.plankTold = r.plankTold || !own
	return notation.Length{}
}
