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
		`<dfn>Frame</dfn> <span class="means">(the ribs of the boat, one on each side, which give her shape and hold the planks)</span> 3 &amp; the &lt;b&gt;` +
			`<dfn>keel bolts</dfn> <span class="means">(the bolts that hold the keel to the boat)</span>&lt;/b&gt;.`,
		`Frames, <dfn>Keel</dfn> <span class="means">(the backbone along the bottom of the boat)</span>, keelson`,
	}
	if diff := cmp.Diff(want, got); diff != "" {
		t.Error(diff)
	}
	pairs := web.Explain("Ten pairs of frames.", "Frames and pairs.")
	if !strings.Contains(pairs[0], "<dfn>pairs of frames</dfn>") || pairs[1] != "Frames and pairs." {
		t.Errorf("%q", pairs)
	}
}
