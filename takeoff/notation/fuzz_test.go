package notation_test

import (
	"math"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"ribband/takeoff/notation"
)

// Whatever the text: no panic; what is read is written back as the same length, in the shortest of forms; what is
// refused says why in a sentence.
func FuzzParse(f *testing.F) {
	for _, s := range []string{
		"2-3-4", "1-7-3+", "3-4-5-", "-0-3-4-", "22 7/8", "27.5", "1/64", "698,5", "1,234.5", `2' 0 5/8"`, "12 1/2 in",
		"227", "1 54", "", "-", "2–3–4", "\x00", "\xff\xfe", "1e1000000", "NaN", "12 mm mm mm", strings.Repeat("1", 39),
	} {
		for i := range notation.Notations {
			f.Add(i, s)
		}
	}
	f.Fuzz(func(t *testing.T, i int, text string) {
		n := notation.Notations[((i%4)+4)%4]
		l, err := n.Parse(text)
		if err != nil {
			if e, ok := err.(*notation.Error); !ok || e.Reason == "" || e.Error() == "" {
				t.Fatalf("%q: refused without a reason: %v", text, err)
			}
			return
		}
		if math.IsNaN(l.MM()) || math.Abs(l.MM()) > 1e6 {
			t.Fatalf("%q: %v", text, l)
		}
		back := n.Format(l)
		if m, err := n.Parse(back); err != nil || m != l {
			t.Fatalf("%q is %v, written %q, read again %v, %v", text, l, back, m, err)
		}
		if !n.Writes(l) {
			t.Fatalf("%q was read in %s, which then does not write it", text, n)
		}
	})
}

// A length measured in millimetres survives the way to exact and back to the last thousand-millionth.
func TestFromMM(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		mm := rapid.Float64Range(-1e6, 1e6).Draw(t, "mm")
		l, err := notation.FromMM(mm)
		if err != nil {
			t.Fatal(err)
		}
		// half of a thousand-millionth, and what a float64 resolves at a kilometre
		if math.Abs(l.MM()-mm) > 0.6e-9 {
			t.Fatalf("%v mm came back as %v", mm, l.MM())
		}
	})
	for _, bad := range []float64{math.NaN(), math.Inf(1), math.Inf(-1), 1e6 + 1, -1e300} {
		if l, err := notation.FromMM(bad); err == nil {
			t.Errorf("%v mm was taken as %v", bad, l)
		}
	}
}
