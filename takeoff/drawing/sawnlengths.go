package drawing

import (
	"fmt"

	"ribband/takeoff/draw"
)

// A board that is crosscut first is drawn whole with its lengths, and its strips below, each where its length lies in the board.

// crosscut tells the lengths that a board is crosscut into, the first of its steps.
func (r RippingList) crosscut(b SawnBoard) string {
	text := "Crosscut first"
	if b.EndTrim > 0 {
		text = fmt.Sprintf("Take %s off each end, then crosscut", r.length(b.EndTrim))
	}
	text += " into lengths:"
	for i, of := range b.Lengths {
		if i > 0 {
			text += ","
		}
		text += fmt.Sprintf(" %d of %s", of.Count, r.length(of.Length))
	}
	return text + "."
}

// ripLength tells the strips that are ripped out of the n-th of a board's lengths, counted from 1.
func (r RippingList) ripLength(b SawnBoard, n int) string {
	of := b.Lengths[n-1]
	var strips []SawnStrip
	for _, s := range b.Strips {
		if s.OfLength == n {
			s.Count /= of.Count
			strips = append(strips, s)
		}
	}
	how := "Of the length of "
	if of.Count > 1 {
		how = "Of each length of "
	}
	for i, other := range b.Lengths { // as long and ripped otherwise
		if i == n-1 || r.length(other.Length) != r.length(of.Length) {
			continue
		}
		if how = "Of one length of "; of.Count > 1 {
			how = fmt.Sprintf("Of each of %d lengths of ", of.Count)
		}
	}
	return r.sideBySide(how+r.length(of.Length)+" rip", strips)
}

// lengthAt is where the n-th of a board's lengths begins, mm from its end, the first of those alike; and how long it is.
func (r RippingList) lengthAt(b SawnBoard, n int) (from, long float64) {
	from = b.EndTrim
	for _, of := range b.Lengths[:n-1] {
		from += float64(of.Count) * (of.Length + r.Kerf)
	}
	return from, b.Lengths[n-1].Length
}

// lengths draws a whole board with the lengths that it is crosscut into below y, and gives where the next begins.
func (v *sawView) lengths(b SawnBoard, y float64) float64 {
	if len(b.Lengths) == 0 {
		return y
	}
	words := v.list.Layer("words")
	if v.narrow {
		y += line(v.small)
		words.Add(draw.Text{At: draw.Point{X: v.margin, Y: y - 0.2*v.small}, Size: v.small, String: "lengths"})
	} else {
		words.Add(draw.Text{At: draw.Point{X: v.margin, Y: y + v.thick/2 + 0.35*v.text}, Size: v.text, String: "lengths"})
	}
	end := v.left + v.perMM*b.Length
	v.trim(v.left, v.left+v.perMM*b.EndTrim, y)
	v.trim(end-v.perMM*b.EndTrim, end, y)
	x := v.left + v.perMM*b.EndTrim
	for _, of := range b.Lengths {
		for range of.Count {
			w := v.perMM * of.Length
			v.box(x, x+w, y, draw.Pen{Width: v.full, Colour: draw.Ink}, "")
			v.inside([]string{v.length(of.Length)}, x, x+w, y)
			x += w + v.perMM*v.Kerf
		}
	}
	v.box(v.left, end, y, draw.Pen{Width: v.fine, Colour: draw.Ink}, "")
	return y + v.thick + 0.35*v.text
}
