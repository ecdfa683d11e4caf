package takeoff_test

import (
	"encoding/json"
	"fmt"
	"math"
	"testing"

	"ribband/takeoff"
	"ribband/takeoff/boat"
	"ribband/takeoff/frame"
	"ribband/takeoff/hull/offsets"
	"ribband/takeoff/notation"
	"ribband/takeoff/pattern"

	"github.com/google/go-cmp/cmp"
)

// flaring is a pattern of an arc whose centre lies outboard.
func flaring(no int, side boat.Side, radius float64) pattern.Rows {
	p := pattern.Rows{FrameNo: no, Side: side}
	for i := range 14 {
		s, c := math.Sincos(1.2 * float64(i) / 13)
		p.Points = append(p.Points, pattern.Row{N: i + 1, Y: fmt.Sprintf("%.1f", 40+radius*(1-c)), Z: fmt.Sprintf("%.1f", radius*s)})
	}
	return p
}

// inOrder says that a figure is there with both ends of its range about it.
func inOrder(figure, low, high *float64) bool {
	return figure != nil && low != nil && high != nil && *low <= *figure && *figure <= *high
}

// Of a circle the tightest laminate of a bilge has the radius less the moulded depth, 50 mm, and of a hollow the radius
// itself, with the range of the faying face's radius likewise; a tape says the same of its bilge.
func TestTheTightestLaminateOfKnownArcs(t *testing.T) {
	const (
		moulded = 50.
		rounded = .0011 // two figures to three places
	)
	s := ship{rows: []frame.Row{plainRow(1, boat.Port), plainRow(2, boat.Port), tapedRow(3, boat.Port, 900)},
		patterns: []pattern.Rows{arcOf(1, boat.Port, 1300, 0), flaring(2, boat.Port, 1100)}}
	r := s.run(t)
	for _, c := range []struct {
		no          int
		bend        string
		arc, within float64 // within what the arc was read
		depth       float64
	}{{1, "bilge", 1300, 10, moulded}, {2, "hollow", 1100, 10, 0}, {3, "bilge", 900, 10, moulded}} {
		m := measuresOf(t, r, c.no, boat.Port)
		if !inOrder(m.TightestRadiusMM, m.TightestRadiusLowMM, m.TightestRadiusHighMM) || m.TightestBend != c.bend {
			t.Fatalf("frame %d: %+v", c.no, m.Shown)
		}
		if math.Abs(*m.TightestRadiusMM-c.arc+c.depth) > c.within {
			t.Errorf("frame %d: a radius of %v", c.no, *m.TightestRadiusMM)
		}
		for what, pair := range map[string][2]*float64{"radius": {m.TightestRadiusMM, m.LeastRadiusMM}, "low end": {m.TightestRadiusLowMM, m.LeastRadiusLowMM},
			"high end": {m.TightestRadiusHighMM, m.LeastRadiusHighMM}} {
			if math.Abs(*pair[0]-*pair[1]+c.depth) > rounded {
				t.Errorf("frame %d: the %s is %v where the faying face has %v", c.no, what, *pair[0], *pair[1])
			}
		}
		if taped := c.no == 3; (m.Sharp == nil) != taped || (m.TightestAtMM == nil) != taped {
			t.Errorf("frame %d: %+v", c.no, m.Shown)
		}
		if m.GreatestBevelLowDeg != nil || m.ExtraMouldingHighMM != nil {
			t.Errorf("frame %d: a bevel without lines: %+v", c.no, m.Shown)
		}
	}
}

// Where no piece so deep can follow the bend there is no laminate to tell of, and the faying face's radius stands.
func TestNoLaminateDeeperThanItsBend(t *testing.T) {
	row := plainRow(1, boat.Port)
	row.Moulded = "400"
	s := ship{rows: []frame.Row{row}, patterns: []pattern.Rows{arcOf(1, boat.Port, 300, 0)}}
	m := measuresOf(t, s.run(t), 1, boat.Port)
	if m.TightestRadiusMM != nil || m.TightestRadiusLowMM != nil || m.LeastRadiusMM == nil {
		t.Errorf("%+v", m)
	}
}

