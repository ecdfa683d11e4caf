package drawing_test

import (
	"bytes"
	"flag"
	"os"
	"path/filepath"
	"testing"

	"ribband/takeoff/draw"
	"ribband/takeoff/drawing"
)

var update = flag.Bool("update", false, "write the golden drawings anew")

func svg(t testing.TB, l *draw.List) []byte {
	t.Helper()
	var b bytes.Buffer
	if err := draw.WriteSVG(&b, l, "plan"); err != nil {
		t.Fatal(err)
	}
	return b.Bytes()
}

func TestGolden(t *testing.T) {
	d := loadDemo(t)
	for name, drawn := range map[string]drawing.Drawing{
		"body-plan-narrow":   d.bodyPlan(drawing.Narrow).Draw(),
		"body-plan-wide":     d.bodyPlan(drawing.Wide).Draw(),
		"frame-plan-narrow":  d.framePlan(t, drawing.Narrow, 0).Draw(),
		"frame-plan-wide":    d.framePlan(t, drawing.Wide, 0).Draw(),
		"frame-mixed-narrow": d.mixedPlan(drawing.Narrow).Draw(),
		"frame-mixed-wide":   d.mixedPlan(drawing.Wide).Draw(),
	} {
		path := filepath.Join("testdata", "golden", name+".svg")
		got := svg(t, drawn.List)
		if *update {
			if err := os.WriteFile(path, got, 0o644); err != nil {
				t.Fatal(err)
			}
		}
		want, err := os.ReadFile(path)
		if err != nil {
			t.Fatal(err)
		}
		if !bytes.Equal(want, got) {
			t.Errorf("%s differs from the golden drawing; look at it, and if it is meant, run with -update", name)
		}
	}
}
