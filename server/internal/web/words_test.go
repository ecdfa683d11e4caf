package web_test

import (
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"ribband/server/internal/web"
)

// Every digit stays as it was, and what is no decimal stays as it stands.
func TestFiguresAreGrouped(t *testing.T) {
	for in, want := range map[string]string{
		"0": "0", "12.50": "12.50", "1234": "1,234", "-1234567.890": "−1,234,567.890", "-0.05": "−0.05", "100000": "100,000",
		"1e5": "1e5", "12 ft": "12 ft", "": "", "+5": "+5", "2-3-4": "2-3-4",
	} {
		if got := web.Grouped(in); got != want {
			t.Errorf("%q reads %q, want %q", in, got, want)
		}
	}
}

// A word of the trade is explained where it first stands and nowhere else, whichever way it is written, and what a
// text brings along is made safe.
func TestWordsAreExplainedOnce(t *testing.T) {
	got := web.Explain("Frame 3 & the <b>keel bolts</b>.", "Frames, Keel, keelson")
	want := []string{
		`<dfn>Frame</dfn> <span class="means">(the ribs of the boat, on each side one, which give her shape and hold the boards of her skin)</span> 3 &amp; the &lt;b&gt;` +
			`<dfn>keel bolts</dfn> <span class="means">(the bolts that hold on the long timber under the boat)</span>&lt;/b&gt;.`,
		`Frames, Keel, keelson`,
	}
	if diff := cmp.Diff(want, got); diff != "" {
		t.Error(diff)
	}
	pairs := web.Explain("Ten pairs of frames.", "Frames and pairs.")
	if !strings.Contains(pairs[0], "<dfn>pairs of frames</dfn>") || pairs[1] != "Frames and pairs." {
		t.Errorf("%q", pairs)
	}
}

// A word is explained as it stands: the step by the verb, the glove by its film, the strip of wood by itself.
func TestWordsAreExplainedAsTheyStand(t *testing.T) {
	for _, c := range []struct{ text, means string }{
		{"Laminate", "to glue thin strips"},
		{"gloves of nitrile or laminate, no solvent", "a film of several layers"},
		{"Each laminate is 3 mm thick.", "one of the thin strips"},
		{"shore the hull to shape", "to prop from outside"},
		{"let a competent person check the shores", "props that hold"},
		{"shore and brace to a written plan", "to prop from outside"},
		{"sand only what has fully cured", "hardened right through"},
		{"wait for the cure", "the hardening of the glue"},
		{"Clean up and bevel", "to cut the slant"},
		{"the bevels of a frame", "the slant on a rib"},
		{"Rip and plane", "to shave a board smooth"},
		{"Fit and fasten", "to hold wood to wood"},
		{"Not in this price: fastenings", "the screws, rivets or bolts that hold wood to wood"},
		{"the structure its stands were set for", "the supports that the boat rests on"},
	} {
		if got := web.Explain(c.text)[0]; !strings.Contains(got, "("+c.means) {
			t.Errorf("%q is explained as %s", c.text, got)
		}
	}
	if got := web.Explain("The mast stands.")[0]; got != "The mast stands." {
		t.Errorf("an everyday word is explained: %s", got)
	}
}

// No meaning rests on a word that would itself have to be explained.
func TestMeaningsArePlain(t *testing.T) {
	for form, means := range web.Meanings() {
		if got := web.Explain(means)[0]; strings.Contains(got, "<dfn>") {
			t.Errorf("%s is explained by words of the trade: %s", form, got)
		}
	}
}
