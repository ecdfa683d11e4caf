package takeoff_test

import (
	"fmt"
	"math"
	"strings"
	"testing"

	"ribband/takeoff/boat"
	"ribband/takeoff/frame"
	"ribband/takeoff/pattern"
)

// A point of a pattern that is put down wrong is named, with how far it lies off the lines; the others lie on them.
func TestThePointThatMissesTheLinesIsNamed(t *testing.T) {
	doc := round(0)
	const radius, wrong, out = 1000 + 3*37, 9, 40.
	for _, c := range []struct {
		out  float64
		told int
	}{{0, 0}, {out, 1}, {-out, 1}} {
		p := pattern.Rows{FrameNo: 3, Side: boat.Port}
		for i := range 14 {
			r := float64(radius)
			if i+1 == wrong {
				r += c.out
			}
			s, cos := math.Sincos(.13 + (math.Pi/2-.13)*float64(i)/13)
			p.Points = append(p.Points, pattern.Row{N: i + 1, Y: fmt.Sprintf("%.1f", r*s), Z: fmt.Sprintf("%.1f", radius-r*cos)})
		}
		s := ship{lines: &doc, rows: []frame.Row{plainRow(3, boat.Both)}, patterns: []pattern.Rows{p}}
		got := told(s.run(t), "pattern_off_lines")
		if len(got) != c.told {
			t.Fatalf("out by %v: %v", c.out, got)
		}
		if want := fmt.Sprintf("number %d from the heel is the farthest off, by %.0f mm", wrong, out); c.told > 0 && !strings.Contains(got[0].Detail, want) {
			t.Errorf("%q does not say %q", got[0].Detail, want)
		}
	}
}
