package offsets

import (
	"cmp"
	"fmt"
	"slices"

	"ribband/takeoff/boat"
	"ribband/takeoff/notation"
)

// sideOrder is the order of a station's entries.
var sideOrder = map[boat.Side]int{boat.Both: 0, boat.Port: 1, boat.Starboard: 2}

// gather makes the document of the cells: stations by number, sides within them, cells in the order they came. For
// every cell it keeps where it stood.
func (t *tableReader) gather() {
	slices.SortStableFunc(t.given, func(a, b given) int {
		return cmp.Or(cmp.Compare(a.station, b.station), cmp.Compare(sideOrder[a.side], sideOrder[b.side]))
	})
	var st *StationOffsets
	var side *SideOffsets
	var stationAt, sideAt string
	for _, g := range t.given {
		if g.whole {
			t.ofTable(g)
			continue
		}
		if st == nil || g.station != st.No {
			stationAt = fmt.Sprintf("/stations/%d", len(t.doc.Stations))
			t.doc.Stations = append(t.doc.Stations, StationOffsets{No: g.station})
			st, side = &t.doc.Stations[len(t.doc.Stations)-1], nil
			t.keep(stationAt, g, columnStation)
			t.keep(stationAt+"/no", g, columnStation)
		}
		if g.line == stationX {
			g.x = g.value
		}
		t.x(st, g, stationAt)
		switch g.line {
		case stationX:
			continue
		case stationPlank:
			st.PlankThickness = g.value
			t.keep(stationAt+"/plank_thickness", g, columnValue)
			continue
		}
		if side == nil || side.Side != g.side {
			sideAt = fmt.Sprintf("%s/sides/%d", stationAt, len(st.Sides))
			st.Sides = append(st.Sides, SideOffsets{Side: g.side})
			side = &st.Sides[len(st.Sides)-1]
			t.keep(sideAt, g, columnSide)
		}
		t.cell(side, g, sideAt)
	}
}

// ofTable puts a cell that is no station's into the document.
func (t *tableReader) ofTable(g given) {
	switch g.line {
	case stationPlank, tablePlank:
		t.doc.PlankThickness = g.value
		t.keep("/plank_thickness", g, columnValue)
	case diagonalHeight, diagonalAngle:
		i := slices.IndexFunc(t.doc.Diagonals, func(d DiagonalPlane) bool { return d.Name == g.at })
		if i < 0 {
			i = len(t.doc.Diagonals)
			t.doc.Diagonals = append(t.doc.Diagonals, DiagonalPlane{Name: g.at})
			t.keep(fmt.Sprintf("/diagonals/%d", i), g, columnLine)
		}
		if p := fmt.Sprintf("/diagonals/%d", i); g.line == diagonalHeight {
			t.doc.Diagonals[i].Height = g.value
			t.keep(p+"/height", g, columnValue)
		} else {
			t.doc.Diagonals[i].AngleDeg = g.value
			t.keep(p+"/angle_deg", g, columnValue)
		}
	case stemAt:
		t.profile(&t.doc.Stem, "/stem", g)
	case transomAt:
		t.profile(&t.doc.Transom, "/transom", g)
	}
}

func (t *tableReader) profile(p *[]ProfileOffsets, at string, g given) {
	at = fmt.Sprintf("%s/%d", at, len(*p))
	*p = append(*p, ProfileOffsets{Height: g.at, X: g.value})
	t.keep(at+"/height", g, columnLine)
	t.keep(at+"/x", g, columnValue)
}

func (t *tableReader) keep(pointer string, g given, column int) {
	t.at.put(pointer, g.place[column].row, g.place[column].column)
}

// x takes the place of the station from the first of its rows that gives it, and holds the others against it.
func (t *tableReader) x(st *StationOffsets, g given, stationAt string) {
	if g.x == "" || g.x == st.X {
		return
	}
	if st.X == "" {
		st.X = g.x
		t.keep(stationAt+"/x", g, columnX)
		return
	}
	a, errA := t.doc.Notation.Parse(st.X)
	b, errB := t.doc.Notation.Parse(g.x)
	if errA == nil && errB == nil && a == b {
		return
	}
	t.add(Fault{Pointer: stationAt + "/x", Row: g.place[columnX].row, Column: g.place[columnX].column, Station: itoa(g.station), Cell: "x",
		Detail: fmt.Sprintf("it is %s here and %s in row %d", notation.Shorten(g.x), notation.Shorten(st.X), t.at.at[stationAt+"/x"].row), Fix: "give a station one x"})
}

// cell puts one row into the document.
func (t *tableReader) cell(e *SideOffsets, g given, sideAt string) {
	switch g.line {
	case rabbetHeight, rabbetHalfBreadth:
		t.end(&e.Rabbet, g, sideAt+"/rabbet", rabbetHeight)
	case sheerHeight, sheerHalfBreadth:
		t.end(&e.Sheer, g, sideAt+"/sheer", sheerHeight)
	case waterline:
		p := fmt.Sprintf("%s/waterlines/%d", sideAt, len(e.Waterlines))
		e.Waterlines = append(e.Waterlines, WaterlineOffsets{Height: g.at, HalfBreadth: g.value})
		t.keep(p+"/height", g, columnLine)
		t.keep(p+"/half_breadth", g, columnValue)
	case buttock:
		p := fmt.Sprintf("%s/buttocks/%d", sideAt, len(e.Buttocks))
		e.Buttocks = append(e.Buttocks, ButtockOffsets{HalfBreadth: g.at, Height: g.value})
		t.keep(p+"/half_breadth", g, columnLine)
		t.keep(p+"/height", g, columnValue)
	case diagonal:
		p := fmt.Sprintf("%s/diagonals/%d", sideAt, len(e.Diagonals))
		e.Diagonals = append(e.Diagonals, DiagonalOffsets{Name: g.at, Distance: g.value})
		t.keep(p+"/name", g, columnLine)
		t.keep(p+"/distance", g, columnValue)
	case knuckleHeight, knuckleHalfBreadth:
		i := slices.IndexFunc(e.Knuckles, func(k KnuckleOffsets) bool { return k.Name == g.at })
		if i < 0 {
			i = len(e.Knuckles)
			e.Knuckles = append(e.Knuckles, KnuckleOffsets{Name: g.at})
		}
		p := fmt.Sprintf("%s/knuckles/%d", sideAt, i)
		t.keep(p, g, columnLine)
		if g.line == knuckleHeight {
			e.Knuckles[i].Height = g.value
			t.keep(p+"/height", g, columnValue)
		} else {
			e.Knuckles[i].HalfBreadth = g.value
			t.keep(p+"/half_breadth", g, columnValue)
		}
	}
}

func (t *tableReader) end(e **EndOffsets, g given, pointer string, height line) {
	if *e == nil {
		*e = &EndOffsets{}
	}
	if g.line == height {
		(*e).Height = g.value
		t.keep(pointer+"/height", g, columnValue)
	} else {
		(*e).HalfBreadth = g.value
		t.keep(pointer+"/half_breadth", g, columnValue)
	}
}
