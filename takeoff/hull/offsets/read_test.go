package offsets_test

import (
	"math"
	"strings"
	"testing"

	"ribband/takeoff/boat"
	"ribband/takeoff/hull"
	"ribband/takeoff/hull/hulltest"
	"ribband/takeoff/hull/offsets"
	"ribband/takeoff/notation"
)

// sound is a small boat in feet-inches-eighths that has no fault: three stations of seven points.
func sound() *offsets.Document {
	doc := &offsets.Document{Notation: notation.FeetInchesEighths, Grain: "0-0-1", Surface: offsets.Inside}
	for i, x := range []string{"0-0-0", "4-0-0", "8-0-0"} {
		doc.Stations = append(doc.Stations, offsets.StationOffsets{No: i, X: x, Sides: []offsets.SideOffsets{{
			Side:   boat.Both,
			Rabbet: &offsets.EndOffsets{Height: "0-6-0", HalfBreadth: "0-2-4"},
			Sheer:  &offsets.EndOffsets{Height: "4-0-0", HalfBreadth: "3-6-0"},
			Waterlines: []offsets.WaterlineOffsets{
				{Height: "1-0-0", HalfBreadth: "1-10-0"}, {Height: "1-6-0", HalfBreadth: "2-8-4"},
				{Height: "2-0-0", HalfBreadth: "3-1-0"}, {Height: "3-0-0", HalfBreadth: "3-4-6"},
			},
			Buttocks: []offsets.ButtockOffsets{{HalfBreadth: "1-0-0", Height: "0-8-4"}},
		}}})
	}
	return doc
}

func TestSound(t *testing.T) {
	doc := sound()
	o := hulltest.Read(t, doc)
	if o.GrainAssumed || o.Grain.MM() != 3.175 || len(o.Stations) != 3 || !o.Stations[1].Mirrored {
		t.Errorf("%+v", o)
	}
	if _, err := hull.Fit(o); err != nil {
		t.Fatal(err)
	}
	doc.Grain = ""
	if o, _ := offsets.Read(doc); !o.GrainAssumed || o.Grain.MM() != 3.175 {
		t.Errorf("grain assumed %v, %v", o.GrainAssumed, o.Grain)
	}
}

