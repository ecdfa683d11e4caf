package api_test

import (
	"net/http"
	"slices"
	"strings"
	"testing"
)

// What does not fit the form of a body and what is wrong with the rest of it are told together, in the order of the
// body, each place once; nothing is stored.
func TestFormAndContentAreToldTogether(t *testing.T) {
	d := open(t, file(t))
	terms := `{"markup":{"timber":"2e1","glue":"11","stone":"0.1"},"taxes":[{"category":"","rate":"x","kinds":["air"]},{"category":7,"rate":"0.1","kinds":["glue"]}],
		"rounding":"up","valid_days":0,"range_low":"1","range_high":-1,"text":"a\u0000b"}`
	for _, c := range []struct {
		what, method, path, body string
		want                     []string
	}{
		{"a job", http.MethodPost, "/api/v1/jobs", `{"owner":[],"boat":{"name":3},"notation":"furlong","currency":"usd","opened_date":"2026-02-30"}`,
			[]string{"/owner", "/boat/name", "/notation", "/currency", "/opened_date"}},
		{"a job changed", http.MethodPut, d.job(), `{"owner":{"name":""},"boat":null,"notation":"mm","colour":1,"currency":"usd","opened_date":7}`,
			[]string{"/owner/name", "/boat", "/colour", "/currency", "/opened_date"}},
		{"frames", http.MethodPut, d.job("frames"),
			`{"notation":"inches","moulding_face":"up","spacing":{"first_no":1,"count":0,"first_x":"x","spacing":"12","moulded":"2"},"frames":[{"no":3,"side":"left","x":"4","moulded":"2"}]}`,
			[]string{"/moulding_face", "/spacing/count", "/spacing/first_x", "/spacing/siding", "/frames/0/side", "/frames/0/siding"}},
		{"frames in no notation", http.MethodPut, d.job("frames"), `{"notation":"cubits","moulding_face":"up","frames":[{"no":3,"side":"left","x":"4","siding":"1","moulded":2}]}`,
			[]string{"/notation", "/moulding_face", "/frames/0/side", "/frames/0/moulded"}},
		{"a quote", http.MethodPost, d.job("quotes"), `{"options":["` + nobody + `"],"sheet":"` + d.demo.Sheet + `","version":"2","terms":` + terms + `}`,
			[]string{"/options/0", "/version", "/terms/markup/timber", "/terms/markup/glue", "/terms/markup/stone", "/terms/taxes/0/category", "/terms/taxes/0/rate",
				"/terms/taxes/0/kinds/0", "/terms/taxes/1/category", "/terms/rounding", "/terms/valid_days", "/terms/range_low", "/terms/range_high", "/terms/text"}},
		{"an option", http.MethodPost, d.job("options"), `{"name":"","scope":[1],"versions":{"rules":99}}`, []string{"/name", "/scope/0", "/versions/rules"}},
		{"remedies, looked at within the write", http.MethodPut, d.option(0, "remedies"), `{"remedies":[{"member":{"kind":"frame","no":99,"side":"port"},"remedy":"leave"},{"member":3,"remedy":"leave"}]}`,
			[]string{"/remedies/0/member", "/remedies/1/member"}},
		{"a token", http.MethodPost, "/api/v1/tokens", `{"name":"","role":"owner","job":"` + nobody + `","expires_at":"tomorrow"}`, []string{"/name", "/job", "/expires_at"}},
		{"prices", http.MethodPut, d.sheet("versions", "3"), `{"currency":"EUR","notation":"mm","items":[{"kind":"labour","item":"shipwright","unit":"HUR","price":"x"},{"kind":1,"unit":"HUR","price":"1"}]}`,
			[]string{"/currency", "/items/0/price", "/items/1/kind"}},
		{"a takeoff of papers", http.MethodPost, "/api/v1/takeoff", `{"hull":[],"frames":{"notation":"mm","moulding_face":"up"},"remedies":{"remedies":[]},"species":{"note":"","species":[]},"steps":{"note":"","steps":[]},"rules":{"note":1}}`, nil},
	} {
		rows := d.rows()
		p := d.send(c.method, c.path, c.body, d.key(), seen(`"1"`)).refused(422, "document-faults")
		if c.want != nil && !slices.Equal(p.pointers(), c.want) {
			t.Errorf("%s: faults at\n%s, want\n%s", c.what, strings.Join(p.pointers(), " "), strings.Join(c.want, " "))
		}
		sorted := slices.Sorted(slices.Values(p.pointers()))
		for i := 1; i < len(sorted); i++ {
			if sorted[i] == sorted[i-1] {
				t.Errorf("%s: %s is told twice", c.what, sorted[i])
			}
		}
		if after := d.rows(); !equal(rows, after) {
			t.Errorf("%s: something was stored: %v, then %v", c.what, rows, after)
		}
	}
}

// No body is told as no body, and a charset that is UTF-8 is taken however it is written.
func TestNoBodyAndItsCharset(t *testing.T) {
	d := open(t, file(t))
	for _, body := range []string{"", " \n"} {
		if p := d.send(http.MethodPost, "/api/v1/jobs", body, d.key()).refused(400, "malformed-request"); !strings.Contains(p.Detail, "There is no body") {
			t.Errorf("%q: %s", body, p.Detail)
		}
	}
	for _, charset := range []string{"utf-8", `"UTF-8"`, "us-ascii"} {
		d.send(http.MethodPost, "/api/v1/jobs", jobFields(), d.key(), header{"Content-Type", "application/json; charset=" + charset}).want(201)
	}
}

// A body whose only fault is one of form is refused although everything else would do, by what stores and by what
// only computes.
func TestATryKeepsNothing(t *testing.T) {
	each(t, takesJSON, func(d *desk, op operation) {
		s := d.sample(op)
		s.body = `{"colour":"red",` + strings.TrimPrefix(string(bytesOf(d.t, s.body)), "{")
		rows := d.rows()
		a := op.ask(d, s, d.ids(op), "")
		if p := a.refused(422, "document-faults"); len(p.Errors) != 1 || p.Errors[0].Pointer != "/colour" {
			d.t.Errorf("faults %+v", p.Errors)
		}
		if a.header.Get("ETag") != "" || a.header.Get("Location") != "" {
			d.t.Errorf("the refusal has an ETag or a Location: %v", a.header)
		}
		if after := d.rows(); !equal(rows, after) {
			d.t.Errorf("something was stored: %v, then %v", rows, after)
		}
	})
}
