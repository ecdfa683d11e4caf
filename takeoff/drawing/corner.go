package drawing

import (
	"ribband/takeoff/draw"
	"ribband/takeoff/notation"
)

// titleWidth is the width of the title block where it stands beside the key.
const titleWidth = 380.0

// leastData is the room that key and notes need to stand beside the title block.
const leastData = 400.0

// foot is what stands below a drawing: scale bar, key and notes on the left, the title block in the right corner; one
// below the other where there is no room for both.
type foot struct {
	subject  string // what the drawing is
	units    string // of its figures
	notation notation.Notation
	key      []keyLine
	notes    []string
}

// put draws the foot from y down and gives the height of the sheet that holds all.
func (f foot) put(list *draw.List, s Sheet, k look, y float64) float64 {
	left, right := k.margin, k.width-k.margin
	box := max(left, right-titleWidth)
	if box-left < leastData {
		y = f.data(list, k, left, right, y)
		return f.title(list, s, k, box, right, y+line(k.text)) + k.margin
	}
	below := f.data(list, k, left, box-2*k.margin, y)
	// The block stands in the corner: it is measured on a sheet of its own first.
	height := f.title(&draw.List{}, s, k, box, right, 0)
	top := max(y, below-height)
	return max(below, f.title(list, s, k, box, right, top)) + k.margin
}

// data is scale bar, key and notes.
func (f foot) data(list *draw.List, k look, left, right, y float64) float64 {
	if list.ScaleMM > 0 {
		y = scaleBar(list, k, f.notation, draw.Point{X: left, Y: y}, min(300, 0.55*(right-left)))
		y += 0.6 * line(k.text)
	}
	y = key(list, k, f.key, left, right, y)
	words := list.Layer("notes")
	for _, note := range f.notes {
		for _, l := range draw.Wrap(note, k.small, false, right-left, 6) {
			y += line(k.small)
			words.Add(draw.Text{At: draw.Point{X: left, Y: y}, Size: k.small, String: l})
		}
		y += 0.25 * k.small
	}
	return y + draw.Descent*k.small
}

// title is the block with boat, subject, units, date and revision.
func (f foot) title(list *draw.List, s Sheet, k look, left, right, top float64) float64 {
	y, inset := top+0.4*k.text, 0.8*k.text
	words := list.Layer("title block")
	put := func(text string, size float64, bold bool, most int) {
		for _, l := range draw.Wrap(text, size, bold, right-left-2*inset, most) {
			y += line(size)
			words.Add(draw.Text{At: draw.Point{X: left + inset, Y: y}, Size: size, Bold: bold, String: l})
		}
	}
	put(or(s.Boat, "Boat without a name"), k.head, true, 2)
	put(f.subject, k.text, true, 3)
	if f.units != "" {
		put(f.units, k.small, false, 3)
	}
	put("Date "+or(s.Date, "not given")+", revision "+or(s.Revision, "not given"), k.small, false, 2)
	put(s.Note, k.small, false, 3)
	y += 0.9 * k.text
	words.Add(draw.Path{
		Points: draw.Box(draw.Point{X: left, Y: top}, draw.Point{X: right, Y: y}), Closed: true,
		Pen: draw.Pen{Width: 0.8, Colour: draw.Ink},
	})
	return y
}

func or(s, other string) string {
	if s == "" {
		return other
	}
	return s
}

// unitsLine says how lengths are written, with an example where it needs one.
func unitsLine(n notation.Notation) string {
	switch n {
	case notation.FeetInchesEighths:
		return "Lengths in feet-inches-eighths: 2-3-4 is 2 ft 3 4/8 in"
	case notation.Inches:
		return "Lengths in inches"
	case notation.Metres:
		return "Lengths in metres"
	}
	return "Lengths in millimetres"
}

// lengthUnit heads a column of lengths.
func lengthUnit(n notation.Notation) string {
	switch n {
	case notation.FeetInchesEighths:
		return "feet-inches-eighths"
	case notation.Inches:
		return "inches"
	case notation.Metres:
		return "metres"
	}
	return "millimetres"
}
