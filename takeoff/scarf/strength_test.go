package scarf_test

import (
	"encoding/csv"
	"errors"
	"math"
	"os"
	"strconv"
	"strings"
	"testing"

	"ribband/takeoff/scarf"
)

// figures of testdata/published/scarf-figures, whose SOURCE.md names title, publisher, year and place.
func figures(t *testing.T, name string) [][]string {
	t.Helper()
	f, err := os.Open("../../testdata/published/scarf-figures/" + name)
	if err != nil {
		t.Fatal(err)
	}
	all, err := csv.NewReader(f).ReadAll()
	if err := errors.Join(err, f.Close()); err != nil || len(all) < 2 {
		t.Fatalf("%d rows, %v", len(all), err)
	}
	return all[1:]
}

func number(t *testing.T, text string) float64 {
	t.Helper()
	x, err := strconv.ParseFloat(text, 64)
	if err != nil {
		t.Fatal(err)
	}
	return x
}

// Every share that was found is told at its slope, and a little steeper the one before is.
func TestStrengthsAsPublished(t *testing.T) {
	before := 0
	for _, r := range figures(t, "strength.csv") {
		slope, share := number(t, r[1]), int(number(t, r[2]))
		if slope > 0 {
			if s, ok := scarf.StrengthAt(slope - 0.001); !ok || s.SharePct != before {
				t.Errorf("just steeper than %v: %+v, want %d", slope, s, before)
			}
		}
		got, ok := scarf.StrengthAt(math.Max(slope, 0.001))
		if !ok || got.SharePct != share || got.Source == "" || (r[0] == "trials") != strings.Contains(got.Source, "from memory") {
			t.Errorf("%v: %+v, want %d", slope, got, share)
		}
		before = share
	}
	for _, s := range []float64{0, -1, math.NaN(), math.Inf(1)} {
		if _, ok := scarf.StrengthAt(s); ok {
			t.Errorf("%v to one has a strength", s)
		}
	}
	at := func(slope float64) string { s, _ := scarf.StrengthAt(slope); return s.Say(slope) }
	if !strings.Contains(at(3), "butt") || !strings.Contains(at(9), "8 to one, the flattest tried") || !strings.Contains(at(10), "as flat as this") {
		t.Errorf("%q\n%q\n%q", at(3), at(9), at(10))
	}
}

// The glued face reaches ten sections at the root of 99 to one, just steeper than ten: the usual slope holds it.
func TestFacesAsPublished(t *testing.T) {
	want := map[string]float64{"clear_wood": scarf.ClearWood, "highest": scarf.FlattestAsked}
	for _, r := range figures(t, "face.csv") {
		if want[r[0]] != number(t, r[1]) {
			t.Errorf("%s: %v, printed %s", r[0], want[r[0]], r[1])
		}
	}
	if got := (scarf.Feather{Slope: 10, Depth: 73}).FaceRatio(); got < scarf.ClearWood {
		t.Errorf("ten to one: %v sections", got)
	}
	if got := (scarf.Feather{Slope: 9.9, Depth: 73}).FaceRatio(); got >= scarf.ClearWood {
		t.Errorf("9.9 to one: %v sections", got)
	}
}
