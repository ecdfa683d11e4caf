package planking

import (
	"strconv"

	"ribband/takeoff/boat"
	"ribband/takeoff/document"
	"ribband/takeoff/notation"
)

// Boat says how a boat is planked on each side, lengths as text in Notation. A side may be both where the two are planked
// alike. Replace is empty: what is renewed is an option's business.
type Boat struct {
	Notation notation.Notation `json:"notation"`
	Sides    []Document        `json:"sides"`
}

// maxStrakes of one side, as many as strakes are laid out.
const maxStrakes = 60

// Check says what is wrong that can be told without the boat's lines.
func (b Boat) Check() document.Faults {
	var f document.Faults
	if !b.Notation.Known() {
		f.Add("/notation", "feet_inches_eighths, inches, mm or m", "the notation %s is not known", notation.Quote(string(b.Notation)))
	}
	if len(b.Sides) == 0 || len(b.Sides) > len(boat.Sides) {
		f.Add("/sides", "port and starboard, or both in one", "%d sides are given", len(b.Sides))
		return f
	}
	seen := map[boat.Side]bool{}
	for i, d := range b.Sides {
		p := "/sides/" + strconv.Itoa(i)
		sides := d.Side.Expand()
		if len(sides) == 0 {
			f.Add(p+"/side", "port, starboard or both", "%s is no side", notation.Quote(string(d.Side)))
		}
		for _, s := range sides {
			if seen[s] {
				f.Add(p+"/side", "each side once", "the %s side is given twice", s)
			}
			seen[s] = true
		}
		if (d.Strakes.Count == 0) == (len(d.Strakes.Edges) == 0) || d.Strakes.Count < 0 {
			f.Add(p+"/strakes", "count or edges, one of the two", "how the side is divided is not given, or given twice")
		}
		if n := d.strakes(); n > maxStrakes {
			f.Add(p+"/strakes", "at most "+strconv.Itoa(maxStrakes), "%d strakes are given", n)
		}
		if len(d.Replace) > 0 {
			f.Add(p+"/replace", "nothing here: put it with the planks of an option", "pieces that come out are said with how she is planked")
		}
	}
	return f
}

// Of is how one side is planked, and where in the document that stands; false where nothing says.
func (b Boat) Of(side boat.Side) (Document, string, bool) {
	for i, d := range b.Sides {
		for _, s := range d.Side.Expand() {
			if s == side {
				d.Side = side
				return d, "/sides/" + strconv.Itoa(i), true
			}
		}
	}
	return Document{}, "", false
}

// Strakes is how many strakes a side has; 0 where nothing says.
func (b Boat) Strakes(side boat.Side) int {
	d, _, _ := b.Of(side)
	return d.strakes()
}

func (d Document) strakes() int {
	switch {
	case d.Strakes.Count > 0:
		return d.Strakes.Count
	case len(d.Strakes.Edges) > 0:
		return max(len(d.Strakes.Edges[0].Fractions), len(d.Strakes.Edges[0].Girths)) + 1
	}
	return 0
}

// WithoutLines is what is said of each side that needs no lines: how thick planks are, and which lengths boards come in.
func (b Boat) WithoutLines() (map[boat.Side]Terms, document.Faults) {
	var all document.Faults
	out := map[boat.Side]Terms{}
	for i, d := range b.Sides {
		r := &reader{doc: d, in: b.Notation, t: Terms{}}
		r.stocked()
		all = append(all, r.Under("/sides/"+strconv.Itoa(i))...)
		for _, side := range d.Side.Expand() {
			r.t.Side = side
			out[side] = r.t
		}
	}
	return out, all
}
