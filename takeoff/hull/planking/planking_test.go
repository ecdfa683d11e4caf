package planking_test

import (
	"errors"
	"fmt"
	"math"
	"reflect"
	"strings"
	"testing"

	"ribband/takeoff/boat"
	"ribband/takeoff/hull"
	"ribband/takeoff/hull/butt"
	"ribband/takeoff/hull/hulltest"
	"ribband/takeoff/hull/offsets"
	"ribband/takeoff/hull/planking"
	"ribband/takeoff/notation"
)

// boatOf is a boat of parabolic sections, 8 m long, 11 stations; starboard is port's mirror image. Lengths times scale.
func boatOf(t testing.TB, scale float64) *hull.Hull {
	t.Helper()
	doc := &offsets.Document{Notation: notation.Millimetres, Grain: "0", Surface: offsets.Inside}
	text := func(v float64) string { return fmt.Sprintf("%.6f", v*scale) }
	for no := range 11 {
		x := 800 * float64(no)
		s := offsets.SideOffsets{Side: boat.Both}
		for k := range 13 {
			z := 1000 * float64(k) / 12
			y := 60 + (900-1.1e-4*(x-4200)*(x-4200)/3)*math.Sqrt(z/1000)
			switch k {
			case 0:
				s.Rabbet = &offsets.EndOffsets{Height: text(z), HalfBreadth: text(60)}
			case 12:
				s.Sheer = &offsets.EndOffsets{Height: text(z), HalfBreadth: text(y)}
			default:
				s.Waterlines = append(s.Waterlines, offsets.WaterlineOffsets{Height: text(z), HalfBreadth: text(y)})
			}
		}
		doc.Stations = append(doc.Stations, offsets.StationOffsets{No: no, X: text(x), Sides: []offsets.SideOffsets{s}})
	}
	return hulltest.Hull(t, doc)
}

func frames(scale float64) (out []butt.Frame) {
	for i := range 34 {
		out = append(out, butt.Frame{No: i + 1, X: scale * (-200 + 250*float64(i))}) // the first and the last stand outside the stations
	}
	return out
}

func lay(t testing.TB, h *hull.Hull, f []butt.Frame, doc planking.Document) *planking.Planking {
	t.Helper()
	terms, faults := planking.Read(doc, h, notation.Millimetres)
	if len(faults) > 0 {
		t.Fatal(faults)
	}
	p, err := planking.Lay(h, f, terms)
	if err != nil {
		t.Fatal(err)
	}
	return p
}

func twelve(side boat.Side) planking.Document {
	return planking.Document{Side: side, Strakes: planking.Division{Count: 12}, PlankThickness: "25", StockLengths: []string{"4800", "3600", "5400"}}
}

// The demo's kind of job: butts are proposed that keep to every rule, every plank has its stock, the pieces are the whole.
func TestPlanking(t *testing.T) {
	h := boatOf(t, 1)
	p := lay(t, h, frames(1), twelve(boat.Port))
	if len(p.Strakes) != 12 || len(p.Breaches) > 0 || len(p.Frames) != 32 {
		t.Fatalf("%d strakes, %d frames, breaches %v", len(p.Strakes), len(p.Frames), p.Breaches)
	}
	for _, s := range p.Strakes {
		if s.Stuck != nil || !s.Proposed || len(s.Butts) == 0 || len(s.Planks) != len(s.Butts)+1 {
			t.Errorf("strake %d: %+v, %d planks", s.No, s.Butts, len(s.Planks))
		}
		area := 0.0
		for i, q := range s.Planks {
			area += q.Area.MM
			if q.Stock == 0 || q.Along > q.Stock+.01 || math.Abs(q.Along/q.Board.Length-1) > 0.01 {
				t.Errorf("strake %d: a plank of %v (rectangle %v) out of stock of %v", s.No, q.Along, q.Board.Length, q.Stock)
			}
			if got := q.Thickness(25); got < 25 || got != 25+q.Backing {
				t.Errorf("board of %v", got)
			}
			if i > 0 && !strings.HasPrefix(q.FromWhere, "between frames") {
				t.Errorf("the plank begins %q", q.FromWhere)
			}
		}
		if math.Abs(area/s.Area.MM-1) > 1e-9 {
			t.Errorf("planks of %v in a strake of %v", area, s.Area.MM)
		}
	}
}

