package pdf

import (
	"sync"

	"codeberg.org/go-fonts/liberation/liberationsansbold"
	"codeberg.org/go-fonts/liberation/liberationsansregular"
	"github.com/jung-kurt/gofpdf"
	"golang.org/x/image/font/sfnt"
)

// family is the name under which both faces of Liberation Sans are embedded.
const family = "liberation"

// style is one way to set text: a size, a weight, a colour.
type style struct {
	size   length // body size
	lead   length // distance of baselines
	bold   bool
	colour rgb
}

// rgb is a colour by its three bytes.
type rgb struct{ r, g, b int }

// The colours of every page and document. Each says nothing that a word does
// not say too, since paper is often printed in black.
var (
	ink     = rgb{0x1d, 0x27, 0x30}
	rule    = rgb{0xc9, 0xce, 0xd3}
	accent  = rgb{0x1b, 0x5e, 0x72}
	warning = rgb{0x8a, 0x4b, 0x00}
	tint    = rgb{0xff, 0xf6, 0xe6}
)

// Three sizes and two weights carry the whole document.
var (
	text       = style{size: 9500, lead: 13500, colour: ink}
	textBold   = style{size: 9500, lead: 13500, bold: true, colour: ink}
	textAccent = style{size: 9500, lead: 13500, bold: true, colour: accent}
	small      = style{size: 7800, lead: 10500, colour: ink}
	smallBold  = style{size: 7800, lead: 10500, bold: true, colour: ink}
	warn       = style{size: 9500, lead: 13500, bold: true, colour: warning}
	head       = style{size: 17000, lead: 22000, colour: ink}
	headBold   = style{size: 17000, lead: 22000, bold: true, colour: ink}
)

func (s style) weight() string {
	if s.bold {
		return "B"
	}
	return ""
}

// basicPlane is the number of code points that fit the library's two bytes.
const basicPlane = 0x10000

// coverage tells which runes of the basic plane both faces can draw. It is read
// from the faces once; it never changes afterwards.
var coverage = sync.OnceValue(func() *[basicPlane]bool {
	var has [basicPlane]bool
	regular, err := sfnt.Parse(liberationsansregular.TTF)
	if err != nil {
		return &has
	}
	bold, err := sfnt.Parse(liberationsansbold.TTF)
	if err != nil {
		return &has
	}
	var buf sfnt.Buffer
	for r := rune(1); r < basicPlane; r++ {
		a, errA := regular.GlyphIndex(&buf, r)
		b, errB := bold.GlyphIndex(&buf, r)
		has[r] = errA == nil && errB == nil && a != 0 && b != 0
	}
	return &has
})

// HasGlyph reports whether the embedded faces, regular and bold, can both draw r.
func HasGlyph(r rune) bool {
	return r > 0 && r < basicPlane && coverage()[r]
}

// metrics measures printable text in the embedded faces.
type metrics struct {
	doc *gofpdf.Fpdf
	// advance holds widths in thousandths of the body size, by weight and rune.
	advance [2]map[rune]length
}

func newMetrics(doc *gofpdf.Fpdf) *metrics {
	return &metrics{doc: doc, advance: [2]map[rune]length{{}, {}}}
}

// rune returns the advance of one rune.
func (m *metrics) rune(r rune, s style) length {
	known := m.advance[0]
	if s.bold {
		known = m.advance[1]
	}
	units, ok := known[r]
	if !ok {
		m.doc.SetFont(family, s.weight(), 10)
		units = length(m.doc.GetStringSymbolWidth(string(r)))
		known[r] = units
	}
	return units * s.size / 1000
}

// width returns the advance of a line of text.
func (m *metrics) width(t printable, s style) length {
	var w length
	for _, r := range t {
		w += m.rune(r, s)
	}
	return w
}
