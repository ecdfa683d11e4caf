package web_test

import (
	"strings"
	"testing"

	"ribband/server/internal/app"
	"ribband/server/internal/auth"
	"ribband/server/internal/store"
)

// planked issues a second revision of the demo's estimate, over its first option and that of planks, and has the owner accept the planks.
func (d *desk) planked(t testing.TB) (option string) {
	t.Helper()
	lead, err := d.Who(t.Context(), d.token(auth.Lead))
	if err != nil {
		t.Fatal(err)
	}
	owner, err := d.Who(t.Context(), d.token(auth.Owner))
	if err != nil {
		t.Fatal(err)
	}
	option = d.yard.Planked[0]
	fields := app.RevisionFields{Options: []string{d.yard.Options[0], option}}
	if _, err = d.Revise(t.Context(), lead, d.yard.Quote, app.Key{}, fields, func(app.Revision, bool) (store.Answer, error) { return store.Answer{}, nil }); err != nil {
		t.Fatal(err)
	}
	if _, err = d.Issue(t.Context(), lead, d.yard.Quote, 2, app.Key{}, func(app.Revision) (store.Answer, error) { return store.Answer{}, nil }); err != nil {
		t.Fatal(err)
	}
	if _, err = d.Accept(t.Context(), owner, d.yard.Quote, 2, app.Key{}, app.AcceptFields{Option: option, Name: "E. Quillfeather"}, func(app.Quote) (store.Answer, error) { return store.Answer{}, nil }); err != nil {
		t.Fatal(err)
	}
	return option
}

// Planks are told by strake and frames wherever an option of them is shown: to the yard, to the owner, beside frames, against what was
// spent, and on paper.
func TestPlanksAreShown(t *testing.T) {
	d := newDesk(t, "")
	option := d.planked(t)
	lead, owner, books := d.in(t, auth.Lead), d.in(t, auth.Owner), d.in(t, auth.Accountant)
	read := books.sendTable("/jobs/"+d.yard.Job+"/spend/import", "a", spendHeader+
		today()+",invoice,Hollow Oak Sawmill (invented),HO-9,1,longleaf_pine clear,,70,BFT,760.00,USD,45.60,spile_plank,\n"+
		today()+",invoice,Saltpan Chandlery (invented),SP-9,1,screw_bronze_20x2_1_2,,50,C62,59.00,USD,3.54,fit_butt_block,\n"+
		today()+",hours,Yard's own people (invented),week 48,1,shipwright,,18,HUR,873.00,USD,,hang_plank,\n").header.Get("Location")
	if got := books.post(read, sends("b")); got.status >= 400 {
		t.Fatal(got.status, got.body)
	}
	quote := "/quotes/" + d.yard.Quote + "/2"
	pages := map[string]struct {
		body string
		want []string
	}{
		"option":         {lead.get("/jobs/" + d.yard.Job + "/options/" + option).body, []string{"Strake 5 port", "frames 12 to 18", "Butt blocks, in mm", "between frames 18 and 19", "butt blocks of longleaf pine", "Planking holds a hull in shape", "Member by member", "each drawn in its place: leave 68"}},
		"planks":         {lead.get("/jobs/" + d.yard.Job + "/options/" + option + "/planks").body, []string{"Planks renewed on Wendeline, port side", "Planks renewed on Wendeline, starboard side", "<td>10</td>"}},
		"estimate":       {owner.get(quote).body, []string{"Three planks", "<dt>New timber</dt>", "to measure on the boat what shape", "a short piece of wood behind the joint", "to hollow the inner face"}},
		"compare":        {owner.get(quote + "/compare?first=" + d.yard.Options[0] + "&second=" + option).body, []string{"Three planks"}},
		"reconciliation": {books.get("/jobs/" + d.yard.Job + "/reconciliation").body, []string{"longleaf pine clear"}},
		"job":            {lead.get("/jobs/" + d.yard.Job).body, []string{"Three planks"}},
	}
	for name, p := range pages {
		for _, want := range p.want {
			if !strings.Contains(p.body, want) {
				t.Errorf("%s has no %q", name, want)
			}
		}
	}
	if testing.Short() {
		return
	}
	for role, paths := range map[auth.Role]map[string]string{
		auth.Lead: {"option": "/jobs/" + d.yard.Job + "/options/" + option, "planks of the demo": "/jobs/" + d.yard.Job + "/options/" + option + "/planks", "quote": quote, "buy list": "/jobs/" + d.yard.Job + "/options/" + option + "/buy-list?sheet=" + d.yard.Sheet + "&version=2",
			"reconciliation": "/jobs/" + d.yard.Job + "/reconciliation", "job": "/jobs/" + d.yard.Job},
		auth.Owner: {"estimate": quote, "compare": quote + "/compare?first=" + d.yard.Options[0] + "&second=" + option},
	} {
		for _, width := range []int64{screen, phone} {
			b := newTab(t, d, "planks "+string(role), width)
			b.enter(role)
			for what, path := range paths {
				b.open(path)
				b.look(what)
			}
		}
	}
}
