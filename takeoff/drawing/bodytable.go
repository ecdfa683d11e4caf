package drawing

import (
	"fmt"
	"math"
	"slices"
	"strconv"
	"strings"

	"ribband/takeoff/boat"
	"ribband/takeoff/hull/offsets"
	"ribband/takeoff/notation"
)

// missing stands in a cell that was not measured.
const missing = "–"

// place is where in a section a mark was measured, alike however it is written.
type place struct {
	line string          // rabbet, sheer, wl or buttock; the whole cell of a diagonal or a knuckle
	at   notation.Length // height of a waterline, half-breadth of a buttock; nothing for the ends
}

func placeOf(m offsets.Mark) place {
	line, _, _ := strings.Cut(m.Cell, ":")
	switch line {
	case "wl":
		return place{line, m.Z}
	case "buttock":
		return place{line, m.Y}
	case "diagonal", "knuckle":
		return place{line: m.Cell}
	}
	return place{line: line}
}

// levels is the waterlines or buttocks of a table of offsets, from the datum.
func levels(o *offsets.Table, line string) []level {
	var out []level
	for i := range o.Stations {
		for _, side := range boat.Sides {
			for _, m := range o.Stations[i].Marks(side) {
				p := placeOf(m)
				if p.line == line && !slices.ContainsFunc(out, func(l level) bool { return l.of == p }) {
					out = append(out, level{p, p.at.MM(), o.Notation.Format(p.at)})
				}
			}
		}
	}
	slices.SortFunc(out, func(a, b level) int { return a.of.at.Compare(b.of.at) })
	return out
}

// table is the table of offsets: lines down, stations across, port before starboard.
func (b BodyPlan) table(p *body) Table {
	t := Table{
		Caption: fmt.Sprintf("Offsets to the %s of plank, %s; %s was not measured", b.Offsets.Surface, lengthUnit(b.Offsets.Notation), missing),
		Head:    []string{"Side", "Line"},
	}
	for _, st := range p.stations {
		t.Head = append(t.Head, "Station "+strconv.Itoa(st))
	}
	for _, h := range p.plans {
		of := h.side
		if of == boat.Both {
			of = boat.Port
		}
		row := func(name string, at place, height bool) {
			t.Rows = append(t.Rows, append([]string{sideWord(h.side), name}, b.cells(of, at, height)...))
		}
		row("rabbet, height", place{line: "rabbet"}, true)
		row("rabbet, half-breadth", place{line: "rabbet"}, false)
		for _, w := range p.waterlines {
			row("WL "+w.shown+", half-breadth", w.of, false)
		}
		for _, u := range p.buttocks {
			row("B "+u.shown+", height", u.of, true)
		}
		for _, d := range p.diagonals {
			t.Rows = append(t.Rows, append([]string{sideWord(h.side), "diagonal " + d.name + ", distance along it"}, b.distances(of, d)...))
		}
		for _, k := range h.knuckles {
			t.Rows = append(t.Rows,
				append([]string{sideWord(h.side), "knuckle " + k.name + ", height"}, b.corners(of, k.name, true)...),
				append([]string{sideWord(h.side), "knuckle " + k.name + ", half-breadth"}, b.corners(of, k.name, false)...))
		}
		row("sheer, height", place{line: "sheer"}, true)
		row("sheer, half-breadth", place{line: "sheer"}, false)
	}
	return t
}

// distances along a diagonal as they were measured: from the half-breadth and the angle to what lengths are told to.
func (b BodyPlan) distances(side boat.Side, d diagonal) []string {
	return b.told(side, d.holds, func(m offsets.Mark) string {
		return shownMM(b.Offsets.Notation, math.Hypot(m.Y.MM(), m.Z.MM()-d.height))
	})
}

// corners of a knuckle as they were measured.
func (b BodyPlan) corners(side boat.Side, name string, height bool) []string {
	return b.told(side, func(m offsets.Mark) bool { return m.Knuckle == name }, func(m offsets.Mark) string {
		if height {
			return b.Offsets.Notation.Format(m.Z)
		}
		return b.Offsets.Notation.Format(m.Y)
	})
}

