package drawing

import (
	"math"

	"ribband/takeoff/draw"
)

// The widths that drawings are laid out for, in CSS pixels: a phone held upright, and a screen or a sheet of paper.
// A page that serves both shows the one that fits.
const (
	Narrow = 360.0
	Wide   = 1120.0
)

// What a width may be: below the least, labels no longer fit; above the greatest, the sheet is a wall's.
const (
	leastWidth    = 320.0
	greatestWidth = 4000.0
)

// Sheet is what stands in the corner of a drawing.
type Sheet struct {
	Boat string
	// Date is the day of the data, as it is to be shown (2026-10-05); Revision what the yard calls the issue.
	Date, Revision string
	// Note is a line of the yard's own, such as that the boat is invented.
	Note string
	// Width that the drawing is laid out for; 0 for Wide. Widths out of 320 to 4000 are brought to the nearer end.
	Width float64
}

// Drawing is a drawing and its data.
type Drawing struct {
	List  *draw.List
	Table Table
}

// Table is the data of a drawing. Every row has as many cells as Head.
type Table struct {
	// Caption says what the figures are and in which unit.
	Caption string
	Head    []string
	Rows    [][]string
}

// width that the sheet is laid out for.
func (s Sheet) width() float64 {
	if s.Width == 0 || math.IsNaN(s.Width) {
		return Wide
	}
	return math.Round(min(greatestWidth, max(leastWidth, s.Width)))
}

// look is the sizes of a layout: of type, of margins and of pens.
type look struct {
	width             float64
	text, small, head float64 // the three sizes of type
	margin            float64
	full, fine, thick float64 // widths of pens
	narrow            bool
}

func (s Sheet) look() look {
	l := look{width: s.width(), text: 13, small: 12, head: 16, margin: 20, full: 1.4, fine: 0.5, thick: 4}
	if l.width < 640 {
		l.text, l.small, l.head, l.margin, l.narrow = 11.5, 10.5, 14, 8, true
		l.full, l.fine, l.thick = 1.1, 0.4, 3.2
	}
	return l
}

// line is the distance of baselines for a size of type.
func line(size float64) float64 { return math.Round(size * 1.4) }
