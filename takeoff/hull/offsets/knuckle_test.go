package offsets_test

import (
	"bytes"
	"strings"
	"testing"

	"ribband/takeoff/boat"
	"ribband/takeoff/hull/hulltest"
	"ribband/takeoff/hull/offsets"
	"ribband/takeoff/notation"

	"github.com/google/go-cmp/cmp"
)

// chine is three stations with one knuckle and only the ends of its panels.
func chine() *offsets.Document {
	d := &offsets.Document{Notation: notation.Millimetres, Grain: "1", Surface: offsets.Inside}
	for i, x := range []string{"0", "1000", "2000"} {
		d.Stations = append(d.Stations, offsets.StationOffsets{No: i, X: x, Sides: []offsets.SideOffsets{{Side: boat.Both,
			Rabbet:   &offsets.EndOffsets{Height: "0", HalfBreadth: "40"},
			Sheer:    &offsets.EndOffsets{Height: "900", HalfBreadth: "1000"},
			Knuckles: []offsets.KnuckleOffsets{{Name: "chine", Height: "200", HalfBreadth: "800"}},
		}}})
	}
	return d
}

func TestKnucklesAreReadInOrder(t *testing.T) {
	d := chine()
	e := &d.Stations[1].Sides[0]
	e.Buttocks = []offsets.ButtockOffsets{{HalfBreadth: "420", Height: "100"}, {HalfBreadth: "900", Height: "550"}}
	o := hulltest.Read(t, d)
	var got []string
	for _, m := range o.Stations[1].Port {
		got = append(got, m.Cell+"|"+m.Knuckle)
	}
	if want := []string{"rabbet|", "buttock:420|", "knuckle:chine|chine", "buttock:900|", "sheer|"}; !cmp.Equal(want, got) {
		t.Error(cmp.Diff(want, got))
	}
}

func TestKnucklesAtFault(t *testing.T) {
	k := func(d *offsets.Document) *[]offsets.KnuckleOffsets { return &d.Stations[1].Sides[0].Knuckles }
	two := func(d *offsets.Document) {
		for i := range d.Stations {
			e := &d.Stations[i].Sides[0]
			e.Knuckles = append(e.Knuckles, offsets.KnuckleOffsets{Name: "upper", Height: "600", HalfBreadth: "950"})
		}
	}
	for name, c := range map[string]struct {
		spoil           func(d *offsets.Document)
		pointer, detail string
	}{
		"at the rabbet":   {func(d *offsets.Document) { (*k(d))[0].Height, (*k(d))[0].HalfBreadth = "0", "40" }, "/stations/1/sides/0/knuckles/0/half_breadth", "it lies at one place with rabbet"},
		"at the sheer":    {func(d *offsets.Document) { (*k(d))[0].Height, (*k(d))[0].HalfBreadth = "900", "1000" }, "/stations/1/sides/0/knuckles/0/half_breadth", "it lies at one place with sheer"},
		"twice":           {func(d *offsets.Document) { *k(d) = append(*k(d), (*k(d))[0]) }, "/stations/1/sides/0/knuckles/1/half_breadth", "it is given twice"},
		"two at a place":  {func(d *offsets.Document) { two(d); (*k(d))[1].Height, (*k(d))[1].HalfBreadth = "200", "800" }, "/stations/1/sides/0/knuckles/0/half_breadth", "it lies at one place with knuckle:"},
		"out of order":    {func(d *offsets.Document) { two(d); (*k(d))[0].Name, (*k(d))[1].Name = "upper", "chine" }, "/stations/1", "its knuckles follow as upper, chine, those before as chine, upper"},
		"at some only":    {func(d *offsets.Document) { two(d); *k(d) = (*k(d))[:1] }, "/stations/1", "it is missing, and station 0 gives it"},
		"without height":  {func(d *offsets.Document) { (*k(d))[0].Height = "" }, "/stations/1/sides/0/knuckles/0", "its height is missing"},
		"without breadth": {func(d *offsets.Document) { (*k(d))[0].HalfBreadth = "" }, "/stations/1/sides/0/knuckles/0", "its half-breadth is missing"},
		"without name":    {func(d *offsets.Document) { (*k(d))[0].Name = " " }, "/stations/1/sides/0/knuckles/0/name", "its name has 0 bytes; from 1 to 40 are taken"},
		"inboard":         {func(d *offsets.Document) { (*k(d))[0].HalfBreadth = "-1" }, "/stations/1/sides/0/knuckles/0/half_breadth", "the half-breadth is negative"},
		"no length":       {func(d *offsets.Document) { (*k(d))[0].Height = "high" }, "/stations/1/sides/0/knuckles/0/height", "is not a length"},
	} {
		d := chine()
		c.spoil(d)
		_, faults := offsets.Read(d)
		if len(faults) == 0 {
			t.Errorf("%s: taken", name)
			continue
		}
		found := false
		for _, f := range faults {
			if f.Pointer == c.pointer && strings.Contains(f.Detail, c.detail) {
				found = true
				if f.Station != "1" || f.Side != boat.Both || f.Fix == "" || (name == "at some only" && f.Cell != "knuckle:upper") {
					t.Errorf("%s: %+v", name, f)
				}
			}
		}
		if !found {
			t.Errorf("%s: %v", name, faults)
		}
	}
}

func TestKnucklesInACSV(t *testing.T) {
	var table bytes.Buffer
	if err := offsets.WriteCSV(&table, chine()); err != nil {
		t.Fatal(err)
	}
	if !strings.Contains(table.String(), "1,1000,both,knuckle_height:chine,200\n1,1000,both,knuckle_half_breadth:chine,800\n") {
		t.Fatal(table.String())
	}
	doc, _, faults := offsets.ReadCSV(table.Bytes(), offsets.Written{Notation: notation.Millimetres, Grain: "1", Surface: offsets.Inside})
	if len(faults) > 0 {
		t.Fatal(faults)
	}
	if d := cmp.Diff(chine().Stations, doc.Stations); d != "" {
		t.Error(d)
	}
	spoilt := strings.Replace(table.String(), "1,1000,both,knuckle_height:chine,200\n", "", 1)
	_, _, faults = offsets.ReadCSV([]byte(spoilt), offsets.Written{Notation: notation.Millimetres, Grain: "1", Surface: offsets.Inside})
	if len(faults) == 0 || !strings.Contains(faults[0].Detail, "knuckle:chine: its height is missing") || faults[0].Row == 0 {
		t.Errorf("%v", faults)
	}
}
