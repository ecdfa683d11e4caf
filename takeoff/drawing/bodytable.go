package drawing

import (
	"cmp"
	"fmt"
	"slices"
	"strconv"
	"strings"

	"ribband/takeoff/boat"
	"ribband/takeoff/hull"
	"ribband/takeoff/notation"
)

// missing stands in a cell that was not measured.
const missing = "–"

// levels is the waterlines or buttocks of a table of offsets, from the datum.
func levels(o *hull.Offsets, prefix string) []level {
	seen := map[string]level{}
	for i := range o.Stations {
		for _, side := range boat.Sides {
			for _, m := range o.Stations[i].Marks(side) {
				written, is := strings.CutPrefix(m.Cell, prefix)
				if !is {
					continue
				}
				at := m.Z
				if prefix == "buttock:" {
					at = m.Y
				}
				seen[written] = level{at.MM(), written}
			}
		}
	}
	var out []level
	for _, l := range seen {
		out = append(out, l)
	}
	slices.SortFunc(out, func(a, b level) int {
		return cmp.Or(cmp.Compare(a.mm, b.mm), cmp.Compare(a.written, b.written))
	})
	return out
}

// table is the table of offsets: lines down, stations across, port before starboard.
func (b BodyPlan) table(p *body) Table {
	t := Table{
		Caption: fmt.Sprintf("Offsets to the inside of plank, %s; %s was not measured", lengthUnit(b.Offsets.Notation), missing),
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
		row := func(name, cell string, height bool) {
			t.Rows = append(t.Rows, append([]string{sideWord(h.side), name}, b.cells(of, cell, height)...))
		}
		row("rabbet, height", "rabbet", true)
		row("rabbet, half-breadth", "rabbet", false)
		for _, w := range p.waterlines {
			row("WL "+w.written+", half-breadth", "wl:"+w.written, false)
		}
		for _, u := range p.buttocks {
			row("B "+u.written+", height", "buttock:"+u.written, true)
		}
		row("sheer, height", "sheer", true)
		row("sheer, half-breadth", "sheer", false)
	}
	return t
}

// cells of one line of one side at every station.
func (b BodyPlan) cells(side boat.Side, cell string, height bool) []string {
	var out []string
	for i := range b.Offsets.Stations {
		text := missing
		for _, m := range b.Offsets.Stations[i].Marks(side) {
			if m.Cell == cell {
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
	return append(out, "Sections are to the inside of plank. The section with the greatest half-breadth stands in both halves.")
}

// greatestDifference between the two sides in one cell, with where it is; empty where no cell was measured on both.
func (b BodyPlan) greatestDifference() (where, by string) {
	worst := -1.0
	for i := range b.Offsets.Stations {
		st := &b.Offsets.Stations[i]
		for _, p := range st.Port {
			for _, s := range st.Starboard {
				if p.Cell != s.Cell {
					continue
				}
				for _, pair := range [2][2]notation.Length{{p.Y, s.Y}, {p.Z, s.Z}} {
					d := pair[0].MM() - pair[1].MM()
					if d = max(d, -d); d > worst {
						worst, where = d, fmt.Sprintf("station %d, %s", st.No, cellWord(p.Cell))
						by = differenceText(b.Offsets.Notation, d)
					}
				}
			}
		}
	}
	return where, by
}

func differenceText(n notation.Notation, mm float64) string {
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

func cellWord(cell string) string {
	kind, at, has := strings.Cut(cell, ":")
	switch {
	case has && kind == "wl":
		return "waterline " + at
	case has:
		return kind + " " + at
	}
	return cell
}

// stationGaps names numbers that are left out where stations are otherwise numbered one by one.
func stationGaps(stations []hull.Station) string {
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
