package flat_test

import (
	"os"
	"testing"
	"time"

	"ribband/takeoff/cutting/flat"
)

// BenchmarkLongLists solves all lists of the collection within the usual limits, a minute or two; RIBBAND_LONG asks for
// it. Each list's figures go to the log: bound and cost beside what is known. Of the lists of three stages some come out
// below the published figures, bp3_hifi1997a_A3 even below the published bound: here the first cut may run another way on
// each sheet, and there, as it seems, one way in the whole plan.
func BenchmarkLongLists(b *testing.B) {
	if os.Getenv("RIBBAND_LONG") == "" {
		b.Skip("takes minutes: set RIBBAND_LONG")
	}
	for _, pattern := range []string{"vs2*.txt", "bp3*.txt"} {
		b.Run(pattern[:3], func(b *testing.B) { measure(b, shared(b, pattern), flat.Usual) })
	}
}

// measure reports how many lists reach the known bound and the known cost within two hundredths of a per cent, and how
// much below the baseline of shelves, worked out beside, plans cost and how many times as long they take.
func measure(b *testing.B, lists []set, limits flat.Limits) {
	for range b.N {
		bounds, close, below, times, slowest := 0, 0, 0.0, 0.0, time.Duration(0)
		for _, s := range lists {
			start := time.Now()
			p, err := flat.SolveWithin(s.list, limits)
			took := time.Since(start)
			if err != nil {
				b.Fatal(err)
			}
			sound(b, p, s.list)
			start = time.Now()
			shelf, err := flat.Shelves(s.list)
			if err != nil {
				b.Fatal(err)
			}
			times += float64(took) / float64(time.Since(start))
			below += 1 - float64(p.Cost)/float64(shelf.Cost)
			slowest = max(slowest, took)
			if s.ub == 0 { // drawn, nothing is known
				b.Logf("%-20s %d..%d, %v", s.name, p.Bound, p.Cost, took.Round(time.Millisecond))
				continue
			}
			if p.Bound >= s.lb {
				bounds++
			}
			if p.Cost*5000 <= s.ub*5001 {
				close++
			}
			b.Logf("%-20s %d..%d, known %d..%d, %+.4f %%, %v", s.name, p.Bound, p.Cost, s.lb, s.ub, 100*(float64(p.Cost)/float64(s.ub)-1), took.Round(time.Millisecond))
		}
		n := float64(len(lists))
		b.ReportMetric(float64(bounds)/n, "bound-reached")
		b.ReportMetric(float64(close)/n, "within-0.02%")
		b.ReportMetric(100*below/n, "%-below-shelves")
		b.ReportMetric(times/n, "x-shelves'-time")
		b.ReportMetric(slowest.Seconds(), "s-max")
	}
}
