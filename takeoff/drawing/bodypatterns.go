package drawing

import (
	"fmt"
	"strconv"

	"ribband/takeoff/boat"
	"ribband/takeoff/draw"
	"ribband/takeoff/hull"
)

// FramePattern is the pattern of one frame on one side as it is drawn in the body plan.
type FramePattern struct {
	Member boat.Member
	// Section of the pattern, standing at its frame's place.
	Section *hull.Section
	// Placed says that the place of the frame along the boat is known; otherwise it is not drawn, since nobody knows in
	// which half it stands.
	Placed bool
}

// patternLine is a pattern made ready: its name and its line, in the half that its frame stands in.
type patternLine struct {
	name, of string
	right    bool
	line     []hull.Point
}

// patternsOf gathers the patterns of one plan: those of its side, or of both where it stands for both, named by side then.
func (b BodyPlan) patternsOf(p *body, h *halves) {
	for _, q := range b.Patterns {
		if h.side != boat.Both && q.Member.Side != h.side {
			continue
		}
		if !q.Placed || q.Section == nil || len(h.sections) == 0 {
			p.notes = append(p.notes, fmt.Sprintf("The pattern of %s is not drawn: where its frame stands along the boat is not known.", q.Member))
			continue
		}
		name := "F " + strconv.Itoa(q.Member.No)
		if h.side == boat.Both {
			name += " " + string(q.Member.Side)
		}
		h.patterns = append(h.patterns, patternLine{
			name: name, of: "pattern/" + strconv.Itoa(q.Member.No) + "/" + string(q.Member.Side),
			right: q.Section.X <= h.sections[h.middle].x, line: q.Section.Line(sectionPoints),
		})
	}
}

// patterns draws the patterns of one plan with their names on them.
func (f placed) patterns(h halves) {
	if len(h.patterns) == 0 {
		return
	}
	var lines []named
	var around [][]draw.Point
	for _, q := range h.patterns {
		f.curve("patterns", patternPen(f.full), q.right, q.line, q.of)
		points := make([]draw.Point, len(q.line))
		for i, at := range q.line {
			points[i] = f.at(q.right, at.Y, at.Z)
		}
		lines = append(lines, named{q.name, points})
	}
	for i, s := range h.sections {
		for _, right := range h.halvesOf(i) {
			points := make([]draw.Point, len(s.line))
			for j, at := range s.line {
				points[j] = f.at(right, at.Y, at.Z)
			}
			around = append(around, points)
		}
	}
	if nameLines(f.list, f.small, lines, around) > 0 {
		var names []string
		for _, l := range lines {
			names = append(names, l.text)
		}
		f.notes = append(f.notes, fmt.Sprintf("Not every pattern has room for its number beside its line. %s: %s.", sideName(h.side), listed(names)))
	}
}

// patternPen tells patterns from sections: dash and dot, shorter than a centreline's.
func patternPen(width float64) draw.Pen {
	return draw.Pen{Width: width, Colour: draw.Vermillion, Dash: []float64{5, 2, 1.2, 2}}
}
