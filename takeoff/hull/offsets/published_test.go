package offsets_test

import (
	"encoding/csv"
	"fmt"
	"os"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"testing"

	"ribband/takeoff/hull/offsets"
	"ribband/takeoff/notation"
)

// printed is one cell of a published table.
type printed struct {
	station, x, line, text string
	flaw                   bool
}

// published reads a table whose columns are station, x in inches, line, the cell, the same in inches, and a mark where it
// is flawed.
func published(t *testing.T, source string) (cells []printed) {
	t.Helper()
	f, err := os.Open("../../../testdata/published/" + source + "/offsets.csv")
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	rows, err := csv.NewReader(f).ReadAll()
	if err != nil {
		t.Fatal(err)
	}
	for _, r := range rows[1:] {
		cells = append(cells, printed{r[0], r[1], r[2], r[3], r[5] == "yes"})
	}
	return cells
}

// linesDown brings the cells to the wide layout, tabs between them as a spreadsheet copies them: line says how a line is
// written here, cell how a cell is. at gives where each cell came to stand, by row and column.
func linesDown(t *testing.T, cells []printed, line map[string]string, cell func(string) string) (table string, at map[[2]int]printed) {
	t.Helper()
	stations, lines := []string{}, []string{}
	x := map[string]string{}
	for _, c := range cells {
		if !slices.Contains(stations, c.station) {
			stations = append(stations, c.station)
		}
		if !slices.Contains(lines, c.line) {
			lines = append(lines, c.line)
		}
		if c.x == "" {
			continue
		}
		l, err := notation.Inches.Parse(c.x)
		if err != nil {
			t.Fatal(err)
		}
		x[c.station] = notation.FeetInchesEighths.Format(l)
	}
	grid := make([][]string, 2+len(lines))
	grid[0], grid[1] = []string{"line"}, []string{"x"}
	for i, s := range stations {
		grid[0], grid[1] = append(grid[0], fmt.Sprint(i)), append(grid[1], x[s])
	}
	for i, l := range lines {
		grid[2+i] = make([]string, 1+len(stations))
		if line[l] == "" {
			t.Fatalf("the line %q is not known to the test", l)
		}
		grid[2+i][0] = line[l]
	}
	at = map[[2]int]printed{}
	for _, c := range cells {
		row, column := 2+slices.Index(lines, c.line), 1+slices.Index(stations, c.station)
		grid[row][column] = cell(c.text)
		at[[2]int{row + 1, column + 1}] = c
	}
	var b strings.Builder
	w := csv.NewWriter(&b)
	w.Comma = '\t'
	if err := w.WriteAll(grid); err != nil {
		t.Fatal(err)
	}
	return b.String(), at
}

// kept counts the cells of a document that hold something, the stations' x left aside.
func kept(d *offsets.Document) (n int) {
	count := func(cells ...string) {
		for _, c := range cells {
			if c != "" {
				n++
			}
		}
	}
	for _, s := range d.Stations {
		for _, e := range s.Sides {
			if e.Rabbet != nil {
				count(e.Rabbet.Height, e.Rabbet.HalfBreadth)
			}
			if e.Sheer != nil {
				count(e.Sheer.Height, e.Sheer.HalfBreadth)
			}
			for _, w := range e.Waterlines {
				count(w.HalfBreadth)
			}
		}
	}
	return n
}

// everyCell checks that the cells of the document and those at fault are together all that were given, that each of the
// latter stands where it was given, as it was, and that every fault has its row.
func everyCell(t *testing.T, r offsets.Reading, table string, at map[[2]int]printed) {
	t.Helper()
	if n := kept(r.Document); n+len(r.Bad) != len(at) {
		t.Errorf("%d cells kept and %d at fault, of %d given", n, len(r.Bad), len(at))
	}
	c := csv.NewReader(strings.NewReader(table))
	c.Comma = '\t'
	grid, err := c.ReadAll()
	if err != nil {
		t.Fatal(err)
	}
	seen := map[[2]int]bool{}
	for _, b := range r.Bad {
		place := [2]int{b.Row, b.Column}
		if _, given := at[place]; !given || seen[place] {
			t.Errorf("%+v: none was given there, or it is told twice", b)
			continue
		}
		if seen[place] = true; b.Text != grid[b.Row-1][b.Column-1] {
			t.Errorf("%+v: %q was given there", b, grid[b.Row-1][b.Column-1])
		}
	}
	for _, f := range r.Faults {
		if f.Row == 0 {
			t.Errorf("no row: %+v", f)
		}
	}
}

var feetAndInches = regexp.MustCompile(`^([0-9])' ([0-9]|10|11)(?: ([0-9])/([248]))?"$`)

