package pdf_test

import (
	"testing"
	"time"

	"ribband/pdf"
)

// BenchmarkWriteEstimate reports how many times as long 700 lines take as an
// estimate of one empty sheet, which is nearly all reading of the two faces.
func BenchmarkWriteEstimate(b *testing.B) {
	var spent [2]time.Duration
	long, empty := withLines(700), pdf.Estimate{}
	for b.Loop() {
		for i, e := range []pdf.Estimate{long, empty} {
			start := time.Now()
			if _, err := pdf.WriteEstimate(e); err != nil {
				b.Fatal(err)
			}
			spent[i] += time.Since(start)
		}
	}
	b.ReportMetric(float64(spent[0])/float64(spent[1]), "long/empty")
}
