package area_test

import (
	"fmt"
	"math"
	"testing"

	"ribband/takeoff/boat"
	"ribband/takeoff/hull"
	"ribband/takeoff/hull/area"
	"ribband/takeoff/hull/offsets"
	"ribband/takeoff/notation"
)

// A chined boat of two flat panels that widens evenly going aft: each panel is a parallelogram.
func TestChine(t *testing.T) {
	const (
		length = 4000.0
		widens = 0.05
		lost   = 1e-8
	)
	doc := offsets.Document{Notation: notation.Millimetres, Grain: "0", Surface: offsets.Inside}
	mm := func(v float64) string { return fmt.Sprintf("%.6f", v) }
	for i := range 4 {
		x := length * float64(i) / 3
		s := offsets.SideOffsets{Side: boat.Both,
			Rabbet:   &offsets.EndOffsets{Height: "0", HalfBreadth: mm(60 + widens*x)},
			Sheer:    &offsets.EndOffsets{Height: "1000", HalfBreadth: mm(860 + widens*x)},
			Knuckles: []offsets.KnuckleOffsets{{Name: "chine", Height: "300", HalfBreadth: mm(660 + widens*x)}},
		}
		for _, z := range []float64{100, 200, 500, 750} {
			y := 60 + 2*z
			if z > 300 {
				y = 660 + (z-300)/3.5
			}
			s.Waterlines = append(s.Waterlines, offsets.WaterlineOffsets{Height: mm(z), HalfBreadth: mm(y + widens*x)})
		}
		doc.Stations = append(doc.Stations, offsets.StationOffsets{No: i, X: mm(x), Sides: []offsets.SideOffsets{s}})
	}
	d := area.New(surface(t, fitted(t, doc)), 0)
	// |(1, widens, 0) x (0, dy, dz)|.
	panel := func(dy, dz float64) float64 {
		return length * math.Sqrt(widens*widens*dz*dz+dz*dz+dy*dy)
	}
	want := panel(600, 300) + panel(200, 700)
	near(t, "area", d.Whole().Area, want, lost)
	near(t, "girths", d.Whole().Girths, length*(math.Hypot(600, 300)+math.Hypot(200, 700)), lost)
	near(t, "up to the middle of the bottom", part(t, d, area.Below(150)).Area, panel(300, 150), lost)
	near(t, "up to above the chine", part(t, d, area.Below(650)).Area, panel(600, 300)+panel(100, 350), lost)
	near(t, "volume", d.Whole().Volume, length*(300*360+700*760+1000*widens*length/2), lost)
	outside, err := d.Outside(area.Everything(), 25)
	if err != nil {
		t.Fatal(err)
	}
	near(t, "outside of flat panels", outside, want, lost)
}

// A skiff of flat panels that tapers evenly: a flat bottom that rises and a leaning side, both planes. Her figures: F1 of
// testdata/published/analytic-hulls-computed.
func TestFlatPanels(t *testing.T) {
	const lost = 1e-7
	doc := offsets.Document{Notation: notation.Metres, Grain: "0", Surface: offsets.Inside}
	m := func(ft float64) string { return fmt.Sprintf("%.6f", ft*foot/metre) }
	for i := range 3 {
		at := func(fore, aft float64) string { return m(fore + (aft-fore)*float64(i)/2) }
		doc.Stations = append(doc.Stations, offsets.StationOffsets{No: i, X: m(3 * float64(i)), Sides: []offsets.SideOffsets{{Side: boat.Both,
			Rabbet:   &offsets.EndOffsets{Height: at(-1.2, -.8), HalfBreadth: "0"},
			Knuckles: []offsets.KnuckleOffsets{{Name: "chine", Height: at(-1.2, -.8), HalfBreadth: at(1.75, 1)}},
			Sheer:    &offsets.EndOffsets{Height: "0", HalfBreadth: at(2.35, 1.4)},
		}}})
	}
	h := fitted(t, doc)
	d := area.New(surface(t, h), 0)
	for x, quantity := range map[float64]string{0: "half_girth station 0 (centreline to sheer)", 6 * foot: "half_girth station L"} {
		strip, err := d.Strip(x, area.Everything())
		if err != nil {
			t.Fatal(err)
		}
		near(t, quantity, strip.Girth, exact(t, "F1", quantity, ""), lost)
	}
	for _, x := range []float64{0, 2 * foot, 6 * foot} {
		s, err := h.Section(x, boat.Port)
		if err != nil {
			t.Fatal(err)
		}
		chine := s.Knuckles()[0].U
		for _, c := range []struct {
			area, bevel string
			from, to    float64
		}{{"bottom panel area, one side", "frame bevel of bottom panel (deg)", 0, chine}, {"side panel area, one side", "frame bevel of side panel (deg)", chine, 1}} {
			w := area.Everything()
			w.Rabbet, w.Sheer = c.from, c.to
			near(t, c.area, part(t, d, w).Area, exact(t, "F1", c.area, ""), lost)
			b, err := s.BevelAt((c.from+c.to)/2, hull.Abaft)
			if err != nil {
				t.Fatal(err)
			}
			near(t, c.bevel, math.Abs(b.Angle), exact(t, "F1", c.bevel, ""), 1e-6)
		}
	}
}