// Frames of lines have the ranges of their greatest bevel and of the moulding it asks for about what is told; both widen
// with the grain, both sides of a boat alike have the same, and a frame that lies flat has none.
func TestTheRangesOfBevelAndMoulding(t *testing.T) {
	canted, flat, faired := plainRow(3, boat.Both), plainRow(4, boat.Both), plainRow(5, boat.Both)
	canted.CantDeg, flat.Run, faired.Target = "15", "500", frame.Faired
	between := plainRow(2, boat.Both)
	between.X = "2400"
	var fine takeoff.Result
	for _, grain := range []string{"1", "4"} {
		doc := round(0)
		doc.Grain = grain
		r := ship{lines: &doc, rows: []frame.Row{plainRow(1, boat.Both), between, canted, flat, faired}}.run(t)
		for no := 1; no <= 5; no++ {
			port, starboard := measuresOf(t, r, no, boat.Port), measuresOf(t, r, no, boat.Starboard)
			mirrored := starboard.Shown
			if p := mirrored.OneMorePoint; p != nil {
				q := *p
				q.Side = boat.Port
				mirrored.OneMorePoint = &q
			}
			if d := cmp.Diff(port.Shown, mirrored); d != "" {
				t.Errorf("frame %d differs between the sides: %s", no, d)
			}
			if !inOrder(port.TightestRadiusMM, port.TightestRadiusLowMM, port.TightestRadiusHighMM) || port.Sharp == nil {
				t.Errorf("frame %d: %+v", no, port.Shown)
			}
			if no == 4 {
				if port.GreatestBevelLowDeg != nil || port.GreatestBevelHighDeg != nil || port.ExtraMouldingLowMM != nil || port.ExtraMouldingHighMM != nil {
					t.Errorf("a bevel range of a flat frame: %+v", port.Shown)
				}
				continue
			}
			if !inOrder(port.GreatestBevelDeg, port.GreatestBevelLowDeg, port.GreatestBevelHighDeg) || !inOrder(port.ExtraMouldingMM, port.ExtraMouldingLowMM, port.ExtraMouldingHighMM) {
				t.Fatalf("frame %d: %+v", no, port)
			}
			of := func(deg float64) float64 { return 45 * math.Abs(math.Tan(deg*math.Pi/180)) }
			low, high := *port.GreatestBevelLowDeg, *port.GreatestBevelHighDeg
			least, most := min(of(low), of(high)), max(of(low), of(high))
			if low < 0 && high > 0 {
				least = 0
			}
			if math.Abs(*port.ExtraMouldingLowMM-least) > .002 || math.Abs(*port.ExtraMouldingHighMM-most) > .002 {
				t.Errorf("frame %d: %v to %v mm for %v to %v degrees", no, *port.ExtraMouldingLowMM, *port.ExtraMouldingHighMM, low, high)
			}
			if grain == "1" {
				continue
			}
			was := measuresOf(t, fine, no, boat.Port)
			if high-low <= *was.GreatestBevelHighDeg-*was.GreatestBevelLowDeg {
				t.Errorf("frame %d: four times the grain leaves the bevel from %v to %v degrees", no, low, high)
			}
			if *port.TightestRadiusHighMM / *port.TightestRadiusLowMM <= *was.TightestRadiusHighMM / *was.TightestRadiusLowMM {
				t.Errorf("frame %d: four times the grain leaves the laminate from %v to %v mm", no, *port.TightestRadiusLowMM, *port.TightestRadiusHighMM)
			}
		}
		fine = r
	}
}

// sparse is a hull of stations alike, flat floor and plumb side with an arc of 200 mm between on which no point falls.
func sparse() offsets.Document {
	doc := offsets.Document{Notation: notation.Millimetres, Grain: "1", Surface: offsets.Inside}
	for no := range 4 {
		side := offsets.SideOffsets{Side: boat.Both, Rabbet: &offsets.EndOffsets{Height: "0", HalfBreadth: "0"}, Sheer: &offsets.EndOffsets{Height: "1200", HalfBreadth: "1000"}}
		for _, z := range []string{"240", "480", "720", "960"} {
			side.Waterlines = append(side.Waterlines, offsets.WaterlineOffsets{Height: z, HalfBreadth: "1000"})
		}
		for _, y := range []string{"200", "400", "600", "800"} {
			side.Buttocks = append(side.Buttocks, offsets.ButtockOffsets{HalfBreadth: y, Height: "0"})
		}
		doc.Stations = append(doc.Stations, offsets.StationOffsets{No: no, X: fmt.Sprint(no * 1000), Sides: []offsets.SideOffsets{side}})
	}
	return doc
}

