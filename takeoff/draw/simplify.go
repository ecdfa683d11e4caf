package draw

import "math"

// Simplified is the line with every point left out that lies within tolerance of the straight line between those
// that stay; the ends stay. It is the method of Ramer (1972) and of Douglas and Peucker (1973), common practice.
func Simplified(line []Point, tolerance float64) []Point {
	if len(line) < 3 {
		return line
	}
	a, b := line[0], line[len(line)-1]
	far, at := 0.0, 0
	for i := 1; i+1 < len(line); i++ {
		if d := distance(line[i], a, b); d > far {
			far, at = d, i
		}
	}
	if far <= tolerance {
		return []Point{a, b}
	}
	head := Simplified(line[:at+1], tolerance)
	out := make([]Point, 0, len(line))
	out = append(out, head[:len(head)-1]...)
	return append(out, Simplified(line[at:], tolerance)...)
}

// distance of p from the piece from a to b.
func distance(p, a, b Point) float64 {
	dx, dy := b.X-a.X, b.Y-a.Y
	along := 0.0
	if l := dx*dx + dy*dy; l > 0 {
		along = min(1, max(0, ((p.X-a.X)*dx+(p.Y-a.Y)*dy)/l))
	}
	return math.Hypot(p.X-a.X-along*dx, p.Y-a.Y-along*dy)
}
