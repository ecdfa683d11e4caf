package offsets_test

import (
	"strings"
	"testing"

	"ribband/takeoff/boat"
	"ribband/takeoff/hull/hulltest"
	"ribband/takeoff/hull/offsets"
	"ribband/takeoff/notation"
)

// Rabbet, waterlines by height, sheer; each buttock where it lengthens the line least. All in millimetres.
func TestOrder(t *testing.T) {
	type wl = [2]string // height, half-breadth
	type bt = [2]string // half-breadth, height
	for _, c := range []struct {
		name          string
		rabbet, sheer [2]string // height, half-breadth
		wls           []wl
		bts           []bt
		want          string
	}{
		{"waterlines given from the top down", [2]string{"100", "60"}, [2]string{"1300", "1000"},
			[]wl{{"1000", "980"}, {"700", "900"}, {"400", "600"}}, nil,
			"rabbet wl:400 wl:700 wl:1000 sheer"},
		{"flat floors: all buttocks below the first waterline", [2]string{"100", "60"}, [2]string{"1300", "1000"},
			[]wl{{"300", "900"}, {"700", "980"}}, []bt{{"750", "170"}, {"250", "105"}, {"500", "115"}},
			"rabbet buttock:250 buttock:500 buttock:750 wl:300 wl:700 sheer"},
		{"floors that are level", [2]string{"100", "60"}, [2]string{"1300", "1000"},
			[]wl{{"300", "950"}, {"700", "980"}}, []bt{{"600", "100"}, {"300", "100"}},
			"rabbet buttock:300 buttock:600 wl:300 wl:700 sheer"},
		{"floors that fall outboard of the rabbet", [2]string{"100", "60"}, [2]string{"1300", "1000"},
			[]wl{{"300", "950"}, {"700", "980"}}, []bt{{"600", "95"}, {"300", "90"}},
			"rabbet buttock:300 buttock:600 wl:300 wl:700 sheer"},
		{"tumblehome: one buttock low, one high, on their own heights", [2]string{"100", "60"}, [2]string{"1500", "850"},
			[]wl{{"400", "900"}, {"800", "1000"}, {"1200", "960"}}, []bt{{"920", "1350"}, {"500", "150"}},
			"rabbet buttock:500 wl:400 wl:800 wl:1200 buttock:920 sheer"},
		{"the same buttock low", [2]string{"100", "60"}, [2]string{"1500", "850"},
			[]wl{{"400", "900"}, {"800", "1000"}, {"1200", "960"}}, []bt{{"920", "430"}, {"500", "150"}},
			"rabbet buttock:500 wl:400 buttock:920 wl:800 wl:1200 sheer"},
		{"a buttock on a waterline's own point: the first place counts", [2]string{"100", "60"}, [2]string{"1300", "1000"},
			[]wl{{"300", "700"}, {"500", "900"}, {"700", "980"}}, []bt{{"900", "500"}},
			"rabbet wl:300 buttock:900 wl:500 wl:700 sheer"},
		{"a waterline at the height of the rabbet, and one at the sheer", [2]string{"100", "60"}, [2]string{"1300", "1000"},
			[]wl{{"1300", "1000"}, {"100", "60"}, {"500", "700"}, {"700", "900"}}, []bt{{"400", "300"}},
			"rabbet wl:100 buttock:400 wl:500 wl:700 wl:1300 sheer"},
	} {
		t.Run(c.name, func(t *testing.T) {
			side := offsets.SideOffsets{Side: boat.Both,
				Rabbet: &offsets.EndOffsets{Height: c.rabbet[0], HalfBreadth: c.rabbet[1]},
				Sheer:  &offsets.EndOffsets{Height: c.sheer[0], HalfBreadth: c.sheer[1]}}
			for _, w := range c.wls {
				side.Waterlines = append(side.Waterlines, offsets.WaterlineOffsets{Height: w[0], HalfBreadth: w[1]})
			}
			for _, b := range c.bts {
				side.Buttocks = append(side.Buttocks, offsets.ButtockOffsets{HalfBreadth: b[0], Height: b[1]})
			}
			doc := &offsets.Document{Notation: notation.Millimetres, Surface: offsets.Inside}
			for i, x := range []string{"0", "1000", "2000"} {
				doc.Stations = append(doc.Stations, offsets.StationOffsets{No: i, X: x, Sides: []offsets.SideOffsets{side}})
			}
			o := hulltest.Read(t, doc)
			var got []string
			for _, m := range o.Stations[1].Marks(boat.Starboard) {
				got = append(got, m.Cell)
			}
			if s := strings.Join(got, " "); s != c.want {
				t.Errorf("order %s, want %s", s, c.want)
			}
		})
	}
}

// A line that crosses itself without any spike is rare, because buttocks go where they lengthen it least; it is
// refused and the point most out of line named.
func TestCrossing(t *testing.T) {
	side := offsets.SideOffsets{Side: boat.Both,
		Rabbet:     &offsets.EndOffsets{Height: "100", HalfBreadth: "60"},
		Sheer:      &offsets.EndOffsets{Height: "1300", HalfBreadth: "1000"},
		Waterlines: []offsets.WaterlineOffsets{{Height: "600", HalfBreadth: "930"}}}
	for _, b := range [][2]string{{"200", "1190"}, {"400", "1260"}, {"600", "780"}, {"800", "10"}, {"1200", "310"}} {
		side.Buttocks = append(side.Buttocks, offsets.ButtockOffsets{HalfBreadth: b[0], Height: b[1]})
	}
	doc := &offsets.Document{Notation: notation.Millimetres, Surface: offsets.Inside}
	for i, x := range []string{"0", "1000", "2000"} {
		doc.Stations = append(doc.Stations, offsets.StationOffsets{No: i, X: x, Sides: []offsets.SideOffsets{side}})
	}
	_, faults := offsets.Read(doc)
	if len(faults) != 3 || !strings.Contains(faults[0].Detail, "buttock:1200: the line from buttock:1200 to buttock:200 crosses that from buttock:400 to buttock:600") {
		t.Errorf("%v", faults)
	}
}
