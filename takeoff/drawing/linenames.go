package drawing

import (
	"math"
	"slices"

	"ribband/takeoff/draw"
)

// named is a drawn line that wants its name on it, with its points on the sheet.
type named struct {
	text   string
	points []draw.Point
}

// nameLines writes each line's name on the line itself, where it stands clear of the texts that are there and of the
// other lines, the paper behind it cleared; it gives how many lines have no such place. around are lines that want no
// name but must be kept clear of.
func nameLines(list *draw.List, size float64, lines []named, around [][]draw.Point) (unnamed int) {
	taken := make([]draw.Extent, 0, len(lines))
	for _, t := range list.Texts() {
		taken = append(taken, t.Extent())
	}
	layer := list.Layer("line names")
	// A name clears the paper behind it, so it stands above lines that were drawn since the last names were.
	i := slices.Index(list.Layers, layer)
	list.Layers = append(slices.Delete(list.Layers, i, i+1), layer)
	for i, l := range lines {
		best, room := draw.Text{}, 0.0
		for _, at := range alongLine(l.points, size) {
			t := draw.Text{At: draw.Point{X: at.X, Y: at.Y + 0.36*size}, Anchor: draw.Middle, Size: size, String: l.text}
			e := t.Extent()
			clear := math.Inf(1)
			for _, o := range taken {
				if e.Overlaps(o) {
					clear = 0
				}
			}
			for j, o := range lines {
				if j != i {
					clear = min(clear, clearance(e, o.points))
				}
			}
			for _, o := range around {
				clear = min(clear, clearance(e, o))
			}
			if clear > room {
				best, room = t, clear
			}
		}
		if room <= 0 {
			unnamed++
			continue
		}
		e := best.Extent()
		layer.Add(draw.Path{Points: draw.Box(draw.Point{X: e.Left - 1, Y: e.Top}, draw.Point{X: e.Right + 1, Y: e.Bottom}), Closed: true, Fill: draw.Paper}, best)
		taken = append(taken, best.Extent())
	}
	return unnamed
}

// alongLine is places on a line where a name may stand, neither at its very ends nor nearer together than half a name.
func alongLine(points []draw.Point, size float64) []draw.Point {
	var out []draw.Point
	step, travelled := 2*size, -2*size
	for i := 1; i < len(points); i++ {
		a, b := points[i-1], points[i]
		length := math.Hypot(b.X-a.X, b.Y-a.Y)
		for travelled+step <= length && length > 0 {
			travelled += step
			if travelled < 0 {
				continue
			}
			w := travelled / length
			out = append(out, draw.Point{X: a.X + w*(b.X-a.X), Y: a.Y + w*(b.Y-a.Y)})
		}
		travelled -= length
	}
	if len(out) > 2 {
		out = out[1 : len(out)-1]
	}
	return out
}

// clearance is how far a line stays from the room of a name, 0 where it runs through it.
func clearance(e draw.Extent, points []draw.Point) float64 {
	least := math.Inf(1)
	for i := 1; i < len(points); i++ {
		a, b := points[i-1], points[i]
		n := 1 + int(math.Hypot(b.X-a.X, b.Y-a.Y)/2)
		for j := range n + 1 {
			w := float64(j) / float64(n)
			x, y := a.X+w*(b.X-a.X), a.Y+w*(b.Y-a.Y)
			dx := max(e.Left-x, x-e.Right, 0)
			dy := max(e.Top-y, y-e.Bottom, 0)
			least = min(least, math.Hypot(dx, dy))
		}
	}
	return least
}

// mostName is how many letters of a name that somebody gave stand on a line; the table has the whole.
const mostName = 12

func shortName(s string) string {
	if letters := []rune(s); len(letters) > mostName {
		return string(letters[:mostName-1]) + "\u2026"
	}
	return s
}
