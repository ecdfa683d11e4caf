package quote_test

import (
	"testing"
	"time"

	"ribband/pricing/buy"
	"ribband/seed"
	"ribband/takeoff"
	"ribband/takeoff/frame"
	"ribband/takeoff/hull/hulltest"
	"ribband/takeoff/rules"
)

// BenchmarkBuyingForTaperedFrames tells how long buying for all frames of the demo boat takes, tapering towards the head so
// that laminates run out, as a ratio to the takeoff that asks for them, and how far the plan is above its floor.
func BenchmarkBuyingForTaperedFrames(b *testing.B) {
	d, err := seed.Load()
	if err != nil {
		b.Fatal(err)
	}
	d.Frames.Spacing.MouldedHead = "0-2-0"
	frames, bad := frame.Read(d.Frames)
	if len(bad) > 0 {
		b.Fatal(bad)
	}
	shop, bad := rules.Read(d.Rules)
	if len(bad) > 0 {
		b.Fatal(bad)
	}
	remedies, bad := frame.ReadRemedies(d.Options[1].Remedies, frames, d.Species)
	if len(bad) > 0 {
		b.Fatal(bad)
	}
	h := hulltest.Hull(b, &d.Hull)
	for b.Loop() {
		start := time.Now()
		r, err := takeoff.Run(takeoff.Basis{Hull: h, Frames: frames, Remedies: remedies, Species: d.Species, Steps: d.Steps, Rules: shop})
		if err != nil {
			b.Fatal(err)
		}
		takes := time.Since(start)
		start = time.Now()
		l, err := buy.New(r.Bill.Lines, d.Prices[1], buy.Rules{Kerf: shop.Kerf, EndTrim: shop.EndTrim})
		if err != nil {
			b.Fatal(err)
		}
		buys := time.Since(start)
		b.ReportMetric(float64(buys)/float64(takes), "buying/takeoff")
		b.ReportMetric(float64(l.Cost.Minor()-l.Bound.Minor())/float64(l.Bound.Minor())*100, "%-above-floor")
		b.ReportMetric(float64(len(r.Bill.Lines)), "needs")
	}
}
