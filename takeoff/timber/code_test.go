package timber_test

import (
	"strings"
	"testing"

	"ribband/takeoff/timber"
)

// A slip of the pen or a wood's name is told the code that it most likely stands for; what is like none of them, or is no text, is
// told what a code is.
func TestACodeThatIsNotKnownIsToldTheNearest(t *testing.T) {
	c := timber.Catalogue{Species: []timber.Species{{Code: "white_oak", Name: "White oak"}, {Code: "live_oak", Name: "Live oak"}, {Code: "tamarack", Name: "Eastern larch"}}}
	for text, want := range map[string]string{
		"whiteoak": "white_oak", "white oak": "white_oak", "White-Oak": "white_oak", "whiet_oak": "white_oak", "withe_oak": "white_oak", "liveoak": "live_oak",
		"tamarac": "tamarack", "Eastern Larch": "tamarack", "eastern larc": "tamarack", "white_oakk": "white_oak",
		"": "", " - ": "", "pine": "", "oak": "", "\x00\xff": "", strings.Repeat("white_oak", 1000): "", "larch": "",
	} {
		got := c.Meant(text)
		if !strings.HasPrefix(got, "the code of one of the yard's species") || want != "" && !strings.HasSuffix(got, "the nearest is "+want) || want == "" && strings.Contains(got, "nearest") {
			t.Errorf("%.40q: %s, %s wanted", text, got, want)
		}
	}
	if got := (timber.Catalogue{}).Meant("white_oak"); strings.Contains(got, "nearest") {
		t.Error(got)
	}
}
