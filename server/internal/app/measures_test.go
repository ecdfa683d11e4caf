package app

import (
	"fmt"
	"math"
	"math/rand/v2"
	"strconv"
	"testing"

	"ribband/takeoff"
	"ribband/takeoff/boat"
	"ribband/takeoff/hull"
	"ribband/takeoff/hull/area"
	"ribband/takeoff/hull/hulltest"
	"ribband/takeoff/hull/offsets"
	"ribband/takeoff/notation"
)

// nearlyFlat is a hull of four stations alike, flaring sides that round out by a millimetre or so over 1.2 m and are
// written to the millimetre: too little to tell a wide bend from none.
func nearlyFlat() *offsets.Document {
	doc := &offsets.Document{Notation: notation.Millimetres, Grain: "1", Surface: offsets.Inside}
	at := func(z float64) string { return fmt.Sprintf("%.0f", 100+0.3*z+1.4*math.Sin(math.Pi*z/1200)) }
	for no := range 4 {
		side := offsets.SideOffsets{Side: boat.Both, Rabbet: &offsets.EndOffsets{Height: "0", HalfBreadth: at(0)},
			Sheer: &offsets.EndOffsets{Height: "1200", HalfBreadth: at(1200)}}
		for z := 100.0; z < 1150; z += 100 {
			side.Waterlines = append(side.Waterlines, offsets.WaterlineOffsets{Height: fmt.Sprintf("%.0f", z), HalfBreadth: at(z)})
		}
		doc.Stations = append(doc.Stations, offsets.StationOffsets{No: no, X: fmt.Sprint(no * 1000), Sides: []offsets.SideOffsets{side}})
	}
	return doc
}

// A station whose points leave the high end of its bend open is not called straight: the low end is what a laminate is
// chosen by, and it is told.
func TestABendWithoutAHighEndKeepsItsLowEnd(t *testing.T) {
	table, faults := offsets.Read(nearlyFlat())
	if len(faults) > 0 {
		t.Fatal(faults)
	}
	h, err := hull.Fit(table)
	if err != nil {
		t.Fatal(err)
	}
	open := 0
	for _, m := range h.Measures() {
		got, r := stationMeasures(m, 0), m.Section.Least().Radius()
		if m.Section.Straight || math.IsInf(r.MM, 0) {
			continue
		}
		if got.Straight || got.LeastRadiusMM == nil || got.LeastRadiusLowMM == nil || *got.LeastRadiusLowMM <= 0 {
			t.Errorf("station %d %s bends and is told as %+v", m.Station, m.Section.Side, got)
		}
		if math.IsInf(r.High, 0) {
			open++
			if got.LeastRadiusHighMM != nil {
				t.Errorf("station %d %s has no high end and is told %v", m.Station, m.Section.Side, *got.LeastRadiusHighMM)
			}
		}
	}
	if open == 0 {
		t.Error("no section leaves its high end open, so nothing was shown")
	}
}

// quarters is a hull of quarter circles of a metre, a point every five degrees.
func quarters() *offsets.Document {
	doc := &offsets.Document{Notation: notation.Millimetres, Grain: "1", Surface: offsets.Inside}
	at := func(deg float64) (y, z string) {
		s, c := math.Sincos(deg * math.Pi / 180)
		return fmt.Sprintf("%.0f", 50+1000*s), fmt.Sprintf("%.0f", 1000-1000*c)
	}
	for no := range 4 {
		side := offsets.SideOffsets{Side: boat.Both, Rabbet: &offsets.EndOffsets{}, Sheer: &offsets.EndOffsets{}}
		side.Rabbet.HalfBreadth, side.Rabbet.Height = at(0)
		side.Sheer.HalfBreadth, side.Sheer.Height = at(90)
		for deg := 5.0; deg < 90; deg += 5 {
			y, z := at(deg)
			side.Waterlines = append(side.Waterlines, offsets.WaterlineOffsets{Height: z, HalfBreadth: y})
		}
		doc.Stations = append(doc.Stations, offsets.StationOffsets{No: no, X: fmt.Sprint(no * 1000), Sides: []offsets.SideOffsets{side}})
	}
	return doc
}

