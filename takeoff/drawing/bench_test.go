package drawing_test

import (
	"io"
	"testing"

	"ribband/takeoff/draw"
	"ribband/takeoff/drawing"
	"ribband/takeoff/hull"
)

// Drawing beside fairing: each drawing should cost a small part of what the fair curves cost.
func BenchmarkFit(b *testing.B) {
	d := loadDemo(b)
	for b.Loop() {
		if _, err := hull.Fit(d.offsets); err != nil {
			b.Fatal(err)
		}
	}
}

func BenchmarkBodyPlan(b *testing.B) {
	d := loadDemo(b)
	for b.Loop() {
		if err := draw.WriteSVG(io.Discard, d.bodyPlan(drawing.Wide).Draw().List, "plan"); err != nil {
			b.Fatal(err)
		}
	}
}

func BenchmarkFramePlan(b *testing.B) {
	d := loadDemo(b)
	for b.Loop() {
		if err := draw.WriteSVG(io.Discard, d.mixedPlan(drawing.Wide).Draw().List, "plan"); err != nil {
			b.Fatal(err)
		}
	}
}