// Every mistake is found, named by station, side and cell, and told with what would be right.
func TestFaults(t *testing.T) {
	side := func(d *offsets.Document, i int) *offsets.SideOffsets { return &d.Stations[i].Sides[0] }
	for _, c := range []struct {
		name    string
		spoil   func(*offsets.Document)
		pointer string
		detail  string // part of it
		fix     string // part of it
	}{
		{"unknown notation", func(d *offsets.Document) { d.Notation = "cubits" }, "/notation", `"cubits" is not known`, "feet_inches_eighths, inches, mm, m"},
		{"outside of plank, no thickness", func(d *offsets.Document) { d.Surface = offsets.Outside }, "/stations/1", "Station 1 plank_thickness: it is missing", "whole table"},
		{"a plank of nothing", func(d *offsets.Document) { d.PlankThickness = "0-0-0" }, "/plank_thickness", "Plank_thickness: a plank 0 mm thick is none", "as it stands"},
		{"a plank below nothing", func(d *offsets.Document) { d.Stations[1].PlankThickness = "-0-1-0" }, "/stations/1/plank_thickness", "Station 1 plank_thickness: a plank -25.4 mm thick", "as it stands"},
		{"a plank two feet thick", func(d *offsets.Document) { d.PlankThickness = "2-0-0" }, "/plank_thickness", "up to 300 mm", "as it stands"},
		{"a plank in millimetres", func(d *offsets.Document) { d.PlankThickness = "22 mm" }, "/plank_thickness", "22 mm", "0-0-7"},
		{"a diagonal that is not declared", func(d *offsets.Document) {
			side(d, 1).Diagonals = []offsets.DiagonalOffsets{{Name: "A", Distance: "2-0-0"}}
		}, "/stations/1/sides/0/diagonals/0/name", "Station 1 both sides diagonal:A: this diagonal is not declared", "declare each diagonal once"},
		{"a diagonal declared twice", func(d *offsets.Document) {
			d.Diagonals = []offsets.DiagonalPlane{{Name: "A", Height: "4-0-0", AngleDeg: "45"}, {Name: "A", Height: "4-0-0", AngleDeg: "45"}}
		}, "/diagonals/1/name", "Diagonal:A: it is declared twice", "once"},
		{"a diagonal without height", func(d *offsets.Document) {
			d.Diagonals = []offsets.DiagonalPlane{{Name: "A", AngleDeg: "45"}}
		}, "/diagonals/0", "Diagonal:A: the height where it leaves the middle line is missing", "angle"},
		{"a diagonal that rises", func(d *offsets.Document) {
			d.Diagonals = []offsets.DiagonalPlane{{Name: "A", Height: "4-0-0", AngleDeg: "95"}}
		}, "/diagonals/0/angle_deg", `Diagonal_angle:A: "95" is not an angle`, "52.5"},
		{"a distance below nothing", func(d *offsets.Document) {
			d.Diagonals = []offsets.DiagonalPlane{{Name: "A", Height: "4-0-0", AngleDeg: "45"}}
			side(d, 1).Diagonals = []offsets.DiagonalOffsets{{Name: "A", Distance: "-2-0-0"}}
		}, "/stations/1/sides/0/diagonals/0/distance", "the distance along the diagonal is negative", "outboard"},
		{"a diagonal that ends far off the section", func(d *offsets.Document) {
			d.Diagonals = []offsets.DiagonalPlane{{Name: "A", Height: "4-0-0", AngleDeg: "45"}}
			side(d, 1).Diagonals = []offsets.DiagonalOffsets{{Name: "A", Distance: "14-0-0"}}
		}, "/stations/1/sides/0/diagonals/0/distance", "Station 1 both sides diagonal:A: the line doubles back here; half-breadth 9-10-6+, height -5-10-6+, between wl:1-0-0", "check this figure"},
		{"a stem within the boat", func(d *offsets.Document) { d.Stem = []offsets.ProfileOffsets{{Height: "3-0-0", X: "1-0-0"}} }, "/stem/0/x", "Station 0 stem_x:3-0-0: it lies at 1-0-0, aft of this station at 0-0-0", "leading minus"},
		{"a transom within the boat", func(d *offsets.Document) { d.Transom = []offsets.ProfileOffsets{{Height: "3-0-0", X: "7-0-0"}} }, "/transom/0/x", "Station 2 transom_x:3-0-0: it lies at 7-0-0, forward of this station at 8-0-0", "station 0"},
		{"a stem from the top down", func(d *offsets.Document) {
			d.Stem = []offsets.ProfileOffsets{{Height: "3-0-0", X: "-0-1-0"}, {Height: "2-0-0", X: "0-0-0"}}
		}, "/stem/1/height", "Stem_x:2-0-0: its height, 2-0-0, is not above", "from the lowest up"},
		{"a stem at no place", func(d *offsets.Document) { d.Stem = []offsets.ProfileOffsets{{Height: "3-0-0", X: "forward"}} }, "/stem/0/x", `Stem_x:3-0-0: "forward" is not a length`, "2-3-4"},
		{"no surface", func(d *offsets.Document) { d.Surface = "" }, "/surface", "does not say which face", "inside"},
		{"other surface", func(d *offsets.Document) { d.Surface = "skin" }, "/surface", `"skin"`, "inside"},
		{"grain in millimetres", func(d *offsets.Document) { d.Grain = "3.2" }, "/grain", "feet-inches-eighths", "0-0-1"},
		{"grain below nothing", func(d *offsets.Document) { d.Grain = "-0-0-1" }, "/grain", "between 0", "0-0-1"},
		{"grain of a foot", func(d *offsets.Document) { d.Grain = "1-0-0" }, "/grain", "50 mm", "0-0-1"},

		{"no stations", func(d *offsets.Document) { d.Stations = nil }, "/stations", "at least 3 stations; 0 are given", "more stations"},
		{"two stations", func(d *offsets.Document) { d.Stations = d.Stations[:2] }, "/stations", "at least 3 stations; 2 are given", "more stations"},
		{"too many stations", func(d *offsets.Document) { d.Stations = make([]offsets.StationOffsets, offsets.MaxStations+1) }, "/stations", "201 stations", "leave out"},
		{"station twice", func(d *offsets.Document) { d.Stations[2].No = 1 }, "/stations/2/no", "Station 1 no: it is given twice", "one number"},
		{"stations out of order", func(d *offsets.Document) { d.Stations[1], d.Stations[2] = d.Stations[2], d.Stations[1] }, "/stations/2/no", "Station 1 no: it stands after station 2", "by number"},
		{"station below nothing", func(d *offsets.Document) { d.Stations[0].No = -1 }, "/stations/0/no", "between 0 and 9999", "from forward"},
		{"two stations at one place", func(d *offsets.Document) { d.Stations[2].X = "4-0-0" }, "/stations/2/x", "Station 2 x: it lies at one place with station 1", "check x"},
		{"x goes forward", func(d *offsets.Document) { d.Stations[2].X = "3-0-0" }, "/stations/2/x", "forward of station 1", "aft from station 0"},
		{"no x", func(d *offsets.Document) { d.Stations[1].X = "" }, "/stations/1/x", "missing", "aft from station 0"},
		{"x in feet and inches", func(d *offsets.Document) { d.Stations[1].X = "4'" }, "/stations/1/x", "Station 1 x: \"4'\" is not a length", "4-0-0"},
		{"no sides", func(d *offsets.Document) { d.Stations[1].Sides = nil }, "/stations/1/sides", "Station 1 port: this side is missing", "both"},
		{"one side missing at one station", func(d *offsets.Document) { side(d, 1).Side = boat.Port }, "/stations/1/sides", "Station 1 starboard: this side is missing", "both"},
		{"one side nowhere", func(d *offsets.Document) {
			for i := range d.Stations {
				side(d, i).Side = boat.Port
			}
		}, "/stations", "Starboard: no station gives this side", "both"},
		{"unknown side", func(d *offsets.Document) { side(d, 1).Side = "larboard" }, "/stations/1/sides/0/side", `"larboard"`, "port, starboard or both"},
		{"side twice", func(d *offsets.Document) { d.Stations[1].Sides = append(d.Stations[1].Sides, d.Stations[1].Sides[0]) }, "/stations/1/sides/1/side", "Station 1 both sides: this side is given twice", "one entry"},

		{"no rabbet", func(d *offsets.Document) { side(d, 1).Rabbet = nil }, "/stations/1/sides/0", "Station 1 both sides rabbet_height: it is missing", "rabbet and the sheer"},
		{"no height of sheer", func(d *offsets.Document) { side(d, 1).Sheer.Height = "" }, "/stations/1/sides/0", "sheer_height: it is missing", "rabbet and the sheer"},
		{"figures run together", func(d *offsets.Document) { side(d, 2).Waterlines[1].HalfBreadth = "284" }, "/stations/2/sides/0/waterlines/1/half_breadth", `Station 2 both sides wl:1-6-0: "284" is not a length`, "2-3-4"},
		{"a waterline at no height", func(d *offsets.Document) { side(d, 2).Waterlines[1].Height = "18" }, "/stations/2/sides/0/waterlines/1/height", `wl:18: "18"`, "2-3-4"},
		{"a negative half-breadth", func(d *offsets.Document) { side(d, 2).Waterlines[1].HalfBreadth = "-2-8-4" }, "/stations/2/sides/0/waterlines/1/half_breadth", "negative", "outboard"},
		{"a negative rabbet", func(d *offsets.Document) { side(d, 2).Rabbet.HalfBreadth = "-0-2-4" }, "/stations/2/sides/0/rabbet/half_breadth", "negative", "outboard"},
		{"a negative buttock", func(d *offsets.Document) { side(d, 2).Buttocks[0].HalfBreadth = "-1-0-0" }, "/stations/2/sides/0/buttocks/0/half_breadth", "negative", "outboard"},
		{"a waterline twice", func(d *offsets.Document) { side(d, 1).Waterlines[2].Height = "1-06-0" }, "/stations/1/sides/0/waterlines/2/half_breadth", "Station 1 both sides wl:1-06-0: it is given twice", "leave one"},
		{"sheer below rabbet", func(d *offsets.Document) { side(d, 1).Sheer.Height = "0-5-0" }, "/stations/1/sides/0/sheer/height", "Station 1 both sides sheer_height: the sheer, at 0-5-0, is not above the rabbet", "two heights"},
		{"waterline above the sheer", func(d *offsets.Document) { side(d, 1).Waterlines[3].Height = "5-0-0" }, "/stations/1/sides/0/waterlines/3/half_breadth", "passes above the sheer", "leave the cell empty"},
		{"waterline below the rabbet", func(d *offsets.Document) { side(d, 1).Waterlines[0].Height = "-0-1-0" }, "/stations/1/sides/0/waterlines/0/half_breadth", "passes below the rabbet", "leave the cell empty"},
		{"four points", func(d *offsets.Document) { side(d, 1).Waterlines = side(d, 1).Waterlines[:1] }, "/stations/1/sides/0", "at least 5 points, rabbet and sheer counted; 4 are given", "tightest bend"},
		{"five points, two alike", func(d *offsets.Document) {
			side(d, 1).Waterlines = side(d, 1).Waterlines[:2]
			side(d, 1).Waterlines[1] = offsets.WaterlineOffsets{Height: "4-0-0", HalfBreadth: "3-6-0"}
		}, "/stations/1/sides/0", "only 4 of its 5 points differ", "away from those given"},
		{"too many points", func(d *offsets.Document) {
			side(d, 1).Waterlines = make([]offsets.WaterlineOffsets, offsets.MaxMarks+1)
		}, "/stations/1/sides/0", "102 points", "close together"},
		{"a foot misread: a spike", func(d *offsets.Document) { side(d, 1).Waterlines[2].HalfBreadth = "0-1-0" }, "/stations/1/sides/0/waterlines/2/half_breadth", "Station 1 both sides wl:2-0-0: the line doubles back here", "check this figure"},
		{"a buttock below the keel", func(d *offsets.Document) { side(d, 1).Buttocks[0].Height = "-9-0-0" }, "/stations/1/sides/0/buttocks/0/height", "Station 1 both sides buttock:1-0-0: the line doubles back here", "check this figure"},
	} {
		t.Run(c.name, func(t *testing.T) {
			doc := sound()
			c.spoil(doc)
			o, faults := offsets.Read(doc)
			if o != nil {
				t.Error("there are offsets beside the faults")
			}
			for _, f := range faults {
				if f.Pointer == c.pointer && strings.Contains(f.Detail, c.detail) && strings.Contains(f.Fix, c.fix) {
					plainWords(t, f)
					return
				}
			}
			t.Errorf("not among the faults: %v", faults)
		})
	}
}

