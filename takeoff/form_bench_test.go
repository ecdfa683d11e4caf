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

// The demo boat with all frames glued up new, from her written offsets: fit, sections, the choice of thickness, the bill and
// the gluing plan, as a multiple of the hull's measures alone; beside it one form, and the forms of all 68 frames and sides,
// all timed in the same run. At most twice is wanted of frames and one form together.
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
	var fits, measures, frames, form, forms time.Duration
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
		if r.Gluing.Plan == nil || len(r.Ripping.Thicknesses) == 0 {
			b.Fatal("nothing was chosen, or nothing planned")
		}
		ran := time.Now()
		for i, f := range basis.Frames {
			if _, err := basis.Form(r, takeoff.FormQuestion{Member: f.Member(), Face: bending.Inner, Pitch: 100}); err != nil {
				b.Fatal(err)
			}
			if i == 0 {
				form += time.Since(ran)
			}
		}
		forms += time.Since(ran)
		fits, measures, frames = fits+fitted.Sub(start), measures+done.Sub(fitted), frames+ran.Sub(done)
	}
	alone := float64(fits + measures)
	b.ReportMetric((float64(fits)+float64(frames))/alone, "frames_x_measures")
	b.ReportMetric((float64(fits)+float64(frames)+float64(form))/alone, "with_a_form_x_measures")
	b.ReportMetric(float64(forms)/alone, "all_forms_x_measures")
}
