package notation_test

import (
	"testing"

	"ribband/takeoff/notation"
)

// What was written is said as it was; what was worked out is said to what a rule shows.
func TestSaid(t *testing.T) {
	for _, c := range []struct {
		n    notation.Notation
		mm   float64
		want string
	}{
		{notation.FeetInchesEighths, 698.5, "2-3-4"},
		{notation.FeetInchesEighths, 664.538952959, "2-2-1+"},
		{notation.Inches, 698.5, "27 1/2 in"},
		{notation.Inches, 664.538952959, "26 3/16 in"},
		{notation.Inches, -664.538952959, "-26 3/16 in"},
		{notation.Millimetres, 698.25, "698.25 mm"},
		{notation.Millimetres, 664.538952959, "664.5 mm"},
		{notation.Millimetres, -664.588952959, "-664.6 mm"},
		{notation.Metres, .125, "0.000125 m"},
		{notation.Metres, 664.538952959, "0.6645 m"},
		{"cubits", 664.538952959, "664.5 mm"},
		{notation.Millimetres, 0, "0 mm"},
	} {
		l, err := notation.FromMM(c.mm)
		if err != nil {
			t.Fatal(err)
		}
		if got := c.n.Said(l); got != c.want {
			t.Errorf("%v mm in %s: %q, want %q", c.mm, c.n, got, c.want)
		}
	}
}
