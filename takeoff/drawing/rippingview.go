package drawing

import (
	"math"

	"ribband/takeoff/draw"
)

// sawView lays boards out on a sheet.
type sawView struct {
	look
	RippingList
	list         *draw.List
	left, right  float64 // of the bars
	perMM, thick float64 // units for a millimetre along, height of a bar
	bare         bool    // without the heading of a board
}

func (r RippingList) view(list *draw.List, k look) *sawView {
	v := &sawView{look: k, RippingList: r, list: list, left: k.margin + 6.5*k.text, right: k.width - k.margin, thick: 2.4 * k.text}
	if k.narrow {
		v.left = k.margin
	}
	longest := 1.0
	for _, b := range r.Boards {
		longest = max(longest, b.Length)
	}
	v.perMM = (v.right - v.left) / longest
	list.ScaleMM = 1 / v.perMM
	return v
}

// board draws one kind of board from y down and gives where the next begins.
func (v *sawView) board(b SawnBoard, y float64) float64 {
	if !v.bare {
		for _, l := range draw.Wrap(b.Name+": "+b.Size, v.text, true, v.right-v.margin, 3) {
			y += line(v.text)
			v.list.Layer("words").Add(draw.Text{At: draw.Point{X: v.margin, Y: y}, Size: v.text, Bold: true, String: l})
		}
		y += 0.5 * v.text
	}
	y = v.lengths(b, y)
	for _, s := range b.Strips {
		y = v.strip(b, s, y) + 0.35*v.text
	}
	return y + 0.5*v.text
}

// strip draws one kind of strip below y.
func (v *sawView) strip(b SawnBoard, s SawnStrip, y float64) float64 {
	words := v.list.Layer("words")
	name := plural(int(s.Count), "strip", "strips")
	if len(s.Pieces) == 0 && len(b.Rest) > 0 {
		name = "the rest"
	}
	if s.Width > 0 && v.narrow {
		name += ", " + v.length(s.Width) + " wide"
	}
	if v.narrow {
		y += line(v.small)
		words.Add(draw.Text{At: draw.Point{X: v.margin, Y: y - 0.2*v.small}, Size: v.small, String: name})
	} else {
		at := y + v.thick/2 + 0.35*v.text
		if s.Width > 0 {
			words.Add(draw.Text{At: draw.Point{X: v.margin, Y: at + 0.6*v.text}, Size: v.small, String: v.length(s.Width) + " wide"})
			at -= 0.5 * v.text
		}
		words.Add(draw.Text{At: draw.Point{X: v.margin, Y: at}, Size: v.text, String: name})
	}
	begin, end := v.left, v.left+v.perMM*b.Length
	x, whole := begin, len(s.Pieces) == 0
	switch {
	case s.OfLength > 0:
		from, long := v.lengthAt(b, s.OfLength)
		begin += v.perMM * from
		x, end = begin, begin+v.perMM*long
	case !whole:
		v.trim(v.left, v.left+v.perMM*b.EndTrim, y)
		v.trim(end-v.perMM*b.EndTrim, end, y)
		x += v.perMM * b.EndTrim
	}
	for _, p := range s.Pieces {
		for range p.Count {
			v.piece(p, x, y)
			x += v.perMM * (p.Length + v.Kerf)
		}
	}
	if s.Over > 0 {
		v.over(s, x, x+v.perMM*s.Over, y)
	}
	v.box(begin, end, y, draw.Pen{Width: v.fine, Colour: draw.Ink}, "")
	return y + v.thick
}

func (v *sawView) box(from, to, y float64, pen draw.Pen, fill draw.Colour) {
	v.list.Layer("boards").Add(draw.Path{Points: draw.Box(draw.Point{X: from, Y: y}, draw.Point{X: to, Y: y + v.thick}), Closed: true, Pen: pen, Fill: fill})
}

// trim is the end that is cut off first.
func (v *sawView) trim(from, to, y float64) {
	if to > from {
		v.box(from, to, y, draw.Pen{}, draw.Rule)
	}
}

