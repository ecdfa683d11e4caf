package pair

// Lie is both outlines as they lie in the rectangle of a fit of theirs, its corner at 0, 0.
func (f Fit) Lie(first, second []Point) (a, b []Point) {
	x, y := max(0, -f.DX), max(0, -f.DY)
	return moved(first, false, x, y), moved(second, f.Turned, x+f.DX, y+f.DY)
}

// moved is an outline, turned by half a turn or not, with the corner of its bounds at x, y.
func moved(outline []Point, turned bool, x, y int64) []Point {
	if len(outline) == 0 {
		return nil
	}
	low, high := outline[0], outline[0]
	for _, p := range outline {
		low = Point{min(low.X, p.X), min(low.Y, p.Y)}
		high = Point{max(high.X, p.X), max(high.Y, p.Y)}
	}
	out := make([]Point, len(outline))
	for i, p := range outline {
		out[i] = Point{x + p.X - low.X, y + p.Y - low.Y}
		if turned {
			out[i] = Point{x + high.X - p.X, y + high.Y - p.Y}
		}
	}
	return out
}
