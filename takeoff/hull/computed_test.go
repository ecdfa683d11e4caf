package hull_test

import (
	"encoding/csv"
	"fmt"
	"math"
	"os"
	"strconv"
	"strings"
	"testing"

	"ribband/takeoff/boat"
	"ribband/takeoff/hull"
	"ribband/takeoff/hull/hulltest"
	"ribband/takeoff/hull/offsets"
	"ribband/takeoff/notation"
)

func rowsOf(t *testing.T, path string) [][]string {
	t.Helper()
	f, err := os.Open("../../testdata/published/computed-rabbet-sheer-hull-r1/" + path)
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	rows, err := csv.NewReader(f).ReadAll()
	if err != nil {
		t.Fatal(err)
	}
	return rows[1:]
}

// r1 is the table of the computed rabbet-to-sheer hull in the long layout: as written, or exact in metres, with its
// diagonal or without.
func r1(t *testing.T, exactly, diagonal bool) []byte {
	var b strings.Builder
	b.WriteString("station_no,x,side,line,value\n")
	named := ""
	for _, r := range rowsOf(t, "offsets.csv") {
		feet := func(s string) float64 {
			v, err := strconv.ParseFloat(s, 64)
			if err != nil {
				t.Fatal(err)
			}
			return v
		}
		length := func(ft float64) string {
			if exactly {
				return fmt.Sprintf("%.6f", ft*0.3048)
			}
			l, err := notation.FromMM(ft * 304.8)
			if err != nil {
				t.Fatal(err)
			}
			return notation.FeetInchesEighths.Format(l)
		}
		line := ""
		switch h, wl := strings.CutPrefix(r[3], "WL "); {
		case wl:
			line = "wl:" + length(feet(h))
		case r[3] == "rabbet" || r[3] == "sheer":
			line = r[3] + "_" + strings.ReplaceAll(r[4], "-", "_")
		case !diagonal:
			continue
		default:
			var deg, z float64
			if _, err := fmt.Sscanf(r[3], "diagonal %fdeg from centreline at %f", &deg, &z); err != nil {
				t.Fatalf("%q: %v", r[3], err)
			}
			line = "diagonal:A"
			if named == "" {
				fmt.Fprintf(&b, ",,,diagonal_height:A,%s\n,,,diagonal_angle:A,%g\n", length(feet(fmt.Sprint(z))), deg)
			} else if named != r[3] {
				t.Fatalf("a second diagonal, %q", r[3])
			}
			named = r[3]
		}
		value := r[5]
		if exactly {
			value = length(feet(r[6]))
		}
		fmt.Fprintf(&b, "%s,%s,both,%s,%s\n", r[1], length(feet(r[2])), line, value)
	}
	return []byte(b.String())
}

// r1As is how that table is written.
func r1As(exactly bool) offsets.Written {
	if exactly {
		return offsets.Written{Notation: notation.Metres, Grain: "0", Surface: offsets.Inside}
	}
	return offsets.Written{Notation: notation.FeetInchesEighths, Grain: "0-0-1", Surface: offsets.Inside}
}

// Girths of the computed hull from its table, with the marks on its diagonal and without them: exact figures to what exact points of a few waterlines allow, figures
// in eighths to what fair-curve acceptance allows for written points. Sources: see SOURCE.md there.
func TestComputedHull(t *testing.T) {
	const (
		// Eight to nine points of a parabola, written to a thousandth of a millimetre.
		fromExact = 2e-5
		// One grain and 0.03 %: what is asked of girths from 13 points on; the ends are each out by up to half a
		// grain whatever the fit.
		grains, share = 1.0, 3e-4
	)
	want := map[int]float64{}
	for _, r := range rowsOf(t, "exact.csv") {
		var no int
		if r[1] != "half_girth rabbet to sheer" {
			continue
		}
		if _, err := fmt.Sscanf(r[2], "station %d ", &no); err != nil {
			t.Fatal(err)
		}
		v, err := strconv.ParseFloat(r[3], 64)
		if err != nil {
			t.Fatal(err)
		}
		want[no] = v * 304.8
	}
	if len(want) != 13 {
		t.Fatalf("%d exact girths", len(want))
	}
	for _, c := range []struct{ exactly, diagonal bool }{{true, false}, {true, true}, {false, false}, {false, true}} {
		exactly := c.exactly
		doc, o, faults := offsets.ReadCSV(r1(t, exactly, c.diagonal), r1As(exactly))
		if len(faults) > 0 {
			t.Fatal(faults)
		}
		crossed := 0
		for _, s := range doc.Stations {
			crossed += len(s.Sides[0].Diagonals)
		}
		if want := map[bool]int{true: 11}[c.diagonal]; crossed != want {
			t.Errorf("the diagonal crosses %d stations, not %d", crossed, want)
		}
		h := hulltest.Fit(t, o)
		if !exactly && !c.diagonal {
			besideSplines(t, h, want)
		}
		for _, m := range h.Measures() {
			w := want[m.Station]
			allowed := fromExact * w
			if !exactly {
				allowed = grains*3.175 + share*w
			}
			if d := m.Section.Girth.MM - w; math.Abs(d) > allowed {
				t.Errorf("exact %v, diagonal %v, station %d %s: girth %.3f mm, out by %.3f (%.3f allowed)", exactly, c.diagonal, m.Station, m.Section.Side, m.Section.Girth.MM, d, allowed)
			}
		}
		// Amidships the section is the parabola of B/H^2 and bends tightest at the sheer.
		s := section(t, h, 13*304.8, boat.Port)
		k := 8.5 / (4.5 * 4.5) / 304.8
		slope := k * (4.5 - 0.8*4.5) * 304.8
		least := math.Pow(1+slope*slope, 1.5) / k
		r := s.Least().Radius()
		if !(r.Low <= least && least <= r.High) {
			t.Errorf("exact %v: least radius %.1f is not between %.1f and %.1f", exactly, least, r.Low, r.High)
		}
	}
}

// besideSplines holds the girths of the table in eighths to what a spline through the points keeps to, and to being better
// as a whole than straight lines and about as good as either spline: most of what is left are the roundings of the ends,
// which every way has. Figures: testdata/published/girth-methods-computed.
func besideSplines(t *testing.T, h *hull.Hull, exact map[int]float64) {
	t.Helper()
	const (
		within = 0.15 // per cent
		about  = 1.1  // seen: 1.05
	)
	f, err := os.Open("../../testdata/published/girth-methods-computed/errors.csv")
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	rows, err := csv.NewReader(f).ReadAll()
	if err != nil {
		t.Fatal(err)
	}
	off := map[int]float64{}
	for _, m := range h.Measures() {
		off[m.Station] = 100 * (m.Section.Girth.MM/exact[m.Station] - 1)
	}
	var mine float64
	var others [3]float64
	seen := 0
	for _, r := range rows[1:] {
		no, ok := strings.CutPrefix(r[0], "R1 station ")
		if !ok {
			continue
		}
		i, err := strconv.Atoi(no)
		if err != nil {
			t.Fatal(err)
		}
		seen++
		mine += off[i] * off[i]
		for k := range others {
			v, err := strconv.ParseFloat(r[2+k], 64)
			if err != nil {
				t.Fatal(err)
			}
			others[k] += v * v
		}
		if math.Abs(off[i]) > within {
			t.Errorf("station %d: girth out by %.3f %%", i, off[i])
		}
	}
	if seen != 13 || mine > others[0] || mine > about*min(others[1], others[2]) {
		t.Errorf("%d sections: squares of the errors %.5f, by straight lines and splines %.5f", seen, mine, others)
	}
}
