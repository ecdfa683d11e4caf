package web_test

import (
	"strings"
	"testing"

	"ribband/server/internal/app"
	"ribband/server/internal/auth"
	"ribband/server/internal/store"
	"ribband/takeoff/boat"
	"ribband/takeoff/frame"
	"ribband/takeoff/rules"
)

// shortBoards is an option of a yard whose laminates are joined, with one pair of frames.
func (d *desk) shortBoards(t *testing.T) string {
	t.Helper()
	now, err := d.Rules(t.Context(), d.lead(t), 0)
	if err != nil {
		t.Fatal(err)
	}
	now.Doc.LaminateJoints = &rules.LaminateJointsRule{Joint: rules.FeatherJoint, Slope: &rules.Sourced{Value: "12", Source: "of a test"}, Longest: "60",
		ApartThicknesses: "24", FromBend: "6", FromHeel: "4", FromHead: "4", Source: "of a test"}
	if _, err := d.PutRules(t.Context(), d.lead(t), now.Doc, store.Seen(now.N)); err != nil {
		t.Fatal(err)
	}
	id := d.option(t, "Short boards", row(12, boat.Both, boat.ReplaceLaminated))
	return "/jobs/" + d.yard.Job + "/options/" + id
}

// option opens an option with remedies.
func (d *desk) option(t *testing.T, name string, rows ...frame.RemedyRow) string {
	t.Helper()
	var id string
	_, err := d.MakeOption(t.Context(), d.lead(t), d.yard.Job, app.Key{}, app.OptionFields{Name: name}, func(o app.Option) (store.Answer, error) {
		id = o.ID
		return store.Answer{}, nil
	})
	if err != nil {
		t.Fatal(err)
	}
	if _, err := d.PutRemedies(t.Context(), d.lead(t), d.yard.Job, id, frame.Remedies{Remedies: rows}, store.Absent); err != nil {
		t.Fatal(err)
	}
	return id
}

// The option's page and the record of each blank say where its laminates are joined.
func TestPagesTellLaminatesMadeUp(t *testing.T) {
	d := newDesk(t, "")
	path := d.shortBoards(t)
	v := d.in(t, auth.Estimator)
	for at, want := range map[string][]string{
		path:             {`<h2 id="lengths">Laminates made up of lengths</h2>`, "Frame 12 port: ", "scarfed 12 to one over 76 mm", `<th scope="row">1, 3, 5`, "would need no joint"},
		path + "/gluing": {"Laminates from the faying face", "at the bend"},
	} {
		page := v.get(at)
		for _, w := range want {
			if !strings.Contains(page.body, w) {
				t.Errorf("%s has no %q", at, w)
			}
		}
	}
}

func TestLaminatesMadeUpOnAScreenAndAPhone(t *testing.T) {
	inBrowser(t)
	d := newDesk(t, "")
	path := d.shortBoards(t)
	for _, width := range []int64{screen, narrow} {
		b := newTab(t, d, "made-up", width)
		b.enter(auth.Estimator)
		b.open(path)
		ask[int](b, "document.querySelectorAll('#lengths ~ div details').forEach(d => d.open = true), 0")
		b.look("laminates made up")
		b.open(path + "/gluing")
		b.look("a record of laminates made up")
	}
}
