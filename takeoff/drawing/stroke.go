package drawing

import (
	"math"
	"strconv"

	"ribband/takeoff/boat"
	"ribband/takeoff/draw"
)

// treatment is how a remedy looks on the plan of frames.
type treatment int

const (
	leave treatment = iota
	replace
	scarf
	sister
	unknown
	treatments // how many there are
)

// treatmentOf is how a remedy is drawn; one that is not known here as unknown, never as something else.
func treatmentOf(r boat.Remedy) treatment {
	switch r {
	case boat.Leave:
		return leave
	case boat.ReplaceLaminated, boat.ReplaceSteamed:
		return replace
	case boat.ScarfIn:
		return scarf
	case boat.Sister:
		return sister
	}
	return unknown
}

// letter beside the frame.
func (t treatment) letter() string { return [...]string{"L", "R", "S", "D", "U"}[t] }

// word for the remedy, as the table and the key say it.
func (t treatment) word() string {
	return [...]string{"leave", "replace", "scarf in a part", "sister", "unknown"}[t]
}

// explained is the word with what the stroke means.
func (t treatment) explained() string {
	return [...]string{
		"leave: thin line",
		"replace: thick line",
		"scarf in a part: thick, tapers pointed",
		"sister: doubled over its length",
		"unknown: dashed line",
	}[t]
}

// strokePiece is a piece of a member where it is drawn: low to high over its full depth, its tapers out to from and to.
type strokePiece struct{ from, low, high, to draw.Point }

// strokes draws a straight member along a to b, with its pieces.
func (t treatment) strokes(k look, of string, a, b draw.Point, pieces []strokePiece) []draw.Item {
	thin := draw.Pen{Width: 0.9, Colour: draw.Ink}
	one := func(pen draw.Pen, a, b draw.Point) draw.Item {
		return draw.Path{Points: []draw.Point{a, b}, Pen: pen, Of: of}
	}
	switch t {
	case replace:
		return []draw.Item{one(draw.Pen{Width: k.thick, Colour: draw.Blue}, a, b)}
	case scarf:
		out := []draw.Item{one(thin, a, b)}
		for _, p := range pieces {
			out = append(out, one(draw.Pen{Width: k.thick, Colour: draw.Vermillion}, p.low, p.high))
			for _, w := range [][2]draw.Point{{p.low, p.from}, {p.high, p.to}} {
				out = append(out, wedge(k.thick, of, w[0], w[1])...)
			}
		}
		return out
	case sister:
		if len(pieces) == 0 {
			return doubled(k.thick, of, a, b)
		}
		out := []draw.Item{}
		for _, p := range pieces {
			// the frame itself is not drawn between the lines of its sister: it ends where that begins
			out = append(append(out, one(thin, a, p.from)), doubled(k.thick, of, p.from, p.to)...)
			a = p.to
		}
		return append(out, one(thin, a, b))
	case unknown:
		return []draw.Item{one(draw.Dashed(0.9, draw.Ink, 4), a, b)}
	}
	return []draw.Item{one(thin, a, b)}
}

// doubled is two lines side by side.
func doubled(apart float64, of string, a, b draw.Point) []draw.Item {
	dx, dy := aside(a, b, apart/2)
	pen := draw.Pen{Width: 1.1, Colour: draw.BluishGreen}
	return []draw.Item{
		draw.Path{Points: []draw.Point{{X: a.X - dx, Y: a.Y - dy}, {X: b.X - dx, Y: b.Y - dy}}, Pen: pen, Of: of},
		draw.Path{Points: []draw.Point{{X: a.X + dx, Y: a.Y + dy}, {X: b.X + dx, Y: b.Y + dy}}, Pen: pen, Of: of},
	}
}

// wedge is a taper: as wide as a thick line at its root, and nothing at its tip. None where the two are one place.
func wedge(thick float64, of string, root, tip draw.Point) []draw.Item {
	if root == tip {
		return nil
	}
	dx, dy := aside(root, tip, thick/2)
	return []draw.Item{draw.Path{Points: []draw.Point{{X: root.X - dx, Y: root.Y - dy}, tip, {X: root.X + dx, Y: root.Y + dy}}, Closed: true, Fill: draw.Vermillion, Of: of}}
}

// aside is the step of a length square to the way from a to b.
func aside(a, b draw.Point, step float64) (dx, dy float64) {
	n := math.Hypot(b.X-a.X, b.Y-a.Y)
	if n == 0 {
		n = 1
	}
	return -(b.Y - a.Y) / n * step, (b.X - a.X) / n * step
}

// keyLine explains one stroke.
type keyLine struct {
	sample func(a, b draw.Point) []draw.Item
	letter string // beside the stroke; it may be empty
	text   string
}

// keyLine explains the stroke of a treatment in some words, with how many frames have it.
func (t treatment) keyLine(k look, count int, words string) keyLine {
	return keyLine{
		sample: func(a, b draw.Point) []draw.Item {
			at := func(share float64) draw.Point { return draw.Point{X: a.X + (b.X-a.X)*share, Y: a.Y + (b.Y-a.Y)*share} }
			piece := strokePiece{at(0.15), at(0.5), b, b}
			if t == sister {
				piece = strokePiece{at(0.3), at(0.3), b, b}
			}
			return t.strokes(k, "", a, b, []strokePiece{piece})
		},
		letter: t.letter(), text: words + " (" + countWord(count) + ")",
	}
}

// key draws the key from y down and gives the Y below it. Where there is room it stands in two columns.
func key(list *draw.List, k look, lines []keyLine, left, right, y float64) float64 {
	if len(lines) == 0 {
		return y
	}
	layer := list.Layer("key")
	const sample, apart = 34.0, 24.0
	columns, widest := 2, 0.0
	for _, l := range lines {
		widest = max(widest, draw.TextWidth(l.text, k.text, false))
	}
	if widest+sample+apart > (right-left)/2-4 {
		columns = 1
	}
	rows := (len(lines) + columns - 1) / columns
	for i, l := range lines {
		x := left + float64(i/rows)*(right-left)/float64(columns)
		base := y + float64(i%rows+1)*line(k.text)
		middle := base - 0.36*k.text
		at := func(dx float64) draw.Point { return draw.Point{X: x + dx, Y: middle} }
		layer.Add(l.sample(at(0), at(sample))...)
		text := x + sample + 8
		if l.letter != "" {
			layer.Add(draw.Text{At: draw.Point{X: text, Y: base}, Size: k.text, Bold: true, String: l.letter})
			text += 16
		}
		layer.Add(draw.Text{At: draw.Point{X: text, Y: base}, Size: k.text, String: l.text})
	}
	return y + float64(rows)*line(k.text) + 0.3*line(k.text)
}

func countWord(n int) string {
	switch n {
	case 0:
		return "none"
	case 1:
		return "1 frame"
	}
	return strconv.Itoa(n) + " frames"
}
