package takeoff_test

import (
	"fmt"
	"math"
	"testing"
	"time"

	"ribband/takeoff/boat"
	"ribband/takeoff/hull"
	"ribband/takeoff/hull/area"
	"ribband/takeoff/hull/fairness"
	"ribband/takeoff/hull/hulltest"
	"ribband/takeoff/hull/offsets"
	"ribband/takeoff/hull/strake"
	"ribband/takeoff/notation"
)

// A parabolic hull of so many frames, each a station of 13 points a side, written to the millimetre and not alike on both
// sides, so that either is fitted.
func manyFrames(b testing.TB, frames int) *offsets.Table {
	b.Helper()
	const length, depth = 12000., 1200.
	doc := offsets.Document{Notation: notation.Millimetres, Grain: "1", Surface: offsets.Inside}
	for no := range frames {
		x := length * float64(no) / float64(frames-1)
		s := offsets.StationOffsets{No: no, X: fmt.Sprintf("%.3f", x)}
		for i, side := range boat.Sides {
			across := (1300 + 10*float64(i)) * (1 - math.Pow(1.8*x/length-.9, 2))
			o := offsets.SideOffsets{Side: side}
			for k := range 13 {
				t := float64(k) / 12
				y, z := fmt.Sprintf("%.0f", 60+across*math.Sin(t*math.Pi/2)), fmt.Sprintf("%.0f", depth*(1-math.Cos(t*math.Pi/2)))
				switch k {
				case 0:
					o.Rabbet = &offsets.EndOffsets{HalfBreadth: y, Height: z}
				case 12:
					o.Sheer = &offsets.EndOffsets{HalfBreadth: y, Height: z}
				default:
					o.Waterlines = append(o.Waterlines, offsets.WaterlineOffsets{HalfBreadth: y, Height: z})
				}
			}
			s.Sides = append(s.Sides, o)
		}
		doc.Stations = append(doc.Stations, s)
	}
	return hulltest.Read(b, &doc)
}

// measured is every measure of a fitted hull: sections with their areas, tightest laminates, bevels and blanks at all
// frames, area and volume with their ranges and the trade's sums beside, bays, what a waterline cuts off, and twelve strakes
// a side.
func measured(b testing.TB, h *hull.Hull, xs []float64) {
	b.Helper()
	e, err := strake.Equal(12)
	if err != nil {
		b.Fatal(err)
	}
	for _, side := range boat.Sides {
		for _, x := range xs {
			s, err := h.Section(x, side)
			if err != nil {
				b.Fatal(err)
			}
			if _, err := s.GreatestBevel(hull.Abaft); err != nil {
				b.Fatal(err)
			}
			if _, _, err := s.EnclosingRectangle(50); err != nil {
				b.Fatal(err)
			}
			if _, _, err := s.Tightest(50); err != nil {
				b.Fatal(err)
			}
			s.Area(1)
		}
		surface, err := h.Surface(side)
		if err != nil {
			b.Fatal(err)
		}
		d := area.New(surface, 1)
		for i := range xs[1:] {
			if _, err := d.Part(area.Between(xs[i], xs[i+1])); err != nil {
				b.Fatal(err)
			}
		}
		var girths []hull.Reading
		for _, m := range h.Measures() {
			if m.Section.Side == side {
				girths = append(girths, m.Section.Girth)
			}
		}
		if _, err := d.Sure(girths); err != nil {
			b.Fatal(err)
		}
		if _, err := d.Beside(); err != nil {
			b.Fatal(err)
		}
		if _, err := d.Part(area.Below(600)); err != nil {
			b.Fatal(err)
		}
		if _, err := strake.Lay(surface, e, strake.Places(surface, 32, xs...)); err != nil {
			b.Fatal(err)
		}
	}
}

