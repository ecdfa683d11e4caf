package offsets

import (
	"fmt"
	"strconv"
	"strings"

	"ribband/takeoff/boat"
	"ribband/takeoff/notation"
)

// wide reads the header of a wide layout: what each column holds.
func (t *tableReader) wide(head []string, row int) bool {
	t.across = make([]across, len(head))
	fixed := []string{"line", "side"}
	if t.layout == stationsDown {
		fixed = []string{"station_no", "x", "side"}
	}
	for c := range t.column {
		t.column[c] = -1
	}
	stations := map[string]bool{}
	for i, h := range head {
		a := &t.across[i]
		at := place{row, i + 1}
		a.place[columnLine] = at
		name := strings.ToLower(h)
		if t.layout == linesDown && i == 0 && name == "station_no" {
			name = "line" // the head of a table turned over
		}
		if c := columnNamed(name); c >= 0 && isOneOf(fixed, name) {
			a.skip = true
			if t.column[c] >= 0 {
				t.bad(at, fmt.Sprintf("the column %s is given twice", h), "take one out")
			}
			t.column[c] = i
			continue
		}
		switch {
		case h == "":
			a.skip = true
		case t.layout == stationsDown:
			if !t.line(&a.given, h) {
				a.skip = true
			}
		case stationForm.MatchString(h):
			a.station, _ = strconv.Atoi(h)
			a.twice = stations[h]
			stations[h] = true
		default:
			a.skip = true
			t.bad(at, fmt.Sprintf("%s is not a station number", notation.Quote(h)), "number the stations by whole numbers from 0, from forward")
		}
	}
	return true
}

func isOneOf(names []string, name string) bool {
	for _, n := range names {
		if n == name {
			return true
		}
	}
	return false
}

// cellOf is a cell of a row, empty where the row is short.
func cellOf(cells []string, i int) string {
	if i < 0 || i >= len(cells) {
		return ""
	}
	return cells[i]
}

// fits reports cells beyond the header's last column.
func (t *tableReader) fits(cells []string, row int) {
	for i := len(t.across); i < len(cells); i++ {
		if cells[i] != "" {
			t.bad(place{row, i + 1}, fmt.Sprintf("%s stands beyond the last column of the header", notation.Quote(cells[i])), "give every column its head, or take the cell out")
			t.lose(BadCell{Row: row, Column: i + 1, Text: cells[i]})
			return
		}
	}
}

// sideOf reads the side of a row; both where the table has no such column.
func (t *tableReader) sideOf(cells []string, row int) (side boat.Side, at place, ok bool) {
	c := t.column[columnSide]
	if c < 0 {
		return boat.Both, place{row, 1}, true
	}
	at = place{row, c + 1}
	side = boat.Side(strings.ToLower(cellOf(cells, c)))
	if side.Expand() == nil {
		t.bad(at, fmt.Sprintf("%s is not a side", notation.Quote(cellOf(cells, c))), "write port, starboard or both")
		return side, at, false
	}
	return side, at, true
}

// lineRow reads one line's cells at all stations.
func (t *tableReader) lineRow(cells []string, row int) {
	t.fits(cells, row)
	at := place{row, t.column[columnLine] + 1}
	name := t.unit(cellOf(cells, t.column[columnLine]), row, at.column)
	var g given
	g.place[columnLine] = at
	ok := true
	switch {
	case strings.EqualFold(name, "side"):
		t.sideRow(cells, at)
		return
	case strings.EqualFold(name, "x"):
		g.line = stationX
	default:
		t.settle()
		ok = t.line(&g, name)
	}
	side, sideAt := boat.Side(""), at
	if ok && g.line < stationX && t.sides.row == 0 {
		side, sideAt, ok = t.sideOf(cells, row)
	}
	for i, a := range t.across {
		text := cellOf(cells, i)
		if a.skip {
			if i != t.column[columnLine] && i != t.column[columnSide] && text != "" {
				t.lose(BadCell{Row: row, Column: i + 1, Side: side, Cell: notation.Shorten(name), Text: text})
			}
			continue
		}
		if text == "" && g.line != stationX {
			continue
		}
		one := g
		one.station, one.side, one.value = a.station, side, text
		one.whole = g.line.ofTable()
		one.place[columnStation], one.place[columnSide] = a.place[columnLine], sideAt
		switch {
		case t.sides.row > 0 && g.line < stationX:
			one.side, one.place[columnSide] = a.side, a.place[columnSide]
		case t.column[columnSide] < 0:
			one.place[columnSide] = a.place[columnLine] // what a side lacks is told at its station's head
		}
		one.place[columnValue], one.place[columnX] = place{row, i + 1}, place{row, i + 1}
		if g.line == stationX && a.twice {
			t.given = append(t.given, one) // gather holds it against the other side's
			continue
		}
		t.keepOrLose(one, name, ok)
	}
}

// stationRow reads one station's cells, all of them or those of one side.
func (t *tableReader) stationRow(cells []string, row int) {
	t.fits(cells, row)
	no := cellOf(cells, t.column[columnStation])
	noAt := place{row, t.column[columnStation] + 1}
	station, ok := 0, true
	if stationForm.MatchString(no) {
		station, _ = strconv.Atoi(no)
	} else {
		t.bad(noAt, fmt.Sprintf("%s is not a station number", notation.Quote(no)), "number the stations by whole numbers from 0, from forward")
		ok = false
	}
	side, sideAt, known := t.sideOf(cells, row)
	g := given{station: station, side: side, x: cellOf(cells, t.column[columnX])}
	g.place[columnStation], g.place[columnSide], g.place[columnX] = noAt, sideAt, place{row, t.column[columnX] + 1}
	if ok {
		g.line, g.value = stationX, g.x
		g.place[columnValue] = g.place[columnX]
		t.given = append(t.given, g) // so that a station without a cell is there too
	}
	for i, a := range t.across {
		text := cellOf(cells, i)
		if text == "" {
			continue
		}
		if a.skip {
			if !isOneOf([]string{fmt.Sprint(t.column[columnStation]), fmt.Sprint(t.column[columnX]), fmt.Sprint(t.column[columnSide])}, fmt.Sprint(i)) {
				t.lose(BadCell{Row: row, Column: i + 1, Station: no, Side: side, Text: text})
			}
			continue
		}
		one := g
		one.line, one.at, one.value = a.line, a.at, text
		one.whole = a.line.ofTable()
		one.place[columnLine], one.place[columnValue] = a.place[columnLine], place{row, i + 1}
		t.keepOrLose(one, a.name(), ok && (known || a.line >= stationX))
	}
}

// keepOrLose takes a cell of a wide layout where what it belongs to is known.
func (t *tableReader) keepOrLose(g given, name string, ok bool) {
	if ok {
		t.put(g)
		return
	}
	if g.value != "" {
		t.lose(BadCell{Row: g.place[columnValue].row, Column: g.place[columnValue].column, Station: itoa(g.station), Side: g.side, Cell: notation.Shorten(name), Text: g.value})
	}
}
