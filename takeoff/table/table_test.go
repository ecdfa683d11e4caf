package table_test

import (
	"fmt"
	"strings"
	"testing"

	"ribband/takeoff/table"

	"github.com/google/go-cmp/cmp"
)

// stock is an invented kind of table, small enough that its limits can be met.
var stock = table.Kind{
	Columns: []string{"item", "unit", "price"}, Needed: []string{"item", "price"}, MaxBytes: 200, MaxRows: 3,
	TooLong: "at most 200 bytes", TooMany: "at most 3 rows", NoRows: "write a row",
}

// whole is the same kind, refused whole where it is no text.
var whole = func() table.Kind { k := stock; k.Text = true; return k }()

// read lists what comes out in the order in which it comes: rows as "2: a|b|c", faults as "2.1 item: what; fix".
func read(k table.Kind, text string) (out []string, t *table.Table) {
	told := func(f table.Fault) {
		lost := ""
		if f.Lost {
			lost = ", lost"
		}
		out = append(out, fmt.Sprintf("%d.%d%s %s: %s; %s", f.Row, f.ColumnNo, lost, f.Column, f.Detail, f.Fix))
	}
	t, faults := k.Open([]byte(text))
	for _, f := range faults {
		told(f)
	}
	for line, cells := range t.Rows(told) {
		out = append(out, fmt.Sprintf("%d: %s", line, strings.Join(cells, "|")))
	}
	return out, t
}

// However a table is parted and its columns are ordered, the same cells come out in the same order, as written.
func TestRowsComeInTheOrderOfTheKnownColumns(t *testing.T) {
	for name, c := range map[string]struct {
		text  string
		comma bool // a decimal comma may be used
		want  []string
	}{
		"commas":                 {"item,unit,price\noak,BFT,12.50\n", false, []string{"2: oak|BFT|12.50"}},
		"semicolons":             {"item;unit;price\noak;BFT;12,50\n", true, []string{"2: oak|BFT|12,50"}},
		"tabs":                   {"item\tunit\tprice\noak\tBFT\t12,50\n", true, []string{"2: oak|BFT|12,50"}},
		"a byte order mark":      {"\ufeffitem,unit,price\noak,BFT,1\n", false, []string{"2: oak|BFT|1"}},
		"another order":          {"Price, ITEM \r\n1, oak \r\n", false, []string{"2:  oak ||1"}},
		"lines in a cell":        {"item,price\n\"a\nb\",1\nc,2\n", false, []string{"2: a\nb||1", "4: c||2"}},
		"empty lines between":    {"item,price\n\na,1\n\n\nb,2\n", false, []string{"3: a||1", "6: b||2"}},
		"no end of line":         {"item,price\na,1", false, []string{"2: a||1"}},
		"quotes in a cell":       {"item,price\n\"3/8\"\" bolt\",1\n", false, []string{"2: 3/8\" bolt||1"}},
		"as many as may be":      {"item,price\na,1\nb,2\nc,3\n", false, []string{"2: a||1", "3: b||2", "4: c||3"}},
		"bytes that are no text": {"item,price\n\xff\x00,1\n", false, []string{"2: \xff\x00||1"}},
	} {
		got, read := read(stock, c.text)
		if d := cmp.Diff(c.want, got); d != "" {
			t.Errorf("%s: %s", name, d)
		}
		if read.DecimalComma() != c.comma {
			t.Errorf("%s: a decimal comma may be used: %t", name, read.DecimalComma())
		}
	}
}

func TestPlacesOfColumns(t *testing.T) {
	_, read := read(stock, "price,item\n1,oak\n")
	for column, want := range map[string]int{"price": 1, "item": 2, "unit": 0, "colour": 0, "": 0} {
		if got := read.Place(column); got != want {
			t.Errorf("%q stands at %d, want %d", column, got, want)
		}
	}
}

// Every fault of a header at once; none of its rows is read.
func TestHeaderFaults(t *testing.T) {
	const known = "; the columns are item,unit,price"
	for name, c := range map[string]struct {
		text string
		want []string
	}{
		"empty":         {"", []string{"1.0 : the table is empty; begin with the header item,unit,price"}},
		"blank lines":   {"\n\n", []string{"1.0 : the table is empty; begin with the header item,unit,price"}},
		"unknown":       {"item,price,colour\na,1,red\n", []string{"1.3 : column 3 is called \"colour\", which is not known" + known}},
		"twice":         {"item,price,Item\na,1,b\n", []string{"1.3 item: the column stands twice; keep one of the two"}},
		"not there":     {"unit\nBFT\n", []string{"1.0 item: the column is not there" + known, "1.0 price: the column is not there" + known}},
		"all of them":   {"item,item,tone\na,b,c\n", []string{"1.2 item: the column stands twice; keep one of the two", "1.3 : column 3 is called \"tone\", which is not known" + known, "1.0 price: the column is not there" + known}},
		"far too many":  {"item,price,a,b,c,d,e\n", []string{"1.4 : the header has 7 columns" + known}},
		"no text":       {"item,price,\xff\n", []string{"1.3 : column 3 is called \"\ufffd\", which is not known" + known}},
		"a stray quote": {"it\"em,price\n", []string{"1.0, lost : a double quote is out of place in line 1 at byte 3; nothing is read from here on; a cell that holds a quote is put in quotes, and the quote inside is doubled"}},
	} {
		if got, _ := read(stock, c.text); !cmp.Equal(c.want, got) {
			t.Errorf("%s: %s", name, cmp.Diff(c.want, got))
		}
	}
}

