package offsets_test

import (
	"bytes"
	"encoding/json"
	"math"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"ribband/takeoff/boat"
	"ribband/takeoff/hull"
	"ribband/takeoff/hull/offsets"
	"ribband/takeoff/notation"
)

// holds checks what must be true of any hull that was let through: figures that are numbers, ranges that hold them.
func holds(t *testing.T, o *offsets.Table) {
	h, err := hull.Fit(o)
	if err != nil {
		return // told by faults
	}
	forward, aft := h.Reach()
	for i := range 9 {
		x := forward + (aft-forward)*float64(i)/8
		for _, side := range boat.Sides {
			s, err := h.Section(x, side)
			if err != nil {
				t.Fatalf("x %v between %v and %v: %v", x, forward, aft, err)
			}
			for _, r := range []hull.Reading{s.Girth, s.Bilge.Radius(), s.Hollow.Radius(), s.Least().Radius()} {
				if math.IsNaN(r.MM+r.Low) || r.MM < 0 || r.Low > r.MM || r.High < r.MM {
					t.Fatalf("x %v: %+v", x, r)
				}
			}
			for _, b := range []hull.Bend{s.Bilge, s.Hollow} {
				if !(b.U >= 0 && b.U <= 1) || math.IsNaN(b.S) || math.IsNaN(b.Kappa) {
					t.Fatalf("x %v: %+v", x, b)
				}
			}
			for _, depth := range []float64{0, 60} {
				if _, r, err := s.Tightest(depth); err == nil && (math.IsNaN(r.MM) || r.MM < 0) {
					t.Fatalf("x %v: %+v", x, r)
				}
			}
			if l, w, err := s.EnclosingRectangle(60); err != nil || !(l >= w) || !(w >= 0) {
				t.Fatalf("x %v: rectangle %v x %v, %v", x, l, w, err)
			}
		}
	}
}

// Whatever the bytes: no panic; either faults, each with its words, or a document that is written and read back the
// same.
func FuzzReadCSV(f *testing.F) {
	table := written(f)
	for _, s := range []string{
		"", table, "\uFEFF" + strings.ReplaceAll(table, ",", ";"), strings.ReplaceAll(table, "both", "port"),
		"line,side,0,1\n", "station_no,x,side,line,value\n0,0,both,wl:\"1\",2\n", "\x00", "a\xffb", strings.Repeat(",", 3000),
		strings.Replace(table, "1-10-0", "1e1000000", 1), strings.Replace(table, "1-10-0", "-", 1),
		strings.Replace(table, "0-8-4", "900-0-0", 1), strings.ReplaceAll(table, "4-0-0", "0-0-4"),
	} {
		f.Add([]byte(s), 0)
		f.Add([]byte(strings.ReplaceAll(s, "0-0-7", "7")), 2)
	}
	full := wide(f, furnished())
	for _, s := range []string{
		full, transposed(f, full), strings.ReplaceAll(full, ",", "\t"), "units: in\n" + full, strings.ReplaceAll(full, "-", ""),
		strings.ReplaceAll(full, "-", "."), strings.ReplaceAll(full, "A,", "A:,"), strings.ReplaceAll(full, "1,2\n", "1,1\n"),
		strings.ReplaceAll(full, "both", ""), strings.ReplaceAll(full, ",2\n", ",2,,,\n"), "line,0\nstem_x:1,\"1,234\"", "station_no,x,wl:1\n0,0,1,2",
	} {
		f.Add([]byte(s), 0)
		f.Add([]byte(s), 2)
	}
	f.Fuzz(func(t *testing.T, table []byte, n int) {
		as := offsets.Written{Notation: notation.Notations[((n%4)+4)%4], Surface: offsets.Inside}
		if n > 3 {
			as.Surface = offsets.Outside
		}
		tried := offsets.TryCSV(table, as)
		for _, b := range tried.Bad {
			if b.Row < 1 || len(b.Text) > 80 && b.Pointer == "" {
				t.Fatalf("%+v", b)
			}
		}
		doc, o, faults := offsets.ReadCSV(table, as)
		if (doc == nil) != (len(faults) > 0) || (o == nil) != (doc == nil) {
			t.Fatalf("document %v, offsets %v, %d faults", doc != nil, o != nil, len(faults))
		}
		if len(tried.Faults) != len(faults) || tried.Document == nil {
			t.Fatalf("%d faults, then %d", len(faults), len(tried.Faults))
		}
		for _, f := range faults {
			if f.Detail == "" || f.Fix == "" || f.Row < 0 || f.Column < 0 || len(f.Detail) > 500 {
				t.Fatalf("%+v", f)
			}
		}
		if doc == nil {
			return
		}
		var b bytes.Buffer
		if err := offsets.WriteCSV(&b, doc); err != nil {
			t.Fatal(err)
		}
		again, _, faults := offsets.ReadCSV(b.Bytes(), as)
		if len(faults) > 0 {
			t.Fatalf("what was written is not read again: %v", faults)
		}
		var c bytes.Buffer
		if err := offsets.WriteCSV(&c, again); err != nil {
			t.Fatal(err)
		}
		if d := cmp.Diff(b.String(), c.String()); d != "" {
			t.Fatal(d)
		}
		b.Reset()
		if err := offsets.WriteWide(&b, doc); err != nil {
			t.Fatal(err)
		}
		across, _, faults := offsets.ReadCSV(b.Bytes(), as)
		if len(faults) > 0 {
			t.Fatalf("what was written wide is not read again: %v\n%s", faults, b.String())
		}
		c.Reset()
		if err := offsets.WriteWide(&c, across); err != nil {
			t.Fatal(err)
		}
		if d := cmp.Diff(b.String(), c.String()); d != "" {
			t.Fatal(d)
		}
		holds(t, o)
	})
}

// The same for a document in JSON.
func FuzzRead(f *testing.F) {
	b, err := json.Marshal(sound())
	if err != nil {
		f.Fatal(err)
	}
	for _, s := range []string{
		string(b), "{}", `{"stations":[{}]}`, strings.ReplaceAll(string(b), "both", "port"), strings.ReplaceAll(string(b), "3-", "-3-"),
		strings.ReplaceAll(string(b), "feet_inches_eighths", "mm"), strings.ReplaceAll(string(b), `"2-8-4"`, `"9-8-4"`),
		strings.ReplaceAll(string(b), `"8-0-0"`, `"3000-0-0"`), strings.ReplaceAll(string(b), `"0-0-1"`, `"0-0-0"`),
	} {
		f.Add([]byte(s))
	}
	f.Fuzz(func(t *testing.T, text []byte) {
		var doc offsets.Document
		if json.Unmarshal(text, &doc) != nil {
			return
		}
		o, faults := offsets.Read(&doc)
		if (o == nil) != (len(faults) > 0) {
			t.Fatalf("offsets %v, %d faults", o != nil, len(faults))
		}
		for _, f := range faults {
			if f.Detail == "" || f.Fix == "" || !strings.HasPrefix(f.Pointer, "/") || f.Row != 0 {
				t.Fatalf("%+v", f)
			}
		}
		if o != nil {
			holds(t, o)
		}
	})
}
