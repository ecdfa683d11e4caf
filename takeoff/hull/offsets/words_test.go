package offsets_test

import (
	"strings"
	"testing"

	"ribband/takeoff/hull"
	"ribband/takeoff/hull/offsets"
)

// What the errors say when nobody formats them anew.
func TestWords(t *testing.T) {
	f := offsets.Fault{Row: 3, Column: 5, Detail: "Station 1 port wl:1-0-0: it is given twice", Fix: "leave one of the two out"}
	for _, c := range []struct{ got, want string }{
		{f.String(), "row 3, column 5: Station 1 port wl:1-0-0: it is given twice; leave one of the two out"},
		{(&offsets.FaultsError{Faults: []offsets.Fault{f}}).Error(), "the offsets do not make a hull: row 3"},
		{(&offsets.FaultsError{Faults: []offsets.Fault{f, f}}).Error(), "2 faults, the first: row 3"},
		{(&hull.OutsideError{X: 12000, Forward: 0, Aft: 11000}).Error(), "12000 mm lies outside the measured stations, which reach from 0 to 11000 mm"},
		{(&hull.SideError{Side: "both"}).Error(), "port or starboard is needed"},
		{(&hull.DepthError{Depth: 73, Radius: 60}).Error(), "a piece 73.0 mm deep cannot follow a bend of radius 60.0 mm"},
		{(&hull.DepthError{Depth: -1, Radius: 60}).Error(), "measured inboard from the faying face"},
	} {
		if !strings.Contains(c.got, c.want) {
			t.Errorf("%q does not say %q", c.got, c.want)
		}
	}
}
