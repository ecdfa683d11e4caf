package pdf

import (
	"fmt"
	"math"
	"strings"

	"ribband/takeoff/hull"
	"ribband/takeoff/notation"
)

// firstEdge, mm, is the margin of the first sheet; square the side of what is measured; apart what lies between its columns.
const (
	firstEdge = 12.0
	square    = 100.0
	apart     = 8.0
)

// first is the sheet that is read before the others are used.
func (d *fullSize) first() {
	d.turn()
	// Square and plan go first, so that they stand here however long the words are.
	right := d.wide - firstEdge - square
	d.control(spot{right, d.tall - firstEdge - square})
	d.plan(spot{right, firstEdge}, spot{d.wide - firstEdge, d.tall - firstEdge - square - apart})
	column := d.wide - 2*firstEdge - apart - square
	d.right = onPaper(firstEdge + column)
	d.paragraph(d.title(), style{size: 14000, lead: 18000, bold: true, colour: ink}, 4*pt)
	d.paragraph(d.line(d.about()), text, 8*pt)
	for _, p := range d.heeds() {
		d.paragraph(d.line(p.head), textBold, 0)
		d.paragraph(d.line(p.text), text, 5*pt)
	}
}

func (d *fullSize) about() string {
	out := fmt.Sprintf("Date %s, revision %s. ", said(d.Date), said(d.Revision))
	if d.Note != "" {
		out += strings.TrimSuffix(d.Note, ".") + ". "
	}
	return out + d.seen()
}

// seen says how it lies for whoever looks at it.
func (d *fullSize) seen() string {
	if d.form != nil {
		return d.form.seen()
	}
	return d.Mould.Seen()
}

func said(s string) string {
	if s == "" {
		return "not given"
	}
	return s
}

// heed is a short paragraph with its head.
type heed struct{ head, text string }

func (d *fullSize) heeds() []heed {
	n := "One sheet follows."
	if len(d.tiles) > 1 {
		n = fmt.Sprintf("%d sheets follow.", len(d.tiles))
	}
	out := []heed{
		{"Measure before use", "Each side of the square is 100.0 mm. If it is not, print again without scaling (actual size, 100 %), and measure again. Paper moves with the weather: measure also on the day it is used."},
		{"Lay the sheets", n + " Lay them as the plan shows, each cross on the same cross of its neighbour, or cut along the thin lines between the crosses. Levels then run straight over all sheets: prove them with a batten."},
	}
	if d.form != nil {
		return append(out, d.form.heeds()...)
	}
	if d.Mould.Bare {
		out = append(out, heed{"What is drawn", "Heavy: the section at the inside of plank, from the rabbet to the sheer. Short strokes inboard of it: marks at the levels. Levels and uprights are there to set a mould up by. No thickness of moulds or ribbands is taken off."})
	} else {
		out = append(out, d.frameDrawn())
	}
	if d.Mould.Marks[0].Known {
		out = append(out, heed{"Bevels", "In degrees from square at each mark: plus where the angle inside the timber is wider than square, minus where it is sharper."})
	}
	for _, c := range d.Mould.Cautions {
		out = append(out, heed{"Caution", c})
	}
	work := "frame is"
	if d.Mould.Bare {
		work = "timbers are"
	}
	return append(out,
		heed{"Try it first", "It comes from measured points, and an old boat has moved. Make a pattern, try it against the boat, and cut timber when it fits."},
		heed{"Ask the surveyor", "Whether the new " + work + " to have this shape, or the hull is shored to another first, is for the surveyor to say."},
	)
}

// frameDrawn says what is drawn of a frame.
func (d *fullSize) frameDrawn() heed {
	return heed{"What is drawn", fmt.Sprintf("Heavy: the faying face, from the rabbet to the sheer, where the planking lies. Thin: the inner face, at the moulded depth of %s. Across both: marks at the levels. Levels and uprights are there to set it up by.", d.deep())}
}

// deep is the moulded depth as the yard writes it.
func (d *fullSize) deep() string {
	heel, err := d.thick(d.Mould.Moulded)
	if err != nil {
		return "the frame"
	}
	if head, err := d.thick(d.Mould.MouldedHead); err == nil && d.Mould.MouldedHead > 0 {
		return heel + " at the heel and " + head + " at the head"
	}
	return heel
}

// thick is a depth, mm, as the yard writes it.
func (d *fullSize) thick(mm float64) (string, error) {
	l, err := notation.FromMM(mm)
	n := d.Mould.Notation
	if n == notation.FeetInchesEighths {
		n = notation.Inches
	}
	unit := map[notation.Notation]string{notation.Inches: " in", notation.Metres: " m"}[n]
	if unit == "" {
		unit = " mm"
	}
	return n.Format(l) + unit, err
}

// control is the square that is measured.
func (d *fullSize) control(at spot) {
	corners := [4]spot{at, {at.x + square, at.y}, {at.x + square, at.y + square}, {at.x, at.y + square}}
	for i, c := range corners {
		d.stroke(c, corners[(i+1)%4], markStroke, ink)
	}
	d.words(spot{at.x + 4, at.y + 8}, "Measure this square before use:", text, false)
	d.words(spot{at.x + 4, at.y + 14}, "each side is 100.0 mm.", textBold, false)
	// Ticks at every 10 mm show where a printer stretches.
	for i := 1; i < 10; i++ {
		w := float64(i) * 10
		d.stroke(spot{at.x + w, at.y + square}, spot{at.x + w, at.y + square - 3}, hairline, ink)
		d.stroke(spot{at.x, at.y + w}, spot{at.x + 3, at.y + w}, hairline, ink)
	}
}

// plan shows how the sheets lie, with the frame over them, between two corners.
func (d *fullSize) plan(from, to spot) {
	d.words(spot{from.x, from.y + 4}, "How the sheets lie", textBold, false)
	from.y += 8
	low, high := spot{math.Inf(1), math.Inf(1)}, spot{math.Inf(-1), math.Inf(-1)}
	for _, k := range d.tiles {
		a, b := d.own(k)
		low, high = spot{min(low.x, a.x), min(low.y, a.y)}, spot{max(high.x, b.x), max(high.y, b.y)}
	}
	scale := min((to.x-from.x)/(high.x-low.x), (to.y-from.y)/(high.y-low.y))
	at := func(p spot) spot { return spot{from.x + (p.x-low.x)*scale, from.y + (high.y-p.y)*scale} }
	for _, k := range d.tiles {
		a, b := d.own(k)
		corners := [4]spot{a, {b.x, a.y}, b, {a.x, b.y}}
		for i, c := range corners {
			d.stroke(at(c), at(corners[(i+1)%4]), hairline, ink)
		}
		name := d.short(k)
		if onPaper((b.x-a.x)*scale) > d.width(name, small)+2*pt && (b.y-a.y)*scale > 4 {
			p := at(spot{a.x, b.y})
			d.words(spot{p.x + 0.8, p.y + 3.2}, name, small, false)
		}
	}
	for _, face := range [][]hull.Point{d.Mould.Faying, d.Mould.Inner} {
		for i := 1; i < len(face); i++ {
			d.stroke(at(spot{d.Mould.Across(face[i-1].Y), face[i-1].Z}), at(spot{d.Mould.Across(face[i].Y), face[i].Z}), markStroke, accent)
		}
	}
}

// short is a sheet's name in the plan: "B3".
func (d *fullSize) short(k tile) printable {
	row, column := d.rowColumn(k)
	return printable(fmt.Sprintf("%s%d", row, column))
}
