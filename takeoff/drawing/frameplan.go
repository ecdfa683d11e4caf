package drawing

import (
	"cmp"
	"fmt"
	"math"
	"slices"
	"strconv"

	"ribband/takeoff/boat"
	"ribband/takeoff/draw"
	"ribband/takeoff/frame"
	"ribband/takeoff/hull"
	"ribband/takeoff/notation"
)

// Work is what is to be done to one frame on one side. Pieces are what is let into it or laid alongside; none where it
// concerns the whole frame or they are not known.
type Work struct {
	Remedy boat.Remedy
	Pieces []Piece
}

// Piece lies from From to To along the girth from the rabbet, mm, the tapers of its scarfs counted in, and has its full
// depth from Low to High.
type Piece struct{ From, Low, High, To float64 }

// WorkOf is the remedies of an option as work on frames, with the pieces of those where they are known.
func WorkOf(choices map[boat.Member]frame.Choice, pieces map[boat.Member][]Piece) map[boat.Member]Work {
	out := make(map[boat.Member]Work, len(choices))
	for m, c := range choices {
		w := Work{Remedy: c.Remedy}
		for _, p := range pieces[m] {
			if p.inOrder() {
				w.Pieces = append(w.Pieces, p)
			}
		}
		out[m] = w
	}
	return out
}

// inOrder says that the piece is one that can be drawn.
func (p Piece) inOrder() bool {
	return p.From >= 0 && p.From <= p.Low && p.Low <= p.High && p.High <= p.To && p.From < p.To && !math.IsInf(p.To, 0)
}

// FramePlan is the frames of a boat seen from above, each in its place with what is to be done to it.
type FramePlan struct {
	Sheet Sheet
	// Option is what the scope of work is called; it may be empty.
	Option string
	// Notation that lengths are written in.
	Notation notation.Notation
	Frames   []frame.Frame
	// Hull gives the outline and how far each frame reaches; nil where the boat has no lines, and then only the
	// places along the boat are true.
	Hull *hull.Hull
	// Work by frame. A frame that it does not name is left; nil says that nothing has been chosen yet, and then
	// every frame is unknown.
	Work map[boat.Member]Work
	// Plain draws it for the owner: in words that need no knowledge of the trade, with the key of what occurs only,
	// and without measures that say nothing to him.
	Plain bool
}

// Draw is the plan of frames.
func (p FramePlan) Draw() Drawing {
	k := p.Sheet.look()
	list := &draw.List{Width: k.width, Title: "Plan of frames of " + or(p.Sheet.Boat, "the boat")}
	f := foot{subject: "Plan of frames, bow to the right", units: unitsLine(p.Notation), notation: p.Notation}
	if p.Plain {
		f.subject, f.units = "The frames, her ribs, seen from above", ""
	}
	if p.Option != "" {
		list.Title += ", option: " + p.Option
		f.subject += "; option: " + p.Option
	}
	ribs := p.ribs()
	f.key = p.key(k, ribs)
	if len(ribs) == 0 {
		return empty(list, p.Sheet, k, f, "No frames have been entered yet; there is nothing to draw.")
	}
	v := &view{look: k, list: list, ribs: ribs, measured: p.Hull != nil}
	v.outline(p.Hull)
	y := v.put()
	f.notes = append(p.remarks(ribs), v.notes...)
	list.Desc = p.describe(ribs)
	list.Height = math.Ceil(f.put(list, p.Sheet, k, y+line(k.text)))
	return Drawing{list, p.table(ribs)}
}

// rib is a frame made ready to be drawn, lengths in mm.
type rib struct {
	frame.Frame
	x float64
	// inner and outer end seen from above, as half-breadth and x, and the pieces of it.
	inner, outer hull.Point
	pieces       []seenPiece
	work         Work
	treatment    treatment
	// drawn is false for a frame that stands where the boat was not measured.
	drawn bool
}

// ribPoints are looked at along a frame to find how far out it reaches.
const ribPoints = 49

