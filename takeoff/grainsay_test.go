package takeoff_test

import (
	"fmt"
	"math"
	"strings"
	"testing"

	"ribband/seed"
	"ribband/takeoff"
	"ribband/takeoff/boat"
	"ribband/takeoff/frame"
	"ribband/takeoff/hull/offsets"
	"ribband/takeoff/notation"
	"ribband/takeoff/pattern"
	"ribband/takeoff/rules"
)

// scattered are patterns of circles written in a notation, every point off the curve by so many mm, now in and now out.
func scattered(t *testing.T, in notation.Notation, grain string, off float64) (*pattern.Fitted, []frame.Frame) {
	t.Helper()
	doc := pattern.Document{Notation: in, Grain: grain, Surface: offsets.Inside}
	rows := frame.Document{Notation: notation.Millimetres, MouldingFace: frame.Forward}
	write := func(mm float64) string {
		l, err := notation.FromMM(mm)
		if err != nil {
			t.Fatal(err)
		}
		return in.Format(l)
	}
	for no := 1; no <= 8; no++ {
		radius := 850 + 10*float64(no)
		p := pattern.Rows{FrameNo: no, Side: boat.Port}
		for i := range 14 {
			r := radius
			if i > 0 && i < 13 {
				r += off * []float64{1, -1, -1, 1, -1, 1, 1}[(i*no+i)%7]
			}
			s, c := math.Sincos(1.5 * float64(i) / 13)
			p.Points = append(p.Points, pattern.Row{N: i + 1, Y: write(20 + r*s), Z: write(radius - r*c)})
		}
		doc.Patterns = append(doc.Patterns, p)
		rows.Frames = append(rows.Frames, frame.Row{No: no, Side: boat.Port, X: fmt.Sprint(400 * no), Siding: "45", Moulded: "50"})
	}
	set, faults := pattern.Read(doc)
	if len(faults) > 0 {
		t.Fatal(faults)
	}
	fitted, faults := set.Fit()
	if len(faults) > 0 {
		t.Fatal(faults)
	}
	frames, faults := frame.Read(rows)
	if len(faults) > 0 {
		t.Fatal(faults)
	}
	return fitted, frames
}

// The grain is told as it was declared, however fine, and what it comes to as it would be declared.
func TestTheGrainOfPatternsReadWorseIsToldInTheirNotation(t *testing.T) {
	d, err := seed.Load()
	if err != nil {
		t.Fatal(err)
	}
	shop, _ := rules.Read(d.Rules)
	for _, c := range []struct {
		in            notation.Notation
		grain         string
		off           float64
		written, come string // what the warning and its fix say
	}{
		{notation.Millimetres, "0.03", .12, "written to 0.03 mm were", "a grain of about 0."},
		{notation.Metres, "0.001", 3, "written to 0.001 m were", "a grain of about 0.0"},
		{notation.Inches, "1/32", 3, "written to 1/32 in were", "/64 in, which"},
		{notation.FeetInchesEighths, "0-0-1", 4, "written to 0-0-1 were", "a grain of about 0-0-"},
	} {
		fitted, frames := scattered(t, c.in, c.grain, c.off)
		r, err := takeoff.Run(takeoff.Basis{Patterns: fitted, Frames: frames, Species: d.Species, Steps: d.Steps, Rules: shop})
		if err != nil {
			t.Fatal(err)
		}
		told := 0
		for _, w := range r.Bill.Warnings {
			if w.Code != "patterns_read_worse" {
				continue
			}
			told++
			if !strings.Contains(w.Detail, c.written) || !strings.Contains(w.Fix, c.come) {
				t.Errorf("%s: %s %s", c.in, w.Detail, w.Fix)
			}
		}
		if told != 1 {
			t.Errorf("%s: told %d times", c.in, told)
		}
	}
}
