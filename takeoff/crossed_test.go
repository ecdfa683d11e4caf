package takeoff_test

import (
	"fmt"
	"strings"
	"testing"

	"ribband/takeoff"
	"ribband/takeoff/hull/hulltest"
	"ribband/takeoff/hull/offsets"
)

// Marks that the plank lays across the centreline are warned of by name, whatever is done to the boat; past ten they are
// counted.
func TestMarksAcrossTheCentrelineAreWarnedOf(t *testing.T) {
	for _, c := range []struct{ stations, warnings int }{{3, 3}, {12, 11}} {
		var b strings.Builder
		b.WriteString("station_no,x,side,line,value\n,,,plank_thickness,60\n")
		for no := range c.stations {
			for _, cell := range []string{"rabbet_height,100", "rabbet_half_breadth,30", "wl:300,250", "wl:500,420", "wl:700,520", "wl:900,570",
				"sheer_height,1200", "sheer_half_breadth,600"} {
				fmt.Fprintf(&b, "%d,%d,both,%s\n", no, no*1000, cell)
			}
		}
		_, table, faults := offsets.ReadCSV([]byte(b.String()), offsets.Written{Notation: "mm", Grain: "0", Surface: offsets.Outside})
		if len(faults) > 0 {
			t.Fatal(faults)
		}
		h := hulltest.Fit(t, table)
		out, err := takeoff.Run(takeoff.Basis{Hull: h})
		if err != nil {
			t.Fatal(err)
		}
		w := out.Bill.Warnings
		if len(w) != c.warnings || w[0].Code != "mark_across_centreline" || !strings.HasPrefix(w[0].Detail, "Station 0 both sides, rabbet: laid in by the thickness of the plank it comes ") {
			t.Errorf("%d stations: %+v", c.stations, w)
		}
		if c.stations > 10 && !strings.HasPrefix(w[len(w)-1].Detail, fmt.Sprintf("%d more marks", c.stations-10)) {
			t.Errorf("%+v", w[len(w)-1])
		}
	}
}