// ribs of the plan, from forward, port before starboard.
func (p FramePlan) ribs() []rib {
	var out []rib
	for _, f := range p.Frames {
		if !f.Side.One() {
			continue
		}
		x, _ := f.X.Float64()
		r := rib{Frame: f, x: x, inner: hull.Point{Z: x}, outer: hull.Point{Z: x}, work: p.workOn(f), drawn: true}
		r.treatment = treatmentOf(r.work.Remedy)
		if p.Hull != nil {
			r.drawn = r.on(p.Hull)
		}
		out = append(out, r)
	}
	slices.SortStableFunc(out, func(a, b rib) int {
		return cmp.Or(cmp.Compare(a.x, b.x), boat.Compare(a.Member(), b.Member()))
	})
	return out
}

// workOn is the work on a frame.
func (p FramePlan) workOn(f frame.Frame) Work {
	if p.Work == nil {
		return Work{}
	}
	if w, named := p.Work[f.Member()]; named {
		return w
	}
	return Work{Remedy: boat.Leave}
}

// followed is what a frame follows: its section, or its line on the planking.
type followed interface {
	OnBoat(u float64) (x, y, z float64)
	Share(share float64) float64
}

// on finds the frame's reach on the lines, and reports whether they give it.
func (r *rib) on(h *hull.Hull) bool {
	if r.Flat() {
		l, err := h.Laid(r.x, r.Run.InexactFloat64(), r.Side)
		if err == nil {
			r.reach(l, l.Length.MM)
		}
		return err == nil
	}
	c, err := h.SectionIn(r.Plane(), r.Side)
	if err == nil {
		r.reach(c, c.Girth.MM)
	}
	return err == nil
}

// seenPiece is a piece seen from above: low to high over its full depth, its tapers out to from and to.
type seenPiece struct{ from, low, high, to hull.Point }

// reach finds how far in and out the frame on a section stands, seen from above, and where its pieces lie. The high end
// of the girth's range, to which pieces are cut, may lie past the section's own end.
func (r *rib) reach(c followed, girth float64) {
	r.inner, r.outer = span(c, 0, 1)
	if r.treatment != scarf && r.treatment != sister || !(girth > 0) {
		return
	}
	at := func(s float64) hull.Point {
		x, y, _ := c.OnBoat(c.Share(min(1, s/girth)))
		return hull.Point{Y: y, Z: x}
	}
	for _, p := range r.work.Pieces {
		s := seenPiece{from: at(p.From), to: at(p.To)}
		s.low, s.high = span(c, min(1, p.Low/girth), min(1, p.High/girth))
		r.pieces = append(r.pieces, s)
	}
}

// unknownLength says that a piece is to be made and nobody knows where it begins and ends.
func (r rib) unknownLength(t treatment) bool { return r.treatment == t && len(r.work.Pieces) == 0 }

// span is the places of the least and the greatest half-breadth of a section between two fractions of its girth, x in Z.
func span(c followed, from, to float64) (low, high hull.Point) {
	low.Y, high.Y = math.Inf(1), math.Inf(-1)
	for i := range ribPoints {
		x, y, _ := c.OnBoat(c.Share(from + (to-from)*float64(i)/(ribPoints-1)))
		if y < low.Y {
			low = hull.Point{Y: y, Z: x}
		}
		if y > high.Y {
			high = hull.Point{Y: y, Z: x}
		}
	}
	return low, high
}

// counted is how many frames have each treatment.
func counted(ribs []rib) (counts [treatments]int) {
	for _, r := range ribs {
		counts[r.treatment]++
	}
	return counts
}

// key explains every stroke, also those that no frame has; in plain words those that some frame has.
func (p FramePlan) key(k look, ribs []rib) []keyLine {
	var key []keyLine
	for t, n := range counted(ribs) {
		switch {
		case !p.Plain:
			key = append(key, treatment(t).keyLine(k, n, treatment(t).explained()))
		case n > 0:
			key = append(key, treatment(t).keyLine(k, n, treatment(t).plainly()))
		}
	}
	return key
}

