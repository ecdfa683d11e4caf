package offsets

import (
	"fmt"
	"strconv"

	"ribband/takeoff/boat"
	"ribband/takeoff/notation"
)

// Read checks a table of offsets and brings it to lengths and points in order. It reports every fault it can find
// at once; there are offsets only when there is none. The document is not changed.
func Read(doc *Document) (*Table, []Fault) { return read(doc, nil, nil) }

// read is Read for a document that may have come from a CSV: its places there, and the faults of rows that made no
// cell. Where there are such, the want of something is not reported: it may be what the row held.
func read(doc *Document, at *places, rows *faults) (*Table, []Fault) {
	r := reader{doc: doc}
	o := &Table{places: at}
	if r.head(o) {
		r.diagonals(o)
		r.stations(o)
		o.Stem = r.profile(o, doc.Stem, stemLine)
		o.Transom = r.profile(o, doc.Transom, transomLine)
	}
	var found faults
	if rows != nil {
		found = *rows
	}
	incomplete := found.any()
	for _, f := range at.locate(r.all()) {
		if !(f.absence && incomplete) {
			found.list = append(found.list, f)
		}
	}
	if found.any() {
		return nil, found.all()
	}
	return o, nil
}

// reader reads one document.
type reader struct {
	doc *Document
	faults
	sound     []bool         // of the stations whose x could be read
	named     map[string]int // diagonals by name, -1 for one that cannot be read
	plankTold bool           // of the table's own thickness, once
	commas    bool           // the decimal mark of the table is plainly a comma
}

// head reads how the table is written; false when no cell can be read.
func (r *reader) head(o *Table) bool {
	d := r.doc
	switch d.Surface {
	case Inside, Outside:
	case "":
		r.add(Fault{Pointer: "/surface", Detail: "the table does not say which face of the plank the offsets are to",
			Fix: `say surface "inside" or "outside"; outside needs plank_thickness too`})
	default:
		r.add(Fault{Pointer: "/surface", Detail: fmt.Sprintf("the surface %s is not known", notation.Quote(d.Surface)),
			Fix: `say surface "inside" or "outside"; outside needs plank_thickness too`})
	}
	if !d.Notation.Known() {
		r.add(Fault{Pointer: "/notation", Detail: fmt.Sprintf("the notation %s is not known", notation.Quote(string(d.Notation))),
			Fix: "say one of feet_inches_eighths, inches, mm, m"})
		return false
	}
	o.Notation, o.Surface = d.Notation, d.Surface
	r.commas = plainCommas(d)
	r.grain(o)
	if len(d.Stations) > MaxStations {
		r.add(Fault{Pointer: "/stations", Detail: fmt.Sprintf("%d stations are more than the %d that are taken", len(d.Stations), MaxStations),
			Fix: "leave out stations that lie close together"})
		return false
	}
	return true
}

func (r *reader) grain(o *Table) {
	if r.doc.Grain == "" {
		o.Grain, o.GrainAssumed = o.Notation.DefaultGrain(), true
		return
	}
	l, err := r.length(r.doc.Grain)
	switch {
	case err != nil:
		r.add(Fault{Pointer: "/grain", Detail: "the grain " + err.Error(), Fix: "write the grain in the table's own notation, as " + o.Notation.Format(o.Notation.DefaultGrain())})
	case l.Sign() < 0 || l.MM() > maxGrain:
		r.add(Fault{Pointer: "/grain", Detail: fmt.Sprintf("the grain is %v; it lies between 0 (exact lengths) and %g mm", l, maxGrain),
			Fix: "give what the lengths were written to, as " + o.Notation.Format(o.Notation.DefaultGrain())})
	default:
		o.Grain, o.GrainAssumed = l, r.doc.GrainAssumed
	}
}