// plainWords holds a fault to the voice of the program.
func plainWords(t *testing.T, f offsets.Fault) {
	t.Helper()
	if len(f.Detail) > 260 || len(f.Fix) > 200 || f.Detail == "" || f.Fix == "" {
		t.Errorf("a fault of %d and %d characters: %v", len(f.Detail), len(f.Fix), f)
	}
	for _, word := range []string{"invalid", "please", "Please", "!", "error", "<nil>", "%!"} {
		if strings.Contains(f.Detail+f.Fix, word) {
			t.Errorf("%q in %v", word, f)
		}
	}
}

// All faults of a table come at once, and one mistake is told once.
func TestAllFaultsAtOnce(t *testing.T) {
	doc := sound()
	doc.Surface = "skin"
	doc.Stations[0].Sides[0].Waterlines[0].HalfBreadth = "110"
	doc.Stations[1].X = "-1-0-0"
	doc.Stations[2].Sides[0].Sheer.Height = "0-0-0"
	doc.Stations[2].Sides[0].Buttocks[0].HalfBreadth = "12 in"
	_, faults := offsets.Read(doc)
	if len(faults) != 4 { // the sheer of station 2 is judged only once its cells can all be read
		t.Errorf("%d faults: %v", len(faults), faults)
	}
	doc = sound()
	doc.Stations[1].Sides[0].Sheer.Height = "4"
	if _, faults = offsets.Read(doc); len(faults) != 1 {
		t.Errorf("%d faults of one cell: %v", len(faults), faults)
	}
}

