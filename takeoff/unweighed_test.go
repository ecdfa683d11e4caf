package takeoff_test

import (
	"strings"
	"testing"

	"ribband/takeoff"
	"ribband/takeoff/boat"
	"ribband/takeoff/frame"
	"ribband/takeoff/notation"
	"ribband/takeoff/pattern"

	"github.com/google/go-cmp/cmp"
)

// What a measurement would bring that cannot be tried on a line is not known, and every one of them is named with its
// reason, those of a reason together; a frame that has its pattern asks for none.
func TestMeasurementsThatAreNotWeighedAreNamed(t *testing.T) {
	s := coarse(2)
	canted, flat, mirrored, faired := plainRow(20, boat.Port), plainRow(21, boat.Port), plainRow(22, boat.Starboard), plainRow(23, boat.Port)
	canted.X, canted.CantDeg = "3810", "-10"
	flat.X, flat.Run = "3820", "100"
	mirrored.X, mirrored.Target, mirrored.BetterSide = "3830", frame.BetterSideMirrored, boat.Port
	better := plainRow(22, boat.Port)
	better.X = "3830"
	faired.X, faired.Target = "3840", frame.Faired
	taped, too := tapedRow(24, boat.Port, 900), tapedRow(24, boat.Starboard, 900)
	taped.X, too.X = "3850", "3850"
	s.rows = append(s.rows, canted, flat, mirrored, better, faired, taped, too)
	s.patterns = []pattern.Rows{arcOf(6, boat.Port, 1000, 0)}
	b := s.ripsMany(t)
	n, err := takeoff.Narrow(b)
	if err != nil {
		t.Fatal(err)
	}
	whys := map[string][]string{}
	for _, u := range n.NotWeighed {
		if u.Kind != takeoff.OnePattern {
			t.Errorf("%+v", u)
		}
		word, _, _ := strings.Cut(u.Why, ":")
		whys[word] = u.Of
	}
	want := map[string][]string{
		"it does not stand square across the boat, and what a pattern of it would tell is not reckoned": {"frame 20 port"},
		"it lies flat on the planking, in no plane that a pattern is taken in":                          {"frame 21 port"},
		"it is built as the other side has it, so a pattern of this side would tell nothing":            {"frame 22 starboard"},
		"it is built faired by the sections beside it, so a pattern of it as found would tell nothing":  {"frame 23 port"},
		"it was taped": {"frame 24 port", "frame 24 starboard"},
	}
	if d := cmp.Diff(want, whys); d != "" {
		t.Error(d)
	}
	if !strings.HasSuffix(n.Detail, " What others would bring is not known: 6 patterns.") {
		t.Error(n.Detail)
	}
	if plain := narrowed(t, coarse(2)); len(plain.NotWeighed) != 0 || plain.NotWeighed == nil || strings.Contains(plain.Detail, "not known") {
		t.Errorf("%+v", plain)
	}
}

// Between corners nothing is looked for, and that is said.
func TestNoStationIsWeighedBetweenKnuckles(t *testing.T) {
	n, err := takeoff.Narrow(ship{rows: []frame.Row{plainRow(1, boat.Port)}, lines: hardChine(2)}.basis(t))
	if err != nil {
		t.Fatal(err)
	}
	if len(n.NotWeighed) == 0 || n.NotWeighed[0].Kind != takeoff.OneStation || cmp.Diff([]string{"500 mm aft of station 0"}, n.NotWeighed[0].Of) != "" ||
		!strings.Contains(n.NotWeighed[0].Why, "knuckles") {
		t.Errorf("%+v", n.NotWeighed)
	}
}

// Lengths are said as the job writes them: to the grain of its notation, and with the unit where the number does not show it.
func TestAMeasurementIsAskedForInTheJobsOwnNotation(t *testing.T) {
	b := coarse(2).ripsMany(t)
	for in, want := range map[notation.Notation][]string{
		notation.FeetInchesEighths: {"about 4-", " along the girth", "(height 2-", ", half-breadth "},
		notation.Inches:            {" in along the girth", " in, half-breadth ", " in): "},
		notation.Millimetres:       {" mm along the girth", " mm, half-breadth ", " mm): "},
		notation.Metres:            {" m along the girth", "(height 0.", " m): "},
		"":                         {" mm along the girth"},
	} {
		b.Notation = in
		n, err := takeoff.Narrow(b)
		if err != nil {
			t.Fatal(err)
		}
		for _, w := range want {
			if !strings.Contains(n.Detail, w) {
				t.Errorf("%s: %q does not say %q", in, n.Detail, w)
			}
		}
		if feet := in == notation.FeetInchesEighths; strings.Contains(n.Detail, " mm") == feet && (feet || in == notation.Millimetres) {
			t.Errorf("%s: %s", in, n.Detail)
		}
	}
}
