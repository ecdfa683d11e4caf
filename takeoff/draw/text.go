package draw

import (
	"strings"
	"unicode/utf8"
)

// Anchor is the part of a text that stands at its place.
type Anchor int

// A text starts at its place, has its middle there, or ends there.
const (
	Start Anchor = iota
	Middle
	End
)

// Text is one line of writing.
type Text struct {
	// At is on the baseline.
	At     Point
	Anchor Anchor
	Size   float64 // of the type's body
	Bold   bool
	Colour Colour // Ink where empty
	// Halo clears the paper round the letters, so that a line behind them does not make them hard to read.
	Halo   bool
	String string
	// Of says what the text names, as Path.Of does.
	Of string
}

// Extent is a rectangle: its left, upper, right and lower edge.
type Extent struct{ Left, Top, Right, Bottom float64 }

// Overlaps reports whether the two share more than an edge.
func (e Extent) Overlaps(o Extent) bool {
	return e.Left < o.Right && o.Left < e.Right && e.Top < o.Bottom && o.Top < e.Bottom
}

// How far letters of Liberation Sans reach above and below the baseline, as parts of the body: capitals and figures
// above, descenders below.
const (
	Ascent  = 0.74
	Descent = 0.22
)

// Extent is the room the text takes, by the widths of Liberation Sans.
func (t Text) Extent() Extent {
	w, left := TextWidth(t.String, t.Size, t.Bold), t.At.X
	switch t.Anchor {
	case Middle:
		left -= w / 2
	case End:
		left -= w
	}
	return Extent{left, t.At.Y - Ascent*t.Size, left + w, t.At.Y + Descent*t.Size}
}

// TextWidth is how wide a text is at that size: exact for printable ASCII in Liberation Sans without kerning, a full
// body for every other letter, which errs to the wide side.
func TextWidth(s string, size float64, bold bool) float64 {
	table, sum := &regular, 0
	if bold {
		table = &heavy
	}
	for _, r := range s {
		if r >= ' ' && int(r-' ') < len(table) {
			sum += int(table[r-' '])
		} else {
			sum += 1000
		}
	}
	return float64(sum) * size / 1000
}

// Wrap breaks a text into lines no wider than width, at spaces where it can and inside a word where it must; runs of
// white space become one space. Of more than most lines the rest is left out and marked with an ellipsis. An empty
// text has no lines.
func Wrap(s string, size float64, bold bool, width float64, most int) []string {
	var lines []string
	line := ""
	for _, word := range strings.Fields(s) {
		for word != "" {
			joined := word
			if line != "" {
				joined = line + " " + word
			}
			if TextWidth(joined, size, bold) <= width {
				line, word = joined, ""
				continue
			}
			if line != "" {
				lines, line = append(lines, line), ""
				continue
			}
			n := fits(word, size, bold, width)
			lines, word = append(lines, word[:n]), word[n:]
		}
	}
	if line != "" {
		lines = append(lines, line)
	}
	if len(lines) > most && most > 0 {
		last := lines[most-1]
		for last != "" && TextWidth(last+"…", size, bold) > width {
			_, n := utf8.DecodeLastRuneInString(last)
			last = last[:len(last)-n]
		}
		lines = append(lines[:most-1], last+"…")
	}
	return lines
}

// fits is how many bytes of a word fit into width: at least one letter.
func fits(word string, size float64, bold bool, width float64) int {
	n := 0
	for i, r := range word {
		if i > 0 && TextWidth(word[:i]+string(r), size, bold) > width {
			break
		}
		// An invalid byte is decoded as one and counts one.
		_, w := utf8.DecodeRuneInString(word[i:])
		n = i + w
	}
	return n
}