// Faults of rows are told between the rows, where they stand; those that end the reading say so by what follows.
func TestRowFaults(t *testing.T) {
	const fix = "; one cell for each column; a text that holds the parting mark goes in double quotes"
	for name, c := range map[string]struct {
		text string
		want []string
	}{
		"no rows":      {"item,price\n", []string{"1.0 : the table has a header and no rows; write a row"}},
		"too few":      {"item,price\na\nb,2\n", []string{"2.2, lost : the row has 1 cells and the header 2" + fix, "3: b||2"}},
		"too many":     {"item,price\na,1,\nb,2\n", []string{"2.3, lost : the row has 3 cells and the header 2" + fix, "3: b||2"}},
		"ragged alone": {"item,price\na\n", []string{"2.2, lost : the row has 1 cells and the header 2" + fix}},
		"broken": {"item,price\na,1\n\"b\nc\"d,2\ne,3\n", []string{"2: a||1",
			"3.0, lost : a double quote is out of place in line 4 at byte 2; nothing is read from here on; a cell that holds a quote is put in quotes, and the quote inside is doubled"}},
		"more rows than may be": {"item,price\na,1\nb\nc,3\nd,4\ne,5\n", []string{"2: a||1", "3.2, lost : the row has 1 cells and the header 2" + fix, "4: c||3",
			"5.0 : the table has more than 3 rows; at most 3 rows"}},
	} {
		if got, _ := read(stock, c.text); !cmp.Equal(c.want, got) {
			t.Errorf("%s: %s", name, cmp.Diff(c.want, got))
		}
	}
}

// What is refused before it is taken apart, for a kind that is refused whole and for one that is judged row by row.
func TestTablesThatAreNoText(t *testing.T) {
	for name, c := range map[string]struct{ text, stock, whole string }{
		"too long":              {"item,price\n" + strings.Repeat("a", 190), "0.0 : the table has 201 bytes; at most 200 bytes", "0.0 : the table has 201 bytes; at most 200 bytes"},
		"UTF-16":                {"\xff\xfei\x00t\x00", "0.0 : the table is UTF-16 text; save it as UTF-8", "0.0 : the table is UTF-16 text; save it as UTF-8"},
		"UTF-16, the other way": {"\xfe\xff\x00i\x00t", "0.0 : the table is UTF-16 text; save it as UTF-8", "0.0 : the table is UTF-16 text; save it as UTF-8"},
		"a byte":                {"item,price\n\xff,1\n", "2: \xff||1", "2.0 : the row is not UTF-8 text; save the table as UTF-8"},
		"a NUL":                 {"item,price\n\x00,1\n", "2: \x00||1", "2.0 : the row holds a NUL character; save the table as plain text"},
	} {
		for of, want := range map[*table.Kind]string{&stock: c.stock, &whole: c.whole} {
			if got, _ := read(*of, c.text); len(got) != 1 || got[0] != want {
				t.Errorf("%s, refused whole %t: %v, want %s", name, of.Text, got, want)
			}
		}
	}
}

// Who has seen enough may stop.
func TestReadingMayStop(t *testing.T) {
	read, _ := stock.Open([]byte("item,price\na,1\nb,2\n\"c\"d,3\n"))
	var lines []int
	for line := range read.Rows(func(f table.Fault) { t.Errorf("%+v", f) }) {
		lines = append(lines, line)
		if line == 3 {
			break
		}
	}
	if !cmp.Equal(lines, []int{2, 3}) {
		t.Error(lines)
	}
}

// A kind may bound its lines too; one of more bytes is named before any row is taken apart.
func TestALineOfTooManyBytes(t *testing.T) {
	narrow := stock
	narrow.MaxRowBytes, narrow.TooWide = 20, "one thing a row"
	if got, _ := read(narrow, "item,price\na,1\n"); len(got) != 1 || got[0] != "2: a||1" {
		t.Errorf("%v", got)
	}
	got, _ := read(narrow, "item,price\na,1\n"+strings.Repeat("b", 20)+"\n")
	if want := "3.0 : the row has 21 bytes; one thing a row"; len(got) != 1 || got[0] != want {
		t.Errorf("%v, want %s", got, want)
	}
}
