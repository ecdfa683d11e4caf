package rack_test

import (
	"encoding/json"
	"strings"
	"testing"

	"ribband/pricing/rack"
	"ribband/takeoff/notation"

	"github.com/google/go-cmp/cmp"
)

func written() rack.Document {
	return rack.Document{
		Notation: notation.FeetInchesEighths, Currency: "USD",
		Boards: []rack.Row{
			{ID: "R1", Count: 2, Species: "white_oak", Grade: "FAS", Thickness: "8/4", Width: "0-7-0", Length: "9-0-0", Worth: "40.00", Place: "back wall"},
			{ID: "R2", Count: 1, Species: "white_oak", Grade: "FAS", Thickness: "0-2-0", Width: "0-8-0", Length: "12-0-0",
				Clear: []rack.Stretch{{From: "7-0-0", To: "12-0-0"}, {From: "0-3-0", To: "6-2-0"}}},
		},
	}
}

func TestReadingARack(t *testing.T) {
	r, faults := rack.Read(written())
	if len(faults) > 0 {
		t.Fatal(faults)
	}
	one, two := r.Boards[0], r.Boards[1]
	// 8/4 is 50.8 mm; 9 ft is 2743.2 mm
	if one.Thickness.MM().String() != "50.8" || one.Worth.String() != "40.00" || one.Marked || len(one.Clear) != 1 || one.Clear[0].Length().String() != "2743.2" {
		t.Errorf("%+v", one)
	}
	// 3 in to 6 ft 2 in, and 7 ft to 12 ft, sorted along the board
	if !two.Marked || !two.Worth.IsZero() || len(two.Clear) != 2 || two.Clear[0].From.String() != "76.2" || two.Clear[0].To.String() != "1879.6" || two.Clear[1].Length().String() != "1524" {
		t.Errorf("%+v", two)
	}
}

// Every fault is told, where it stands.
func TestFaultsOfARack(t *testing.T) {
	for name, c := range map[string]struct {
		spoil func(d *rack.Document)
		at    string
	}{
		"notation":             {func(d *rack.Document) { d.Notation = "cubits" }, "/notation"},
		"currency":             {func(d *rack.Document) { d.Currency = "XQX" }, "/currency"},
		"worth, no currency":   {func(d *rack.Document) { d.Currency = "" }, "/currency"},
		"no mark":              {func(d *rack.Document) { d.Boards[0].ID = "" }, "/boards/0/id"},
		"mark twice":           {func(d *rack.Document) { d.Boards[1].ID = "R1" }, "/boards/1/id"},
		"count":                {func(d *rack.Document) { d.Boards[0].Count = -1 }, "/boards/0/count"},
		"species":              {func(d *rack.Document) { d.Boards[0].Species = "" }, "/boards/0/species"},
		"grade":                {func(d *rack.Document) { d.Boards[0].Grade = strings.Repeat("x", 300) }, "/boards/0/grade"},
		"thickness":            {func(d *rack.Document) { d.Boards[0].Thickness = "thick" }, "/boards/0/thickness"},
		"width":                {func(d *rack.Document) { d.Boards[0].Width = "0-0-0" }, "/boards/0/width"},
		"length":               {func(d *rack.Document) { d.Boards[0].Length = "9000-0-0" }, "/boards/0/length"},
		"worth":                {func(d *rack.Document) { d.Boards[0].Worth = "-1.00" }, "/boards/0/worth"},
		"worth of many places": {func(d *rack.Document) { d.Boards[0].Worth = "1.234" }, "/boards/0/worth"},
		"beyond the board":     {func(d *rack.Document) { d.Boards[1].Clear[0].To = "12-0-1" }, "/boards/1/clear/0/to"},
		"turned round":         {func(d *rack.Document) { d.Boards[1].Clear[1].To = "0-3-0" }, "/boards/1/clear/1/to"},
		"before the board":     {func(d *rack.Document) { d.Boards[1].Clear[1].From = "-0-1-0" }, "/boards/1/clear/1/from"},
		"overlapping":          {func(d *rack.Document) { d.Boards[1].Clear[1].To = "7-0-1" }, "/boards/1/clear"},
	} {
		d := written()
		c.spoil(&d)
		_, faults := rack.Read(d)
		if len(faults) != 1 || faults[0].Pointer != c.at || faults[0].Fix == "" {
			t.Errorf("%s: %+v, want one at %s", name, faults, c.at)
		}
	}
	// one end meeting the next beginning is no overlap
	d := written()
	d.Boards[1].Clear[1].To = "7-0-0"
	if _, faults := rack.Read(d); len(faults) > 0 {
		t.Error(faults)
	}
}

// Whatever a rack says: it is read or it is refused, with a place and what would be right, and read twice it is the same.
func FuzzRack(f *testing.F) {
	for _, d := range []rack.Document{written(), {Notation: notation.Inches, Boards: []rack.Row{{ID: "a", Count: 1, Species: "o", Grade: "g", Thickness: "1", Width: "6 1/2", Length: "90"}}}} {
		b, err := json.Marshal(d)
		if err != nil {
			f.Fatal(err)
		}
		f.Add(b)
	}
	f.Fuzz(func(t *testing.T, body []byte) {
		var d rack.Document
		if json.Unmarshal(body, &d) != nil {
			return
		}
		r, faults := rack.Read(d)
		for _, x := range faults {
			if x.Pointer == "" || x.Fix == "" || x.Detail == "" {
				t.Fatalf("%+v", x)
			}
		}
		again, _ := rack.Read(d)
		if diff := cmp.Diff(len(r.Boards), len(again.Boards)); diff != "" {
			t.Fatal(diff)
		}
		if len(faults) > 0 {
			return
		}
		for _, b := range r.Boards {
			end := b.Clear[0].From
			for _, c := range b.Clear {
				if c.From.LessThan(end) || c.To.GreaterThan(b.Length.MM()) || c.Length().Sign() <= 0 {
					t.Fatalf("%+v", b)
				}
				end = c.To
			}
		}
	})
}
