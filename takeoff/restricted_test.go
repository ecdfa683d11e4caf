package takeoff_test

import (
	"strings"
	"testing"

	"ribband/takeoff/boat"
	"ribband/takeoff/frame"
)

// A wood whose trade is restricted is named once, with the list, its day and a wood that would do; one that stands on no list
// is not, nor is a frame that is left.
func TestARestrictedTimberIsNamed(t *testing.T) {
	b := demoBasis(t, 0)
	for _, no := range []int{12, 13} {
		b.Remedies[frameNo(no, boat.Port)] = frame.Choice{Remedy: boat.ReplaceLaminated, Species: "african_mahogany", Grade: "FAS"}
	}
	b.Remedies[frameNo(14, boat.Port)] = frame.Choice{Remedy: boat.Leave, Species: "mahogany", Grade: "FAS"}
	w := warned(runs(t, b), "restricted_timber")
	if len(w) != 1 || !strings.Contains(w[0].Detail, "Appendix II of CITES, in force from 2023-02-23") || !strings.Contains(w[0].Fix, "papers") {
		t.Fatalf("%+v", w)
	}
	// moderate as it is, the nearest in weight to its 0.443 that is not listed is Port Orford cedar, 0.429
	if !strings.Contains(w[0].Fix, "is Port Orford cedar;") && !strings.Contains(w[0].Fix, "is Port-Orford-cedar;") {
		t.Errorf("%q", w[0].Fix)
	}
	if w := warned(runs(t, demoBasis(t, 0)), "restricted_timber"); len(w) != 0 {
		t.Errorf("%+v", w)
	}
}