// Starboard mirrors port; twice the boat has twice the lengths and four times the areas. Butts are by frame spaces, so
// with the stock doubled they stand at the same frames.
func TestMirroredAndScaled(t *testing.T) {
	one := lay(t, boatOf(t, 1), frames(1), twelve(boat.Port))
	other := lay(t, boatOf(t, 1), frames(1), twelve(boat.Starboard))
	doc := twelve(boat.Port)
	doc.StockLengths = []string{"9600", "7200", "10800"}
	big := lay(t, boatOf(t, 2), frames(2), doc)
	for k, s := range one.Strakes {
		if !reflect.DeepEqual(s.Planks, other.Strakes[k].Planks) || !reflect.DeepEqual(s.Lower, other.Strakes[k].Lower) {
			t.Errorf("strake %d differs from side to side", s.No)
		}
		b := big.Strakes[k]
		const fit = 1e-5 // the fair curves stop at a thousandth of the curvature
		if math.Abs(b.Board.Length/s.Board.Length-2) > fit || math.Abs(b.Area.MM/s.Area.MM-4) > fit {
			t.Errorf("strake %d: %v by %v mm2, doubled %v by %v", s.No, s.Board.Length, s.Area.MM, b.Board.Length, b.Area.MM)
		}
		for i := range s.Butts {
			if s.Butts[i].Where != b.Butts[i].Where {
				t.Errorf("strake %d: butts %v and %v", s.No, s.Butts, b.Butts)
			}
		}
	}
}

// Butts that stay are checked, and damaged pieces find their planks among them.
func TestGivenButts(t *testing.T) {
	doc := planking.Document{Side: boat.Port, Strakes: planking.Division{Count: 6}, Butts: []planking.Given{
		{Strake: 2, X: []string{"3925"}}, {Strake: 3, X: []string{"4175"}}, {Strake: 1},
	}, Replace: []planking.Damage{{Strake: 4, From: "2000", To: "2300"}}}
	p := lay(t, boatOf(t, 1), frames(1), doc)
	if len(p.Breaches) != 1 || p.Breaches[0].Rule != butt.Adjacent || p.Breaches[0].Strake != 2 || len(p.Breaches[0].Right) == 0 {
		t.Errorf("%+v", p.Breaches)
	}
	if len(p.Replaced) != 1 || p.Replaced[0].None != nil {
		t.Fatalf("%+v", p.Replaced)
	}
	r := p.Replaced[0]
	if r.Spaces < 6 || r.Plank.Board.Length < 5*304.8 || r.Replacement.From > 2000 || r.Replacement.To < 2300 || math.Abs(r.Board-r.Plank.Along) > 1e-9 {
		t.Errorf("%+v", r)
	}
	if len(p.Strakes[0].Planks) != 1 || len(p.Strakes[1].Planks) != 2 {
		t.Error("planks are not those of the butts")
	}
}

// Edges by girths are the same as by fractions.
func TestEdges(t *testing.T) {
	h := boatOf(t, 1)
	by := func(make func(m hull.Measure) planking.EdgeRow) *planking.Planking {
		doc := planking.Document{Side: boat.Port}
		for _, m := range h.Measures() {
			if m.Section.Side == boat.Port && m.Station%2 == 0 {
				doc.Strakes.Edges = append(doc.Strakes.Edges, make(m))
			}
		}
		return lay(t, h, nil, doc)
	}
	a := by(func(m hull.Measure) planking.EdgeRow {
		return planking.EdgeRow{StationNo: m.Station, Fractions: []float64{0.25, 0.5}}
	})
	b := by(func(m hull.Measure) planking.EdgeRow {
		g := func(u float64) string { return fmt.Sprintf("%.6f", u*m.Section.Girth.MM) }
		return planking.EdgeRow{StationNo: m.Station, Girths: []string{g(.25), g(.5)}}
	})
	for k := range a.Strakes {
		if x, y := a.Strakes[k].Area.MM, b.Strakes[k].Area.MM; math.Abs(x/y-1) > 1e-8 {
			t.Errorf("strake %d: %v and %v mm2", k+1, x, y)
		}
	}
}

