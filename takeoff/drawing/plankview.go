package drawing

import (
	"math"
	"strconv"

	"ribband/takeoff/draw"
	"ribband/takeoff/hull"
	"ribband/takeoff/hull/planking"
)

// expansion is the strakes being laid out on the sheet.
type expansion struct {
	look
	*planking.Planking
	list     *draw.List
	flat     []flatStrake
	breached map[buttAt]bool
	renewed  []planking.Renewed
	units    float64 // units to a millimetre
	middle   float64 // X of the strakes' middles
	lowest   float64 // Y of the garboard's lowest point
	notes    []string
}

// flatStrake is a strake turned so that the board that holds it lies level: Y aft of its middle, Z up from its lowest
// point, mm.
type flatStrake struct {
	lower, upper []hull.Point
	high         float64
}

// levelled turns a strake.
func levelled(s planking.Strake) flatStrake {
	e := s.Board.Along
	if e.Y < 0 {
		e = hull.Point{Y: -e.Y, Z: -e.Z}
	}
	turn := func(ps []hull.Point) []hull.Point {
		out := make([]hull.Point, len(ps))
		for i, p := range ps {
			out[i] = hull.Point{Y: p.Y*e.Y + p.Z*e.Z, Z: p.Z*e.Y - p.Y*e.Z}
		}
		return out
	}
	f := flatStrake{lower: turn(s.Lower), upper: turn(s.Upper)}
	low, high, fore, aft := math.Inf(1), math.Inf(-1), math.Inf(1), math.Inf(-1)
	for _, ps := range [][]hull.Point{f.lower, f.upper} {
		for _, p := range ps {
			low, high, fore, aft = min(low, p.Z), max(high, p.Z), min(fore, p.Y), max(aft, p.Y)
		}
	}
	for _, ps := range [][]hull.Point{f.lower, f.upper} {
		for i := range ps {
			ps[i].Y -= (fore + aft) / 2
			ps[i].Z -= low
		}
	}
	f.high = high - low
	return f
}

// spread levels every strake and finds the scale: the longest fills the sheet, and no strake is taller than a third of
// its width.
func (v *expansion) spread() {
	longest, tallest := 1.0, 1.0
	for _, s := range v.Strakes {
		f := levelled(s)
		v.flat = append(v.flat, f)
		longest, tallest = max(longest, s.Board.Length), max(tallest, f.high)
	}
	v.units = min((v.width-2*v.margin-v.small)/longest, v.width/3/tallest)
	v.middle = v.width / 2
	v.list.ScaleMM = 1 / v.units
}

// at is where a point of a strake stands whose lowest point is at base; the bow is to the right.
func (v *expansion) at(p hull.Point, base float64) draw.Point {
	return draw.Point{X: v.middle - p.Y*v.units, Y: base - p.Z*v.units}
}

// strake draws the ith strake from top down, its name and butts above it, and gives the Y below it.
func (v *expansion) strake(i int, top float64) float64 {
	s, f := v.Strakes[i], v.flat[i]
	edge, frame, joint := v.pens()
	of := "strake/" + strconv.Itoa(s.No) + "/" + string(v.Side)
	words := top + line(v.small)
	base := words + 0.5*v.small + f.high*v.units
	across := func(layer string, pen draw.Pen, at int) {
		v.list.Layer(layer).Add(draw.Path{Points: []draw.Point{v.at(f.lower[at], base), v.at(f.upper[at], base)}, Pen: pen, Of: of})
	}
	for _, m := range v.Frames {
		if at := s.Place(m.X); s.X[at] == m.X {
			across("frames", frame, at)
		}
	}
	var ring []draw.Point
	for _, p := range f.lower {
		ring = append(ring, v.at(p, base))
	}
	ring = draw.Simplified(ring, tolerance)
	var back []draw.Point
	for j := len(f.upper) - 1; j >= 0; j-- {
		back = append(back, v.at(f.upper[j], base))
	}
	v.list.Layer("strakes").Add(draw.Path{Points: append(ring, draw.Simplified(back, tolerance)...), Closed: true, Pen: edge, Of: of})
	v.hoods(s, across)
	texts := []draw.Text{{At: draw.Point{X: v.margin, Y: words}, Size: v.small, Bold: true, String: v.name(s), Of: of}}
	texts = append(texts, v.hoodNames(i, base, words)...)
	texts = append(texts, v.shade(i, base, words, texts)...)
	for _, b := range v.butts(i) {
		across("butts", joint, b.At)
		x := v.at(f.upper[b.At], base).X
		t := draw.Text{At: draw.Point{X: x, Y: words}, Size: v.small, Anchor: draw.Middle, String: v.between(b.X), Of: of}
		if v.breached[buttAt{i, b.X}] {
			t.String += " *"
		}
		if b.fresh {
			t.String += " new"
		}
		if !clear(t, texts) {
			v.notes = append(v.notes, "Not every butt has room for its frames; the table has them all.")
			continue
		}
		texts = append(texts, t)
	}
	for _, t := range texts {
		v.list.Layer("names").Add(t)
	}
	v.lowest = base
	return base + 0.35*v.small
}

// name of a strake; the lowest and the uppermost have their own.
func (v *expansion) name(s planking.Strake) string {
	n := strconv.Itoa(s.No)
	switch {
	case s.No == 1:
		n += " garboard"
	case s.No == len(v.Strakes):
		n += " sheer strake"
	}
	return n
}

// between is the numbers of the frames that a butt stands between, or of the one that it stands on.
func (v *expansion) between(x float64) string {
	for i := 0; i+1 < len(v.Frames); i++ {
		a, b := v.Frames[i], v.Frames[i+1]
		const on = 0.1 // of a bay, as package butt has it
		switch at := (x - a.X) / (b.X - a.X); {
		case at >= -on && at <= on:
			return strconv.Itoa(a.No)
		case at > on && at < 1-on:
			return strconv.Itoa(a.No) + "/" + strconv.Itoa(b.No)
		}
	}
	return v.outside(x)
}

// outside is the number of the end frame that a butt stands beyond.
func (v *expansion) outside(x float64) string {
	if len(v.Frames) == 0 {
		return ""
	}
	last := v.Frames[len(v.Frames)-1]
	if x < v.Frames[0].X {
		last = v.Frames[0]
	}
	return strconv.Itoa(last.No)
}

// numbers of the frames stand below the garboard.
func (v *expansion) numbers(y float64) float64 {
	if len(v.Frames) == 0 {
		return y
	}
	s, f := v.Strakes[0], v.flat[0]
	var labels []label
	for _, m := range v.Frames {
		at := s.Place(m.X)
		p := v.at(f.lower[at], v.lowest)
		labels = append(labels, label{text: strconv.Itoa(m.No), at: p.X, from: p.Y, of: "frame/" + strconv.Itoa(m.No) + "/" + string(v.Side)})
	}
	kept := thinned(labels, v.small)
	if len(kept) < len(labels) {
		v.notes = append(v.notes, "Frames stand too close on the sheet for every number.")
	}
	base := y + line(v.small)
	for _, l := range kept {
		v.list.Layer("leaders").Line(draw.Pen{Width: 0.5, Colour: draw.Rule}, draw.Point{X: l.at, Y: l.from + 1}, draw.Point{X: l.at, Y: base - v.small})
		v.list.Layer("numbers").Add(draw.Text{At: draw.Point{X: l.at, Y: base}, Anchor: draw.Middle, Size: v.small, String: l.text, Of: l.of})
	}
	return base + 0.3*v.small
}
