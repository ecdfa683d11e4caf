package web_test

import (
	"fmt"
	"html"
	"strings"
	"testing"

	"ribband/server/internal/auth"
	"ribband/takeoff/boat"
)

// The page of gluing shows every batch of the plan and one record of each blank, with room to fill in all that is asked.
func TestTheGluingPageHoldsARecordOfEachBlank(t *testing.T) {
	d := newDesk(t, "")
	g, err := d.GluingOf(t.Context(), d.lead(t), d.yard.Job, d.yard.Options[0])
	if err != nil {
		t.Fatal(err)
	}
	v := d.in(t, auth.Estimator)
	path := "/jobs/" + d.yard.Job + "/options/" + d.yard.Options[0]
	if option := v.get(path); !strings.Contains(option.body, `href="`+path+`/gluing"`) {
		t.Error("the option does not lead to its gluing")
	}
	page := v.get(path + "/gluing")
	if page.status != 200 {
		t.Fatal(page.status)
	}
	for _, r := range g.Records {
		if n := strings.Count(page.body, fmt.Sprintf("<h3>Frame %d %s</h3>", r.Member.No, r.Member.Side)); n != 1 {
			t.Errorf("%d records of %s", n, r.Path)
		}
	}
	if want := len(g.Records) * len(g.Records[0].Fill); strings.Count(page.body, "<td></td>") != want {
		t.Errorf("%d places to fill in, want %d", strings.Count(page.body, "<td></td>"), want)
	}
	if first := g.Plan.Batches[0].AreaM2.InexactFloat64(); !strings.Contains(page.body, "Glue line, ft²") || !strings.Contains(page.body, fmt.Sprintf(">%.2f<", first/.3048/.3048)) {
		t.Errorf("the first batch's %v m² are not told in square feet", first)
	}
	if area := g.Records[0].Area.Value().InexactFloat64(); !strings.Contains(page.body, fmt.Sprintf("%.2f\u00a0ft² of glue line", area/.3048/.3048)) {
		t.Errorf("the first record's %v m² are not told in square feet", area)
	}
	for _, b := range g.Plan.Batches {
		if !strings.Contains(page.body, fmt.Sprintf("Records, batch %d</h2>", b.No)) {
			t.Errorf("batch %d is not shown", b.No)
		}
	}
	for _, c := range g.Cautions {
		if !strings.Contains(page.body, html.EscapeString(c.Text[:30])) {
			t.Errorf("the caution %q is missing", c.Text)
		}
	}
	if strings.Contains(page.body, "In no batch") {
		t.Error("a blank is said to be in no batch")
	}
	if at := v.get("/jobs/" + d.yard.Job + "/options/00000000-0000-7000-8000-000000000000/gluing"); at.status != 404 {
		t.Errorf("an option that is not there is answered with %d", at.status)
	}
}

// Scarfs that are glued in the hull are in batches of their own, with a record each that asks for the hull's temperature.
func TestTheGluingPageShowsJointsInTheHull(t *testing.T) {
	d := newDesk(t, "")
	d.remedies(t, row(12, boat.Port, boat.ScarfIn), row(15, boat.Both, boat.ScarfIn), row(18, boat.Port, boat.Sister))
	page := d.in(t, auth.Estimator).get("/jobs/" + d.yard.Job + "/options/" + d.yard.Options[0] + "/gluing")
	for want, times := range map[string]int{"<h3>Frame 12 port, part 1</h3>": 1, "<h3>Frame 12 port, part 1, scarfs</h3>": 1, "Temperature of the hull at the joint": 3, "<td>in the hull</td>": 1, "In the hull, at 14": 1,
		"What shares no batch, and why": 1, "as much as the bill asks for": 1, "1 scarf, its face": 3} {
		if n := strings.Count(page.body, want); n != times {
			t.Errorf("%q %d times, %d wanted", want, n, times)
		}
	}
}

func TestGluingOnAScreenAPhoneAndPaper(t *testing.T) {
	inBrowser(t)
	d := newDesk(t, "")
	for _, width := range []int64{screen, 375, narrow} {
		b := newTab(t, d, "gluing", width)
		b.enter(auth.Lead)
		b.open("/jobs/" + d.yard.Job + "/options/" + d.yard.Options[0])
		b.pressText("Batches of gluing, with a record of each blank to fill in")
		b.look("batches and records")
		if width == screen {
			b.tabThrough("gluing")
		}
	}
	d.remedies(t, row(12, boat.Port, boat.ScarfIn), row(15, boat.Both, boat.ScarfIn), row(18, boat.Port, boat.Sister))
	for _, width := range []int64{screen, narrow} {
		b := newTab(t, d, "joints", width)
		b.enter(auth.Lead)
		b.open("/jobs/" + d.yard.Job + "/options/" + d.yard.Options[0] + "/gluing")
		b.look("joints in the hull")
	}
}
