package pdf_test

import (
	"testing"

	"ribband/pdf"
)

// BenchmarkWriteEstimate reports how many times as long 700 lines take as an
// estimate of one empty sheet, which is nearly all reading of the two faces.
func BenchmarkWriteEstimate(b *testing.B) {
	long, empty := withLines(700), pdf.Estimate{}
	run := func(e pdf.Estimate) float64 {
		r := testing.Benchmark(func(b *testing.B) {
			for b.Loop() {
				if _, err := pdf.WriteEstimate(e); err != nil {
					b.Fatal(err)
				}
			}
		})
		return float64(r.NsPerOp())
	}
	for b.Loop() {
		b.ReportMetric(run(long)/run(empty), "long/empty")
	}
}
