package drawing

import (
	"strconv"

	"ribband/takeoff/draw"
)

// flatView lays sheets out below one another.
type flatView struct {
	look
	CutSheets
	list  *draw.List
	perMM float64
	bare  bool // without the heading of a sheet
}

func (c CutSheets) view(list *draw.List, k look) *flatView {
	longest := 1.0
	for _, s := range c.Layouts {
		longest = max(longest, s.Length, 0.9*s.Width)
	}
	v := &flatView{look: k, CutSheets: c, list: list, perMM: (k.width - 2*k.margin) / longest}
	list.ScaleMM = 1 / v.perMM
	list.Layer("sheets") // below the words
	return v
}

// sheet draws one layout from y down and gives where the next begins.
func (v *flatView) sheet(s CutSheet, y float64) float64 {
	if !v.bare {
		for _, l := range draw.Wrap(s.Name+": "+s.Size, v.text, true, v.width-2*v.margin, 3) {
			y += line(v.text)
			v.list.Layer("words").Add(draw.Text{At: draw.Point{X: v.margin, Y: y}, Size: v.text, Bold: true, String: l})
		}
		y += 0.5 * v.text
	}
	trim := s.Trim
	if s.Rolled {
		trim = 0
	}
	v.box(y, 0, 0, s.Width, s.Length, draw.Pen{Width: v.fine, Colour: draw.Ink}, draw.Rule)
	v.box(y, s.Trim, trim, s.Width-2*s.Trim, s.Length-2*trim, draw.Pen{Width: v.fine, Colour: draw.Ink}, draw.Paper)
	for _, p := range s.Pieces {
		v.piece(p, y)
	}
	return y + v.perMM*s.Width + 1.2*v.text
}

// corners of a rectangle on the sheet that begins at y: the grain to the right, across it downwards.
func (v *flatView) corners(y, x0, y0, width, length float64) (a, b draw.Point) {
	a = draw.Point{X: v.margin + v.perMM*y0, Y: y + v.perMM*x0}
	return a, draw.Point{X: a.X + v.perMM*length, Y: a.Y + v.perMM*width}
}

func (v *flatView) box(y, x0, y0, width, length float64, pen draw.Pen, fill draw.Colour) {
	if width <= 0 || length <= 0 {
		return
	}
	a, b := v.corners(y, x0, y0, width, length)
	v.list.Layer("sheets").Add(draw.Path{Points: draw.Box(a, b), Closed: true, Pen: pen, Fill: fill})
}

// piece is one rectangle with its number, and with what it is for and its size as far as there is room.
func (v *flatView) piece(p CutRectangle, y float64) {
	v.box(y, p.X, p.Y, p.Width, p.Length, draw.Pen{Width: v.full, Colour: draw.Ink}, "")
	a, b := v.corners(y, p.X, p.Y, p.Width, p.Length)
	switch {
	case p.Within != nil:
		v.within(p, a)
	case p.Paired:
		v.list.Layer("sheets").Line(v.pairPen(), a, b)
	}
	number := strconv.Itoa(p.Number)
	size := AsRead(v.Notation, p.Width) + " by " + AsRead(v.Notation, p.Length)
	what := number
	if fits := number + " " + p.Label; p.Label != "" && v.fits(fits, a, b) {
		what = fits
	}
	var lines []string
	for _, l := range []string{what, size} {
		if v.fits(l, a, b) && float64(len(lines)+1)*1.15*v.small <= b.Y-a.Y {
			lines = append(lines, l)
		}
	}
	at := (a.Y+b.Y)/2 + 0.35*v.small - 0.575*v.small*float64(len(lines)-1)
	for _, l := range lines {
		v.list.Layer("words").Add(draw.Text{At: draw.Point{X: (a.X + b.X) / 2, Y: at}, Anchor: draw.Middle, Size: v.small, String: l, Halo: p.Paired})
		at += 1.15 * v.small
	}
	if p.Turned { // two strokes across the grain at the edge
		for i := range 2 {
			x := a.X + (0.25+0.25*float64(i))*v.small
			v.list.Layer("sheets").Line(draw.Pen{Width: v.fine, Colour: draw.Ink}, draw.Point{X: x, Y: a.Y}, draw.Point{X: x, Y: b.Y})
		}
	}
}

// within draws the two outlines in the rectangle that has its corner at a.
func (v *flatView) within(p CutRectangle, a draw.Point) {
	for _, outline := range p.Within {
		if len(outline) < 3 {
			continue
		}
		points := make([]draw.Point, len(outline))
		for i, q := range outline {
			x, y := p.on(q)
			points[i] = draw.Point{X: a.X + v.perMM*y, Y: a.Y + v.perMM*x}
		}
		v.list.Layer("sheets").Add(draw.Path{Points: points, Closed: true, Pen: draw.Pen{Width: v.full, Colour: draw.Blue}})
	}
}

func (v *flatView) fits(text string, a, b draw.Point) bool {
	return draw.TextWidth(text, v.small, false) <= b.X-a.X-0.6*v.small
}

func (v *flatView) pairPen() draw.Pen { return draw.Dashed(v.full, draw.Blue, 5) }

// key explains what is not written, as far as it is drawn.
func (v *flatView) key() []keyLine {
	out := []keyLine{explained(draw.Pen{Width: v.full, Colour: draw.Ink}, "edge of a rectangle")}
	var trimmed, paired, outlined, turned bool
	for _, s := range v.Layouts {
		trimmed = trimmed || s.Trim > 0
		for _, p := range s.Pieces {
			outlined, turned = outlined || p.Within != nil, turned || p.Turned
			paired = paired || p.Paired && p.Within == nil
		}
	}
	if trimmed {
		out = append(out, explained(draw.Pen{Width: 4 * v.full, Colour: draw.Rule}, "edge cut off first"))
	}
	if paired {
		out = append(out, explained(v.pairPen(), "two pieces in one rectangle, parted last"))
	}
	if outlined {
		out = append(out, explained(draw.Pen{Width: v.full, Colour: draw.Blue}, "outlines of two pieces in one rectangle, parted last"))
	}
	if turned {
		out = append(out, keyLine{text: "lies across the grain", sample: func(a, b draw.Point) []draw.Item {
			h, pen := 0.35*v.small, draw.Pen{Width: v.fine, Colour: draw.Ink}
			x := (a.X + b.X) / 2
			return []draw.Item{
				draw.Path{Points: []draw.Point{{X: x, Y: a.Y - h}, {X: x, Y: b.Y + h}}, Pen: pen},
				draw.Path{Points: []draw.Point{{X: x + 3, Y: a.Y - h}, {X: x + 3, Y: b.Y + h}}, Pen: pen},
			}
		}})
	}
	return out
}
