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
		if strings.Join(cells, "") == "" {
			continue
		}
		if len(t.given) >= MaxRows {
			t.add(Fault{Row: row, Detail: fmt.Sprintf("the table has more than %d cells", MaxRows), Fix: "leave out what is not offsets"})
			return
		}
		switch t.layout {
		case linesDown:
			t.lineRow(cells, row)
		case stationsDown:
			t.stationRow(cells, row)
		default:
			t.row(cells, row)
		}
	}
	t.settle()
	if n == 0 {
		t.add(Fault{Row: 1, Detail: "no row stands below the header", Fix: "give one row for every measured cell"})
	}
}

var stationForm = regexp.MustCompile(`^[0-9]{1,4}$`)

// row reads one row of the long layout; what is wrong in it is reported, all of it, and the row then left out.
func (t *tableReader) row(cells []string, row int) {
	for len(cells) > len(columns) && cells[len(cells)-1] == "" {
		cells = cells[:len(cells)-1]
	}
	if len(cells) != len(columns) {
		t.add(Fault{Row: row, Detail: fmt.Sprintf("the row has %d cells; the header has %d columns", len(cells), len(columns)),
			Fix: "give every row one cell a column; a cell that holds the delimiter goes between quotation marks"})
		t.lose(BadCell{Row: row, Text: strings.Join(cells, " ")})
		return
	}
	cell := func(c int) string { return cells[t.column[c]] }
	g := given{x: cell(columnX), side: boat.Side(strings.ToLower(cell(columnSide))), value: cell(columnValue)}
	for c := range g.place {
		g.place[c] = place{row, t.column[c] + 1}
	}
	before := len(t.list) + t.over
	t.line(&g, cell(columnLine))
	no := cell(columnStation)
	g.whole = g.line.ofTable() || g.line == stationPlank && no == ""
	switch {
	case g.whole:
		if no != "" {
			t.bad(g.place[columnStation], fmt.Sprintf("%s is of the whole table, and no station's", lineNames[g.line]), "leave station_no, x and side empty in this row")
		}
	case stationForm.MatchString(no):
		g.station, _ = strconv.Atoi(no)
	default:
		t.bad(g.place[columnStation], fmt.Sprintf("%s is not a station number", notation.Quote(no)), "number the stations by whole numbers from 0, from forward")
	}
	if g.line < stationX && g.side.Expand() == nil {
		t.bad(g.place[columnSide], fmt.Sprintf("%s is not a side", notation.Quote(cell(columnSide))), "write port, starboard or both")
	}
	if len(t.list)+t.over > before {
		t.lose(BadCell{Row: row, Column: g.place[columnValue].column, Station: no, Side: g.side, Cell: notation.Shorten(cell(columnLine)), Text: g.value})
		return
	}
	t.put(g)
}

// put keeps a cell, unless it was given before.
func (t *tableReader) put(g given) {
	if g.line >= stationX {
		g.side = ""
	}
	key := [4]string{strconv.Itoa(g.station), string(g.side), lineNames[g.line], g.at}
	if g.whole {
		key[0] = ""
	}
	at := g.place[columnLine]
	if t.layout != long {
		at = g.place[columnValue]
	}
	if earlier, ok := t.mark[key]; ok {
		t.add(Fault{Row: at.row, Column: at.column, Station: key[0], Side: g.side, Cell: notation.Shorten(g.name()),
			Detail: fmt.Sprintf("it is given twice, first in row %d", earlier), Fix: "leave one of the two out"})
		t.lose(BadCell{Row: at.row, Column: g.place[columnValue].column, Station: key[0], Side: g.side, Cell: notation.Shorten(g.name()), Text: g.value})
		return
	}
	t.mark[key] = at.row
	t.given = append(t.given, g)
}

func (t *tableReader) bad(at place, detail, fix string) {
	t.add(Fault{Row: at.row, Column: at.column, Detail: detail, Fix: fix})
}

func (g given) name() string {
	if !g.line.named() {
		return lineNames[g.line]
	}
	return lineNames[g.line] + ":" + g.at
}

// line reads the name of a line into g; false where it is none.
func (t *tableReader) line(g *given, name string) bool {
	kind, at, colon := strings.Cut(name, ":")
	kind, at = strings.ToLower(strings.TrimSpace(kind)), strings.TrimSpace(at)
	l := line(slices.Index(lineNames[:], kind))
	switch {
	case l < 0 || l == stationX || colon != l.named():
		t.bad(g.place[columnLine], fmt.Sprintf("%s is not a line of the table", notation.Quote(name)), "write "+lineForms)
	case colon && at == "":
		t.bad(g.place[columnLine], fmt.Sprintf("%s does not say which", notation.Quote(name)), "write the height of a waterline, the half-breadth of a buttock or the name of a diagonal or a knuckle after the colon, as wl:"+t.example())
	default:
		g.line, g.at = l, at
		return true
	}
	return false
}

func (t *tableReader) example() string {
	if e := t.doc.Notation.Example(); e != "" {
		return e
	}
	return notation.FeetInchesEighths.Example()
}
