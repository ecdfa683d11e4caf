package draw

import "slices"

// Colour is a colour as #rrggbb.
type Colour string

// The colours of pages and documents. Each says nothing that a stroke, a letter or a word does not say too, since
// paper is often printed in black.
const (
	Ink    Colour = "#1d2730"
	Paper  Colour = "#ffffff"
	Rule   Colour = "#c9ced3"
	Accent Colour = "#1b5e72"
)

// Colours that people who see colours differently can tell apart. Source: Masataka Okabe and Kei Ito, "Color
// Universal Design", 2008; values from memory.
const (
	Vermillion  Colour = "#d55e00"
	BluishGreen Colour = "#009e73"
	Blue        Colour = "#0072b2"
)

// Pen is how a line is stroked.
type Pen struct {
	Width  float64
	Colour Colour
	// Dash is the lengths of dashes and gaps in turn; none for an unbroken line.
	Dash []float64
}

// ChainDotted is a pen for centrelines: a long dash, a gap, a dot, a gap.
func ChainDotted(width float64, c Colour) Pen {
	return Pen{Width: width, Colour: c, Dash: []float64{10, 2.5, 1.5, 2.5}}
}

// Dashed is a pen of dashes of that length.
func Dashed(width float64, c Colour, dash float64) Pen {
	return Pen{Width: width, Colour: c, Dash: []float64{dash, dash * 0.75}}
}

func (p Pen) equal(q Pen) bool {
	return p.Width == q.Width && p.Colour == q.Colour && slices.Equal(p.Dash, q.Dash)
}
