package offsets

import (
	"fmt"
	"io"
	"regexp"
	"slices"
	"strconv"
	"strings"

	"ribband/takeoff/boat"
	"ribband/takeoff/notation"
)

// rows reads every row below the header into given.
func (t *tableReader) rows() {
	t.mark = map[[4]string]int{}
	n := 0
	for {
		cells, err := t.csv.Read()
		if err == io.EOF {
			break
		}
		if n++; n > MaxRows {
			t.add(Fault{Detail: fmt.Sprintf("the table has more than %d rows", MaxRows), Fix: "leave out what is not offsets"})
			return
		}
		if err != nil {
			t.add(syntaxFault(err))
			continue
		}
		row, _ := t.csv.FieldPos(0)
		for i := range cells {
			cells[i] = strings.TrimSpace(cells[i])
		}
		if strings.Join(cells, "") != "" {
			t.row(cells, row)
		}
	}
	if n == 0 {
		t.add(Fault{Row: 1, Detail: "no row stands below the header", Fix: "give one row for every measured cell"})
	}
}

var stationForm = regexp.MustCompile(`^[0-9]{1,4}$`)

// row reads one row; what is wrong in it is reported, all of it, and the row then left out.
func (t *tableReader) row(cells []string, row int) {
	if len(cells) != len(columns) {
		t.add(Fault{Row: row, Detail: fmt.Sprintf("the row has %d cells; the header has %d columns", len(cells), len(columns)),
			Fix: "give every row one cell a column; a cell that holds the delimiter goes between quotation marks"})
		return
	}
	cell := func(c int) string { return cells[t.column[c]] }
	g := given{row: row, x: cell(columnX), side: boat.Side(strings.ToLower(cell(columnSide))), value: cell(columnValue)}
	before := len(t.list) + t.over
	if no := cell(columnStation); stationForm.MatchString(no) {
		g.station, _ = strconv.Atoi(no)
	} else if !laterLine(cell(columnLine)) {
		t.bad(row, columnStation, g, fmt.Sprintf("%s is not a station number", notation.Quote(no)), "number the stations by whole numbers from 0, from forward")
	}
	if g.side.Expand() == nil && !laterLine(cell(columnLine)) {
		t.bad(row, columnSide, g, fmt.Sprintf("%s is not a side", notation.Quote(cell(columnSide))), "write port, starboard or both")
	}
	t.line(&g, cell(columnLine))
	if len(t.list)+t.over > before {
		return
	}
	key := [4]string{strconv.Itoa(g.station), string(g.side), lineNames[g.line], g.at}
	if earlier, ok := t.mark[key]; ok {
		t.add(Fault{Row: row, Column: t.column[columnLine] + 1, Station: key[0], Side: g.side, Cell: shorten(g.name()),
			Detail: fmt.Sprintf("it is given twice, first in row %d", earlier), Fix: "leave one of the two out"})
		return
	}
	t.mark[key] = row
	t.given = append(t.given, g)
}

func (t *tableReader) bad(row, column int, g given, detail, fix string) {
	t.add(Fault{Row: row, Column: t.column[column] + 1, Detail: detail, Fix: fix})
}

func (g given) name() string {
	if g.line < waterline {
		return lineNames[g.line]
	}
	return lineNames[g.line] + ":" + g.at
}

// Lines that the column `line` may name but that are not taken yet.
var later = map[string]string{
	"diagonal":  "diagonals cannot be taken yet",
	"stem_x":    "the line of the stem cannot be taken yet",
	"transom_x": "the line of the transom cannot be taken yet",
}

// laterLine reports a line that is not taken yet, so that its row is told once what is wrong with it.
func laterLine(name string) bool {
	kind, _, _ := strings.Cut(name, ":")
	return later[strings.ToLower(kind)] != ""
}

// line reads the column `line` into g.
func (t *tableReader) line(g *given, name string) {
	kind, at, colon := strings.Cut(name, ":")
	kind = strings.ToLower(strings.TrimSpace(kind))
	if why := later[kind]; why != "" {
		t.bad(g.row, columnLine, *g, why, "leave these rows out; give waterlines and buttocks")
		return
	}
	l := slices.Index(lineNames[:], kind)
	switch {
	case l < 0 || colon != (line(l) >= waterline):
		t.bad(g.row, columnLine, *g, fmt.Sprintf("%s is not a line of the table", notation.Quote(name)),
			"write rabbet_height, rabbet_half_breadth, sheer_height, sheer_half_breadth, wl:<height>, buttock:<half-breadth>, knuckle_height:<name> or knuckle_half_breadth:<name>")
	case colon && strings.TrimSpace(at) == "":
		t.bad(g.row, columnLine, *g, fmt.Sprintf("%s does not say which", notation.Quote(name)), "write the height of a waterline, the half-breadth of a buttock or the name of a knuckle after the colon, as wl:"+t.example())
	default:
		g.line, g.at = line(l), strings.TrimSpace(at)
	}
}

func (t *tableReader) example() string {
	if e := t.doc.Notation.Example(); e != "" {
		return e
	}
	return notation.FeetInchesEighths.Example()
}
