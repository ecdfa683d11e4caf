package offsets

import (
	"fmt"
	"strconv"
	"strings"

	"ribband/takeoff/boat"
	"ribband/takeoff/notation"
)

// sideRow reads the row that says of each column which side of its station it is: a table with stations down, turned over.
func (t *tableReader) sideRow(cells []string, at place) {
	const fix = "say the side once: in one row, above all lines that are measured, or in a column of its own"
	switch {
	case t.column[columnSide] >= 0 || t.sides.row > 0:
		t.bad(at, "the side is given twice", fix)
		return
	case t.settled:
		t.bad(at, "the row of the sides stands below lines that are measured", fix)
		return
	}
	t.sides = at
	have := map[string]int{}
	for i := range t.across {
		a := &t.across[i]
		if a.skip {
			continue
		}
		text := cellOf(cells, i)
		a.side, a.place[columnSide] = boat.Side(strings.ToLower(text)), place{at.row, i + 1}
		key := strconv.Itoa(a.station) + " " + string(a.side)
		switch {
		case a.side.Expand() == nil:
			a.skip = true
			t.bad(a.place[columnSide], fmt.Sprintf("%s is not a side", notation.Quote(text)), "write port, starboard or both")
		case have[key] > 0:
			a.skip = true
			t.bad(a.place[columnSide], fmt.Sprintf("%s of station %d is given twice, first in column %d", a.side, a.station, have[key]), "give every side of a station one column of its own")
		default:
			have[key] = i + 1
		}
	}
}

// settle tells of stations that have more than one column, once lines are reached that are measured: no row of the sides can
// tell the columns apart then.
func (t *tableReader) settle() {
	if t.settled {
		return
	}
	t.settled = true
	for i := range t.across {
		if a := &t.across[i]; a.twice && t.sides.row == 0 && !a.skip {
			a.skip = true
			t.bad(a.place[columnLine], fmt.Sprintf("station %d is given twice", a.station), "give every station one column of its own, or say in a row above the lines, side, which side each column is")
		}
	}
}
