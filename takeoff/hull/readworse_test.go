package hull_test

import (
	"math/rand/v2"
	"strconv"
	"testing"

	"ribband/takeoff/boat"
	"ribband/takeoff/hull"
	"ribband/takeoff/hull/hulltest"
)

// misread is a hull of circular sections written to 3 mm, every half-breadth read wrong by up to so many mm.
func misread(t *testing.T, wrong float64) *hull.Hull {
	r := rand.New(rand.NewPCG(5, 5))
	tb := exactTable()
	tb.doc.Grain = "3"
	for i := range 8 {
		s := arc(boat.Both, 20, 1000+40*float64(i), 1000, 0.1, 1.5, 13)
		for j := range s.Waterlines {
			v, err := strconv.ParseFloat(s.Waterlines[j].HalfBreadth, 64)
			if err != nil {
				t.Fatal(err)
			}
			s.Waterlines[j].HalfBreadth = mm(v + wrong*(2*r.Float64()-1))
		}
		tb.station(1000*float64(i), s)
	}
	return hulltest.Hull(t, &tb.doc)
}

// A table read worse than it was written is told of, with how much worse, and its ranges are the wider for it.
func TestReadWorse(t *testing.T) {
	well, badly := misread(t, 0), misread(t, 6)
	if multiple, grain, worse := well.ReadWorse(); worse || multiple != 1 || grain != 3 {
		t.Errorf("read well: %v, %v, %v", multiple, grain, worse)
	}
	multiple, _, worse := badly.ReadWorse()
	// even errors of up to 6 mm have a standard deviation of 3.5 mm, a grain of 3 mm one of 0.87
	if !worse || multiple < 2 || multiple > 6 {
		t.Errorf("read up to 6 mm wrong: %v, %v", multiple, worse)
	}
	a, b := section(t, well, 3000, boat.Port).Bilge.Radius(), section(t, badly, 3000, boat.Port).Bilge.Radius()
	if !(b.High/b.Low > a.High/a.Low) {
		t.Errorf("the range is %v read badly and %v read well", b, a)
	}
}
