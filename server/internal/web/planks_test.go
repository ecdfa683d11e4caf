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
	hers := url.Values{"seen": {"1"}, "strakes": {"sixteen"}, "plank_thickness": {"0-1-2"}, "stock_lengths": {"8-0-0, 12 ft"}}
	wrong(page+"/planking", hers, `id="strakes-wrong"`)
	hers.Set("strakes", "16")
	wrong(page+"/planking", hers, `id="stock_lengths-wrong"`)
	hers.Set("stock_lengths", "8-0-0, 12-0-0")
	for _, bad := range []string{"five: 12-0-0", "5", "5: far aft", "77: 12-0-0"} {
		hers.Set("butts", bad)
		wrong(page+"/planking", hers, `id="butts-wrong"`)
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

func TestPlanksOnAScreenAndAPhone(t *testing.T) {
	inBrowser(t)
	d := newDesk(t, "")
	v := d.in(t, auth.Lead)
	there := "/jobs/" + d.yard.Job + "/options/" + d.yard.Options[0]
	if got := v.post(there+"/planks/planking", url.Values{"seen": {"1"}, "strakes": {"16"}, "plank_thickness": {"0-1-2"}, "butts": {"5: 15-0-0"}}); got.status != http.StatusSeeOther {
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
