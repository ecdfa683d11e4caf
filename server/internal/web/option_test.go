package web_test

import (
	"strings"
	"testing"

	"ribband/server/internal/auth"
	"ribband/server/internal/store"
	"ribband/takeoff/boat"
	"ribband/takeoff/frame"
)

// remedies are put in the place of the first option's.
func (d *desk) remedies(t *testing.T, rows ...frame.RemedyRow) {
	t.Helper()
	now, err := d.Remedies(t.Context(), d.lead(t), d.yard.Job, d.yard.Options[0])
	if err != nil {
		t.Fatal(err)
	}
	if _, err := d.PutRemedies(t.Context(), d.lead(t), d.yard.Job, d.yard.Options[0], frame.Remedies{Remedies: rows}, store.Seen(now.N)); err != nil {
		t.Fatal(err)
	}
}

func row(no int, side boat.Side, r boat.Remedy) frame.RemedyRow {
	return frame.RemedyRow{Member: boat.Member{Kind: boat.Frame, No: no, Side: side}, Remedy: r, Species: "white_oak", Grade: "FAS"}
}

// The option's page says why the laminates are as thick as they are, and how scarfs are marked out.
func TestTheOptionTellsLaminatesAndScarfs(t *testing.T) {
	d := newDesk(t, "")
	path := "/jobs/" + d.yard.Job + "/options/" + d.yard.Options[0]
	v := d.in(t, auth.Estimator)
	page := v.get(path)
	if !strings.Contains(page.body, `<h2 id="laminates">Laminates</h2>`) || !strings.Contains(page.body, "for all frames") || strings.Contains(page.body, `id="scarfs"`) {
		t.Error("the page does not say why its laminates are so thick, or tells of scarfs that there are not")
	}
	if !strings.Contains(page.body, "0-0-2 × 0-1-6") {
		t.Error("the page does not tell the laminates' size as the job writes lengths")
	}
	d.remedies(t, row(12, boat.Port, boat.ScarfIn), row(15, boat.Both, boat.ScarfIn), row(18, boat.Port, boat.Sister))
	page = v.get(path)
	for _, want := range []string{`<h2 id="scarfs">Scarfs</h2>`, `<th scope="row">12 port, part 1</th><td>head</td>`, "leaves the wood after", "At 8 to one, a taper of 584 mm.", "Frame 18 port, sister 1:", "scarf in a part"} {
		if !strings.Contains(page.body, want) {
			t.Errorf("the page has no %q", want)
		}
	}
	// the plan of frames has the pieces as long as they are, and says where they lie in the table below
	for _, want := range []string{"scarf in a part, from 0-0-0 to ", "(tapered from ", "sister, from 0-5-0 to 5-0-0 along the girth from the rabbet"} {
		if !strings.Contains(page.body, want) {
			t.Errorf("the plan of frames has no %q", want)
		}
	}
	if strings.Contains(page.body, "is not known yet") {
		t.Error("the plan of frames does not know how long its pieces are")
	}
	if n := strings.Count(page.body, "leaves the wood after"); n != 3 {
		t.Errorf("%d scarfs are told", n)
	}
}

// Of frames bent in steam the page tells radius, limits and hours, and what to read before the box is opened.
func TestTheOptionTellsWhatIsBentInSteam(t *testing.T) {
	d := newDesk(t, "")
	d.remedies(t, row(12, boat.Both, boat.ReplaceSteamed))
	page := d.in(t, auth.Estimator).get("/jobs/" + d.yard.Job + "/options/" + d.yard.Options[0])
	for _, want := range []string{`<h2 id="steam">Bent in steam</h2>`, `<th scope="row">12 port</th>`, "10 without, 5 with a strap", "not needed", "Before the box is opened", "solid pieces of white oak, grade FAS", "replace, bent in steam", "Spare pieces are shared"} {
		if !strings.Contains(page.body, want) {
			t.Errorf("the page has no %q", want)
		}
	}
	if strings.Contains(page.body, `id="laminates"`) {
		t.Error("nothing is glued up, and the page tells of laminates")
	}
}

func TestAnOptionOfPartsOnAScreenAndAPhone(t *testing.T) {
	inBrowser(t)
	d := newDesk(t, "")
	d.remedies(t, row(12, boat.Port, boat.ScarfIn), row(15, boat.Both, boat.ScarfIn), row(18, boat.Port, boat.Sister))
	for _, width := range []int64{screen, narrow} {
		b := newTab(t, d, "parts", width)
		b.enter(auth.Estimator)
		b.open("/jobs/" + d.yard.Job + "/options/" + d.yard.Options[0])
		ask[int](b, "document.querySelectorAll('details').forEach(d => d.open = true), 0")
		b.look("parts and sisters")
	}
}

func TestFramesBentInSteamOnAScreenAndAPhone(t *testing.T) {
	inBrowser(t)
	d := newDesk(t, "")
	d.remedies(t, row(12, boat.Both, boat.ReplaceSteamed), row(18, boat.Both, boat.ReplaceSteamed), row(20, boat.Both, boat.ReplaceLaminated))
	for _, width := range []int64{screen, narrow} {
		b := newTab(t, d, "steam", width)
		b.enter(auth.Estimator)
		b.open("/jobs/" + d.yard.Job + "/options/" + d.yard.Options[0])
		ask[int](b, "document.querySelectorAll('details').forEach(d => d.open = d.closest('#steam, section').querySelector('#steam') !== null), 0")
		b.look("bent in steam")
	}
}