// read is the bare readings of the stations' curves that the measures rest on: each once, at every frame for its section,
// at six places a bay, and at every place of the strakes.
func read(b testing.TB, h *hull.Hull, xs []float64) {
	b.Helper()
	us := make([]float64, 301)
	for i := range us {
		us[i] = float64(i) / 300
	}
	jets := make([]hull.Jet, 301)
	for _, side := range boat.Sides {
		s, err := h.Surface(side)
		if err != nil {
			b.Fatal(err)
		}
		for _, x := range xs {
			s.Along(x, us, jets)
		}
		for i := range xs[1:] {
			for k := range 6 {
				s.Along(xs[i]+(xs[i+1]-xs[i])*(float64(k)+.5)/6, us[:56], jets)
			}
		}
		for _, x := range strake.Places(s, 32, xs...) {
			s.Along(x, us[:25], jets)
		}
	}
}

// BenchmarkMeasuresOverTheirFits is all measures of a two-sided hull from its written offsets, and every offset judged, as a multiple of its fair
// curves and of the bare readings, each timed alone in the same run; then how both grow with the frames, as the slope of
// their logarithms from 17 to 136.
func BenchmarkMeasuresOverTheirFits(b *testing.B) {
	var frames, whole, apart []float64
	for _, n := range []int{17, 34, 68, 136} {
		table := manyFrames(b, n)
		var xs []float64
		for _, s := range table.Stations {
			xs = append(xs, s.X.MM())
		}
		b.Run(fmt.Sprintf("%d frames", n), func(b *testing.B) {
			var fits, reads, all time.Duration
			for b.Loop() {
				start := time.Now()
				h := hulltest.Fit(b, table)
				fitted := time.Now()
				measured(b, h, xs)
				fairness.Judge(table, 1)
				done := time.Now()
				read(b, h, xs)
				fits, reads, all = fits+fitted.Sub(start), reads+time.Since(done), all+done.Sub(start)
			}
			b.ReportMetric(float64(all)/float64(fits+reads), "x_fits_and_readings")
			b.ReportMetric(float64(fits)/float64(all), "fits_share")
			frames, whole, apart = append(frames, math.Log(float64(n))), append(whole, math.Log(float64(all)/float64(b.N))), append(apart, math.Log(float64(fits)/float64(b.N)))
		})
	}
	b.Run("growth", func(b *testing.B) {
		for b.Loop() {
		}
		b.ReportMetric(slope(frames, whole), "power_of_all")
		b.ReportMetric(slope(frames, apart), "power_of_fits")
	})
}

// BenchmarkMeasuresAsFramesAreMore is how all measures grow with the frames of one boat, her thirteen stations staying: the
// slope of their logarithms from 17 to 136. Above, every frame is a station, and each place rests on up to 31 of those on
// either side, so that up to some 60 stations the time grows faster than they do.
func BenchmarkMeasuresAsFramesAreMore(b *testing.B) {
	table := manyFrames(b, 13)
	h := hulltest.Fit(b, table)
	last := table.Stations[12].X.MM()
	var frames, whole []float64
	for _, n := range []int{17, 34, 68, 136} {
		xs := make([]float64, n)
		for i := range xs {
			xs[i] = last * float64(i) / float64(n-1)
		}
		b.Run(fmt.Sprintf("%d frames", n), func(b *testing.B) {
			start := time.Now()
			for b.Loop() {
				measured(b, h, xs)
			}
			frames, whole = append(frames, math.Log(float64(n))), append(whole, math.Log(float64(time.Since(start))/float64(b.N)))
		})
	}
	b.Run("growth", func(b *testing.B) {
		for b.Loop() {
		}
		b.ReportMetric(slope(frames, whole), "power")
	})
}

// slope of the least-squares line.
func slope(xs, ys []float64) float64 {
	var n, sx, sy, sxx, sxy float64
	for i, x := range xs {
		n, sx, sy, sxx, sxy = n+1, sx+x, sy+ys[i], sxx+x*x, sxy+x*ys[i]
	}
	return (n*sxy - sx*sy) / (n*sxx - sx*sx)
}
