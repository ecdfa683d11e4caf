package api_test

import "testing"

// The option's blanks each have one record, with what is to be filled in, and one batch; without a document it says so.
func TestGluingOfAnOption(t *testing.T) {
	d := open(t, file(t))
	var g struct {
		Glue string
		Plan struct {
			WorkingMin int `json:"working_min"`
			Least      int `json:"least_batches"`
			Batches    []struct {
				No      int
				Members []string
				Area    string `json:"area_m2"`
			}
		}
		Records []struct {
			Blank string
			Batch int
			Trial bool `json:"trial_block"`
			Note  string
			Fill  []struct{ Code, Text string } `json:"fill_in"`
		}
		Cautions []struct{ Text, Source string }
	}
	d.get(d.option(0, "gluing")).want(200).into(&g)
	// One hour at 21.1 C is 2^0.31 hours at 18: 74.4 minutes.
	if g.Glue != "epoxy_structural" || g.Plan.WorkingMin != 74 || len(g.Records) != 20 || len(g.Plan.Batches) < g.Plan.Least || g.Plan.Least < 1 {
		t.Fatalf("%+v", g)
	}
	in := map[string]int{}
	for _, b := range g.Plan.Batches {
		for _, m := range b.Members {
			in[m] = b.No
		}
		if b.Area == "" {
			t.Errorf("%+v", b)
		}
	}
	for _, r := range g.Records {
		if r.Batch == 0 || in[r.Blank] != r.Batch || !r.Trial || r.Note == "" || len(r.Fill) < 8 { // white oak
			t.Errorf("%+v", r)
		}
	}
	for _, c := range g.Cautions {
		if c.Text == "" || c.Source == "" {
			t.Errorf("%+v", c)
		}
	}
	bare := d.send("POST", d.newJob()+"/options", map[string]any{"name": "bare"}, d.key()).want(201).header.Get("Location")
	d.get(bare+"/gluing").refused(409, "documents-missing")
}
