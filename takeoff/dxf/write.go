package dxf

import (
	"bytes"
	"fmt"
	"io"
	"math"
	"strconv"
	"strings"
)

// Write writes the drawing. The same drawing gives the same bytes. What is not printable ASCII is written as ?, since
// readers of this release agree on no other letters. Errors are *NameError, *NumberError, *ShortError, found before a byte
// goes out, and the writer's.
func Write(w io.Writer, d Drawing) error {
	f := file{}
	for _, n := range d.Notes {
		f.text(999, n)
	}
	f.section("HEADER")
	f.text(9, "$ACADVER")
	f.text(1, "AC1009")
	f.text(0, "ENDSEC")
	f.tables(d.Layers)
	f.section("ENTITIES")
	seen := map[string]bool{}
	for _, y := range d.Layers {
		if !sound(y.Name) || seen[y.Name] {
			return &NameError{y.Name}
		}
		seen[y.Name] = true
		f.layer = y.Name
		for _, l := range y.Lines {
			f.line(l)
		}
		for _, t := range y.Texts {
			f.words(t)
		}
	}
	f.text(0, "ENDSEC")
	f.text(0, "EOF")
	if f.err != nil {
		return f.err
	}
	_, err := w.Write(f.b.Bytes())
	return err
}

func sound(name string) bool {
	return name != "" && len(name) <= 31 && strings.Trim(name, "ABCDEFGHIJKLMNOPQRSTUVWXYZ0123456789_") == ""
}

// file writes pairs of a group code and a value, and keeps the first error.
type file struct {
	b     bytes.Buffer
	layer string
	err   error
}

func (f *file) text(code int, value string) {
	plain := strings.Map(func(r rune) rune {
		if r < ' ' || r > '~' {
			return '?'
		}
		return r
	}, value)
	fmt.Fprintf(&f.b, "%3d\r\n%s\r\n", code, plain)
}

func (f *file) whole(code, value int) { f.text(code, strconv.Itoa(value)) }

// number writes mm with six decimals.
func (f *file) number(code int, mm float64) {
	if !(math.Abs(mm) <= farthest) && f.err == nil {
		f.err = &NumberError{f.layer, mm}
	}
	s := strconv.FormatFloat(mm, 'f', 6, 64)
	if strings.Trim(s, "-0.") == "" {
		s = "0.000000"
	}
	f.text(code, s)
}

func (f *file) point(code int, p Point) {
	f.number(code, p.X)
	f.number(code+10, p.Y)
	f.number(code+20, p.Z)
}

func (f *file) section(name string) {
	f.text(0, "SECTION")
	f.text(2, name)
}

// tables are the line type that all layers have, and the layers.
func (f *file) tables(layers []Layer) {
	f.section("TABLES")
	f.text(0, "TABLE")
	f.text(2, "LTYPE")
	f.whole(70, 1)
	f.text(0, "LTYPE")
	f.text(2, "CONTINUOUS")
	f.whole(70, 0)
	f.text(3, "unbroken")
	f.whole(72, 65)
	f.whole(73, 0)
	f.number(40, 0)
	f.text(0, "ENDTAB")
	f.text(0, "TABLE")
	f.text(2, "LAYER")
	f.whole(70, len(layers))
	for _, y := range layers {
		f.text(0, "LAYER")
		f.text(2, y.Name)
		f.whole(70, 0)
		f.whole(62, min(255, max(1, y.Colour)))
		f.text(6, "CONTINUOUS")
	}
	f.text(0, "ENDTAB")
	f.text(0, "ENDSEC")
}

func (f *file) line(l Line) {
	if len(l.Points) < 2 {
		if f.err == nil {
			f.err = &ShortError{f.layer}
		}
		return
	}
	flat := func(p Point) Point {
		if !l.Space {
			p.Z = 0
		}
		return p
	}
	if len(l.Points) == 2 {
		f.text(0, "LINE")
		f.text(8, f.layer)
		f.point(10, flat(l.Points[0]))
		f.point(11, flat(l.Points[1]))
		return
	}
	// Flag 8 of a polyline and 32 of its vertices: they lie in space.
	kind, of := 0, 0
	if l.Space {
		kind, of = 8, 32
	}
	f.text(0, "POLYLINE")
	f.text(8, f.layer)
	f.whole(66, 1)
	f.point(10, Point{})
	f.whole(70, kind)
	for _, p := range l.Points {
		f.text(0, "VERTEX")
		f.text(8, f.layer)
		f.point(10, flat(p))
		f.whole(70, of)
	}
	f.text(0, "SEQEND")
	f.text(8, f.layer)
}

// words writes a text. One across is told in the axes that the format gives to a direction of -X: -Y to the right, Z up,
// -X towards the reader.
func (f *file) words(t Text) {
	at := t.At
	if t.Across {
		at = Point{-at.Y, at.Z, -at.X}
	}
	f.text(0, "TEXT")
	f.text(8, f.layer)
	f.point(10, at)
	f.number(40, t.Height)
	f.text(1, t.String)
	if t.Across {
		f.point(210, Point{X: -1})
	}
}