// Cells under both sides count beside those of one; a missing cell is missing, not nothing.
func TestSidesJoin(t *testing.T) {
	doc := sound()
	all := doc.Stations[1].Sides[0]
	ends := offsets.SideOffsets{Side: boat.Both, Rabbet: all.Rabbet, Sheer: all.Sheer}
	port := offsets.SideOffsets{Side: boat.Port, Waterlines: all.Waterlines, Buttocks: all.Buttocks}
	starboard := port
	starboard.Side = boat.Starboard
	starboard.Waterlines = append([]offsets.WaterlineOffsets{{Height: "2-6-0"}}, all.Waterlines...) // not measured
	doc.Stations[1].Sides = []offsets.SideOffsets{starboard, ends, port}
	o := hulltest.Read(t, doc)
	st := o.Stations[1]
	if len(st.Port) != 7 || len(st.Starboard) != 7 || st.Mirrored {
		t.Errorf("%d points to port, %d to starboard, mirrored %v", len(st.Port), len(st.Starboard), st.Mirrored)
	}
	for i := range st.Port {
		if st.Port[i].Y != st.Starboard[i].Y || st.Port[i].Z != st.Starboard[i].Z {
			t.Errorf("point %d: %+v and %+v", i, st.Port[i], st.Starboard[i])
		}
	}
	doc.Stations[1].Sides[2].Rabbet = all.Rabbet
	if _, faults := offsets.Read(doc); len(faults) != 2 || !strings.Contains(faults[0].Detail, "Station 1 port rabbet_height: it is given twice") {
		t.Errorf("%v", faults)
	}
}

