package offsets

import (
	"cmp"
	"errors"
	"slices"

	"ribband/takeoff/boat"
	"ribband/takeoff/hull/fair"
	"ribband/takeoff/notation"
)

// line is what a cell belongs to. The order is that in which points are drawn up: ends first.
type line int

const (
	rabbetHeight line = iota
	rabbetHalfBreadth
	sheerHeight
	sheerHalfBreadth
	waterline
	buttock
	diagonal
	knuckleHeight
	knuckleHalfBreadth // in a CSV only: read, a knuckle is one cell
	// What is of a station or of the whole table, and no side's.
	stationX
	stationPlank
	tablePlank
	diagonalHeight
	diagonalAngle
	stemAt
	transomAt
)

// lineNames as they stand in the column `line` of the long layout; some are followed by a colon and by what tells them
// from others of their kind.
var lineNames = [...]string{"rabbet_height", "rabbet_half_breadth", "sheer_height", "sheer_half_breadth", "wl", "buttock", "diagonal",
	"knuckle_height", "knuckle_half_breadth", "x", thicknessLine, "table_plank_thickness", "diagonal_height", "diagonal_angle", stemLine, transomLine}

const lineForms = "rabbet_height, rabbet_half_breadth, sheer_height, sheer_half_breadth, wl:<height>, buttock:<half-breadth>, " +
	"diagonal:, knuckle_height: or knuckle_half_breadth:<name>, or plank_thickness"

// named says whether a colon follows the line's name.
func (l line) named() bool { return l >= waterline && l <= knuckleHalfBreadth || l >= diagonalHeight }

// ofTable says whether a line is the whole table's.
func (l line) ofTable() bool { return l >= tablePlank }

// cell is one measured cell, read.
type cell struct {
	line    line
	at      notation.Length // height of the waterline, half-breadth of the buttock
	plane   int             // of the diagonals that were declared
	knuckle string          // its name, and its height beside the half-breadth that is its value
	up      notation.Length
	value   notation.Length
	name    string // as in the column `line`
	pointer string
	sound   bool // at and value could be read
}

// same orders cells so that those of one line at one place are neighbours.
func same(a, b cell) int {
	return cmp.Or(cmp.Compare(a.line, b.line), a.at.Compare(b.at), cmp.Compare(a.plane, b.plane), cmp.Compare(a.knuckle, b.knuckle))
}

// halfBreadth says whether the measured value of the line is one; like a distance along a diagonal it cannot be
// negative.
func (l line) halfBreadth() bool {
	return l == rabbetHalfBreadth || l == sheerHalfBreadth || l == waterline
}

// cellFault makes a fault of a text that is not a length.
func cellFault(err error, pointer, station string, side boat.Side, name string) Fault {
	f := Fault{Pointer: pointer, Station: station, Side: side, Cell: name, Detail: err.Error(), Fix: "write it anew"}
	var e *notation.Error
	if errors.As(err, &e) {
		f.Detail = notation.Quote(e.Text) + " is not a length in " + e.Notation.Name() + ": " + e.Reason
		if e.Example != "" {
			f.Fix = "write it like " + e.Example
		}
	}
	return f
}

// cells reads every cell of one entry that was given.
func (r *reader) cells(e *SideOffsets, station, pointer string) []cell {
	b := cellReader{r: r, station: station, side: e.Side}
	if e.Rabbet != nil {
		b.end(rabbetHeight, rabbetHalfBreadth, e.Rabbet, pointer+"/rabbet")
	}
	if e.Sheer != nil {
		b.end(sheerHeight, sheerHalfBreadth, e.Sheer, pointer+"/sheer")
	}
	for i, w := range e.Waterlines {
		p := pointer + "/waterlines/" + itoa(i)
		b.crossing(waterline, w.Height, w.HalfBreadth, p+"/height", p+"/half_breadth")
	}
	for i, w := range e.Buttocks {
		p := pointer + "/buttocks/" + itoa(i)
		b.crossing(buttock, w.HalfBreadth, w.Height, p+"/half_breadth", p+"/height")
	}
	for i, d := range e.Diagonals {
		b.diagonal(d, pointer+"/diagonals/"+itoa(i))
	}
	for i, k := range e.Knuckles {
		b.knuckle(k, pointer+"/knuckles/"+itoa(i))
	}
	return b.out
}

