package takeoff_test

import (
	"testing"
	"time"

	"ribband/seed"
	"ribband/takeoff"
	bending "ribband/takeoff/bend"
	"ribband/takeoff/boat"
	"ribband/takeoff/hull/hulltest"
)

// The demo boat with all frames glued up new, from her written offsets: the takeoff as a multiple of the hull's measures
// alone, and one form beside it, all timed in the same run.
func BenchmarkFramesAgainstTheHullsMeasures(b *testing.B) {
	d, err := seed.Load()
	if err != nil {
		b.Fatal(err)
	}
	table := hulltest.Read(b, &d.Hull)
	basis := demoBasis(b, 1)
	var xs []float64
	for _, f := range basis.Frames {
		if f.Side == boat.Port {
			xs = append(xs, f.X.InexactFloat64())
		}
	}
	var fits, measures, frames, form time.Duration
	for b.Loop() {
		start := time.Now()
		h := hulltest.Fit(b, table)
		fitted := time.Now()
		measured(b, h, xs)
		done := time.Now()
		basis.Hull = h
		r, err := takeoff.Run(basis)
		if err != nil {
			b.Fatal(err)
		}
		ran := time.Now()
		if _, err := basis.Form(r, takeoff.FormQuestion{Member: frameNo(12, boat.Port), Face: bending.Inner, Pitch: 100}); err != nil {
			b.Fatal(err)
		}
		form += time.Since(ran)
		fits, measures, frames = fits+fitted.Sub(start), measures+done.Sub(fitted), frames+ran.Sub(done)
	}
	alone := float64(fits + measures)
	b.ReportMetric((float64(fits)+float64(frames))/alone, "frames_x_measures")
	b.ReportMetric(float64(form)/alone, "form_x_measures")
}
