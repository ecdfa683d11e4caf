package takeoff_test

import (
	"slices"
	"strings"
	"testing"

	"ribband/takeoff/bill"
	"ribband/takeoff/boat"
	"ribband/takeoff/frame"
	"ribband/takeoff/rules"
)

// What a grade promises stands beside what the yard loses to grade, and the one changes nothing of the other.
func TestGradesAreToldAndNeverReckonedWith(t *testing.T) {
	b := demoBasis(t, 0)
	r := runs(t, b)
	// FAS is 10 twelfths, 83 1/3 %, cut down
	if len(r.Graded) != 1 || r.Graded[0].Species != "white_oak" || r.Graded[0].ClearFace != "83.3" || r.Graded[0].Loss == "" || !strings.Contains(r.Graded[0].Why, "4 in x 5 ft") {
		t.Fatalf("%+v", r.Graded)
	}
	bare := demoBasis(t, 0)
	for i := range bare.Species.Species {
		bare.Species.Species[i].Yields = nil
	}
	without := runs(t, bare)
	if len(without.Graded) != 0 {
		t.Errorf("%+v", without.Graded)
	}
	same := func(a, b bill.Line) bool { return a.ID == b.ID && a.Net.Equal(b.Net) && a.Gross.Equal(b.Gross) }
	if !slices.EqualFunc(r.Bill.Lines, without.Bill.Lines, same) {
		t.Error("a grade's yield changed what is needed")
	}
	b.Remedies[frameNo(12, boat.Port)] = frame.Choice{Remedy: boat.ReplaceLaminated, Species: "white_oak", Grade: "No.1C"}
	b.Rules.Losses = slices.DeleteFunc(b.Rules.Losses, func(l rules.Loss) bool { return l.Name == "grade" })
	r = runs(t, b)
	if len(r.Graded) != 2 {
		t.Fatalf("%+v", r.Graded)
	}
	for _, g := range r.Graded {
		if want := map[string]string{"FAS": "83.3", "No.1C": "66.6"}[g.Grade]; g.ClearFace != want || g.Loss != "" || !strings.Contains(g.Why, "none is reckoned") {
			t.Errorf("%+v", g)
		}
	}
}