func TestReadTellsEverything(t *testing.T) {
	h := boatOf(t, 1)
	for _, c := range []struct {
		at  string
		doc planking.Document
	}{
		{"/side", planking.Document{Side: boat.Both, Strakes: planking.Division{Count: 3}}},
		{"/strakes", planking.Document{Side: boat.Port}},
		{"/strakes/count", planking.Document{Side: boat.Port, Strakes: planking.Division{Count: 61}}},
		{"/strakes/edges", planking.Document{Side: boat.Port, Strakes: planking.Division{Edges: []planking.EdgeRow{{StationNo: 0, Fractions: []float64{.5}}}}}},
		{"/strakes/edges/0/station_no", planking.Document{Side: boat.Port, Strakes: planking.Division{Edges: []planking.EdgeRow{{StationNo: 77, Fractions: []float64{.5}}}}}},
		{"/strakes/edges/0", planking.Document{Side: boat.Port, Strakes: planking.Division{Edges: []planking.EdgeRow{{StationNo: 0}}}}},
		{"/strakes/edges/0/girths/0", planking.Document{Side: boat.Port, Strakes: planking.Division{Edges: []planking.EdgeRow{{StationNo: 0, Girths: []string{"9000"}}}}}},
		{"/strakes/edges/0/girths/0", planking.Document{Side: boat.Port, Strakes: planking.Division{Edges: []planking.EdgeRow{{StationNo: 0, Girths: []string{"-1"}}}}}},
		{"/strakes/edges", planking.Document{Side: boat.Port, Strakes: planking.Division{Edges: []planking.EdgeRow{
			{StationNo: 0, Fractions: []float64{.5}}, {StationNo: 5, Fractions: []float64{math.NaN()}}, {StationNo: 10, Fractions: []float64{.5}}}}}},
		{"/plank_thickness", planking.Document{Side: boat.Port, Strakes: planking.Division{Count: 3}, PlankThickness: "thick"}},
		{"/stock_lengths/1", planking.Document{Side: boat.Port, Strakes: planking.Division{Count: 3}, StockLengths: []string{"4000", "0"}}},
		{"/stock_lengths", planking.Document{Side: boat.Port, Strakes: planking.Division{Count: 3}, StockLengths: make([]string, 51)}},
		{"/butts/0/strake", planking.Document{Side: boat.Port, Strakes: planking.Division{Count: 3}, Butts: []planking.Given{{Strake: 4}}}},
		{"/butts/1/strake", planking.Document{Side: boat.Port, Strakes: planking.Division{Count: 3}, Butts: []planking.Given{{Strake: 1}, {Strake: 1}}}},
		{"/butts/0/x/0", planking.Document{Side: boat.Port, Strakes: planking.Division{Count: 3}, Butts: []planking.Given{{Strake: 1, X: []string{"9000"}}}}},
		{"/butts/0/x/1", planking.Document{Side: boat.Port, Strakes: planking.Division{Count: 3}, Butts: []planking.Given{{Strake: 1, X: []string{"4000", "3000"}}}}},
		{"/butts/0/x", planking.Document{Side: boat.Port, Strakes: planking.Division{Count: 3}, Butts: []planking.Given{{Strake: 1, X: make([]string, 21)}}}},
		{"/replace/0/to", planking.Document{Side: boat.Port, Strakes: planking.Division{Count: 3}, Replace: []planking.Damage{{Strake: 1, From: "4000", To: "3000"}}}},
		{"/replace/0/strake", planking.Document{Side: boat.Port, Strakes: planking.Division{Count: 3}, Replace: []planking.Damage{{From: "1000", To: "3000"}}}},
		{"/replace", planking.Document{Side: boat.Port, Strakes: planking.Division{Count: 3}, Replace: make([]planking.Damage, 201)}},
	} {
		_, faults := planking.Read(c.doc, h, notation.Millimetres)
		found := false
		for _, f := range faults {
			found = found || f.Pointer == c.at
			if f.Detail == "" || f.Fix == "" {
				t.Errorf("%+v", f)
			}
		}
		if !found {
			t.Errorf("no fault at %s: %v", c.at, faults)
		}
	}
	terms, _ := planking.Read(twelve(boat.Port), h, notation.Millimetres)
	var none *planking.NoFramesError
	if _, err := planking.Lay(h, frames(1)[:2], terms); !errors.As(err, &none) { // the first stands outside
		t.Error(err)
	}
	var many *butt.FramesError
	crowd := make([]butt.Frame, butt.MaxFrames+1)
	for i := range crowd {
		crowd[i] = butt.Frame{No: i, X: float64(i)}
	}
	if _, err := planking.Lay(h, crowd, planking.Terms{Side: boat.Port, Edges: terms.Edges}); !errors.As(err, &many) {
		t.Error(err)
	}
	short := twelve(boat.Port)
	short.StockLengths = []string{"900"}
	for _, s := range lay(t, h, frames(1), short).Strakes {
		if s.Stuck == nil || s.Stuck.Stock <= 900 || s.Proposed || len(s.Planks) != 1 {
			t.Errorf("strake %d: %+v", s.No, s.Stuck)
		}
	}
}
