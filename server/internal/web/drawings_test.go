package web_test

import (
	"encoding/xml"
	"strings"
	"testing"

	"ribband/server/internal/auth"
)

// The page of a job shows her lines from the side, from above and from ahead, in this order, each with its figures as a
// table, and each drawing stands by itself in both widths.
func TestAJobShowsHerLines(t *testing.T) {
	d := newDesk(t, "")
	v := d.in(t, auth.Estimator)
	job := "/jobs/" + d.yard.Job
	body := v.get(job).body
	at := 0
	for _, c := range []struct{ file, title, caption string }{
		{"profile.svg", "Profile of Wendeline", "Heights of the lines as drawn"},
		{"half-breadths.svg", "Half-breadths of Wendeline", "Half-breadths of the lines as drawn"},
		{"body-plan.svg", "Body plan of Wendeline", "Offsets to the inside of plank"},
	} {
		for _, want := range []string{job + "/" + c.file, c.title, c.caption} {
			i := strings.Index(body[at:], want)
			if i < 0 {
				t.Fatalf("after %d letters the page has no %q", at, want)
			}
			at += i
		}
		for _, width := range []string{"", "?width=narrow"} {
			got := v.get(job + "/" + c.file + width)
			if got.status != 200 || got.header.Get("Content-Type") != "image/svg+xml" || !strings.Contains(got.body, c.title) {
				t.Errorf("%s%s is answered %d as %s", c.file, width, got.status, got.header.Get("Content-Type"))
			}
			if err := xml.Unmarshal([]byte(got.body), new(struct{})); err != nil {
				t.Errorf("%s%s: %v", c.file, width, err)
			}
		}
	}
}

// The options stand first on the page of a job, before every drawing, and each drawing is folded away under what it is:
// whoever prices reads them without turning over her lines, and opens a drawing without a script.
func TestOptionsStandAboveDrawings(t *testing.T) {
	d := newDesk(t, "")
	body := d.in(t, auth.Estimator).get("/jobs/" + d.yard.Job).body
	first := strings.Index(body, "<h2")
	if heading := strings.Index(body, `<h2 id="options">`); heading < 0 || heading != first {
		t.Errorf("the first heading stands at %d, the options' at %d", first, heading)
	}
	drawings := strings.Split(body, `<figure class="plan">`)
	if len(drawings) < 5 { // three of her lines, and the frames of two options
		t.Fatalf("%d drawings", len(drawings)-1)
	}
	for i, before := range drawings[:len(drawings)-1] {
		if !strings.HasSuffix(before, "</summary>") {
			t.Errorf("drawing %d is not folded away: before it stands %q", i+1, before[max(0, len(before)-60):])
		}
	}
}
