package fairness

import (
	"math"

	"ribband/takeoff/boat"
	"ribband/takeoff/hull/fair"
	"ribband/takeoff/hull/offsets"
	"ribband/takeoff/notation"
)

// axis is what a cell measures.
type axis int

const (
	breadth axis = iota
	height
	diagonal // out along it from the middle line
)

// cell is one written figure of one station and side.
type cell struct {
	station, mark int
	axis          axis
	name, line    string // as in the table; its line along the boat
	kind, at      string
	end           bool // of rabbet, knuckle or sheer
	written       notation.Length
	pointer       string

	outer, outermost bool // it ends its section, its line along the boat

	aside bool    // set aside: the curves do without it
	value float64 // what the curves see of it, mm: as written, or its fair value where it is set aside
	held  bool    // was put back once, and is not set aside again
	now   verdict
}

// verdict is what the two battens say of a cell: how far it is off by each (mm, positive where it is the greater), how
// sure each is of that, and both together.
type verdict struct {
	across, along         float64
	acrossSure, alongSure float64
	off, sure, times      float64
	judged                bool
}

// cellsOf are the cells of a station's side, the marks in order.
func cellsOf(station int, marks []offsets.Mark) []*cell {
	var out []*cell
	panel := "" // between which knuckles: a line has a corner where it passes one, and is another line there
	for i, m := range marks {
		add := func(a axis, name, line, kind, at string, v notation.Length, end bool) {
			out = append(out, &cell{station: station, mark: i, axis: a, name: name, line: line, kind: kind, at: at, end: end,
				written: v, value: v.MM(), pointer: m.Pointer})
		}
		switch m.Kind {
		case fair.Both:
			of, at := m.Cell, ""
			if m.Knuckle != "" {
				of, at, panel = "knuckle", m.Knuckle, " above "+m.Knuckle
			}
			for _, w := range []struct {
				a    axis
				what string
				v    notation.Length
			}{{height, of + "_height", m.Z}, {breadth, of + "_half_breadth", m.Y}} {
				name := w.what
				if at != "" {
					name += ":" + at
				}
				add(w.a, name, name, w.what, at, w.v, true)
			}
		case fair.AtHeight:
			add(breadth, m.Cell, "wl:"+m.Z.String()+panel, "wl", after(m.Cell), m.Y, false)
		case fair.AtWidth:
			add(height, m.Cell, "buttock:"+m.Y.String()+panel, "buttock", after(m.Cell), m.Z, false)
		case fair.Along:
			if d, err := notation.FromMM(m.Y.MM() / m.DY); err == nil {
				add(diagonal, m.Cell, m.Cell+panel, "diagonal", after(m.Cell), d, false)
			}
		}
	}
	return out
}

// after is what stands behind the colon of a cell's name.
func after(name string) string {
	for i := range name {
		if name[i] == ':' {
			return name[i+1:]
		}
	}
	return ""
}

// way of an offset that is off by so much.
func (c *cell) way(off float64) Way {
	switch {
	case c.end && c.axis == height && off > 0:
		return High
	case c.end && c.axis == height:
		return Low
	case c.axis != height && off > 0, c.axis == height && off < 0:
		return Out // a buttock that is written too low lies outside
	}
	return In
}

// side is one side's cells, by station and by line.
type side struct {
	of       boat.Side
	stations [][]*cell
	lines    []*line
}

// line is one cell's line along the boat.
type line struct {
	name  string
	cells []*cell
}

// gather makes the lines of a side.
func (s *side) gather() {
	at := map[string]*line{}
	for _, cells := range s.stations {
		for _, c := range cells {
			l := at[c.line]
			if l == nil {
				l = &line{name: c.line}
				at[c.line] = l
				s.lines = append(s.lines, l)
			}
			l.cells = append(l.cells, c)
		}
	}
}

func nothing() verdict {
	n := math.NaN()
	return verdict{across: n, along: n, acrossSure: n, alongSure: n}
}
