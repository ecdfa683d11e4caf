package seed_test

import (
	"strconv"
	"testing"

	"ribband/seed"
	"ribband/takeoff/timber"
)

// What the demo's woods say of their grades is what the table of grades holds, which is checked against print.
func TestYieldsAreThoseOfTheTableOfGrades(t *testing.T) {
	k, err := seed.LoadKnowledge()
	if err != nil {
		t.Fatal(err)
	}
	graded := 0
	for _, s := range k.Species.Species {
		for _, y := range s.Yields {
			graded++
			g, err := timber.GradeNamed(y.Grade)
			if err != nil || strconv.Itoa(g.Units) != y.ClearOf12 || g.Cutting != y.Cutting {
				t.Errorf("%s %s: %+v, the table has %+v (%v)", s.Code, y.Grade, y, g, err)
			}
		}
	}
	if graded == 0 {
		t.Error("no wood says anything of its grades")
	}
}
