package dxf_test

import (
	"bytes"
	"errors"
	"math"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"ribband/takeoff/dxf"
)

func written(t *testing.T, d dxf.Drawing) string {
	t.Helper()
	var b bytes.Buffer
	if err := dxf.Write(&b, d); err != nil {
		t.Fatal(err)
	}
	return b.String()
}

// The file, pair by pair, as a reader of release 12 finds it.
func TestWrite(t *testing.T) {
	got := written(t, dxf.Drawing{Notes: []string{"é"}, Layers: []dxf.Layer{
		{Name: "FACE", Colour: 7, Lines: []dxf.Line{
			{Points: []dxf.Point{{X: 1}, {X: 2, Y: -0.0000001, Z: 9}}},
			{Points: []dxf.Point{{X: 1, Y: 2, Z: 3}, {X: 4.1234567, Y: 5, Z: 6}, {X: 7}}, Space: true},
		}},
		{Name: "WORDS", Colour: 900, Texts: []dxf.Text{{At: dxf.Point{X: 1, Y: 2, Z: 3}, Height: 5, String: "a", Across: true}}},
	}})
	want := strings.Join([]string{
		"999", "?",
		"0", "SECTION", "2", "HEADER", "9", "$ACADVER", "1", "AC1009", "0", "ENDSEC",
		"0", "SECTION", "2", "TABLES",
		"0", "TABLE", "2", "LTYPE", "70", "1", "0", "LTYPE", "2", "CONTINUOUS", "70", "0", "3", "unbroken", "72", "65", "73", "0", "40", "0.000000", "0", "ENDTAB",
		"0", "TABLE", "2", "LAYER", "70", "2",
		"0", "LAYER", "2", "FACE", "70", "0", "62", "7", "6", "CONTINUOUS",
		"0", "LAYER", "2", "WORDS", "70", "0", "62", "255", "6", "CONTINUOUS", "0", "ENDTAB", "0", "ENDSEC",
		"0", "SECTION", "2", "ENTITIES",
		"0", "LINE", "8", "FACE", "10", "1.000000", "20", "0.000000", "30", "0.000000", "11", "2.000000", "21", "0.000000", "31", "0.000000",
		"0", "POLYLINE", "8", "FACE", "66", "1", "10", "0.000000", "20", "0.000000", "30", "0.000000", "70", "8",
		"0", "VERTEX", "8", "FACE", "10", "1.000000", "20", "2.000000", "30", "3.000000", "70", "32",
		"0", "VERTEX", "8", "FACE", "10", "4.123457", "20", "5.000000", "30", "6.000000", "70", "32",
		"0", "VERTEX", "8", "FACE", "10", "7.000000", "20", "0.000000", "30", "0.000000", "70", "32",
		"0", "SEQEND", "8", "FACE",
		"0", "TEXT", "8", "WORDS", "10", "-2.000000", "20", "3.000000", "30", "-1.000000", "40", "5.000000", "1", "a",
		"210", "-1.000000", "220", "0.000000", "230", "0.000000",
		"0", "ENDSEC", "0", "EOF", "",
	}, "\n")
	var lines []string
	for _, l := range strings.Split(got, "\r\n") {
		lines = append(lines, strings.TrimLeft(l, " "))
	}
	if diff := cmp.Diff(want, strings.Join(lines, "\n")); diff != "" {
		t.Error(diff)
	}
}

// What cannot be written is refused before a byte goes out.
func TestWriteRefuses(t *testing.T) {
	line := func(x float64) []dxf.Line { return []dxf.Line{{Points: []dxf.Point{{X: x}, {Y: 1}}}} }
	for name, c := range map[string]struct {
		d    dxf.Drawing
		want any
	}{
		"no name":         {dxf.Drawing{Layers: []dxf.Layer{{}}}, new(*dxf.NameError)},
		"small letters":   {dxf.Drawing{Layers: []dxf.Layer{{Name: "face"}}}, new(*dxf.NameError)},
		"a name too long": {dxf.Drawing{Layers: []dxf.Layer{{Name: strings.Repeat("A", 32)}}}, new(*dxf.NameError)},
		"a name twice":    {dxf.Drawing{Layers: []dxf.Layer{{Name: "A"}, {Name: "A"}}}, new(*dxf.NameError)},
		"no number":       {dxf.Drawing{Layers: []dxf.Layer{{Name: "A", Lines: line(math.NaN())}}}, new(*dxf.NumberError)},
		"infinite":        {dxf.Drawing{Layers: []dxf.Layer{{Name: "A", Lines: line(math.Inf(-1))}}}, new(*dxf.NumberError)},
		"two kilometres":  {dxf.Drawing{Layers: []dxf.Layer{{Name: "A", Lines: line(2e6)}}}, new(*dxf.NumberError)},
		"one point":       {dxf.Drawing{Layers: []dxf.Layer{{Name: "A", Lines: []dxf.Line{{Points: make([]dxf.Point, 1)}}}}}, new(*dxf.ShortError)},
	} {
		var b bytes.Buffer
		if err := dxf.Write(&b, c.d); err == nil || !errors.As(err, c.want) || b.Len() > 0 {
			t.Errorf("%s: %v after %d bytes", name, err, b.Len())
		}
	}
}

// Words cannot break out of their line: a file with any text in it has as many pairs as one with another.
func FuzzWords(f *testing.F) {
	f.Add("Wendeline")
	f.Add("a\r\n  0\r\nEOF")
	f.Fuzz(func(t *testing.T, s string) {
		d := func(s string) dxf.Drawing {
			return dxf.Drawing{Notes: []string{s}, Layers: []dxf.Layer{{Name: "A", Texts: []dxf.Text{{String: s, Height: 1}}}}}
		}
		a, b := written(t, d(s)), written(t, d("a"))
		if strings.Count(a, "\n") != strings.Count(b, "\n") || strings.Count(a, "\r") != strings.Count(b, "\r") {
			t.Errorf("%q makes other lines", s)
		}
	})
}
