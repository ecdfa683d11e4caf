package hull_test

import (
	"math"
	"testing"

	"ribband/takeoff/boat"
	"ribband/takeoff/hull"
	"ribband/takeoff/hull/hulltest"
)

// sheetApart is by how much a sheet may differ from the surface it was read from, of the greatest of a jet's own figures:
// both are the same polynomials, summed in another order.
const sheetApart = 1e-10

func TestASheetIsTheSurface(t *testing.T) {
	us := []float64{-1, 0, .013, .25, .5, .777, 1, 2}
	for _, h := range sheetHulls(t) {
		s, err := h.Surface(boat.Port)
		if err != nil {
			t.Fatal(err)
		}
		sheet := s.Sheet(us)
		got, want := make([]hull.Jet, len(us)), make([]hull.Jet, len(us))
		forward, aft := s.Reach()
		places := append(s.Stations(), forward-1, aft+1)
		for i := range 50 {
			places = append(places, forward+(aft-forward)*(float64(i)+.37)/50)
		}
		for _, x := range places {
			sheet.Along(x, 0, got)
			s.Along(x, us, want)
			for k := range us {
				g, w := figuresOf(got[k]), figuresOf(want[k])
				for i, large := range [][]int{{0, 1}, {2, 3}, {4, 5}, {6, 7}} {
					size := 1e-6
					for _, j := range large {
						size = max(size, math.Abs(w[j]))
					}
					for _, j := range large {
						if d := math.Abs(g[j] - w[j]); !(d <= sheetApart*max(1, size)) {
							t.Fatalf("x %v, u %v, pair %d: %v and %v", x, us[k], i, got[k], want[k])
						}
					}
				}
			}
		}
		some := make([]hull.Jet, len(us))
		sheet.Along(forward+1, 0, got)
		sheet.Along(forward+1, 3, some)
		if some[0] != got[3] || some[4] != got[7] || some[5] != (hull.Jet{}) {
			t.Errorf("from the fourth on: %v of %v", some, got)
		}
		sheet.Along(math.NaN(), 0, got)
		if !math.IsNaN(got[3].Y) || !math.IsNaN(got[3].Zx) {
			t.Errorf("nowhere: %v", got[3])
		}
		if n := testing.AllocsPerRun(5, func() { sheet.Along(forward+1, 0, got) }); n > 0 {
			t.Errorf("%v allocations", n)
		}
	}
}

func figuresOf(j hull.Jet) [8]float64 {
	return [8]float64{j.Y, j.Z, j.Yu, j.Zu, j.Yuu, j.Zuu, j.Yx, j.Zx}
}

// A round hull of many stations, one of three, and one with knuckles that stand elsewhere at every station.
func sheetHulls(t *testing.T) []*hull.Hull {
	w := wigley{9000, 2600, 1100}
	return []*hull.Hull{w.hull(t, 13, 9), w.hull(t, 3, 9), hulltest.Hull(t, chined(quarters, 4, widening))}
}
