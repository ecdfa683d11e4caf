package draw

import (
	"bytes"
	"fmt"
	"io"
	"math"
	"strings"
	"unicode/utf8"
)

// fonts by name, the first that the reader's machine has.
const fonts = "Liberation Sans, sans-serif"

// IDError: an id that cannot stand in a page.
type IDError struct{ ID string }

func (e *IDError) Error() string {
	return fmt.Sprintf("the id %q of a drawing: it begins with a letter and goes on with letters a to z, figures, - and _, at most %d in all", e.ID, longestID)
}

const longestID = 64

// WriteSVG writes the drawing as SVG that may stand alone or inside an HTML page, also several in one: every id in
// it begins with id, which must be the page's only one. It sizes itself to the room it is given and carries no
// style, script or link, so a page may forbid all three. Its title and description name it to those who do not see
// it. The same list gives the same bytes. Errors are *IDError, *NumberError and the writer's.
func WriteSVG(w io.Writer, l *List, id string) error {
	if !soundID(id) {
		return &IDError{id}
	}
	var b bytes.Buffer
	s := svg{b: &b}
	s.open(l, id)
	for _, y := range l.Layers {
		s.layer(y)
	}
	b.WriteString("</svg>\n")
	if s.err != nil {
		return s.err
	}
	_, err := w.Write(b.Bytes())
	return err
}

func soundID(id string) bool {
	for i, r := range id {
		letter := r >= 'a' && r <= 'z' || r >= 'A' && r <= 'Z'
		if !letter && (i == 0 || r != '-' && r != '_' && (r < '0' || r > '9')) {
			return false
		}
	}
	return id != "" && len(id) <= longestID
}

// svg writes and keeps the first error.
type svg struct {
	b    *bytes.Buffer
	name string // of the layer at hand
	err  error
}

// num writes a number, or keeps that it is none.
func (s *svg) num(v float64) string {
	if !(math.Abs(v) <= farthest) && s.err == nil {
		s.err = &NumberError{s.name, v}
	}
	return number(v)
}

// attr writes an attribute unless it is empty.
func (s *svg) attr(name, value string) {
	if value != "" {
		s.b.WriteString(" " + name + `="` + escape(value) + `"`)
	}
}

func (s *svg) open(l *List, id string) {
	s.name = "sheet"
	s.b.WriteString(`<svg xmlns="http://www.w3.org/2000/svg"`)
	s.attr("id", id)
	s.attr("viewBox", "0 0 "+s.num(l.Width)+" "+s.num(l.Height))
	s.attr("role", "img")
	s.attr("aria-labelledby", id+"-title "+id+"-desc")
	s.attr("font-family", fonts)
	s.attr("fill", "none")
	s.attr("stroke-linejoin", "round")
	s.b.WriteString(">\n<title id=\"" + id + "-title\">" + escape(l.Title) + "</title>\n")
	s.b.WriteString("<desc id=\"" + id + "-desc\">" + escape(l.Desc) + "</desc>\n")
	sheet := Box(Point{}, Point{l.Width, l.Height})
	s.b.WriteString("<path")
	s.attr("fill", string(Paper))
	s.attr("d", s.line(sheet, true))
	s.b.WriteString("/>\n")
}

// layer writes a group, and in it one group for each run of paths with the same pen.
func (s *svg) layer(y *Layer) {
	s.name = y.Name
	s.b.WriteString("<g")
	s.attr("data-layer", y.Name)
	s.b.WriteString(">\n")
	var pen Pen
	in := false
	for _, item := range y.Items {
		p, path := item.(Path)
		if in && (!path || !p.Pen.equal(pen)) {
			s.b.WriteString("</g>\n")
			in = false
		}
		if !path {
			s.text(item.(Text))
			continue
		}
		if !in && p.Pen.Width > 0 {
			pen, in = p.Pen, true
			s.pen(pen)
		}
		s.path(p)
	}
	if in {
		s.b.WriteString("</g>\n")
	}
	s.b.WriteString("</g>\n")
}

func (s *svg) pen(p Pen) {
	s.b.WriteString("<g")
	s.attr("stroke", string(p.Colour))
	s.attr("stroke-width", s.num(p.Width))
	var dash []string
	for _, d := range p.Dash {
		dash = append(dash, s.num(d))
	}
	s.attr("stroke-dasharray", strings.Join(dash, " "))
	s.b.WriteString(">\n")
}

func (s *svg) path(p Path) {
	s.b.WriteString("<path")
	s.attr("data-of", p.Of)
	s.attr("fill", string(p.Fill))
	s.attr("d", s.line(p.Points, p.Closed || p.Fill != ""))
	s.b.WriteString("/>\n")
}

// line is a path's data.
func (s *svg) line(points []Point, closed bool) string {
	var d strings.Builder
	for i, p := range points {
		switch i {
		case 0:
			d.WriteByte('M')
		case 1:
			d.WriteByte('L')
		default:
			d.WriteByte(' ')
		}
		d.WriteString(s.num(p.X) + " " + s.num(p.Y))
	}
	if closed {
		d.WriteByte('Z')
	}
	return d.String()
}

func (s *svg) text(t Text) {
	colour := t.Colour
	if colour == "" {
		colour = Ink
	}
	s.b.WriteString("<text")
	s.attr("data-of", t.Of)
	s.attr("x", s.num(t.At.X))
	s.attr("y", s.num(t.At.Y))
	s.attr("font-size", s.num(t.Size))
	if t.Bold {
		s.attr("font-weight", "700")
	}
	s.attr("text-anchor", [...]string{Start: "", Middle: "middle", End: "end"}[t.Anchor])
	s.attr("fill", string(colour))
	if t.Halo {
		s.attr("stroke", string(Paper))
		s.attr("stroke-width", s.num(t.Size/4))
		s.attr("paint-order", "stroke")
	}
	s.b.WriteString(">" + escape(t.String) + "</text>\n")
}

// escape makes a text safe inside an element and inside an attribute in double quotes. What XML 1.0 cannot hold
// becomes the replacement character.
func escape(text string) string {
	var b strings.Builder
	for i, r := range text {
		switch {
		case r == '&':
			b.WriteString("&amp;")
		case r == '<':
			b.WriteString("&lt;")
		case r == '>':
			b.WriteString("&gt;")
		case r == '"':
			b.WriteString("&#34;")
		case r == '\'':
			b.WriteString("&#39;")
		case r == '\t' || r == '\n' || r == '\r':
			fmt.Fprintf(&b, "&#%d;", r)
		case r == utf8.RuneError && !strings.HasPrefix(text[i:], "\uFFFD"), r < ' ', r >= 0x7f && r < 0xa0, r == 0xFFFE, r == 0xFFFF:
			b.WriteRune(utf8.RuneError)
		default:
			b.WriteRune(r)
		}
	}
	return b.String()
}
