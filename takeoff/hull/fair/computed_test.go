package fair_test

import (
	"encoding/csv"
	"fmt"
	"math"
	"os"
	"path/filepath"
	"strconv"
	"strings"
	"testing"

	"ribband/takeoff/hull/fair"
)

// Figures computed for hulls and curves with closed forms; SOURCE.md beside
// them says how.
const computed = "../../../testdata/published/wigley-form-computed"

// table reads a file of figures, a map from column to cell for each row.
func table(t *testing.T, name string) []map[string]string {
	t.Helper()
	f, err := os.Open(filepath.Join(computed, name))
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	rows, err := csv.NewReader(f).ReadAll()
	if err != nil {
		t.Fatal(err)
	}
	var out []map[string]string
	for _, r := range rows[1:] {
		m := map[string]string{}
		for i, c := range r {
			m[rows[0][i]] = c
		}
		out = append(out, m)
	}
	return out
}

func figure(t *testing.T, row map[string]string, column string) float64 {
	t.Helper()
	v, err := strconv.ParseFloat(row[column], 64)
	if err != nil {
		t.Fatalf("%s: %v", column, err)
	}
	return v
}

var millimetres = map[string]float64{"m": 1000, "ft": 304.8, "in": 25.4, "mm": 1}

const (
	// exactGirth is the relative error of the girth of an exact section of
	// twenty waterlines; the points are held to 1e-5 of the girth, and errors
	// along the curve average out.
	exactGirth = 1e-6
	// exactEnd is that of a least radius that lies at an end.
	exactEnd = 0.05
)

func TestParabolicHull(t *testing.T) {
	for _, row := range table(t, "sections.csv") {
		t.Run(fmt.Sprintf("%s hull station %s", row["hull"], row["station"]), func(t *testing.T) {
			mm := millimetres[row["unit"]]
			length, breadth, draught := figure(t, row, "length")*mm, figure(t, row, "breadth")*mm, figure(t, row, "draught")*mm
			x := 2*figure(t, row, "x_from_bow")*mm/length - 1
			var pts []fair.Point
			for i := range 20 {
				up := float64(i) / 19
				p := fair.Point{Y: breadth / 2 * (1 - x*x) * (1 - (1-up)*(1-up)), Z: up * draught, Kind: fair.AtHeight}
				if i == 0 || i == 19 {
					p.Kind = fair.Both
				}
				pts = append(pts, p)
			}
			c, err := fair.Fit(pts, 0)
			if err != nil {
				t.Fatal(err)
			}
			near(t, "girth", c.Girth(), figure(t, row, "half_girth")*mm, exactGirth)
			if row["radius_at_waterline"] == "" {
				if !c.Straight() {
					t.Errorf("the section at an end is a straight line, but the curve is not")
				}
				return
			}
			least, at := c.Least()
			want, wantAt := figure(t, row, "radius_at_waterline")*mm, c.Girth()
			if keel := figure(t, row, "radius_at_keel") * mm; keel < want {
				want, wantAt = keel, 0
			}
			near(t, "least radius", least, want, exactEnd)
			t.Logf("girth off by %.1e, least radius by %.1e", c.Girth()/(figure(t, row, "half_girth")*mm)-1, least/want-1)
			if math.Abs(at-wantAt) > 0.1*c.Girth() {
				t.Errorf("the tightest place is %.0f mm from the keel, want %.0f", at, wantAt)
			}
		})
	}
}

func TestPatternPoints(t *testing.T) {
	const (
		roundings = 1.0    // the two end points' own rounding, in grains
		share     = 0.0003 // the rest, of the girth
	)
	sets := map[string][]fair.Point{}
	for _, row := range table(t, "pattern_points.csv") {
		mm := millimetres[row["unit"]]
		sets[row["pattern"]] = append(sets[row["pattern"]], fair.Point{Y: figure(t, row, "y") * mm, Z: figure(t, row, "z") * mm})
	}
	for _, want := range []struct {
		pattern              string
		grain, girth, radius float64
		sharp                float64 // error allowed of the least radius, which lies at an end in all three
	}{
		{"quarter_ellipse", 1, 1827.82191465103, 578.571428571429, .09},
		{"reverse_curve", 1, 1758.10244529674, 311.332364282820, .13},
		{"parabola", 25.4 / 8, 48.8507045266983 * 25.4, 21.6 * 25.4, .23},
	} {
		t.Run(want.pattern, func(t *testing.T) {
			c, q, err := fair.Judge(sets[want.pattern], want.grain)
			if err != nil {
				t.Fatal(err)
			}
			least, _ := c.Least()
			t.Logf("girth %.2f mm, %.2f out; least radius %.1f, %.1f %% out", c.Girth(), c.Girth()-want.girth, least, 100*(least/want.radius-1))
			allowed := roundings*want.grain + share*want.girth
			if math.Abs(c.Girth()-want.girth) > allowed {
				t.Errorf("girth is %.2f mm, want %.2f within %.2f", c.Girth(), want.girth, allowed)
			}
			near(t, "least radius", least, want.radius, want.sharp)
			if want.girth < q.Girth.Low || want.girth > q.Girth.High {
				t.Errorf("the girth's range %v does not hold the true girth", q.Girth)
			}
			if r := q.Least.Radius; want.radius < r.Low || want.radius > r.High {
				t.Errorf("range %.0f to %.0f mm does not hold the true least radius %.0f", r.Low, r.High, want.radius)
			}
		})
	}
}

// The sections of a canoe of 1889 from five points each, whose truth is not known: straight lines from point to point are no
// longer than the girth but by the points' own rounding, and the range holds what usual curves through the points give. See
// testdata/published/canoe-offsets-1889/SOURCE.md.
func TestGirthsOfAPublishedCanoe(t *testing.T) {
	const grain = 25.4 / 8
	f, err := os.Open("../../../testdata/published/canoe-offsets-1889/girths.csv")
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	rows, err := csv.NewReader(f).ReadAll()
	if err != nil || len(rows) != 11 {
		t.Fatal(len(rows), err)
	}
	for _, r := range rows[1:] {
		var pts []fair.Point
		written := strings.Split(r[1], ";")
		for i, w := range written {
			var y, z float64
			if _, err := fmt.Sscanf(w, "%g,%g", &y, &z); err != nil {
				t.Fatal(err)
			}
			kind := fair.AtHeight
			if i == 0 || i == len(written)-1 {
				kind = fair.Both
			}
			pts = append(pts, fair.Point{Y: y * 25.4, Z: z * 25.4, Kind: kind})
		}
		var w fair.Workspace
		c, q, err := w.Judge(pts, grain)
		if err != nil {
			t.Fatal(err)
		}
		var by [5]float64 // polyline, natural, not-a-knot, monotone, centripetal
		for i := range by {
			if by[i], err = strconv.ParseFloat(r[3+i], 64); err != nil {
				t.Fatal(err)
			}
			by[i] *= 25.4
		}
		if c.Girth() < by[0]-grain {
			t.Errorf("station %s: a girth of %.1f mm, straight lines make %.1f", r[0], c.Girth(), by[0])
		}
		t.Logf("station %s: %.1f, range %.1f to %.1f, curves %.1f", r[0], c.Girth(), q.Girth.Low, q.Girth.High, by)
		for _, g := range by[1:] {
			if g < q.Girth.Low || g > q.Girth.High {
				t.Errorf("station %s: a curve of %.1f mm is not between %.1f and %.1f", r[0], g, q.Girth.Low, q.Girth.High)
			}
		}
	}
}
