package offsets

import (
	"fmt"
	"slices"
	"strconv"

	"ribband/takeoff/boat"
	"ribband/takeoff/hull/fair"
	"ribband/takeoff/notation"
)

func itoa(i int) string { return strconv.Itoa(i) }

// sides reads the entries of one station into the points of its two sides.
func (r *reader) sides(o *Table, in *StationOffsets, s *Station) {
	no := itoa(in.No)
	if len(in.Sides) > MaxSides {
		r.add(Fault{Pointer: s.Pointer + "/sides", Station: no, Detail: fmt.Sprintf("%d entries are given for its sides", len(in.Sides)),
			Fix: "give one entry a side, and at most one for both"})
		return
	}
	read := map[boat.Side][]cell{}
	at := map[boat.Side]string{}
	for i := range in.Sides {
		e := &in.Sides[i]
		pointer := fmt.Sprintf("%s/sides/%d", s.Pointer, i)
		if !r.entry(e, no, pointer, at) {
			continue
		}
		at[e.Side] = pointer
		read[e.Side] = r.cells(e, no, pointer)
	}
	if len(at) == 1 && at[boat.Both] != "" {
		marks := r.marks(o, read[boat.Both], no, boat.Both, at[boat.Both])
		s.Port, s.Starboard, s.Mirrored = marks, marks, true
		return
	}
	for _, side := range boat.Sides {
		if at[side] == "" && at[boat.Both] == "" {
			continue // reported as missing
		}
		pointer := at[side]
		if pointer == "" {
			pointer = at[boat.Both]
		}
		marks := r.marks(o, slices.Concat(read[boat.Both], read[side]), no, side, pointer)
		if side == boat.Port {
			s.Port = marks
		} else {
			s.Starboard = marks
		}
	}
}

// entry checks the head of one entry; at holds the entries before it.
func (r *reader) entry(e *SideOffsets, no, pointer string, at map[boat.Side]string) bool {
	if e.Side.Expand() == nil {
		r.add(Fault{Pointer: pointer + "/side", Station: no, Cell: "side",
			Detail: fmt.Sprintf("the side %s is not known", notation.Quote(string(e.Side))), Fix: "say port, starboard or both"})
		return false
	}
	if at[e.Side] != "" {
		r.add(Fault{Pointer: pointer + "/side", Station: no, Side: e.Side, Detail: "this side is given twice",
			Fix: "put all its cells into one entry"})
		return false
	}
	if n := len(e.Waterlines) + len(e.Buttocks) + len(e.Diagonals) + len(e.Knuckles); n > MaxMarks {
		r.add(Fault{Pointer: pointer, Station: no, Side: e.Side, Detail: fmt.Sprintf("%d points are more than the %d that are taken", n, MaxMarks),
			Fix: "leave out waterlines, buttocks or diagonals that lie close together"})
		return false
	}
	return true
}

// marks brings the cells of one side to points in order; nil when any of them is at fault.
func (r *reader) marks(o *Table, cells []cell, no string, side boat.Side, pointer string) []Mark {
	cells, ok := r.distinct(cells, no, side)
	var ends [sheerHalfBreadth + 1]cell
	var has [sheerHalfBreadth + 1]bool
	var inner []cell
	for _, c := range cells {
		ok = ok && c.sound
		if c.line <= sheerHalfBreadth {
			ends[c.line], has[c.line] = c, true
		} else {
			inner = append(inner, c)
		}
	}
	ends4 := 0
	for l, given := range has {
		if given {
			ends4++
			continue
		}
		r.add(Fault{Pointer: pointer, Station: no, Side: side, Cell: lineNames[l], Detail: "it is missing",
			Fix: "give height and half-breadth of both the rabbet and the sheer at every station", absence: true})
		ok = false
	}
	cornered := slices.ContainsFunc(inner, func(c cell) bool { return c.line == knuckleHeight })
	if n := ends4/2 + len(inner); n < MinMarks && !cornered {
		r.add(Fault{Pointer: pointer, Station: no, Side: side,
			Detail: fmt.Sprintf("a side needs at least %d points, rabbet and sheer counted; %d are given", MinMarks, n),
			Fix:    "measure more waterlines, buttocks or diagonals, most of all in the tightest bend", absence: true})
		return nil
	}
	if !ok {
		return nil
	}
	end := func(name string, h, b line) Mark {
		return Mark{Cell: name, Y: ends[b].value, Z: ends[h].value, Kind: fair.Both, Pointer: ends[h].pointer}
	}
	rabbet := end("rabbet", rabbetHeight, rabbetHalfBreadth)
	sheer := end("sheer", sheerHeight, sheerHalfBreadth)
	if !r.between(rabbet, sheer, ends[sheerHeight].name, inner, no, side) {
		return nil
	}
	marks := inOrder(rabbet, sheer, inner, o.Diagonals)
	if cornered && !r.splits(marks, o.Grain.MM(), no, side) {
		return nil
	}
	if !r.follows(marks, o.Grain.MM(), no, side, pointer) {
		return nil
	}
	return marks
}

// between reports a sheer that is not above the rabbet, and waterlines that are not between them.
func (r *reader) between(rabbet, sheer Mark, sheerCell string, inner []cell, no string, side boat.Side) bool {
	if sheer.Z.Compare(rabbet.Z) <= 0 {
		r.add(Fault{Pointer: sheer.Pointer, Station: no, Side: side, Cell: sheerCell,
			Detail: fmt.Sprintf("the sheer, at %s, is not above the rabbet, at %s", r.said(sheer.Z), r.said(rabbet.Z)), Fix: "check the two heights"})
		return false
	}
	ok := true
	for _, c := range inner {
		if c.line != waterline {
			continue
		}
		if c.at.Compare(sheer.Z) > 0 {
			ok = false
			r.add(Fault{Pointer: c.pointer, Station: no, Side: side, Cell: c.name,
				Detail: fmt.Sprintf("this waterline, at %s, passes above the sheer, at %s", r.said(c.at), r.said(sheer.Z)), Fix: "leave the cell empty at this station, or check the height of the sheer"})
		} else if c.at.Compare(rabbet.Z) < 0 {
			ok = false
			r.add(Fault{Pointer: c.pointer, Station: no, Side: side, Cell: c.name,
				Detail: fmt.Sprintf("this waterline, at %s, passes below the rabbet, at %s", r.said(c.at), r.said(rabbet.Z)), Fix: "leave the cell empty at this station, or check the height of the rabbet"})
		}
	}
	return ok
}
