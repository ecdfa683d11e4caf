package web_test

import (
	"net/http"
	"net/url"
	"strings"
	"testing"

	"ribband/server/internal/auth"
)

// The lead writes down how she is planked, renews a plank and takes it out again; what is wrong with a form is told by its field.
func TestPlanksByTheForm(t *testing.T) {
	d := newDesk(t, "")
	v := d.in(t, auth.Lead)
	there := "/jobs/" + d.yard.Job + "/options/" + d.yard.Options[0]
	page := there + "/planks"
	if body := v.get(page).body; !strings.Contains(body, "This option renews no plank") || !strings.Contains(body, "Both: 12 strakes of equal girth") {
		t.Fatal(body)
	}
	plank := url.Values{"seen": {"0"}, "strake": {"5"}, "side": {"port"}, "from_frame": {"14"}, "to_frame": {"16"}, "species": {"white_oak"}, "grade": {"FAS"}}
	wrong := func(path string, form url.Values, want ...string) {
		t.Helper()
		got := v.post(path, form)
		if got.status != http.StatusUnprocessableEntity {
			t.Fatalf("status %d", got.status)
		}
		for _, w := range want {
			if !strings.Contains(got.body, w) {
				t.Errorf("no %q", w)
			}
		}
	}
	plank.Set("strake", "16")
	wrong(page, plank, `id="strake-wrong"`, "There is no strake 16 on the port side")
	plank.Set("strake", "5")
	hers := url.Values{"seen": {"1"}, "of": {"both"}, "strakes": {"sixteen"}, "plank_thickness": {"0-1-2"}, "stock_lengths": {"8-0-0, 12 ft"}}
	wrong(page+"/planking", hers, `id="both-strakes-wrong"`)
	hers.Set("strakes", "16")
	wrong(page+"/planking", hers, `id="both-stock_lengths-wrong"`)
	hers.Set("stock_lengths", "8-0-0, 12-0-0")
	for _, bad := range []string{"five: 12-0-0", "5", "5: far aft", "77: 12-0-0"} {
		hers.Set("butts", bad)
		wrong(page+"/planking", hers, `id="both-butts-wrong"`)
	}
	hers.Set("butts", "5: 15-0-0; 4: none")
	if got := v.post(page+"/planking", hers); got.status != http.StatusSeeOther {
		t.Fatal(got.status, got.body)
	}
	plank.Set("to_frame", "x")
	wrong(page, plank, `id="to_frame-wrong"`, "is no number")
	plank.Set("to_frame", "13")
	wrong(page, plank, `id="to_frame-wrong"`)
	plank.Set("to_frame", "16")
	if got := v.post(page, plank); got.status != http.StatusSeeOther {
		t.Fatal(got.status, got.body)
	}
	if got := v.post(page, plank); got.status == http.StatusSeeOther {
		t.Error("a form read before another was kept was kept over it")
	}
	if body := v.get(page).body; !strings.Contains(body, "Strake 5 port, frames 14 to 16") || !strings.Contains(body, "16 strakes of equal girth") {
		t.Error(body)
	} else if !strings.Contains(body, `value="5: 15-0-0; 4: none"`) || !strings.Contains(body, "strake 5 butts at 15-0-0") || !strings.Contains(body, "strake 4 in one piece") {
		t.Error(body)
	}
	for _, want := range []string{`<h2 id="planks">Planks</h2>`, "Strake 5 port, frames 14 to 19", "planks of white oak, grade FAS", "new planks", "Planking holds a hull in shape", "Spile and mark out plank"} {
		if !strings.Contains(v.get(there).body, want) {
			t.Errorf("the option's page has no %q", want)
		}
	}
	if got := d.in(t, auth.Accountant).get(page); strings.Contains(got.body, "<form method=\"post\" action=\""+page) {
		t.Error("the accountant is offered a form")
	}
	if got := v.post(page+"/out", url.Values{"seen": {"1"}, "row": {"0"}}); got.status != http.StatusSeeOther {
		t.Fatal(got.status, got.body)
	}
	if body := v.get(page).body; !strings.Contains(body, "This option renews no plank") {
		t.Error(body)
	}
}