// piece is one piece with what it is for and how long it is, as far as there is room.
func (v *sawView) piece(p SawnPiece, x, y float64) {
	w := v.perMM * p.Length
	v.box(x, x+w, y, draw.Pen{Width: v.full, Colour: draw.Ink}, "")
	size := v.length(p.Length)
	if p.Width > 0 {
		size += ", ripped to " + v.length(p.Width)
	}
	end := x + w
	if p.Scarf != nil {
		v.taper(*p.Scarf, x, end, y)
		if gone := v.perMM * p.Scarf.Taper; p.Scarf.First { // nothing is written over the taper
			end -= gone
		} else {
			x += gone
		}
		w = end - x
		if long := size + ", " + p.Scarf.where(); draw.TextWidth(long, v.small, false) <= w-0.6*v.small {
			size = long
		}
	}
	lines := []string{p.Label, size}
	if draw.TextWidth(p.Label, v.small, false) > w-0.6*v.small {
		lines = lines[1:]
	}
	v.inside(lines, x, end, y)
}

// taper is what is cut away of a half, and the face that is left.
func (v *sawView) taper(s SawnScarf, from, to, y float64) {
	long := math.Min(v.perMM*s.Taper, to-from)
	tip, root := draw.Point{X: to, Y: y + v.thick}, draw.Point{X: to - long, Y: y}
	corner := draw.Point{X: to, Y: y}
	if !s.First {
		tip, root, corner = draw.Point{X: from, Y: y}, draw.Point{X: from + long, Y: y + v.thick}, draw.Point{X: from, Y: y + v.thick}
	}
	boards := v.list.Layer("boards")
	boards.Add(draw.Path{Points: []draw.Point{root, corner, tip}, Closed: true, Fill: draw.Rule})
	boards.Line(draw.Pen{Width: v.full, Colour: draw.Ink}, root, tip)
}

// over is what is left: a cross through what is not kept, a broken edge round what is.
func (v *sawView) over(s SawnStrip, from, to, y float64) {
	boards := v.list.Layer("boards")
	left, _ := v.RippingList.left(s)
	pen := v.keptPen()
	switch {
	case s.Keep == nil:
		v.inside([]string{"left", left}, from, to, y)
	case *s.Keep:
		inset := 0.25 * v.small
		boards.Add(draw.Path{Points: draw.Box(draw.Point{X: from + inset, Y: y + inset}, draw.Point{X: to - inset, Y: y + v.thick - inset}), Closed: true, Pen: pen})
		v.inside([]string{"keep", left}, from, to, y)
	default:
		boards.Line(v.wastePen(), draw.Point{X: from, Y: y}, draw.Point{X: to, Y: y + v.thick})
		boards.Line(v.wastePen(), draw.Point{X: from, Y: y + v.thick}, draw.Point{X: to, Y: y})
	}
}

func (v *sawView) keptPen() draw.Pen  { return draw.Dashed(v.full, draw.Blue, 5) }
func (v *sawView) wastePen() draw.Pen { return draw.Pen{Width: v.fine, Colour: draw.Ink} }

// inside writes lines into a box, in the middle; those that do not fit are left to the table.
func (v *sawView) inside(lines []string, from, to, y float64) {
	var fit []string
	for _, l := range lines {
		if draw.TextWidth(l, v.small, false) <= to-from-0.6*v.small {
			fit = append(fit, l)
		}
	}
	y += v.thick/2 + 0.35*v.small - 0.5*v.small*float64(len(fit)-1)
	for _, l := range fit {
		v.list.Layer("words").Add(draw.Text{At: draw.Point{X: (from + to) / 2, Y: y}, Anchor: draw.Middle, Size: v.small, String: l})
		y += v.small
	}
}

// key explains what is not written.
func (v *sawView) key() []keyLine {
	return []keyLine{
		explained(draw.Pen{Width: v.full, Colour: draw.Ink}, "edge of a piece"),
		explained(draw.Pen{Width: 4 * v.full, Colour: draw.Rule}, "end cut off first"),
		explained(v.keptPen(), "left over and kept"),
		{text: "left over, too short to keep", sample: func(a, b draw.Point) []draw.Item {
			h := 0.3 * v.small
			return []draw.Item{
				draw.Path{Points: []draw.Point{{X: a.X, Y: a.Y - h}, {X: b.X, Y: b.Y + h}}, Pen: v.wastePen()},
				draw.Path{Points: []draw.Point{{X: a.X, Y: a.Y + h}, {X: b.X, Y: b.Y - h}}, Pen: v.wastePen()},
			}
		}},
	}
}