func (r *reader) stations(o *Table) {
	sound := make([]bool, len(r.doc.Stations))
	r.sound = sound
	count := map[boat.Side]int{}
	for i := range r.doc.Stations {
		in := &r.doc.Stations[i]
		s := Station{No: in.No, Pointer: fmt.Sprintf("/stations/%d", i)}
		s.X, sound[i] = r.stationX(in, s.Pointer)
		r.order(o, in, i, sound, s)
		s.Thickness = r.thickness(in, s.Pointer)
		r.sides(o, in, &s)
		for _, side := range boat.Sides {
			if gives(in, side) {
				count[side]++
			}
		}
		o.Stations = append(o.Stations, s)
	}
	r.enough(count)
	r.knuckles(o)
}

func (r *reader) stationX(in *StationOffsets, pointer string) (notation.Length, bool) {
	no := strconv.Itoa(in.No)
	if in.No < 0 || in.No > 9999 {
		r.add(Fault{Pointer: pointer + "/no", Station: no, Cell: "no", Detail: "a station's number lies between 0 and 9999",
			Fix: "number the stations from forward"})
	}
	if in.X == "" {
		r.add(Fault{Pointer: pointer + "/x", Station: no, Cell: "x", Detail: "its place along the boat is missing",
			Fix: "give x, the distance aft from station 0", absence: true})
		return notation.Length{}, false
	}
	x, err := r.length(in.X)
	if err != nil {
		r.add(cellFault(err, pointer+"/x", no, "", "x"))
		return notation.Length{}, false
	}
	return x, true
}

// order holds station i against the one before it.
func (r *reader) order(o *Table, in *StationOffsets, i int, sound []bool, s Station) {
	if i == 0 {
		return
	}
	before := o.Stations[i-1]
	no := strconv.Itoa(in.No)
	if in.No == before.No {
		r.add(Fault{Pointer: s.Pointer + "/no", Station: no, Cell: "no", Detail: "it is given twice",
			Fix: "give every station one number of its own"})
		return
	}
	if in.No < before.No {
		r.add(Fault{Pointer: s.Pointer + "/no", Station: no, Cell: "no", Detail: fmt.Sprintf("it stands after station %d", before.No),
			Fix: "list the stations by number, from forward"})
		return
	}
	if !sound[i] || !sound[i-1] {
		return
	}
	gap := s.X.MM() - before.X.MM()
	switch {
	case gap <= -minSpacing:
		r.add(Fault{Pointer: s.Pointer + "/x", Station: no, Cell: "x",
			Detail: fmt.Sprintf("it lies at %s, forward of station %d at %s", r.said(s.X), before.No, r.said(before.X)),
			Fix:    "check x; it grows from station to station, aft from station 0"})
	case gap < minSpacing:
		r.add(Fault{Pointer: s.Pointer + "/x", Station: no, Cell: "x",
			Detail: fmt.Sprintf("it lies at one place with station %d, %s", before.No, r.said(s.X)),
			Fix:    "check x, or leave one of the two out"})
	}
}

// gives reports whether a station holds an entry for the side.
func gives(in *StationOffsets, side boat.Side) bool {
	for _, e := range in.Sides {
		for _, s := range e.Side.Expand() {
			if s == side {
				return true
			}
		}
	}
	return false
}

// enough reports sides that have too few stations, and stations that lack a side which others have.
func (r *reader) enough(count map[boat.Side]int) {
	n := len(r.doc.Stations)
	if n < MinStations {
		r.add(Fault{Pointer: "/stations", Detail: fmt.Sprintf("a hull needs at least %d stations; %d are given", MinStations, n),
			Fix: "measure more stations", absence: true})
		return
	}
	for _, side := range boat.Sides {
		if count[side] == 0 {
			r.add(Fault{Pointer: "/stations", Side: side, Detail: "no station gives this side",
				Fix: `measure it, or write side "both" where the sides are alike`, absence: true})
			continue
		}
		for i := range r.doc.Stations {
			if in := &r.doc.Stations[i]; !gives(in, side) {
				r.add(Fault{Pointer: fmt.Sprintf("/stations/%d/sides", i), Station: strconv.Itoa(in.No), Side: side,
					Detail: "this side is missing", Fix: `give it, or write side "both" where the sides are alike`, absence: true})
			}
		}
	}
}
