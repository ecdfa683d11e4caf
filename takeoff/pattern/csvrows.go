package pattern

import (
	"cmp"
	"fmt"
	"slices"
	"strconv"
	"strings"

	"ribband/takeoff/boat"
	"ribband/takeoff/notation"
)

// row reads one row; what is wrong with its frame, side or number is reported, all of it, and the row then left out.
func (t *tableReader) row(cells []string, row int) {
	g := given{row: row, side: boat.Side(strings.ToLower(cells[columnSide])), y: cells[columnY], z: cells[columnZ], knuckle: cells[columnKnuckle], grain: cells[columnGrain], cells: cells}
	var frame, sided, numbered bool
	g.no, frame = t.whole(row, columnFrame, cells, 0, MaxFrameNo, "a frame's number")
	g.n, numbered = t.whole(row, columnN, cells, 1, MaxPoints, "a point's number, counted from 1 at the heel")
	if sided = g.side.Expand() != nil; !sided {
		t.add(row, t.place(columnSide), "write port, starboard or both", "%s is not a side", notation.Quote(cells[columnSide]))
		t.lose(row, columnSide, cells)
	}
	if frame && sided && numbered {
		t.given = append(t.given, g)
		return
	}
	t.leaveOut(g, frame && sided)
}

// leaveOut leaves a row out of the document; known says that its frame and side are.
func (t *tableReader) leaveOut(g given, known bool) {
	t.lost, t.allShort = true, t.allShort || !known
	t.short[heading{g.no, g.side}] = true
	t.letLoose(g.row, t.asInHeader(g.cells))
}

func (t *tableReader) whole(row, column int, cells []string, least, most int, what string) (int, bool) {
	text := cells[column]
	n, err := strconv.Atoi(text)
	if err != nil || n < least || n > most || strconv.Itoa(n) != strings.TrimLeft(text, "0") && n != 0 {
		t.add(row, t.place(column), fmt.Sprintf("a whole number from %d to %d", least, most), "%s is not %s", notation.Quote(text), what)
		t.lose(row, column, cells)
		return n, false
	}
	return n, true
}

// sideOrder is the order of a frame's patterns.
var sideOrder = map[boat.Side]int{boat.Both: 0, boat.Port: 1, boat.Starboard: 2}

// gather makes the document of the rows, by frame, side and n, and keeps where every cell stood. A point given twice and a
// pattern whose rows differ in grain are reported.
func (t *tableReader) gather() {
	slices.SortStableFunc(t.given, func(a, b given) int {
		return cmp.Or(cmp.Compare(a.no, b.no), cmp.Compare(sideOrder[a.side], sideOrder[b.side]), cmp.Compare(a.n, b.n))
	})
	var last *Rows
	var before given
	for i, g := range t.given {
		if i > 0 && g.no == before.no && g.side == before.side && g.n == before.n {
			t.add(g.row, t.place(columnN), "leave one of the two out, or give it its own number", "%s: point %d is given twice, first in row %d", name(g.no, g.side), g.n, before.row)
			t.lose(g.row, columnN, g.cells)
			t.leaveOut(g, true)
			continue
		}
		begins := i == 0 || g.no != before.no || g.side != before.side
		before = g
		if begins {
			t.doc.Patterns = append(t.doc.Patterns, Rows{FrameNo: g.no, Side: g.side, Grain: g.grain})
			last = &t.doc.Patterns[len(t.doc.Patterns)-1]
		}
		pattern := "/patterns/" + strconv.Itoa(len(t.doc.Patterns)-1)
		point := pattern + "/points/" + strconv.Itoa(len(last.Points))
		last.Points = append(last.Points, Row{N: g.n, Y: g.y, Z: g.z, Knuckle: g.knuckle})
		t.keep(pattern, g.row, columnFrame)
		t.keep(pattern+"/side", g.row, columnSide)
		if g.grain != "" {
			t.keep(pattern+"/grain", g.row, columnGrain)
		}
		if g.grain != last.Grain {
			t.add(g.row, t.place(columnGrain), "one grain a pattern, the same in all its rows, or none in any", "%s, point %d: the grain is %s, and %s in the pattern's first row",
				name(g.no, g.side), g.n, notation.Quote(g.grain), notation.Quote(last.Grain))
			t.lose(g.row, columnGrain, g.cells)
		}
		t.keep(point, g.row, columnN)
		t.keep(point+"/y", g.row, columnY)
		t.keep(point+"/z", g.row, columnZ)
		if g.knuckle != "" {
			t.keep(point+"/knuckle", g.row, columnKnuckle)
		}
	}
}

func (t *tableReader) keep(pointer string, row, column int) {
	if _, ok := t.at[pointer]; !ok {
		t.at[pointer] = [2]int{row, t.place(column)}
	}
}

// place is where a column stands in the header, counted from 1.
func (t *tableReader) place(column int) int { return t.table.Place(columns[column]) }
