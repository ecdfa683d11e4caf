package pdf

import (
	"cmp"
	"math"
	"slices"

	"ribband/takeoff/hull"
)

// How a sheet is divided, mm. Printers leave a margin of up to 6 mm white (common practice, no source); below the drawing
// stands a line that says which sheet it is.
const (
	sheetEdge = 10.0
	sheetFoot = 8.0
	// overlap of neighbouring sheets: enough to lay one on the other and to see the crosses of both.
	overlap = 14.0
)

// tiling is how sheets lie over a frame. The frame's plane is in mm: right from the centreline and up from the baseline.
type tiling struct {
	wide, tall float64 // of the paper
	// window is what a sheet shows, pitch how far neighbours lie apart: a window less the overlap.
	window, pitch spot
	// origin is the lower left corner of the window in column 0 of the lowest row.
	origin spot
	rows   int
	tiles  []tile // by row from above, then by column
}

// tile is one sheet by its place: col from the left and row from below, both counted from 0.
type tile struct{ col, row int }

// segment of the frame's plane.
type segment struct{ a, b spot }

// segments are everything that a sheet is needed for: both faces, and the marks between them.
func (f FullSize) segments() []segment {
	m := f.Mould
	var out []segment
	at := func(p hull.Point) spot { return spot{m.Across(p.Y), p.Z} }
	for _, face := range [][]hull.Point{m.Faying, m.Inner} {
		for i := 1; i < len(face); i++ {
			out = append(out, segment{at(face[i-1]), at(face[i])})
		}
	}
	for _, k := range m.Marks {
		out = append(out, segment{at(k.At), at(k.Across)})
	}
	return out
}

// shifts of the sheets that are tried in either direction, as parts of their pitch.
const shifts = 8

// fewest is the tiling of the fewest sheets: upright or across, and shifted against the frame. Upright and unshifted goes
// before.
func fewest(f FullSize) tiling {
	size, ok := sheetSizes[f.Paper]
	if !ok {
		size = sheetSizes[SheetA4]
	}
	all := f.segments()
	low := spot{math.Inf(1), math.Inf(1)}
	for _, s := range all {
		low = spot{min(low.x, s.a.x, s.b.x), min(low.y, s.a.y, s.b.y)}
	}
	var best tiling
	for _, across := range []bool{false, true} {
		t := tiling{wide: size[0], tall: size[1]}
		if across {
			t.wide, t.tall = t.tall, t.wide
		}
		t.window = spot{t.wide - 2*sheetEdge, t.tall - 2*sheetEdge - sheetFoot}
		t.pitch = spot{t.window.x - overlap, t.window.y - overlap}
		for i := range shifts {
			for j := range shifts {
				t.origin = spot{low.x - overlap - t.pitch.x*float64(i)/shifts, low.y - overlap - t.pitch.y*float64(j)/shifts}
				t.lay(all)
				if best.tiles == nil || len(t.tiles) < len(best.tiles) {
					best = t
				}
			}
		}
	}
	return best
}

// lay finds the sheets that are needed: those in whose own part, up to the middle of the overlaps, something is drawn.
func (t *tiling) lay(all []segment) {
	needed := map[tile]bool{}
	cell := func(p spot) tile {
		return tile{int(math.Floor((p.x - t.origin.x - overlap/2) / t.pitch.x)), int(math.Floor((p.y - t.origin.y - overlap/2) / t.pitch.y))}
	}
	for _, s := range all {
		from, to := cell(s.a), cell(s.b)
		for c := min(from.col, to.col); c <= max(from.col, to.col); c++ {
			for r := min(from.row, to.row); r <= max(from.row, to.row); r++ {
				low, high := t.own(tile{c, r})
				if _, inside := clipped(s, low, high); inside {
					needed[tile{c, r}] = true
				}
			}
		}
	}
	t.tiles, t.rows = nil, 0
	for k := range needed {
		t.tiles = append(t.tiles, k)
	}
	t.inOrder()
	// Two sheets that meet at a corner alone share one cross, which does not hold their direction: one more joins them.
	for _, k := range slices.Clone(t.tiles) {
		for _, side := range []int{-1, 1} {
			if needed[tile{k.col + side, k.row - 1}] && !needed[tile{k.col + side, k.row}] && !needed[tile{k.col, k.row - 1}] {
				joint := tile{k.col, k.row - 1}
				needed[joint] = true
				t.tiles = append(t.tiles, joint)
			}
		}
	}
	t.inOrder()
	for _, k := range t.tiles {
		t.rows = max(t.rows, k.row+1)
	}
}

func (t *tiling) inOrder() {
	slices.SortFunc(t.tiles, func(a, b tile) int { return cmp.Or(cmp.Compare(b.row, a.row), cmp.Compare(a.col, b.col)) })
}

// own is the part of the plane that is a sheet's own: from the middle of one overlap to the middle of the next.
func (t *tiling) own(k tile) (low, high spot) {
	low = spot{t.origin.x + float64(k.col)*t.pitch.x + overlap/2, t.origin.y + float64(k.row)*t.pitch.y + overlap/2}
	return low, spot{low.x + t.pitch.x, low.y + t.pitch.y}
}

// shows is the part of the plane that a sheet shows, its overlaps included.
func (t *tiling) shows(k tile) (low, high spot) {
	low = spot{t.origin.x + float64(k.col)*t.pitch.x, t.origin.y + float64(k.row)*t.pitch.y}
	return low, spot{low.x + t.window.x, low.y + t.window.y}
}

// clipped is the part of a segment within a rectangle, by the method of Liang and Barsky ("A new concept and method for
// line clipping", ACM Transactions on Graphics 3, 1984; from memory).
func clipped(s segment, low, high spot) (segment, bool) {
	from, to := 0.0, 1.0
	dx, dy := s.b.x-s.a.x, s.b.y-s.a.y
	for _, e := range [4][2]float64{{-dx, s.a.x - low.x}, {dx, high.x - s.a.x}, {-dy, s.a.y - low.y}, {dy, high.y - s.a.y}} {
		switch {
		case e[0] == 0 && e[1] < 0:
			return segment{}, false
		case e[0] < 0:
			from = max(from, e[1]/e[0])
		case e[0] > 0:
			to = min(to, e[1]/e[0])
		}
	}
	at := func(w float64) spot { return spot{s.a.x + w*dx, s.a.y + w*dy} }
	return segment{at(from), at(to)}, from < to
}
