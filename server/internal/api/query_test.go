package api_test

import (
	"net/http"
	"strings"
	"testing"

	"ribband/seed"
)

// Everything that is wrong with a query is told at once, each by the name of its parameter.
func TestEveryFaultOfAQueryIsTold(t *testing.T) {
	d := open(t, file(t))
	for path, want := range map[string]string{
		"/api/v1/jobs?limit=0&cursor=somewhere":               "cursor limit",
		"/api/v1/jobs?limit=1&limit=2&colour=red&size=4":      "colour limit size",
		"/api/v1/jobs?limit=x":                                "limit",
		"/api/v1/jobs?%ff=1&limit=-1":                         "limit \ufffd",
		d.option(0, "takeoff") + "?figures=maybe&version=1":   "figures version",
		d.option(0, "buy-list"):                               "sheet version",
		d.option(0, "buy-list") + "?version=x":                "version sheet",
		d.sheet("compare") + "?from=0&to=1e3&from=2":          "from to",
		d.sheet("compare") + "?to=2&from=":                    "from",
		d.job("reconciliation") + "?revision=one&option=&q=1": "q revision",
	} {
		p := d.get(path).refused(400, "malformed-request")
		var got []string
		for _, e := range p.Errors {
			got = append(got, e.Parameter)
			if e.Detail == "" || e.Fix == "" {
				t.Errorf("%s: %+v", path, e)
			}
		}
		if s := strings.Join(got, " "); s != want {
			t.Errorf("%s: wrong are %q, want %q", path, s, want)
		}
		if len(got) == 1 && !strings.Contains(p.Detail, got[0]) {
			t.Errorf("%s: the detail %q does not name the parameter", path, p.Detail)
		}
	}
}

// What stands beside a table of offsets is told by the name of its parameter, what stands in it by row and column.
func TestATableIsToldApartFromItsQuery(t *testing.T) {
	d := open(t, file(t))
	for query, want := range map[string]string{"": "surface notation", "?surface=inside": "notation", "?notation=feet_inches_eighths&surface=inside&grain=x": "grain"} {
		p := d.send(http.MethodPut, d.job("hull")+query, seed.OffsetsCSV(), asCSV, seen(`"1"`)).refused(422, "document-faults")
		var got []string
		for _, e := range p.Errors {
			got = append(got, e.Parameter)
			if e.Pointer != "" || e.Row != 0 {
				t.Errorf("%q: %+v", query, e)
			}
		}
		if s := strings.Join(got, " "); s != want {
			t.Errorf("%q: wrong are %q, want %q", query, s, want)
		}
	}
}
