package mould_test

import (
	"bytes"
	"math"
	"slices"
	"strconv"
	"strings"
	"testing"

	"ribband/takeoff/dxf"
)

// thing is one entity of a file: its kind, its layer, its points and its text.
type thing struct {
	kind, layer, text string
	points            []dxf.Point
}

// pair is a group code with its value.
type pair struct {
	code  int
	value string
}

// read reads a file strictly, by the openly documented group codes of release 12: every pair has a code that belongs where
// it stands and a value of the code's own kind; sections, tables and polylines are closed; every layer is declared.
func read(t *testing.T, d dxf.Drawing) []thing {
	t.Helper()
	var b bytes.Buffer
	if err := dxf.Write(&b, d); err != nil {
		t.Fatal(err)
	}
	lines := strings.Split(b.String(), "\r\n")
	if len(lines)%2 != 1 || lines[len(lines)-1] != "" {
		t.Fatalf("%d lines, not in pairs", len(lines))
	}
	var pairs []pair
	for i := 0; i+1 < len(lines); i += 2 {
		code, err := strconv.Atoi(strings.TrimSpace(lines[i]))
		if err != nil || len(lines[i]) != 3 {
			t.Fatalf("line %d: %q is no group code", i+1, lines[i])
		}
		v := lines[i+1]
		switch {
		case code >= 10 && code <= 59 || code >= 210 && code <= 239:
			x, err := strconv.ParseFloat(v, 64)
			if whole, places, dot := strings.Cut(v, "."); err != nil || math.IsNaN(x) || math.IsInf(x, 0) || !dot || len(places) < 4 || whole == "" {
				t.Fatalf("line %d: %q is no number to a ten-thousandth", i+2, v)
			}
		case code >= 60 && code <= 79:
			if _, err := strconv.Atoi(v); err != nil {
				t.Fatalf("line %d: %q is no whole number", i+2, v)
			}
		case code > 9 && code != 999:
			t.Fatalf("line %d: the group code %d is not used", i+1, code)
		}
		if code != 999 {
			pairs = append(pairs, pair{code, v})
		}
	}
	return entities(t, pairs)
}

// allowed codes of each entity.
var allowed = map[string][]int{
	"LINE": {8, 10, 20, 30, 11, 21, 31}, "POLYLINE": {8, 66, 10, 20, 30, 70}, "VERTEX": {8, 10, 20, 30, 70}, "SEQEND": {8},
	"TEXT": {8, 10, 20, 30, 40, 1, 210, 220, 230},
}

func entities(t *testing.T, pairs []pair) []thing {
	t.Helper()
	var out []thing
	layers := map[string]bool{}
	section, open, kind, counted := "", false, "", 0
	for i, p := range pairs {
		if p.code == 0 {
			kind = p.value
		}
		switch {
		case p.code == 0 && p.value == "SECTION":
			section = pairs[i+1].value
		case p.code == 0 && p.value == "ENDSEC":
			section = ""
		case p.code == 0 && p.value == "EOF":
			if i != len(pairs)-1 || section != "" || open {
				t.Fatal("the file ends before it is closed")
			}
		case section == "TABLES" && kind == "TABLE" && p.code == 70:
			counted, _ = strconv.Atoi(p.value)
			n := 0
			for _, q := range pairs[i+1:] {
				if q.code == 0 && q.value == "ENDTAB" {
					break
				}
				if q.code == 0 {
					n++
				}
			}
			if n != counted {
				t.Fatalf("a table says %d entries and has %d", counted, n)
			}
		case section == "TABLES" && kind == "LAYER" && p.code == 2:
			layers[p.value] = true
		case section == "ENTITIES" && p.code == 0:
			if (p.value == "VERTEX" || p.value == "SEQEND") != open {
				t.Fatalf("%s stands where it may not", p.value)
			}
			switch p.value {
			case "POLYLINE":
				open = true
				out = append(out, thing{kind: kind})
			case "SEQEND":
				open = false
			case "LINE", "TEXT":
				out = append(out, thing{kind: kind})
			case "VERTEX":
			default:
				t.Fatalf("the entity %s is not used", p.value)
			}
		case section == "ENTITIES" && p.code != 2:
			if !slices.Contains(allowed[kind], p.code) {
				t.Fatalf("%s has the group code %d", kind, p.code)
			}
			entity(t, &out[len(out)-1], kind, p, layers)
		}
	}
	return out
}

// entity takes a pair into the thing it belongs to.
func entity(t *testing.T, x *thing, kind string, p pair, layers map[string]bool) {
	t.Helper()
	v, _ := strconv.ParseFloat(p.value, 64)
	last := func() *dxf.Point { return &x.points[len(x.points)-1] }
	switch {
	case p.code == 8:
		if !layers[p.value] {
			t.Fatalf("the layer %q is not declared", p.value)
		}
		x.layer = p.value
	case p.code == 1:
		x.text = p.value
	case kind == "POLYLINE":
	case p.code == 10 || p.code == 11:
		x.points = append(x.points, dxf.Point{X: v})
	case p.code == 20 || p.code == 21:
		last().Y = v
	case p.code == 30 || p.code == 31:
		last().Z = v
	}
}
