package planking_test

import (
	"slices"
	"testing"

	"ribband/takeoff/boat"
	"ribband/takeoff/hull/planking"
	"ribband/takeoff/notation"
)

// How a boat is planked names each side once, divided one way; what comes out is no part of it.
func TestHowABoatIsPlanked(t *testing.T) {
	side := func(s boat.Side, n int) planking.Document {
		return planking.Document{Side: s, Strakes: planking.Division{Count: n}}
	}
	edges := planking.Document{Side: boat.Port, Strakes: planking.Division{Edges: []planking.EdgeRow{{Girths: []string{"1", "2", "3"}}}}}
	out := side(boat.Port, 9)
	out.Replace = []planking.Damage{{Strake: 1}}
	for name, c := range map[string]struct {
		boat planking.Boat
		want []string
	}{
		"both":         {planking.Boat{Notation: notation.Inches, Sides: []planking.Document{side(boat.Both, 9)}}, nil},
		"each":         {planking.Boat{Notation: notation.Inches, Sides: []planking.Document{edges, side(boat.Starboard, 9)}}, nil},
		"nothing":      {planking.Boat{}, []string{"/notation", "/sides"}},
		"port twice":   {planking.Boat{Notation: notation.Inches, Sides: []planking.Document{side(boat.Both, 9), side(boat.Port, 9)}}, []string{"/sides/1/side"}},
		"no side":      {planking.Boat{Notation: notation.Inches, Sides: []planking.Document{side("", 9)}}, []string{"/sides/0/side"}},
		"not divided":  {planking.Boat{Notation: notation.Inches, Sides: []planking.Document{side(boat.Port, 0)}}, []string{"/sides/0/strakes"}},
		"below none":   {planking.Boat{Notation: notation.Inches, Sides: []planking.Document{side(boat.Port, -3)}}, []string{"/sides/0/strakes"}},
		"too many":     {planking.Boat{Notation: notation.Inches, Sides: []planking.Document{side(boat.Port, 61)}}, []string{"/sides/0/strakes"}},
		"with damages": {planking.Boat{Notation: notation.Inches, Sides: []planking.Document{out}}, []string{"/sides/0/replace"}},
	} {
		var at []string
		for _, f := range c.boat.Check() {
			at = append(at, f.Pointer)
		}
		if !slices.Equal(at, c.want) {
			t.Errorf("%s: %v, %v wanted", name, at, c.want)
		}
	}
	b := planking.Boat{Sides: []planking.Document{edges, side(boat.Starboard, 9)}}
	if b.Strakes(boat.Port) != 4 || b.Strakes(boat.Starboard) != 9 || (planking.Boat{}).Strakes(boat.Port) != 0 {
		t.Error(b.Strakes(boat.Port), b.Strakes(boat.Starboard))
	}
	if d, at, ok := (planking.Boat{Sides: []planking.Document{side(boat.Both, 9)}}).Of(boat.Starboard); !ok || d.Side != boat.Starboard || at != "/sides/0" {
		t.Error(d, at, ok)
	}
}
