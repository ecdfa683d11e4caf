package notation_test

import (
	"strings"
	"testing"

	"ribband/takeoff/notation"
)

// 5/16 in is 0.0079375 m exactly, 1/64 in is 0.000396875 m: both are read and written as they are; ten places are refused, and
// seven of a millimetre.
func TestMetresKeepWholeNanometres(t *testing.T) {
	for in, want := range map[string]string{"5/16": "0.0079375", "1/64": "0.000396875"} {
		l, err := notation.Inches.Parse(in)
		if err != nil {
			t.Fatal(err)
		}
		if got := notation.Metres.Format(l); got != want || !notation.Metres.Writes(l) {
			t.Errorf("%s in is written %s, want %s", in, got, want)
		}
	}
	if _, err := notation.Metres.Parse("0.0000000001"); err == nil || !strings.Contains(err.Error(), "9 in metres") {
		t.Errorf("%v", err)
	}
	if _, err := notation.Millimetres.Parse("0.0000001"); err == nil {
		t.Error("seven places of a millimetre are read")
	}
}
