package offsets

import (
	"fmt"
	"slices"
	"strings"

	"ribband/takeoff/boat"
	"ribband/takeoff/hull/fair"
	"ribband/takeoff/notation"
)

// maxKnuckleName, bytes.
const maxKnuckleName = 40

const knuckleFix = "give name, height and half_breadth of every knuckle"

// knuckle reads a declared knuckle. One that was not measured at all is left out like any other cell.
func (b *cellReader) knuckle(k KnuckleOffsets, pointer string) {
	if k.Height == "" && k.HalfBreadth == "" {
		return
	}
	c := cell{line: knuckleHeight, knuckle: strings.TrimSpace(k.Name), name: notation.Shorten("knuckle:" + k.Name), pointer: pointer, sound: true}
	fault := func(at, detail string) {
		b.r.add(Fault{Pointer: pointer + at, Station: b.station, Side: b.side, Cell: c.name, Detail: detail, Fix: knuckleFix, absence: at == ""})
		c.sound = false
	}
	if n := len(c.knuckle); n == 0 || n > maxKnuckleName {
		fault("/name", fmt.Sprintf("its name has %d bytes; from 1 to %d are taken", n, maxKnuckleName))
	}
	switch {
	case k.Height == "":
		fault("", "its height is missing")
	case k.HalfBreadth == "":
		fault("", "its half-breadth is missing")
	default:
		var err error
		if c.up, err = b.r.length(k.Height); err != nil {
			b.r.add(cellFault(err, pointer+"/height", b.station, b.side, c.name))
			c.sound = false
		}
		c.pointer = pointer + "/half_breadth"
		if c.value, err = b.r.length(k.HalfBreadth); err != nil {
			b.r.add(cellFault(err, c.pointer, b.station, b.side, c.name))
			c.sound = false
		} else if c.value.Sign() < 0 {
			fault("/half_breadth", "the half-breadth is negative")
		}
	}
	b.out = append(b.out, c)
}

// corner is the mark of a knuckle, both of whose measures were taken.
func (c cell) corner() Mark {
	return Mark{Cell: c.name, Y: c.value, Z: c.up, Kind: fair.Both, Knuckle: c.knuckle, Pointer: c.pointer}
}

// splits reports knuckles that leave no length of the section between themselves, or between one and an end: two
// points make a piece, so each must be a place of its own.
func (r *reader) splits(marks []Mark, grain float64, no string, side boat.Side) bool {
	near := max(grain, OwnShare*span(marks))
	last, ok := marks[0], true
	for i, m := range marks[1:] {
		if m.Knuckle == "" && i+2 < len(marks) {
			continue
		}
		if apart(last, m) < near {
			at, beside := m, last
			if at.Knuckle == "" {
				at, beside = last, m
			}
			if at.Knuckle != "" {
				ok = false
				r.add(Fault{Pointer: at.Pointer, Station: no, Side: side, Cell: at.Cell, Detail: "it lies at one place with " + beside.Cell,
					Fix: "leave the knuckle out where it runs into an end or another at every station; otherwise measure a station where they stand apart"})
			}
		}
		last = m
	}
	return ok
}

// knuckles holds the stations against one another: a knuckle runs along the whole side, in one order with the others.
func (r *reader) knuckles(o *Table) {
	for _, side := range boat.Sides {
		var names []string
		first := map[string]int{}
		for i := range o.Stations {
			for _, n := range namesOf(o.Stations[i].Marks(side)) {
				if _, known := first[n]; !known {
					first[n] = o.Stations[i].No
					names = append(names, n)
				}
			}
		}
		var order []string
		for i := range o.Stations {
			s := &o.Stations[i]
			marks := s.Marks(side)
			if len(marks) == 0 || s.Mirrored && side == boat.Starboard {
				continue // at fault already, or told of with port
			}
			f := Fault{Pointer: s.Pointer, Station: itoa(s.No), Side: side}
			if s.Mirrored {
				f.Side = boat.Both
			}
			have, whole := namesOf(marks), true
			for _, n := range names {
				if !slices.Contains(have, n) {
					whole, f.absence = false, true
					f.Cell, f.Detail = notation.Shorten("knuckle:"+n), fmt.Sprintf("it is missing, and station %d gives it", first[n])
					f.Fix = "give every knuckle at every station; where the section is fair there, give the point that the line of the knuckle runs through"
					r.add(f)
				}
			}
			switch {
			case !whole:
			case order == nil:
				order = have
			case !slices.Equal(have, order):
				f.Cell, f.Detail = "", fmt.Sprintf("its knuckles follow as %s, those before as %s", strings.Join(have, ", "), strings.Join(order, ", "))
				f.Fix = "check their names and figures; knuckles run along the boat without crossing, in one order from the rabbet"
				r.add(f)
			}
		}
	}
}

// namesOf are the knuckles of marks, from the rabbet.
func namesOf(marks []Mark) []string {
	var out []string
	for _, m := range marks {
		if m.Knuckle != "" {
			out = append(out, m.Knuckle)
		}
	}
	return out
}
