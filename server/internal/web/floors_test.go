package web_test

import (
	"strings"
	"testing"

	"ribband/server/internal/auth"
	"ribband/server/internal/store"
	"ribband/takeoff/boat"
	"ribband/takeoff/floor"
	"ribband/takeoff/frame"
	"ribband/takeoff/notation"
)

// withFloors puts floors abaft frames 12 to 14, and an option that saws two and glues one up.
func (d *desk) withFloors(t *testing.T) string {
	t.Helper()
	doc := floor.Document{Notation: notation.FeetInchesEighths}
	for no := 12; no <= 14; no++ {
		doc.Floors = append(doc.Floors, floor.Row{No: no, Stands: floor.Aft, Siding: "0-1-6", Depth: "0-4-0", ArmEnd: "0-1-4", Arm: &floor.ArmRow{Girth: "1-2-0"}})
	}
	doc.Floors[2].Port = &floor.ArmRow{Girth: "12-0-0"}
	if _, err := d.PutFloors(t.Context(), d.lead(t), d.yard.Job, doc, store.Absent); err != nil {
		t.Fatal(err)
	}
	row := frame.RemedyRow{Member: boat.Member{Kind: boat.Floor, No: 12}, Remedy: boat.ReplaceSawn, Species: "white_oak", Grade: "FAS"}
	return "/jobs/" + d.yard.Job + "/options/" + d.option(t, "A floor", row)
}

// The option's page tells the rectangle of each floor, what is done to it, and what is wanting.
func TestTheOptionTellsFloors(t *testing.T) {
	d := newDesk(t, "")
	page := d.in(t, auth.Estimator).get(d.withFloors(t))
	for _, want := range []string{`<h2 id="floors">Floors</h2>`, "replace, sawn", "Its port arm reaches past the sheer", `id="floor/12"`, "Floor 12: replace, sawn", "Floors tie the frames", "solid pieces of white oak, grade FAS"} {
		if !strings.Contains(page.body, want) {
			t.Errorf("the page has no %q", want)
		}
	}
}

func TestFloorsOnAScreenAndAPhone(t *testing.T) {
	inBrowser(t)
	d := newDesk(t, "")
	path := d.withFloors(t)
	for _, width := range []int64{screen, narrow} {
		b := newTab(t, d, "floors", width)
		b.enter(auth.Estimator)
		b.open(path)
		b.look("floors of an option")
	}
}