type cellReader struct {
	r       *reader
	station string
	side    boat.Side
	out     []cell
}

func (b *cellReader) end(height, halfBreadth line, e *EndOffsets, pointer string) {
	b.take(cell{line: height, name: lineNames[height], pointer: pointer + "/height", sound: true}, e.Height)
	b.take(cell{line: halfBreadth, name: lineNames[halfBreadth], pointer: pointer + "/half_breadth", sound: true}, e.HalfBreadth)
}

// crossing reads where the section crosses a waterline or a buttock.
func (b *cellReader) crossing(l line, at, value, atPointer, valuePointer string) {
	if value == "" {
		return // not measured
	}
	name := lineNames[l] + ":" + at
	c := cell{line: l, name: notation.Shorten(name), pointer: valuePointer, sound: true}
	var err error
	if c.at, err = b.r.length(at); err != nil {
		b.r.add(cellFault(err, atPointer, b.station, b.side, c.name))
		c.sound = false
	} else if l == buttock && c.at.Sign() < 0 {
		b.r.add(Fault{Pointer: atPointer, Station: b.station, Side: b.side, Cell: c.name,
			Detail: "a buttock lies at a half-breadth, which is never negative", Fix: "measure it outboard from the centreline"})
		c.sound = false
	}
	b.take(c, value)
}

func (b *cellReader) take(c cell, text string) {
	if text == "" {
		return // not measured
	}
	var err error
	if c.value, err = b.r.length(text); err != nil {
		b.r.add(cellFault(err, c.pointer, b.station, b.side, c.name))
		c.sound = false
	} else if c.line.halfBreadth() && c.value.Sign() < 0 {
		b.r.add(Fault{Pointer: c.pointer, Station: b.station, Side: b.side, Cell: c.name,
			Detail: "the half-breadth is negative", Fix: "measure it outboard from the centreline, on either side"})
		c.sound = false
	} else if c.line == diagonal && c.value.Sign() < 0 {
		b.r.add(Fault{Pointer: c.pointer, Station: b.station, Side: b.side, Cell: c.name,
			Detail: "the distance along the diagonal is negative", Fix: "measure it outboard from the middle line, on either side"})
		c.sound = false
	}
	b.out = append(b.out, c)
}

// distinct reports cells given twice for one side and keeps the first of each.
func (r *reader) distinct(cells []cell, station string, side boat.Side) (kept []cell, ok bool) {
	cells = slices.Clone(cells)
	slices.SortStableFunc(cells, same)
	ok = true
	for i, c := range cells {
		if i > 0 && c.sound && kept[len(kept)-1].sound && same(c, kept[len(kept)-1]) == 0 {
			r.add(Fault{Pointer: c.pointer, Station: station, Side: side, Cell: c.name,
				Detail: "it is given twice", Fix: "leave one of the two out"})
			ok = false
			continue
		}
		kept = append(kept, c)
	}
	return kept, ok
}

// mark is the point of a waterline, a buttock, a diagonal or a knuckle.
func (c cell) mark(planes []Diagonal) Mark {
	if c.line == knuckleHeight {
		return c.corner()
	}
	if c.line == diagonal {
		return planes[c.plane].mark(c)
	}
	if c.line == buttock {
		return Mark{Cell: c.name, Y: c.at, Z: c.value, Kind: fair.AtWidth, Pointer: c.pointer}
	}
	return Mark{Cell: c.name, Y: c.value, Z: c.at, Kind: fair.AtHeight, Pointer: c.pointer}
}
