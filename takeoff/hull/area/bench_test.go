package area_test

import (
	"testing"
	"time"

	"ribband/takeoff/boat"
	"ribband/takeoff/hull"
	"ribband/takeoff/hull/area"
)

// BenchmarkArea measures both sides of a hull of 34 stations, whole and below a level, as multiples of what the same
// number of bare readings of the stations' curves cost: 33 bays of 6 places, 34 curves at 56 fractions each, twice.
func BenchmarkArea(b *testing.B) {
	f := r1()
	h := fitted(b, f.document(table{even(f, 34), 9, false}))
	var sides []*area.Side
	var bare []*hull.Surface
	for _, side := range boat.Sides {
		s, err := h.Surface(side)
		if err != nil {
			b.Fatal(err)
		}
		sides, bare = append(sides, area.New(s, 0)), append(bare, s)
	}
	us, jets := make([]float64, 56), make([]hull.Jet, 56)
	for i := range us {
		us[i] = (float64(i) + .5) / 56
	}
	readBare := func() {
		for _, s := range bare {
			for i := range 33 * 6 {
				s.Along(f.length*(float64(i)+.5)/(33*6), us, jets)
			}
		}
	}
	for _, c := range []struct {
		name string
		of   area.Window
	}{{"whole", area.Everything()}, {"below a level", area.Below(700)}} {
		b.Run(c.name, func(b *testing.B) {
			var measuring, reading time.Duration
			for range b.N {
				start := time.Now()
				for _, d := range sides {
					if _, err := d.Part(c.of); err != nil {
						b.Fatal(err)
					}
				}
				between := time.Now()
				readBare()
				measuring, reading = measuring+between.Sub(start), reading+time.Since(between)
			}
			b.ReportMetric(measuring.Seconds()/reading.Seconds(), "x-bare")
		})
	}
}