// asEighths writes a cell of feet and inches with its eighths; one that is not whole is left as it is.
func asEighths(text string) string {
	m := feetAndInches.FindStringSubmatch(text)
	if m == nil {
		return text
	}
	n, _ := strconv.Atoi(m[3])
	if d, _ := strconv.Atoi(m[4]); d > 0 {
		n = n * 8 / d
	}
	return fmt.Sprintf("%s-%s-%d", m[1], m[2], n)
}

// A table that text recognition has damaged: every cell that it broke is told of with its row and column, the good ones
// stay, and none is lost. Source: testdata/published/launch-offsets-undated/SOURCE.md.
func TestADamagedTable(t *testing.T) {
	cells := published(t, "launch-offsets-undated")
	// The base is 27 in below the load waterline. The keel's underside is no line of a table, so its row is told of too.
	table, at := linesDown(t, cells, map[string]string{
		"sheer height": "sheer_height", "rabbet height": "rabbet_height", "keel bottom height": "keel_bottom_height", "half-breadth deck": "sheer_half_breadth",
		"half-breadth WL 2a (+8 in)": "wl:2-11-0", "half-breadth WL 1a (+4 in)": "wl:2-7-0", "half-breadth LWL": "wl:2-3-0",
		"half-breadth WL 1b (-4 in)": "wl:1-11-0", "half-breadth WL 2b (-8 in)": "wl:1-7-0", "half-breadth WL 3b (-12 in)": "wl:1-3-0",
	}, asEighths)
	r := offsets.TryCSV([]byte(table), eighths)
	if len(at) != 74 || r.Table != nil {
		t.Fatalf("%d cells, table %v", len(at), r.Table)
	}
	everyCell(t, r, table, at)
	told := map[[2]int]bool{}
	for _, f := range r.Faults {
		told[[2]int{f.Row, f.Column}] = true
	}
	broken := 0
	for place, c := range at {
		if asEighths(c.text) != c.text {
			continue
		}
		if broken++; !told[place] && !told[[2]int{place[0], 1}] {
			t.Errorf("%+v, broken, is not told of", c)
		}
	}
	if broken != 33 {
		t.Errorf("%d cells are broken", broken)
	}
	// The keel's underside is one row, told of once, and has 8 cells, one of them broken.
	if n := kept(r.Document); n != 34 || len(r.Bad) != broken+7 {
		t.Errorf("%d cells kept and %d at fault", n, len(r.Bad))
	}
}

// A table that was printed sound in form: its misprints are figures like any other, so they are read, and only the
// stations at the stems, of three points, are told of. The half-breadth of the rabbet is not printed and taken for
// nothing; where its height is left out, amidships, the keel lies on the base line.
// Source: testdata/published/canoe-offsets-1889/SOURCE.md.
func TestAPublishedCanoe(t *testing.T) {
	cells := published(t, "canoe-offsets-1889")
	if len(cells) != 78 {
		t.Fatalf("%d cells are printed", len(cells))
	}
	height := map[string]bool{}
	for _, c := range cells {
		height[c.station] = height[c.station] || c.line == "rabbet height"
	}
	for _, c := range slices.Clone(cells) {
		if c.line != "deck height" {
			continue
		}
		cells = append(cells, printed{station: c.station, x: c.x, line: "rabbet half-breadth", text: "0-0-0"})
		if !height[c.station] {
			cells = append(cells, printed{station: c.station, x: c.x, line: "rabbet height", text: "0-0-0"})
		}
	}
	table, at := linesDown(t, cells, map[string]string{"deck height": "sheer_height", "deck half-breadth": "sheer_half_breadth",
		"rabbet height": "rabbet_height", "rabbet half-breadth": "rabbet_half_breadth", "WL 6 in": "wl:0-6-0", "WL 4 in": "wl:0-4-0", "WL 2 in": "wl:0-2-0"},
		func(s string) string { return s })
	r := offsets.TryCSV([]byte(table), eighths)
	everyCell(t, r, table, at)
	if n := kept(r.Document); n != 101 || len(r.Bad) != 0 {
		t.Errorf("%d cells kept and %d at fault", n, len(r.Bad))
	}
	// At the head of its station's column, for there the cells are missing.
	if f := r.Faults; len(f) != 2 || f[0].Row != 1 || f[0].Column != 2 || f[1].Row != 1 || f[1].Column != 16 ||
		!strings.Contains(f[0].Detail, "Station 0 both sides: a side needs at least 5 points") || !strings.Contains(f[1].Detail, "Station 14 both sides: a side needs") {
		t.Errorf("%v", f)
	}
}
