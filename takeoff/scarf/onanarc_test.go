package scarf_test

import (
	"encoding/csv"
	"math"
	"os"
	"strconv"
	"testing"

	"ribband/takeoff/scarf"
)

// Scarfs on bent members, measured along the middle of their depth: testdata/published/scarf-on-an-arc-computed. The package
// lays a taper along the faying face. One whose length there is the outer arc takes up the same angle of the bend, its tips lie
// where those of the figures do, and two members are got out longer for it by the taper's length along the middle.
func TestScarfsMeasuredAlongTheMiddle(t *testing.T) {
	f, err := os.Open("../../testdata/published/scarf-on-an-arc-computed/scarfs.csv")
	if err != nil {
		t.Fatal(err)
	}
	defer func() { _ = f.Close() }()
	rows, err := csv.NewReader(f).ReadAll()
	if err != nil || len(rows) != 4 {
		t.Fatal(len(rows), err)
	}
	for _, r := range rows[1:] {
		n := map[string]float64{}
		for i, name := range rows[0] {
			if v, err := strconv.ParseFloat(r[i], 64); err == nil {
				n[name] = v
			}
		}
		close := func(what string, got, want float64) { t.Helper(); near(t, r[0]+": "+what, got, want, 1e-9*want) }
		middle := scarf.Feather{Slope: n["slope"], Depth: n["depth"]}
		close("length along the middle", middle.Length(), n["along_neutral"])
		close("longer by", middle.Length(), n["longer_by"])
		outer := n["neutral_radius"] + n["depth"]/2
		angle := n["along_neutral"] / n["neutral_radius"]
		close("angle", angle*180/math.Pi, n["angle_deg"])
		// On the faying face of the same bend the same taper would be shorter by half the depth to the radius.
		faying := scarf.Feather{Slope: n["outer_arc"] / n["depth"], Depth: n["depth"]}
		close("steeper by", faying.Slope/n["slope"], outer/n["neutral_radius"])
		laid := faying.Lay(arc(outer), 0, false, 3)
		tip := laid.Marks[2]
		close("outer arc", tip.Along, n["outer_arc"])
		y, z, theta := arc(outer)(tip.Along)
		close("angle of the end", theta, angle)
		y, z = y-tip.Depth*math.Sin(theta), z+tip.Depth*math.Cos(theta)
		close("inner arc", math.Hypot(y, z-outer)*theta, n["inner_arc"])
		close("straight from tip to tip", math.Hypot(y, z), n["straight_cut"])
		// The middle of the depth at either end: chord and sagitta of the neutral line.
		my, mz := y+tip.Depth/2*math.Sin(theta), z-tip.Depth/2*math.Cos(theta)
		close("chord", math.Hypot(my, mz-n["depth"]/2), n["neutral_chord"])
		close("sagitta", n["neutral_radius"]*(1-math.Cos(angle/2)), n["neutral_sagitta"])
		// The laid face is no shorter than the straight line, and hardly longer.
		if !(laid.Face >= n["straight_cut"] && laid.Face < 1.02*n["straight_cut"]) {
			t.Errorf("%s: face %v, straight %v", r[0], laid.Face, n["straight_cut"])
		}
	}
}

// The usual slope makes a scarf as long as is printed (plank-stock-undated), and every slope that is used can be asked for.
func TestPrintedSlopes(t *testing.T) {
	near(t, "1 in at 8:1", scarf.Feather{Slope: 8, Depth: inch}.Length(), 8*inch, 1e-9)
	for _, slope := range []float64{8, 10, 12, 14} {
		if err := (scarf.Feather{Slope: slope, Depth: inch}).Check(); err != nil {
			t.Error(err)
		}
	}
}
