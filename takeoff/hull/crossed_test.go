package hull_test

import (
	"testing"

	"ribband/takeoff/boat"
	"ribband/takeoff/hull"
	"ribband/takeoff/hull/hulltest"
	"ribband/takeoff/hull/offsets"
)

// A hull whose outside is written down to the centreline has no room for the inside of her planks there: the lowest mark
// of every station between her ends is named, and lies on the centreline. Written to the inside she is taken as she stands.
func TestMarksAcrossTheCentreline(t *testing.T) {
	w := wigley{7300, 2400, 900}
	fitted := func(face string) (*hull.Hull, *offsets.Table) {
		o := hulltest.Read(t, planked(w, face, 25, 13))
		h := hulltest.Fit(t, o)
		return h, o
	}
	h, o := fitted(offsets.Outside)
	in, err := hull.ToFace(o, offsets.Inside)
	if err != nil {
		t.Fatal(err)
	}
	named := map[int]bool{}
	for _, c := range h.Crossed() {
		if c.Side != boat.Both || c.Over <= 0 || c.Over > 25*1.5 {
			t.Errorf("%+v", c)
		}
		for _, m := range in.Stations[c.Station].Port {
			if m.Cell == c.Cell && m.Y.MM() != 0 {
				t.Errorf("station %d %s lies at %v", c.Station, c.Cell, m.Y)
			}
		}
		named[c.Station] = named[c.Station] || c.Cell == "rabbet"
	}
	for no := 1; no < 12; no++ {
		if !named[no] {
			t.Errorf("the rabbet of station %d is not named", no)
		}
	}
	if h, _ := fitted(offsets.Inside); h.Crossed() != nil {
		t.Errorf("nothing was moved, and %v", h.Crossed())
	}
}