// told is what is told of the mark of one side that is looked for, at every station.
func (b BodyPlan) told(side boat.Side, is func(offsets.Mark) bool, tell func(offsets.Mark) string) []string {
	var out []string
	for i := range b.Offsets.Stations {
		text := missing
		for _, m := range b.Offsets.Stations[i].Marks(side) {
			if is(m) {
				text = tell(m)
			}
		}
		out = append(out, text)
	}
	return out
}

// cells of one line of one side at every station.
func (b BodyPlan) cells(side boat.Side, at place, height bool) []string {
	var out []string
	for i := range b.Offsets.Stations {
		text := missing
		for _, m := range b.Offsets.Stations[i].Marks(side) {
			if placeOf(m) == at {
				l := m.Y
				if height {
					l = m.Z
				}
				text = b.Offsets.Notation.Format(l)
			}
		}
		out = append(out, text)
	}
	return out
}

// remarks are what a reader of the plan should know beside what it shows.
func (b BodyPlan) remarks(alike bool) []string {
	var out []string
	if b.Hull == nil {
		out = append(out, "The points do not make fair curves yet: they are joined by straight dashed lines, and sheer and rabbet run straight from station to station.")
	}
	if alike {
		out = append(out, "Port and starboard are alike in every point: one plan stands for both.")
	} else if where, by := b.greatestDifference(); where != "" {
		out = append(out, fmt.Sprintf("Port and starboard differ by at most %s (%s).", by, where))
	}
	if gaps := stationGaps(b.Offsets.Stations); gaps != "" {
		out = append(out, gaps)
	}
	if b.Offsets.Surface == offsets.Outside && b.Hull != nil {
		out = append(out, "The offsets were measured to the outside of plank, so the points lie outboard of the sections.")
	}
	return append(out, "Sections are to the inside of plank. The section with the greatest half-breadth stands in both halves.")
}

// greatestDifference between the two sides in one cell, with where it is; empty where no cell was measured on both.
func (b BodyPlan) greatestDifference() (where, by string) {
	worst := -1.0
	for i := range b.Offsets.Stations {
		st := &b.Offsets.Stations[i]
		for _, p := range st.Port {
			for _, s := range st.Starboard {
				if placeOf(p) != placeOf(s) {
					continue
				}
				for _, pair := range [2][2]notation.Length{{p.Y, s.Y}, {p.Z, s.Z}} {
					d := pair[0].MM() - pair[1].MM()
					if d = max(d, -d); d > worst {
						worst, where = d, fmt.Sprintf("station %d, %s", st.No, placeOf(p).word(b.Offsets.Notation))
						by = withUnit(b.Offsets.Notation, d)
					}
				}
			}
		}
	}
	return where, by
}

// withUnit is a length with the unit it is in, as far as the notation does not say it by its form.
func withUnit(n notation.Notation, mm float64) string {
	l, err := notation.FromMM(mm)
	if err != nil {
		return strconv.FormatFloat(mm, 'f', 1, 64) + " mm"
	}
	switch n {
	case notation.FeetInchesEighths:
		return n.Format(l)
	case notation.Inches:
		return n.Format(l) + " in"
	case notation.Metres:
		return n.Format(l) + " m"
	}
	return n.Format(l) + " mm"
}

// word for the place in a sentence.
func (p place) word(n notation.Notation) string {
	switch p.line {
	case "wl":
		return "waterline " + n.Format(p.at)
	case "buttock":
		return "buttock " + n.Format(p.at)
	}
	if line, name, is := strings.Cut(p.line, ":"); is {
		return line + " " + name
	}
	return p.line
}

// stationGaps names numbers that are left out where stations are otherwise numbered one by one.
func stationGaps(stations []offsets.Station) string {
	var gaps []string
	for i := 1; i < len(stations); i++ {
		for no := stations[i-1].No + 1; no < stations[i].No && len(gaps) <= len(stations)/2; no++ {
			gaps = append(gaps, strconv.Itoa(no))
		}
	}
	switch {
	case len(gaps) == 0 || len(gaps) > len(stations)/2:
		return ""
	case len(gaps) == 1:
		return "Station " + gaps[0] + " is not in the table of offsets."
	}
	return "Stations " + listed(gaps) + " are not in the table of offsets."
}

// listed joins words: "3, 5 and 8".
func listed(words []string) string {
	if len(words) < 2 {
		return strings.Join(words, "")
	}
	return strings.Join(words[:len(words)-1], ", ") + " and " + words[len(words)-1]
}
