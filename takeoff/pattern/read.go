package pattern

import (
	"errors"
	"fmt"
	"strconv"

	"ribband/takeoff/boat"
	"ribband/takeoff/document"
	"ribband/takeoff/hull/offsets"
	"ribband/takeoff/notation"
)

// Set is the patterns of a boat, read and checked. It is not changed after Read.
type Set struct {
	Notation notation.Notation
	// Grain is what the points were read to where a pattern does not say its own; GrainAssumed says that the notation's own
	// was taken.
	Grain        notation.Length
	GrainAssumed bool
	// Patterns in the order written, one a frame and side.
	Patterns []Pattern

	places places
}

// Pattern is one frame's points on one side, from heel to head.
type Pattern struct {
	Member boat.Member
	// Grain is what its points were read to.
	Grain  notation.Length
	Points []Point

	pointer string
}

// Point at the faying face, outboard of the centreline and above the baseline, with the name of the knuckle that it is.
type Point struct {
	Y, Z    notation.Length
	Knuckle string
}

// Read checks a document, or says everything that is wrong with it: each fault names the frame, the side and the point.
func Read(d Document) (*Set, document.Faults) {
	r := &reader{}
	return r.read(d)
}

type reader struct {
	n      notation.Notation
	commas bool // the decimal mark of the document is plainly a comma
	faults document.Faults
}

// name is a frame and side as messages head them: "Frame 12 port".
func name(no int, side boat.Side) string { return fmt.Sprintf("Frame %d %s", no, side) }

// add keeps a fault; what is over is left out, since nobody reads a thousand.
func (r *reader) add(pointer, fix, detail string, args ...any) {
	if len(r.faults) < MaxFaults {
		r.faults.Add(pointer, fix, detail, args...)
	}
}

func (r *reader) read(d Document) (*Set, document.Faults) {
	s := &Set{Notation: d.Notation}
	if d.Surface != offsets.Inside {
		r.add("/surface", "say inside, and pick the points up where the frame meets its planks",
			"the surface %s is not the frame's faying face", notation.Quote(d.Surface))
	}
	if !d.Notation.Known() {
		r.add("/notation", "feet_inches_eighths, inches, mm or m", "the notation %s is not known", notation.Quote(string(d.Notation)))
		return nil, r.faults
	}
	r.n, r.commas = d.Notation, d.plainCommas()
	r.readGrain(d, s)
	switch n := len(d.Patterns); {
	case n == 0:
		r.add("/patterns", "the points of one frame at least", "no patterns are given")
	case n > MaxPatterns:
		r.add("/patterns", "at most "+strconv.Itoa(MaxPatterns), "%d patterns are given", n)
		return nil, r.faults
	}
	seen := map[boat.Member]int{}
	for i, rows := range d.Patterns {
		pointer := "/patterns/" + strconv.Itoa(i)
		if rows.FrameNo < 0 || rows.FrameNo > MaxFrameNo {
			r.add(pointer+"/frame_no", "from 0 to "+strconv.Itoa(MaxFrameNo), "%d is not a frame's number", rows.FrameNo)
		}
		sides := rows.Side.Expand()
		if sides == nil {
			r.add(pointer+"/side", "port, starboard or both", "frame %d: the side %s is not known", rows.FrameNo, notation.Quote(string(rows.Side)))
		}
		grain := s.Grain
		if rows.Grain != "" {
			if own, ok := r.grain(pointer+"/grain", name(rows.FrameNo, rows.Side)+": ", rows.Grain); ok {
				grain = own
			}
		}
		pts := r.points(rows, grain.MM(), pointer)
		for _, side := range sides {
			m := boat.Member{Kind: boat.Frame, No: rows.FrameNo, Side: side}
			if j, twice := seen[m]; twice {
				r.add(pointer, "one pattern a frame and side", "%s: its pattern is already given in /patterns/%d", name(m.No, m.Side), j)
				continue
			}
			seen[m] = i
			s.Patterns = append(s.Patterns, Pattern{m, grain, pts, pointer})
		}
	}
	if len(r.faults) > 0 {
		return nil, r.faults
	}
	return s, nil
}

func (r *reader) readGrain(d Document, s *Set) {
	s.Grain, s.GrainAssumed = r.n.DefaultGrain(), d.Grain == ""
	if d.Grain == "" {
		return
	}
	if l, ok := r.grain("/grain", "", d.Grain); ok {
		s.Grain, s.GrainAssumed = l, d.GrainAssumed
	}
}

// grain reads what points were read to; false where it is none, and that is reported, headed with who.
func (r *reader) grain(pointer, who, text string) (notation.Length, bool) {
	l, err := r.n.ParseCell(text, r.commas)
	switch {
	case err != nil:
		r.add(pointer, "what the points were read to, as "+r.n.Format(r.n.DefaultGrain()), "%sthe grain: %v", who, err)
	case l.Sign() < 0 || l.MM() > maxGrain:
		r.add(pointer, fmt.Sprintf("from 0 (exact) to %d mm", maxGrain), "%sthe grain is %v", who, l)
	default:
		return l, true
	}
	return notation.Length{}, false
}

// points of one pattern read to the grain, mm, in order; nil where anything is wrong with them.
func (r *reader) points(rows Rows, grain float64, pointer string) []Point {
	before := len(r.faults)
	who := name(rows.FrameNo, rows.Side)
	if n := len(rows.Points); n > MaxPoints {
		r.add(pointer+"/points", "at most "+strconv.Itoa(MaxPoints), "%s: %d points are given", who, n)
		return nil
	}
	out := make([]Point, len(rows.Points))
	for i, p := range rows.Points {
		at := pointer + "/points/" + strconv.Itoa(i)
		if p.N != i+1 {
			r.add(at+"/n", "number the points 1, 2, 3 from the heel, none twice and none left out", "%s: point %d stands where point %d should", who, p.N, i+1)
		}
		out[i].Y = r.length(at+"/y", who, p.N, "y", p.Y)
		out[i].Z = r.length(at+"/z", who, p.N, "z", p.Z)
		if out[i].Y.Sign() < 0 {
			r.add(at+"/y", "the distance outboard from the centreline, 0 or more", "%s, point %d: y is %s", who, p.N, r.n.Said(out[i].Y))
		}
	}
	r.knuckles(out, rows, who, pointer)
	if len(r.faults) > before || !r.follows(out, grain, who, pointer) {
		return nil
	}
	return out
}

func (r *reader) length(pointer, who string, n int, what, text string) notation.Length {
	if text == "" {
		r.add(pointer, "a length in "+r.n.Name()+", as "+r.n.Example(), "%s, point %d: %s is missing", who, n, what)
		return notation.Length{}
	}
	l, err := r.n.ParseCell(text, r.commas)
	if err != nil {
		detail, fix := r.refusal(err)
		r.add(pointer, fix, "%s, point %d: %s", who, n, detail)
	}
	return l
}

// refusal is why a text is no length, and what to write instead.
func (r *reader) refusal(err error) (detail, fix string) {
	var e *notation.Error
	if !errors.As(err, &e) || e.Example == "" {
		return err.Error(), "a length in " + r.n.Name() + ", as " + r.n.Example()
	}
	return fmt.Sprintf("%s is not a length in %s: %s", notation.Quote(e.Text), r.n.Name(), e.Reason), "write it like " + e.Example
}
