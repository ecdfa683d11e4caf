package web_test

import (
	"regexp"
	"strings"
	"testing"

	"ribband/server/internal/auth"
	"ribband/server/internal/store"
	"ribband/takeoff/boat"
	"ribband/takeoff/frame"
	"ribband/takeoff/rules"
)

// fastened is an option with two pairs of frames, of a yard that counts fastenings and loses a tenth of them, on a boat whose
// planking is written down beside her frames.
func (d *desk) fastened(t *testing.T) string {
	t.Helper()
	now, err := d.Rules(t.Context(), d.lead(t), 0)
	if err != nil {
		t.Fatal(err)
	}
	now.Doc.PlankFastenings = &rules.FasteningRule{Screw: "screw_bronze_20x2_1_2", Plug: "plug_oak_11_16", PerCrossing: "two_or_three", Source: "of a test"}
	now.Doc.Losses = append(now.Doc.Losses, rules.LossRule{Name: "dropped", Material: "fastenings", Fraction: "0.1", Source: "of a test"})
	if _, err := d.PutRules(t.Context(), d.lead(t), now.Doc, store.Seen(now.N)); err != nil {
		t.Fatal(err)
	}
	frames, err := d.Frames(t.Context(), d.lead(t), d.yard.Job)
	if err != nil {
		t.Fatal(err)
	}
	frames.Doc.Planking = &frame.PlankingDocument{Thickness: "0-1-2", Width: "0-5-4"}
	if _, err := d.PutFrames(t.Context(), d.lead(t), d.yard.Job, frames.Doc, store.Seen(frames.N)); err != nil {
		t.Fatal(err)
	}
	return "/jobs/" + d.yard.Job + "/options/" + d.option(t, "Fastened", row(12, boat.Both, boat.ReplaceLaminated), row(13, boat.Both, boat.ReplaceLaminated))
}

// The option's page tells how many screws stay in the boat, the published screw beside, how the wood holds it, and that what is dropped is
// reckoned on all of them; of a yard that does not count them it says what is missing.
func TestTheOptionTellsFastenings(t *testing.T) {
	d := newDesk(t, "")
	v := d.in(t, auth.Estimator)
	if page := v.get("/jobs/" + d.yard.Job + "/options/" + d.yard.Options[0]); !strings.Contains(page.body, `<h2 id="fastened">`) || strings.Contains(page.body, "screws stay in the boat") {
		t.Error("nothing says what is missing for fastenings to be counted")
	}
	page := v.get(d.fastened(t))
	for _, want := range []string{`<h2 id="fastened">Planks fastened to new frames</h2>`, " screws stay in the boat. What would change it: ", "A published table has for such planking No. 20 screws",
		"Pull, lb an inch", `<th scope="row">White oak</th>`, "Before a plank is drawn or fastened", "dropped 10\u00a0%", "They are taken on the sum, which is rounded up once"} {
		if !strings.Contains(page.body, want) {
			t.Errorf("the page has no %q", want)
		}
	}
	told := regexp.MustCompile(`([0-9]+) screws stay in the boat`).FindStringSubmatch(page.body)
	listed := regexp.MustCompile(`<th scope="row">screw bronze 20x2 1 2</th><td>–</td><td class="num">([0-9]+)</td>`).FindStringSubmatch(page.body)
	if told == nil || listed == nil || told[1] != listed[1] {
		t.Errorf("%v are told of, %v listed", told, listed)
	}
}

func TestFasteningsOnAScreenAndAPhone(t *testing.T) {
	inBrowser(t)
	d := newDesk(t, "")
	path := d.fastened(t)
	for _, width := range []int64{screen, narrow} {
		b := newTab(t, d, "fastened", width)
		b.enter(auth.Estimator)
		b.open(path)
		if !ask[bool](b, "document.querySelector('#fastened') !== null && document.querySelector('#fastened').closest('section').querySelectorAll('tbody tr').length == 1") {
			t.Error("the section of fastenings has no table of woods")
		}
		ask[int](b, "document.querySelector('#fastened').scrollIntoView(), 0")
		b.look("planks fastened to new frames")
	}
}
