package takeoff

import (
	"errors"
	"fmt"
	"math"

	"ribband/takeoff/boat"
	"ribband/takeoff/floor"
	"ribband/takeoff/hull"

	"github.com/shopspring/decimal"
)

// floorSize is what is known of a floor's size, or why it is not and what would do.
type floorSize struct {
	of              floor.Size
	known, bevelled bool
	stood           bool // whether it is known where it stands
	port, starboard floor.End
	grain           floor.Grain
	drawn           *floor.Outline // nil where the sections do not tell it
	why, fix        string
}

// byHand is what would do for every floor without a section.
const byHand = "by_hand in its row: across and height, of one that is bent or a strap along too"

func degrees(radians float64) float64 { return radians * 180 / math.Pi }

// place is one side of a floor: where its moulding face and its own two faces lie, mm aft of station 0, the section at the
// moulding face, nil where none is known, and how deep inside of it the floor's lower face lies.
type place struct {
	at, fore, aft float64
	section       *hull.Section
	depth         float64
}

// floorSize from the boat's sections, or by hand.
func (b Basis) floorSize(f floor.Floor, at map[boat.Member]stand) (floorSize, error) {
	port, why, err := b.floorPlace(f, boat.Port, at)
	if err != nil {
		return floorSize{}, err
	}
	starboard, more, err := b.floorPlace(f, boat.Starboard, at)
	if err != nil {
		return floorSize{}, err
	}
	if why == "" {
		why = more
	}
	out := floorSize{stood: why == "" || !math.IsNaN(port.at)}
	if out.stood {
		out.of.X = decimal.NewFromFloat(port.at)
	}
	if h := f.ByHand; h != nil {
		out.of.ByHand, out.known = true, true
		out.of.Across, out.of.Height, out.of.Along = h.Across.InexactFloat64(), h.Height.InexactFloat64(), h.Along.InexactFloat64()
		out.of.Area, out.grain = out.of.Across*out.of.Height, floor.GrainByHand(f)
		return out, nil
	}
	if why != "" {
		out.why, out.fix = why, "Give "+byHand+"."
		return out, nil
	}
	lie := func(p place, s *hull.Section) floor.Lie { return floor.Lie{Section: s, Depth: p.depth} }
	drawn, err := floor.Draw(f, lie(port, port.section), lie(starboard, starboard.section), math.NaN())
	var past *floor.ReachError
	if errors.As(err, &past) {
		out.why, out.fix = past.Error(), "Give its arms a reach within the planking, by girth or height in its row."
		return out, nil
	}
	if err != nil {
		return out, err
	}
	out.known, out.port, out.starboard, out.grain, out.drawn = true, drawn.Port, drawn.Starboard, drawn.Grain(), &drawn
	out.of.Across, out.of.Height, out.of.Area, out.of.Along, out.of.Turn = drawn.Across(), drawn.Height(), drawn.Area, drawn.Along, drawn.Turn
	for _, p := range []struct {
		place
		end float64
	}{{port, drawn.Port.Girth}, {starboard, drawn.Starboard.Girth}} {
		out.of.Bends = append(out.of.Bends, bendsOf(p.place, p.end)...)
	}
	out.bevelled, err = b.bevelFloor(f, port, starboard, &out.of)
	return out, err
}

// bevelFloor makes the size hold the outlines at both faces of the floor; false where the lines there are not known. The
// lines may miss the section that the floor was drawn from: then what changes between its faces is added to that.
func (b Basis) bevelFloor(f floor.Floor, port, starboard place, size *floor.Size) (bool, error) {
	if b.Hull == nil {
		return false, nil
	}
	draw := func(p, s, top float64) (floor.Outline, bool) {
		a, err := b.Hull.Section(p, boat.Port)
		if err != nil {
			return floor.Outline{}, false
		}
		c, err := b.Hull.Section(s, boat.Starboard)
		if err != nil {
			return floor.Outline{}, false
		}
		o, err := floor.Draw(f, floor.Lie{Section: a, Depth: port.depth}, floor.Lie{Section: c, Depth: starboard.depth}, top)
		return o, err == nil
	}
	base, ok := draw(port.at, starboard.at, math.NaN())
	if !ok {
		return false, nil
	}
	fore, ok := draw(port.fore, starboard.fore, base.Top)
	if !ok {
		return false, nil
	}
	aft, ok := draw(port.aft, starboard.aft, base.Top)
	if !ok {
		return false, nil
	}
	both := fore.Around(aft)
	size.Across += both.Across() - base.Across()
	size.Height += both.Height() - base.Height()
	size.Area = max(size.Area, size.Area+both.Area-base.Area)
	size.Along = max(size.Along, size.Along+both.Along-base.Along)
	return true, nil
}

// bendsOf are the bends of an arm's lower face as far as it reaches, each at the low end of its range.
func bendsOf(p place, reach float64) []floor.Bend {
	if p.section.Straight {
		return nil
	}
	var out []floor.Bend
	bilge, hollow := p.section.Within(0, reach)
	if r := bend(false, bilge); r.Radius > 0 {
		out = append(out, floor.Bend{Radius: max(0, r.Radius*r.Low-p.depth)})
	}
	if r := bend(false, hollow); r.Radius > 0 {
		out = append(out, floor.Bend{Radius: r.Radius*r.Low + p.depth, Hollow: true})
	}
	return out
}

// floorPlace is one side of a floor, or why its section is not known there. A floor stands square across the boat: of a frame
// that does not only the place of its heel counts, and the section is that of the lines there.
func (b Basis) floorPlace(f floor.Floor, side boat.Side, at map[boat.Member]stand) (place, string, error) {
	siding := f.Siding.InexactFloat64()
	if f.X != nil {
		p := place{at: f.X.InexactFloat64(), fore: f.X.InexactFloat64(), aft: f.X.InexactFloat64() + siding}
		if b.Hull == nil {
			return p, "it stands at a place of its own, and the boat has no lines", nil
		}
		s, err := b.Hull.Section(p.at, side)
		if notGiven(err) {
			return p, "the boat's lines do not reach it: " + err.Error(), nil
		}
		p.section = s
		return p, "", err
	}
	s, ok := at[boat.Member{Kind: boat.Frame, No: f.No, Side: side}]
	if !ok {
		return place{at: math.NaN()}, fmt.Sprintf("there is no frame %d %s that it could stand at", f.No, side), nil
	}
	fore := s.frame.X.InexactFloat64()
	if s.frame.Body() == hull.Before {
		fore -= s.frame.Siding.InexactFloat64()
	}
	aft := fore + s.frame.Siding.InexactFloat64()
	p := place{at: s.frame.X.InexactFloat64(), section: s.target}
	switch f.Stands {
	case floor.Forward:
		p.fore, p.aft = fore-siding, fore
	case floor.Aft:
		p.fore, p.aft = aft, aft+siding
	default:
		p.fore, p.aft, p.depth = (fore+aft-siding)/2, (fore+aft+siding)/2, s.frame.Moulded.InexactFloat64()
	}
	switch square := s.frame.Square(); {
	case p.section != nil && square:
		return p, "", nil
	case b.Hull == nil && !square:
		return p, fmt.Sprintf("frame %d %s does not stand square across the boat, as a floor does, and the boat has no lines", f.No, side), nil
	case b.Hull == nil:
		return p, fmt.Sprintf("frame %d %s was taken by a tape, which tells no line, and the boat has none", f.No, side), nil
	}
	section, err := b.Hull.Section(p.at, side)
	if notGiven(err) {
		return p, "the boat's lines do not reach it: " + err.Error(), nil
	}
	p.section = section
	return p, "", err
}