// Each side may be planked by itself: the other stays as it was, faults are told by the field of that side's form, and the two are put
// alike again by one form. A side that nobody names is no form of the page.
func TestEachSideIsPlankedByItself(t *testing.T) {
	d := newDesk(t, "")
	v := d.in(t, auth.Lead)
	page := "/jobs/" + d.yard.Job + "/options/" + d.yard.Options[0] + "/planks"
	port := url.Values{"seen": {"1"}, "of": {"port"}, "strakes": {"none"}, "plank_thickness": {"0-1-2"}, "butts": {"5: far aft"}}
	if got := v.post(page+"/planking", port); got.status != http.StatusUnprocessableEntity || !strings.Contains(got.body, `id="port-strakes-wrong"`) || !strings.Contains(got.body, `href="#port-strakes"`) || strings.Contains(got.body, `id="starboard-strakes-wrong"`) || !strings.Contains(got.body, `value="5: far aft"`) {
		t.Fatal(got.status, got.body)
	}
	port.Set("strakes", "14")
	if got := v.post(page+"/planking", port); got.status != http.StatusUnprocessableEntity || !strings.Contains(got.body, `id="port-butts-wrong"`) {
		t.Fatal(got.status, got.body)
	}
	port.Set("butts", "5: 15-0-3")
	if got := v.post(page+"/planking", port); got.status != http.StatusSeeOther {
		t.Fatal(got.status, got.body)
	}
	body := v.get(page).body
	for _, want := range []string{"Port: 14 strakes of equal girth", "Starboard: 12 strakes of equal girth", `id="port-strakes" name="strakes" value="14"`, `id="starboard-strakes" name="strakes" value="12"`, `id="both-strakes" name="strakes" value=""`} {
		if !strings.Contains(body, want) {
			t.Errorf("no %q", want)
		}
	}
	port.Set("seen", "2")
	for _, of := range []string{"", "amidships"} {
		port.Set("of", of)
		if got := v.post(page+"/planking", port); got.status != http.StatusBadRequest {
			t.Errorf("a form of %q is answered %d", of, got.status)
		}
	}
	port.Set("of", "both")
	if got := v.post(page+"/planking", port); got.status != http.StatusSeeOther {
		t.Fatal(got.status, got.body)
	}
	if body := v.get(page).body; !strings.Contains(body, "Both: 14 strakes of equal girth") || !strings.Contains(body, `id="port-strakes" name="strakes" value="14"`) {
		t.Error(body)
	}
}

func TestPlanksOnAScreenAndAPhone(t *testing.T) {
	inBrowser(t)
	d := newDesk(t, "")
	v := d.in(t, auth.Lead)
	there := "/jobs/" + d.yard.Job + "/options/" + d.yard.Options[0]
	if got := v.post(there+"/planks/planking", url.Values{"seen": {"1"}, "of": {"both"}, "strakes": {"16"}, "plank_thickness": {"0-1-2"}, "butts": {"5: 15-0-0"}}); got.status != http.StatusSeeOther {
		t.Fatal(got.status, got.body)
	}
	if got := v.post(there+"/planks", url.Values{"seen": {"0"}, "strake": {"5"}, "side": {"both"}, "piece": {"whole"}, "species": {"white_oak"}, "grade": {"FAS"}}); got.status != http.StatusSeeOther {
		t.Fatal(got.status, got.body)
	}
	for _, width := range []int64{screen, narrow} {
		b := newTab(t, d, "planks", width)
		b.enter(auth.Lead)
		b.open(there + "/planks")
		b.look("planks of an option")
		b.open(there)
		b.look("materials with planks")
	}
}