// describe says in words what is to be seen.
func (p FramePlan) describe(ribs []rib) string {
	if p.Plain {
		return describePlainly(ribs)
	}
	s := "The frames seen from above, bow to the right, port above and starboard below, each drawn in its place: "
	var parts []string
	for t, n := range counted(ribs) {
		if n > 0 {
			parts = append(parts, treatment(t).word()+" "+strconv.Itoa(n))
		}
	}
	return s + listed(parts) + ". Port and starboard frames are counted apart. The same stands in the table of the same name."
}

// remarks are what a reader should know beside what the plan shows.
func (p FramePlan) remarks(ribs []rib) []string {
	if p.Plain {
		return p.remarksPlainly(ribs)
	}
	var out []string
	if p.Work == nil {
		out = append(out, "No remedy has been chosen yet: every frame is shown as unknown.")
	}
	if p.Hull == nil {
		out = append(out, "The boat has no lines yet: only the places of the frames along her are true, their reach from side to side is not, and no part of a frame is drawn apart.")
	} else {
		forward, aft := p.Hull.Reach()
		out = append(out, fmt.Sprintf("Outline: half-breadth at the sheer and at the rabbet, as far as she was measured, from %s to %s aft of station 0.",
			withUnit(p.Notation, forward), withUnit(p.Notation, aft)))
	}
	missed, parts, sisters := 0, 0, 0
	var first rib
	for _, r := range ribs {
		if !r.drawn {
			if missed == 0 {
				first = r
			}
			missed++
		}
		if r.unknownLength(scarf) {
			parts++
		}
		if r.unknownLength(sister) {
			sisters++
		}
	}
	if missed > 0 {
		out = append(out, fmt.Sprintf("%s outside the measured stations and %s not drawn, the first of them %s: measure a station there.",
			plural(missed, "frame stands", "frames stand"), isAre(missed), first.Member()))
	}
	if parts > 0 {
		out = append(out, fmt.Sprintf("On %s the length to scarf in is not known yet and not drawn.", plural(parts, "frame", "frames")))
	}
	if sisters > 0 {
		out = append(out, fmt.Sprintf("On %s the length of the sister is not known yet; it is drawn along all of the frame.", plural(sisters, "frame", "frames")))
	}
	return out
}

func isAre(n int) string {
	if n == 1 {
		return "is"
	}
	return "are"
}

func plural(n int, one, many string) string {
	if n == 1 {
		return "1 " + one
	}
	return strconv.Itoa(n) + " " + many
}

// length is a length as the plan's table writes it.
func (p FramePlan) length(mm float64) string {
	l, err := notation.FromMM(mm)
	if err != nil {
		return strconv.FormatFloat(mm, 'f', 1, 64) + " mm"
	}
	return p.Notation.Format(l)
}

// along says where the pieces of a frame lie.
func (p FramePlan) along(r rib) string {
	if r.treatment != scarf && r.treatment != sister || len(r.work.Pieces) == 0 {
		return ""
	}
	var parts []string
	for _, w := range r.work.Pieces {
		part := "from " + p.length(w.From) + " to " + p.length(w.To)
		var tapers []string
		if w.Low > w.From {
			tapers = append(tapers, "to "+p.length(w.Low))
		}
		if w.High < w.To {
			tapers = append(tapers, "from "+p.length(w.High))
		}
		if len(tapers) > 0 {
			part += " (tapered " + listed(tapers) + ")"
		}
		parts = append(parts, part)
	}
	return ", " + listed(parts) + " along the girth from the rabbet"
}

// table lists the frames from forward, port before starboard.
func (p FramePlan) table(ribs []rib) Table {
	if p.Plain {
		return p.tablePlainly(ribs)
	}
	t := Table{
		Caption: "Frames and what is to be done to them; places aft of station 0, " + lengthUnit(p.Notation),
		Head:    []string{"Frame", "Side", "Aft of station 0", "Letter", "Remedy"},
	}
	if p.Option != "" {
		t.Caption = "Option: " + p.Option + ". " + t.Caption
	}
	for _, r := range ribs {
		word := r.treatment.word() + p.along(r)
		if !r.drawn {
			word += " (outside the measured stations, not drawn)"
		}
		t.Rows = append(t.Rows, []string{strconv.Itoa(r.No), string(r.Side), p.length(r.x), r.treatment.letter(), word})
	}
	return t
}
