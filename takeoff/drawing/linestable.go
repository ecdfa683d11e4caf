package drawing

import (
	"fmt"
	"math"
	"strconv"
	"strings"

	"ribband/takeoff/boat"
	"ribband/takeoff/hull"
	"ribband/takeoff/notation"
)

// lineRow is one line of a side's table, with what is told of it.
type lineRow struct {
	name string
	runs [][]hull.Spot
	tell func(hull.Spot) float64 // what is told of it where that is not the drawing's own
}

// rowsOf is the lines of a drawing for its table, with what is told of each and what that is called.
type rowsOf struct {
	of   func(p *lengthwise, s sideLines) []lineRow
	tell func(hull.Spot) float64
	what string
}

var (
	profileRows = rowsOf{
		of: func(p *lengthwise, s sideLines) []lineRow {
			rows := []lineRow{{name: "rabbet", runs: [][]hull.Spot{s.rabbet}}}
			for i, b := range p.buttocks {
				rows = append(rows, lineRow{name: "B " + b.shown, runs: s.buttocks[i]})
			}
			rows = append(rows, s.knuckleRows()...)
			return append(rows, lineRow{name: "sheer", runs: [][]hull.Spot{s.sheer}})
		},
		tell: func(q hull.Spot) float64 { return q.Z }, what: "Heights",
	}
	halfBreadthRows = rowsOf{
		of: func(p *lengthwise, s sideLines) []lineRow {
			rows := []lineRow{{name: "rabbet", runs: [][]hull.Spot{s.rabbet}}}
			for i, w := range p.waterlines {
				rows = append(rows, lineRow{name: "WL " + w.shown, runs: s.waterlines[i]})
			}
			for i, d := range p.diagonals {
				rows = append(rows, lineRow{"diagonal " + d.name + ", distance along it", s.diagonals[i], d.distance})
			}
			rows = append(rows, s.knuckleRows()...)
			return append(rows, lineRow{name: "sheer", runs: [][]hull.Spot{s.sheer}})
		},
		tell: func(q hull.Spot) float64 { return q.Y }, what: "Half-breadths",
	}
)

// table is what the drawn lines measure at every station: lines down, stations across, port before starboard. A line that
// passes a station more than once has all its figures.
func (p *lengthwise) table(n notation.Notation, r rowsOf) Table {
	t := Table{
		Caption: fmt.Sprintf("%s of the lines as drawn, to the inside of plank, %s; %s: the line does not pass the station", r.what, lengthUnit(n), missing),
		Head:    []string{"Side", "Line"},
	}
	for _, st := range p.stations {
		t.Head = append(t.Head, "Station "+strconv.Itoa(st.No))
	}
	for _, s := range p.sides {
		for _, row := range r.of(p, s) {
			tell := r.tell
			if row.tell != nil {
				tell = row.tell
			}
			cells := []string{sideWord(s.side), row.name}
			for _, st := range p.stations {
				cells = append(cells, cellAt(row.runs, st.X.MM(), func(q hull.Spot) string { return shownMM(n, tell(q)) }))
			}
			t.Rows = append(t.Rows, cells)
		}
	}
	if len(p.stem)+len(p.transom) > 0 {
		p.endRows(&t, n)
	}
	return t
}

// knuckleRows are the knuckles of a side.
func (s sideLines) knuckleRows() []lineRow {
	var out []lineRow
	for _, k := range s.knuckles {
		out = append(out, lineRow{name: "knuckle " + k.name, runs: [][]hull.Spot{k.line}})
	}
	return out
}

// endRows are the lines of stem and transom: not at stations but at heights, with how far aft of station 0 they
// stand in a column of their own.
func (p *lengthwise) endRows(t *Table, n notation.Notation) {
	t.Head = append(t.Head, "Aft of station 0")
	for i := range t.Rows {
		t.Rows[i] = append(t.Rows[i], missing)
	}
	put := func(name string, line []hull.Spot) {
		for _, q := range line {
			cells := []string{sideWord(boat.Both), name + " at height " + shownMM(n, q.Z)}
			for range p.stations {
				cells = append(cells, missing)
			}
			t.Rows = append(t.Rows, append(cells, shownMM(n, q.X)))
		}
	}
	put("stem line", p.stem)
	put("transom line", p.transom)
}

// cellAt is what a line is at a station.
func cellAt(runs [][]hull.Spot, x float64, tell func(hull.Spot) string) string {
	var found []string
	for _, run := range runs {
		for i, q := range run {
			closing := i > 0 && i == len(run)-1 && q == run[0] // a closed line comes back to where it began
			if q.X == x && !closing {
				found = append(found, tell(q))
			}
		}
	}
	if len(found) == 0 {
		return missing
	}
	return strings.Join(found, " and ")
}

// shownMM is a length of a drawn line: to a sixteenth of an inch in feet and inches, to a tenth of a millimetre
// otherwise, which is as near as anybody draws.
func shownMM(n notation.Notation, mm float64) string {
	l, err := notation.FromMM(asRead(n, mm))
	if err != nil {
		return missing
	}
	return n.Format(l)
}

// asRead is a length as a rule is read: to a sixteenth of an inch, or a tenth of a millimetre.
func asRead(n notation.Notation, mm float64) float64 {
	const sixteenth = 25.4 / 16
	if n == notation.FeetInchesEighths || n == notation.Inches {
		return math.Round(mm/sixteenth) * sixteenth
	}
	return math.Round(mm*10) / 10
}

// AsRead is a length with its unit, as a tape is read.
func AsRead(n notation.Notation, mm float64) string { return withUnit(n, asRead(n, mm)) }

// remarks are what a reader should know beside what a drawing of lines along the boat shows.
func (p *lengthwise) remarks(of string) []string {
	var out []string
	if !p.faired {
		out = append(out, "The points do not make fair curves yet: they are joined by straight dashed lines from station to station.")
	}
	if len(p.sides) == 1 && p.sides[0].side == boat.Both {
		out = append(out, "Port and starboard are alike in every point: one stands for both.")
	}
	if gaps := stationGaps(p.stations); gaps != "" {
		out = append(out, gaps)
	}
	if len(p.stem)+len(p.transom) > 0 {
		return append(out, of+" A line ends where it meets the rabbet or the sheer, or at the end station: beyond those nothing was measured but the ends in profile.")
	}
	return append(out, of+" A line ends where it meets the rabbet or the sheer, or at the end station: beyond those nothing was measured and nothing is drawn.")
}
