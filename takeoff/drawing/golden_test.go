package drawing_test

import (
	"bytes"
	"flag"
	"fmt"
	"math"
	"os"
	"path/filepath"
	"regexp"
	"strconv"
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
	hard, uneven := hardChined(t, 0), hardChined(t, 30)
	chined, lopsided := views(drawing.Sheet{}, hard, fitted(t, hard)), views(drawing.Sheet{}, uneven, fitted(t, uneven))
	for name, drawn := range map[string]drawing.Drawing{
		"body-plan-narrow":       d.bodyPlan(drawing.Narrow).Draw(),
		"body-plan-wide":         d.bodyPlan(drawing.Wide).Draw(),
		"profile-narrow":         d.profile(drawing.Narrow).Draw(),
		"profile-wide":           d.profile(drawing.Wide).Draw(),
		"half-breadths-narrow":   d.halfBreadths(drawing.Narrow).Draw(),
		"half-breadths-wide":     d.halfBreadths(drawing.Wide).Draw(),
		"chined-body-plan":       chined["body plan"],
		"chined-profile":         chined["profile"],
		"chined-half-breadths":   chined["half-breadths"],
		"lopsided-half-breadths": lopsided["half-breadths"],
		"planks-narrow":          d.plankExpansion(t, drawing.Narrow, nil).Draw(),
		"planks-wide":            d.plankExpansion(t, drawing.Wide, nil).Draw(),
		"planks-renewed-narrow":  d.renewed(t, drawing.Narrow).Draw(),
		"planks-renewed-wide":    d.renewed(t, drawing.Wide).Draw(),
		"planks-hoods-narrow":    d.hooded(t, drawing.Narrow).Draw(),
		"planks-hoods-wide":      d.hooded(t, drawing.Wide).Draw(),
		"one-frame-narrow":       d.oneFrame(t, drawing.Narrow, 10).Draw(),
		"one-frame-wide":         d.oneFrame(t, drawing.Wide, 10).Draw(),
		"patterns-wide":          d.withPatterns(t, drawing.Wide, 20).Draw(),
		"frame-plan-narrow":      d.framePlan(t, drawing.Narrow, 0).Draw(),
		"frame-plan-wide":        d.framePlan(t, drawing.Wide, 0).Draw(),
		"floors-narrow":          d.floors(t, drawing.Narrow).Draw(),
		"floors-wide":            d.floors(t, drawing.Wide).Draw(),
		"joints-narrow":          d.joints(drawing.Narrow, "feather").Draw(),
		"joints-wide":            d.joints(drawing.Wide, "feather").Draw(),
		"form-narrow":            d.form(t, drawing.Narrow, true).Draw(),
		"form-wide":              d.form(t, drawing.Wide, true).Draw(),
		"ripping-list-narrow":    d.sawn(drawing.Narrow).Draw(),
		"ripping-list-wide":      d.sawn(drawing.Wide).Draw(),
		"cut-sheets-narrow":      cutSheets(drawing.Narrow).Draw(),
		"cut-sheets-wide":        cutSheets(drawing.Wide).Draw(),
		"frame-mixed-narrow":     d.mixedPlan(drawing.Narrow).Draw(),
		"frame-mixed-wide":       d.mixedPlan(drawing.Wide).Draw(),
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
		if why := differs(want, got); why != "" {
			t.Errorf("%s differs from the golden drawing: %s; look at it, and if it is meant, run with -update", name, why)
		}
	}
}

// A processor that multiplies and adds in one step rounds otherwise, which may move a place by one hundredth.
const goldenTolerance = 0.011

var decimals = regexp.MustCompile(`-?[0-9]+(\.[0-9]+)?`)

// differs says where two files say something else, or give numbers further apart than the tolerance.
func differs(want, got []byte) string {
	a, b := decimals.FindAll(want, -1), decimals.FindAll(got, -1)
	if len(a) != len(b) || !bytes.Equal(decimals.ReplaceAll(want, []byte("#")), decimals.ReplaceAll(got, []byte("#"))) {
		return "other lines or words"
	}
	for i := range a {
		x, _ := strconv.ParseFloat(string(a[i]), 64)
		y, _ := strconv.ParseFloat(string(b[i]), 64)
		if math.Abs(x-y) > goldenTolerance {
			return fmt.Sprintf("%s became %s", a[i], b[i])
		}
	}
	return ""
}

// The comparison itself finds what it should.
func TestDiffers(t *testing.T) {
	for _, c := range []struct {
		a, b string
		want bool
	}{
		{"M1.25 3L4 5", "M1.26 3L4 5", false},
		{"M1.25 3L4 5", "M1.28 3L4 5", true},
		{"M1 3L4 5", "M1 3L4 5 6", true},
		{"<text>R</text>", "<text>L</text>", true},
	} {
		if got := differs([]byte(c.a), []byte(c.b)) != ""; got != c.want {
			t.Errorf("%s, %s: %v", c.a, c.b, got)
		}
	}
}