// A table of nothing but faults is cut off, and says so.
func TestFaultsAreBounded(t *testing.T) {
	doc := &offsets.Document{Notation: notation.Millimetres, Surface: offsets.Inside}
	for i := range offsets.MaxStations {
		s := offsets.SideOffsets{Side: boat.Both}
		for range offsets.MaxMarks {
			s.Waterlines = append(s.Waterlines, offsets.WaterlineOffsets{Height: "a", HalfBreadth: "b"})
		}
		doc.Stations = append(doc.Stations, offsets.StationOffsets{No: i, X: "c", Sides: []offsets.SideOffsets{s}})
	}
	_, faults := offsets.Read(doc)
	if len(faults) != offsets.MaxFaults+1 || !strings.Contains(faults[offsets.MaxFaults].Detail, "more") {
		t.Errorf("%d faults, the last %v", len(faults), faults[len(faults)-1])
	}
}

// A thousand millimetres written with a mark look like one and a bit: the table is asked, unless it shows what its comma
// is.
func TestCommaThatCanBeReadTwoWays(t *testing.T) {
	doc := func(cell string) *offsets.Document {
		d := &offsets.Document{Notation: notation.Millimetres, Grain: "1", Surface: offsets.Inside}
		for i, x := range []string{"0", "1000", "2000"} {
			d.Stations = append(d.Stations, offsets.StationOffsets{No: i, X: x, Sides: []offsets.SideOffsets{{Side: boat.Both,
				Rabbet: &offsets.EndOffsets{Height: "0", HalfBreadth: "1,250"}, Sheer: &offsets.EndOffsets{Height: "900", HalfBreadth: "800"},
				Waterlines: []offsets.WaterlineOffsets{{Height: "200", HalfBreadth: "300"}, {Height: "400", HalfBreadth: "550"}, {Height: "650", HalfBreadth: cell}},
			}}})
		}
		return d
	}
	if _, faults := offsets.Read(doc("700")); len(faults) != 3 || faults[0].Detail != `Station 0 both sides rabbet_half_breadth: "1,250" is not a length in millimetres: it can be read as 1.250 mm or as 1250 mm` || faults[0].Fix != "write it like 1250 or 1.250" {
		t.Errorf("%v", faults)
	}
	o, faults := offsets.Read(doc("700,5"))
	if len(faults) > 0 || o.Stations[0].Port[0].Y.MM() != 1.25 {
		t.Errorf("%v", faults)
	}
	d := doc("700,5")
	d.Notation = notation.Metres
	if _, faults := offsets.Read(d); len(faults) > 0 && strings.Contains(faults[0].Detail, "two") {
		t.Errorf("in metres a comma is the decimal mark: %v", faults)
	}
}

