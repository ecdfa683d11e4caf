package strake_test

import (
	"encoding/csv"
	"math"
	"os"
	"strconv"
	"testing"

	"ribband/takeoff/hull"
	"ribband/takeoff/hull/strake"
)

// computed is a figure of testdata/published/analytic-hulls-computed, see its SOURCE.md.
func computed(t *testing.T, hull, quantity string) float64 {
	t.Helper()
	for _, name := range []string{"hulls.csv", "developed.csv"} {
		f, err := os.Open("../../../testdata/published/analytic-hulls-computed/" + name)
		if err != nil {
			t.Fatal(err)
		}
		defer f.Close()
		rows, err := csv.NewReader(f).ReadAll()
		if err != nil {
			t.Fatal(err)
		}
		for _, r := range rows {
			if r[0] == hull && r[1] == quantity {
				v, err := strconv.ParseFloat(r[3], 64)
				if err != nil {
					t.Fatal(err)
				}
				return v
			}
		}
	}
	t.Fatalf("no %s of %s", quantity, hull)
	return 0
}

// A half cone rolls out to a sector: its strakes, laid side by side, turn through the sector's angle, and each stands as
// far from the apex as the sector's radii.
func TestConeIsItsSector(t *testing.T) {
	const c1 = "C1_half_cone_4m_0.4_1.3"
	outer, inner := 1000*computed(t, c1, "developed sector: outer radius"), 1000*computed(t, c1, "developed sector: inner radius")
	angle := computed(t, c1, "developed sector angle (deg)") * math.Pi / 180
	const strakes = 16
	all, err := strake.Lay(cone(400, 1300, 4000), equal(t, strakes), strake.Places(cone(400, 1300, 4000), 16))
	if err != nil {
		t.Fatal(err)
	}
	turned := 0.0
	last := len(all[0].X) - 1
	for _, s := range all {
		towards := func(e []hull.Point) float64 { return math.Atan2(e[last].Z-e[0].Z, e[last].Y-e[0].Y) }
		turn := towards(s.Upper) - towards(s.Lower)
		turned += turn
		chord := func(i int) float64 { return math.Hypot(s.Upper[i].Y-s.Lower[i].Y, s.Upper[i].Z-s.Lower[i].Z) }
		const across = 1e-4 // lengths across sixteen strakes: see TestErrorAcross
		near(t, "inner radius", chord(0)/2/math.Sin(turn/2), inner, across*inner)
		near(t, "outer radius", chord(last)/2/math.Sin(turn/2), outer, across*outer)
		near(t, "edge", s.LengthLower.MM, outer-inner, 1e-6)
	}
	near(t, "angle of the side", turned, angle/2, 1e-5*angle)
	// The areas, with the arcs at the ends that straight ends cut off.
	sum := 0.0
	for _, s := range all {
		turn := angle / 2 / strakes
		sum += s.Area.MM + (outer*outer-inner*inner)/2*(turn-math.Sin(turn))
	}
	want := computed(t, c1, "surface (half frustum)") / 2 * 1e6
	near(t, "area", sum, want, 1e-6*want)
}