// A frame whose bend its stations do not show tells where, along its own girth, and at which station one more point would
// help, wherever it stands; a pattern asks for one of its own, the mirrored of the other side's.
func TestFramesTellHowWellTheirBendIsShown(t *testing.T) {
	const floor, side = 800.0, 800 + 200*math.Pi/2 // the arc lies between, along the girth
	doc := sparse()
	between, flat, faired := plainRow(2, boat.Port), plainRow(3, boat.Port), plainRow(5, boat.Port)
	between.X, flat.X, flat.Run, faired.X, faired.Target = "1400", "1500", "300", "1600", frame.Faired
	s := ship{lines: &doc, rows: []frame.Row{plainRow(1, boat.Port), between, flat, faired}}
	b := s.basis(t)
	for m, c := range b.Remedies { // what is told of a frame does not rest on what is done to it
		c.Remedy = boat.Leave
		b.Remedies[m] = c
	}
	r, err := takeoff.Run(b)
	if err != nil {
		t.Fatal(err)
	}
	for no, stations := range map[int][]int{1: {1}, 2: {1, 2}, 3: {1, 2}, 5: {1, 2}} {
		m := measuresOf(t, r, no, boat.Port)
		if m.Sharp == nil || *m.Sharp || len(m.NotShownAtMM) != len(stations) || m.OneMorePoint == nil {
			t.Fatalf("frame %d: %+v", no, m.Shown)
		}
		for _, at := range append(m.NotShownAtMM, m.OneMorePoint.AtMM) {
			if at < floor || at > side+100 { // a flat frame is the longer for its run
				t.Errorf("frame %d: %v is not on the arc", no, at)
			}
		}
		p := m.OneMorePoint
		if p.StationNo == nil || *p.StationNo != stations[0] || p.XMM != 1000 || p.Side != boat.Port || p.HalfBreadthMM < 800 || p.HeightMM > 200 {
			t.Errorf("frame %d: one more point at %+v", no, p)
		}
	}

	few := pattern.Rows{FrameNo: 1, Side: boat.Starboard}
	for i, at := range [][2]string{{"0", "0"}, {"200", "0"}, {"400", "0"}, {"600", "0"}, {"800", "0"}, {"1000", "240"}, {"1000", "480"}, {"1000", "720"}, {"1000", "960"}, {"1000", "1200"}} {
		few.Points = append(few.Points, pattern.Row{N: i + 1, Y: at[0], Z: at[1]})
	}
	mirrored := plainRow(1, boat.Port)
	mirrored.Target, mirrored.BetterSide = frame.BetterSideMirrored, boat.Starboard
	r = ship{rows: []frame.Row{plainRow(1, boat.Starboard), mirrored, plainRow(2, boat.Starboard)}, patterns: []pattern.Rows{few, arcOf(1, boat.Port, 1250, 0), arcOf(2, boat.Starboard, 1300, 0)}}.run(t)
	own, other, shown := measuresOf(t, r, 1, boat.Starboard), measuresOf(t, r, 1, boat.Port), measuresOf(t, r, 2, boat.Starboard)
	if *own.Sharp || own.OneMorePoint == nil || own.OneMorePoint.StationNo != nil || own.OneMorePoint.Side != boat.Starboard || own.OneMorePoint.XMM != 1000 {
		t.Errorf("a pattern of few points: %+v", own.Shown)
	}
	if d := cmp.Diff(own.Shown, other.Shown); d != "" {
		t.Errorf("its mirrored: %s", d)
	}
	if !*shown.Sharp || shown.OneMorePoint != nil || shown.NotShownAtMM != nil {
		t.Errorf("a pattern of many points: %+v", shown.Shown)
	}
	if _, err := json.Marshal(r.Frames); err != nil {
		t.Error(err)
	}
}
