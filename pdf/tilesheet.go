package pdf

import (
	"fmt"

	"ribband/takeoff/hull"
	"ribband/takeoff/mould"
)

// Strokes on full-size sheets. The faying face is the heavy one; by its width a test knows it.
const (
	fayingStroke   = 1000 * pt / 1000
	innerStroke    = 600 * pt / 1000
	markStroke     = 500 * pt / 1000
	registerStroke = 450 * pt / 1000
	levelStroke    = 250 * pt / 1000
)

// registerArm, mm, is half of a cross.
const registerArm = 5.0

// name of a sheet: rows by letter from above, columns by number from the left.
func (t *tiling) name(k tile) string {
	row, column := t.rowColumn(k)
	return fmt.Sprintf("row %s, column %d", row, column)
}

func (t *tiling) rowColumn(k tile) (row string, column int) {
	n, letters := t.rows-1-k.row, ""
	for n >= 0 {
		letters = string(rune('A'+n%26)) + letters
		n = n/26 - 1
	}
	return letters, k.col - t.firstCol() + 1
}

func (t *tiling) firstCol() int {
	first := t.tiles[0].col
	for _, k := range t.tiles {
		first = min(first, k.col)
	}
	return first
}

// tile draws one sheet.
func (d *fullSize) tile(i int) {
	d.sheets = append(d.sheets, &sheet{})
	k := d.tiles[i]
	low, high := d.shows(k)
	at := func(p spot) spot { return spot{sheetEdge + p.x - low.x, sheetEdge + high.y - p.y} }
	line := func(a, b spot, width length, c rgb) {
		if s, inside := clipped(segment{a, b}, low, high); inside {
			d.stroke(at(s.a), at(s.b), width, c)
		}
	}
	d.references(k, line, at)
	d.registers(k, line)
	m := d.Mould
	face := func(points []hull.Point, width length) {
		for j := 1; j < len(points); j++ {
			line(spot{m.Across(points[j-1].Y), points[j-1].Z}, spot{m.Across(points[j].Y), points[j].Z}, width, ink)
		}
	}
	face(m.Inner, innerStroke)
	face(m.Faying, fayingStroke)
	for _, mark := range m.Marks {
		line(spot{m.Across(mark.At.Y), mark.At.Z}, spot{m.Across(mark.Across.Y), mark.Across.Z}, markStroke, ink)
		d.named(k, mark, at)
	}
	foot := fmt.Sprintf("%s: %s; sheet %d of %d", d.title(), d.name(k), i+1, len(d.tiles))
	y := d.tall - sheetEdge
	d.words(spot{sheetEdge, y}, d.clip(d.line(foot), smallBold, onPaper(d.window.x)*6/10), smallBold, false)
	d.words(spot{d.wide - sheetEdge, y}, printable(fmt.Sprintf("crosses %.1f mm apart, and %.1f mm up", d.pitch.x, d.pitch.y)), small, true)
}

// references draws what the frame is set up by, over the whole sheet: levels, uprights, centreline and baseline.
func (d *fullSize) references(k tile, line func(a, b spot, width length, c rgb), at func(spot) spot) {
	low, high := d.shows(k)
	inside := func(v, from, to float64) bool { return v > from+overlap && v < to-overlap }
	level := func(l mould.Line) {
		line(spot{low.x, l.MM}, spot{high.x, l.MM}, levelStroke, accent)
		if inside(l.MM, low.y, high.y) {
			p := at(spot{low.x, l.MM})
			d.words(spot{p.x + overlap/2 + 1, p.y - 0.8}, d.line(l.Name), small, false)
		}
	}
	upright := func(l mould.Line) {
		x := d.Mould.Across(l.MM)
		line(spot{x, low.y}, spot{x, high.y}, levelStroke, accent)
		if inside(x, low.x, high.x) {
			p := at(spot{x, low.y})
			d.words(spot{p.x + 0.8, p.y - overlap/2 - 1}, d.line(l.Name), small, false)
		}
	}
	for _, l := range d.Mould.Levels {
		level(l)
	}
	for _, l := range d.Mould.Uprights {
		upright(l)
	}
	upright(d.Mould.Axis)
	level(d.Mould.Base)
}

// registers draws the four crosses of a sheet, in the middle of its overlaps, and the lines between them to cut along.
func (d *fullSize) registers(k tile, line func(a, b spot, width length, c rgb)) {
	low, high := d.own(k)
	corners := [4]spot{low, {high.x, low.y}, high, {low.x, high.y}}
	for i, c := range corners {
		next := corners[(i+1)%4]
		line(c, next, hairline, rule)
		line(spot{c.x - registerArm, c.y}, spot{c.x + registerArm, c.y}, registerStroke, ink)
		line(spot{c.x, c.y - registerArm}, spot{c.x, c.y + registerArm}, registerStroke, ink)
	}
}

// named writes a mark's name and bevel outboard of it, or inboard where the sheet ends, on the sheet that the mark is on.
func (d *fullSize) named(k tile, mark mould.Mark, at func(spot) spot) {
	low, high := d.own(k)
	x, across := d.Mould.Across(mark.At.Y), d.Mould.Across(mark.Across.Y)
	if x < low.x || x >= high.x || mark.At.Z < low.y || mark.At.Z >= high.y {
		return
	}
	t := d.line(mark.Name)
	if mark.Known {
		t += printable(", bevel " + mould.Degrees(mark.Bevel))
	}
	wide := float64(d.width(t, smallBold)) * 25.4 / 72_000
	const away = 3.0
	p := at(spot{x, mark.At.Z})
	// Outboard below the level, inboard above it: there a face that rises outboard leaves room.
	above, below := p.y-0.8, p.y+3.4
	toRight := spot{at(spot{max(x, across), 0}).x + away, below}
	toLeft := spot{at(spot{min(x, across), 0}).x - away, above}
	if !d.Mould.Right {
		toRight.y, toLeft.y = above, below
	}
	left, right := sheetEdge, d.wide-sheetEdge
	fitsRight, fitsLeft := toRight.x+wide <= right, toLeft.x-wide >= left
	switch outward := d.Mould.Right; {
	case fitsRight && (outward || !fitsLeft):
		d.words(toRight, t, smallBold, false)
	case fitsLeft:
		d.words(toLeft, t, smallBold, true)
	default:
		d.words(spot{max(left, min(p.x, right-wide)), below}, t, smallBold, false)
	}
}