// A diagonal's distance becomes a point below and outboard of where the diagonal leaves the middle line, and takes its
// place among waterlines and buttocks.
func TestDiagonals(t *testing.T) {
	doc := sound()
	doc.Diagonals = []offsets.DiagonalPlane{{Name: "A", Height: "4-0-0", AngleDeg: "45"}, {Name: "B", Height: "3-0-0", AngleDeg: "60"}}
	for i := range doc.Stations {
		doc.Stations[i].Sides[0].Diagonals = []offsets.DiagonalOffsets{{Name: "A", Distance: "3-11-4"}, {Name: "B"}}
	}
	o := hulltest.Read(t, doc)
	var names []string
	for _, m := range o.Stations[1].Port {
		names = append(names, m.Cell)
		if m.Cell != "diagonal:A" {
			continue
		}
		down := 47.5 * 25.4 / math.Sqrt2
		if math.Abs(m.Y.MM()-down) > 1e-8 || math.Abs(m.Z.MM()-(48*25.4-down)) > 1e-8 || math.Abs(m.DY-math.Sqrt2/2) > 1e-15 || math.Abs(m.DZ+math.Sqrt2/2) > 1e-15 {
			t.Errorf("%+v", m)
		}
	}
	if got := strings.Join(names, " "); got != "rabbet buttock:1-0-0 wl:1-0-0 diagonal:A wl:1-6-0 wl:2-0-0 wl:3-0-0 sheer" {
		t.Errorf("order %s", got)
	}
	if _, err := hull.Fit(o); err != nil {
		t.Error(err)
	}
}

// Stem and transom are kept as lengths; below the rabbet of an end station they may run in under the boat.
func TestProfiles(t *testing.T) {
	doc := sound()
	doc.Stem = []offsets.ProfileOffsets{{Height: "0-3-0", X: "1-0-0"}, {Height: "1-0-0"}, {Height: "2-0-0", X: "-0-3-0"}, {Height: "4-0-0", X: "-0-9-0"}}
	doc.Transom = []offsets.ProfileOffsets{{Height: "1-0-0", X: "8-0-0"}, {Height: "4-0-0", X: "8-6-0"}}
	o := hulltest.Read(t, doc)
	if len(o.Stem) != 3 || o.Stem[1].X.MM() != -76.2 || o.Stem[1].Z.MM() != 609.6 || len(o.Transom) != 2 || o.Transom[1].X.MM() != 2590.8 {
		t.Errorf("stem %v, transom %v", o.Stem, o.Transom)
	}
}