// A bend that the points show is told as sharp; of one that they do not, the place is told, and one more point is asked
// for there; a straight section asks for none.
func TestStationsTellHowWellTheirBendIsShown(t *testing.T) {
	const floor, side = 800.0, 800 + 200*math.Pi/2 // the arc lies between, along the girth
	of := func(doc *offsets.Document) []StationMeasures {
		table, faults := offsets.Read(doc)
		if len(faults) > 0 {
			t.Fatal(faults)
		}
		h, err := hull.Fit(table)
		if err != nil {
			t.Fatal(err)
		}
		all, err := stationsMeasured(h)
		if err != nil || len(all) != 8 {
			t.Fatal(len(all), err)
		}
		return all
	}
	for _, m := range of(quarters()) {
		if !m.Sharp || m.NotShownAtMM != nil || m.OneMorePoint == nil {
			t.Errorf("shown: %+v", m)
		}
	}
	for _, m := range of(hulltest.HardBilges(240)) {
		p := m.OneMorePoint
		if m.Sharp || len(m.NotShownAtMM) != 1 || p == nil {
			t.Fatalf("not shown: %+v", m)
		}
		for _, at := range []float64{m.NotShownAtMM[0], p.AtMM} {
			if at < floor || at > side {
				t.Errorf("%v is not on the arc", at)
			}
		}
		if p.HalfBreadthMM < 800 || p.HeightMM > 200 {
			t.Errorf("one more point at %+v", p)
		}
	}
	flat := nearlyFlat()
	for i := range flat.Stations {
		for k := range flat.Stations[i].Sides[0].Waterlines {
			w := &flat.Stations[i].Sides[0].Waterlines[k]
			var z float64
			if _, err := fmt.Sscan(w.Height, &z); err != nil {
				t.Fatal(err)
			}
			w.HalfBreadth = fmt.Sprintf("%.0f", 100+.3*z)
		}
	}
	flat.Grain = "0"
	for _, m := range of(flat) {
		if !m.Straight || m.OneMorePoint != nil || m.NotShownAtMM != nil {
			t.Errorf("straight: %+v", m)
		}
	}
}

// The planking of a table that was read worse than it was written reckons with what its lengths are worth.
func TestPlankingReckonsWithWhatTheLengthsAreWorth(t *testing.T) {
	doc := quarters()
	wrong := rand.New(rand.NewPCG(3, 3))
	for i := range doc.Stations {
		for j := range doc.Stations[i].Sides[0].Waterlines {
			y := &doc.Stations[i].Sides[0].Waterlines[j].HalfBreadth
			v, err := strconv.ParseFloat(*y, 64)
			if err != nil {
				t.Fatal(err)
			}
			*y = fmt.Sprintf("%.0f", v+3*(2*wrong.Float64()-1))
		}
	}
	table, faults := offsets.Read(doc)
	if len(faults) > 0 {
		t.Fatal(faults)
	}
	h, err := hull.Fit(table)
	if err != nil {
		t.Fatal(err)
	}
	if _, grain, worse := h.ReadWorse(); !worse || !(h.Grain() > 1.5*grain) {
		t.Fatalf("the table was read to %v, and that is worth %v", grain, h.Grain())
	}
	level := 30.0 // where a little height makes much breadth
	var m Measures
	if err := m.planked(&takeoff.Basis{Hull: h}, table, &level); err != nil {
		t.Fatal(err)
	}
	s, err := h.Surface(boat.Port)
	if err != nil {
		t.Fatal(err)
	}
	var girths []hull.Reading
	for _, of := range h.Measures() {
		if of.Section.Side == boat.Port {
			girths = append(girths, of.Section.Girth)
		}
	}
	d := area.New(s, h.Grain())
	sure, err := d.Sure(girths)
	if err != nil {
		t.Fatal(err)
	}
	p, err := d.Waterplane(level)
	if err != nil {
		t.Fatal(err)
	}
	half, err := d.OpenPlane(level, p, sure)
	if err != nil {
		t.Fatal(err)
	}
	got := m.Areas.Sides[0]
	if want := m2(p.Area + half); got.WaterplaneHighM2 != want {
		t.Errorf("the water plane is up to %v m², %v wanted", got.WaterplaneHighM2, want)
	}
	if half, err = area.New(s, table.Grain.MM()).OpenPlane(level, p, sure); err != nil || m2(p.Area+half) == got.WaterplaneHighM2 {
		t.Errorf("with the written grain it is the same, so nothing was shown: %v, %v", half, err)
	}
}
