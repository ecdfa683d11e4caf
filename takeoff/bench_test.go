package takeoff_test

import (
	"testing"
	"time"

	"ribband/seed"
	"ribband/takeoff"
	"ribband/takeoff/hull/hulltest"
)

// The whole takeoff of the demo boat, from her written offsets to hours, against the fair curves of her stations
// alone, in one run: what everything beside the fits costs.
func BenchmarkTakeoffAgainstItsFits(b *testing.B) {
	d, err := seed.Load()
	if err != nil {
		b.Fatal(err)
	}
	table := hulltest.Read(b, &d.Hull)
	basis := demoBasis(b, 1)
	var fits, whole time.Duration
	for b.Loop() {
		start := time.Now()
		h := hulltest.Fit(b, table)
		fitted := time.Since(start)
		basis.Hull = h
		if _, err := takeoff.Run(basis); err != nil {
			b.Fatal(err)
		}
		fits += fitted
		whole += time.Since(start)
	}
	b.ReportMetric(float64(whole)/float64(fits), "x_fits")
	b.ReportMetric(float64(fits.Microseconds())/float64(b.N), "fits_us")
}
