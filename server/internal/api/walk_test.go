package api_test

import (
	"bytes"
	"encoding/json"
	"net/http"
	"net/http/httptest"
	"slices"
	"strings"
	"testing"

	"ribband/server/internal/auth"
)

// each runs a test for every operation, as the lead of one demo yard, or as who does it where the lead does not.
func each(t *testing.T, which func(operation) bool, test func(d *desk, op operation)) {
	t.Helper()
	d := open(t, file(t))
	for _, op := range operations(t) {
		if which(op) {
			t.Run(op.OperationID, func(t *testing.T) { test(d.on(t).doer(op), op) })
		}
	}
}

// doer is the desk as the first role that does the operation.
func (d *desk) doer(op operation) *desk {
	d.t.Helper()
	if op.anybody(d.t) {
		return d
	}
	return d.role(auth.Role(rolesOf(d.t, op)[0]))
}

func every(operation) bool { return true }

func hasBody(op operation) bool { return op.RequestBody != nil }

func takesJSON(op operation) bool {
	return hasBody(op) && op.RequestBody.Value.Content["application/json"] != nil
}

func (op operation) ask(d *desk, s sample, ids map[string]string, query string, headers ...header) answer {
	d.t.Helper()
	if query == "" {
		query = s.query
	}
	if s.kind != "" {
		headers = append([]header{{"Content-Type", s.kind}}, headers...)
	}
	return d.send(op.method, op.at(ids, query), s.body, append(s.headers, headers...)...)
}

func TestUnknownQueryIsRefused(t *testing.T) {
	each(t, every, func(d *desk, op operation) {
		p := op.ask(d, d.sample(op), d.ids(op), "colour=red").refused(400, "malformed-request")
		if len(p.Errors) == 0 || p.Errors[0].Parameter != "colour" {
			d.t.Errorf("the answer does not name the parameter: %s %+v", p.Detail, p.Errors)
		}
	})
}

func TestQueryTwiceIsRefused(t *testing.T) {
	d := open(t, file(t))
	d.get("/api/v1/jobs?limit=1&limit=2").refused(400, "malformed-request")
	d.get("/api/v1/jobs?limit=1;cursor=2").refused(400, "malformed-request")
	d.get("/api/v1/jobs?limit=-1").refused(400, "malformed-request")
	d.get("/api/v1/jobs?limit=1e3").refused(400, "malformed-request")
	d.get("/api/v1/jobs?cursor=somewhere").refused(400, "malformed-request")
	d.get("/api/v1/species?version=0").refused(400, "malformed-request")
	d.get(d.option(0, "takeoff")+"?figures=maybe").refused(400, "malformed-request")
	d.get(d.option(0, "buy-list")+"?sheet="+d.demo.Sheet).refused(400, "malformed-request")
}

// An id of nothing and an id of another yard's are answered alike, but for the request's own id.
func TestForeignIdsAreNotFound(t *testing.T) {
	foreign := func(op operation) bool { return len(op.placed()) > 0 }
	each(t, foreign, func(d *desk, op operation) {
		other := d.otherYardsJob()
		for _, name := range op.placed() {
			s := d.sample(op)
			ids := d.ids(op)
			for _, odd := range []string{"%ff", "%00", "a%00b", strings.Repeat("x", 300), "..", "-1", "1e3", "99999999999999999999"} {
				if ids[name] = odd; odd != ".." || op.method != http.MethodGet {
					op.ask(d, s, ids, "").refused(404, "not-found")
				}
			}
			ids[name] = nobody
			none := op.ask(d, s, ids, "")
			none.refused(404, "not-found")
			if name != "job" {
				continue
			}
			ids[name] = other
			if op.takes("Idempotency-Key") {
				s.headers = []header{d.key()}
			}
			if a, b := told(op.ask(d, s, ids, "")), told(none); a != b {
				d.t.Errorf("a foreign id is told from an unknown one:\n%s\n%s", a, b)
			}
		}
	})
}

// told is a problem without the request's own id.
func told(a answer) string {
	a.t.Helper()
	m := a.object()
	delete(m, "request_id")
	b, err := json.Marshal(m)
	if err != nil {
		a.t.Fatal(err)
	}
	return string(b)
}

func TestOtherKindsOfBodyAreRefused(t *testing.T) {
	each(t, hasBody, func(d *desk, op operation) {
		s := d.sample(op)
		op.ask(d, s, d.ids(op), "", header{"Content-Type", "text/plain"}).refused(415, "unsupported-media-type")
		op.ask(d, s, d.ids(op), "", header{"Content-Type", ""}).refused(415, "unsupported-media-type")
		kind := s.kind
		if kind == "" {
			kind = "application/json"
		}
		if p := op.ask(d, s, d.ids(op), "", header{"Content-Type", kind + "; charset=iso-8859-1"}).refused(415, "unsupported-media-type"); !strings.Contains(p.Detail, "iso-8859-1") {
			d.t.Errorf("the answer does not name the charset: %s", p.Detail)
		}
		op.ask(d, s, d.ids(op), "", header{"Content-Encoding", "gzip"}).refused(415, "unsupported-media-type")
	})
}

func TestOversizedBodiesAreRefused(t *testing.T) {
	oneByOne(t)
	large := strings.Repeat(" ", 2<<20) + "{}"
	each(t, hasBody, func(d *desk, op operation) {
		s := d.sample(op)
		s.body = large
		before := d.rows()
		op.ask(d, s, d.ids(op), "").refused(413, "too-large")
		if after := d.rows(); !equal(before, after) {
			d.t.Errorf("something was stored: %v, then %v", before, after)
		}
	})
}

// An unknown name, a name twice, what follows the end, null, and the wrong kind: none is taken, and nothing stored.
func TestBodiesOfTheWrongForm(t *testing.T) {
	oneByOne(t)
	each(t, takesJSON, func(d *desk, op operation) {
		s := d.sample(op)
		before := d.rows()
		good := string(bytesOf(d.t, s.body))
		rest := strings.TrimPrefix(good, "{")
		for _, bad := range []struct {
			name, body, at string
			status         int
		}{
			{"unknown name", `{"colour":"red",` + rest, "/colour", 422},
			{"name twice", `{"a~/b":1,"a~/b":2,` + rest, "/a~0~1b", 422},
			{"NUL in a text", `{"colour":"re\u0000d",` + rest, "/colour", 422},
			{"trailing bytes", good + "{}", "", 400},
			{"no JSON", `{"colour"`, "", 400},
			{"nothing", "", "", 400},
			{"not UTF-8", `{"colour":"` + "\xff" + `"}`, "", 400},
			{"half a surrogate pair", `{"colour":"\ud83d"}`, "", 400},
			{"deep", strings.Repeat("[", 100) + strings.Repeat("]", 100), "", 400},
			{"a list", "[]", "", 422},
			{"null", "null", "", 422},
		} {
			s.body = bad.body
			a := op.ask(d, s, d.ids(op), "")
			if bad.status == 400 {
				a.refused(400, "malformed-request")
				continue
			}
			p := a.refused(422, "document-faults")
			if !slices.Contains(p.pointers(), bad.at) {
				d.t.Errorf("%s: faults at %q, want one at %q", bad.name, p.pointers(), bad.at)
			}
		}
		if after := d.rows(); !equal(before, after) {
			d.t.Errorf("something was stored: %v, then %v", before, after)
		}
	})
}

// Of two headers that say one thing neither is believed.
func TestHeadersThatAreThereTwice(t *testing.T) {
	d := open(t, file(t))
	rows := d.rows()
	for _, name := range []string{"Authorization", "Idempotency-Key", "Content-Type"} {
		request := httptest.NewRequestWithContext(t.Context(), http.MethodPost, "/api/v1/jobs", bytes.NewReader(bytesOf(t, jobFields())))
		for header, value := range map[string]string{"Authorization": "Bearer " + d.as, "Idempotency-Key": d.key().value, "Content-Type": "application/json"} {
			request.Header.Set(header, value)
		}
		request.Header.Add(name, request.Header.Get(name))
		recorder := httptest.NewRecorder()
		d.handler.ServeHTTP(recorder, request)
		p := answer{t, recorder.Code, recorder.Result().Header, recorder.Body.Bytes()}.refused(400, "malformed-request")
		if !strings.Contains(p.Detail, name) {
			t.Errorf("the answer does not name %s: %s", name, p.Detail)
		}
	}
	if after := d.rows(); !equal(rows, after) {
		t.Errorf("something was stored: %v, then %v", rows, after)
	}
}

func equal(a, b map[string]int) bool {
	for k := range a {
		if a[k] != b[k] {
			return false
		}
	}
	return len(a) == len(b)
}

func TestChangesNameTheVersionTheySaw(t *testing.T) {
	isPut := func(op operation) bool { return op.method == http.MethodPut }
	each(t, isPut, func(d *desk, op operation) {
		s := d.sample(op)
		s.headers = nil
		op.ask(d, s, d.ids(op), "").refused(428, "version-required")
		if p := op.ask(d, s, d.ids(op), "", seen(`"99"`)).refused(412, "version-stale"); p.CurrentVersion == nil {
			d.t.Error("the answer does not name the version that stands")
		}
		for _, h := range [][]header{{seen("3")}, {seen("*")}, {seen(`W/"1"`)}, {seen(`"1"`), firstPut}, {{"If-None-Match", `"1"`}}} {
			op.ask(d, s, d.ids(op), "", h...).refused(400, "malformed-request")
		}
	})
}

func TestCreatingNeedsAKey(t *testing.T) {
	keyed := func(op operation) bool { return op.takes("Idempotency-Key") }
	each(t, keyed, func(d *desk, op operation) {
		s := d.sample(op)
		s.headers = nil
		op.ask(d, s, d.ids(op), "").refused(400, "idempotency-key-missing")
		op.ask(d, s, d.ids(op), "", header{"Idempotency-Key", strings.Repeat("k", 201)}).refused(400, "malformed-request")
		op.ask(d, s, d.ids(op), "", header{"Idempotency-Key", "cl\u00e9"}).refused(400, "malformed-request")

		used := d.key()
		d.useUp(used)
		s.query = ""
		if op.OperationID == "makeOption" {
			s.body = map[string]any{"name": "another"}
		}
		op.ask(d, s, d.ids(op), "", used).refused(422, "idempotency-key-reused")
	})
}

// useUp makes something under a key, whichever of those who make things this is.
func (d *desk) useUp(key header) {
	d.t.Helper()
	if a := d.send(http.MethodPost, d.job("options"), map[string]any{"name": "made by this key"}, key); a.status != http.StatusForbidden {
		a.want(201)
		return
	}
	row := invoice(key.value)
	row["description"] = "made by this key"
	d.send(http.MethodPost, d.job("spend"), row, key).want(201)
}

// A GET has a HEAD with the same headers, and its ETag spares the body.
func TestReading(t *testing.T) {
	oneByOne(t)
	isGet := func(op operation) bool { return op.method == http.MethodGet }
	each(t, isGet, func(d *desk, op operation) {
		path := op.at(d.ids(op), d.sample(op).query)
		if op.OperationID == "readPrices" {
			path = d.sheet("versions", "2")
		}
		got := d.get(path).want(200)
		head := d.send(http.MethodHead, path, nil).want(200)
		if len(head.body) > 0 {
			d.t.Errorf("HEAD has a body of %d bytes", len(head.body))
		}
		if op.Responses.Status(304) == nil {
			return // the state of the server: small, and always new
		}
		for _, name := range []string{"Etag", "Content-Type", "Content-Length"} {
			if a, b := got.header.Get(name), head.header.Get(name); a != b || a == "" {
				d.t.Errorf("%s is %q, of HEAD %q", name, a, b)
			}
		}
		spared := d.get(path, header{"If-None-Match", `"other", ` + got.etag()})
		spared.want(304)
		if len(spared.body) > 0 {
			d.t.Errorf("304 has a body of %d bytes", len(spared.body))
		}
		wantCache := "private, no-cache"
		if op.anybody(d.t) {
			wantCache = "no-cache"
		}
		if c := got.header.Get("Cache-Control"); c != wantCache {
			d.t.Errorf("Cache-Control is %q, want %q", c, wantCache)
		}
	})
}

// Every answer has the headers that keep it safe, and every error says its id, which is in the log.
func TestHeadersOfEveryAnswer(t *testing.T) {
	d := open(t, file(t))
	for _, a := range []answer{
		d.get("/api/v1/jobs"), d.get("/nowhere"), d.with("").get("/api/v1/jobs"), d.send(http.MethodDelete, "/api/v1/jobs", nil),
		d.get("/openapi.yaml"), d.send(http.MethodOptions, "/api/v1/jobs", nil), d.get("/api/v1/jobs?x=1"),
	} {
		for name, want := range map[string]string{"X-Content-Type-Options": "nosniff", "Referrer-Policy": "no-referrer"} {
			if got := a.header.Get(name); got != want {
				t.Errorf("%d: %s is %q", a.status, name, got)
			}
		}
		if !strings.Contains(a.header.Get("Content-Security-Policy"), "default-src 'none'") {
			t.Errorf("%d: no content security policy", a.status)
		}
		id := a.header.Get("X-Request-Id")
		if id == "" || !strings.Contains(d.log.String(), id) {
			t.Errorf("%d: the request's id %q is not in the log", a.status, id)
		}
		if a.status >= 400 {
			var p problem
			a.into(&p)
			if p.RequestID != id {
				t.Errorf("the problem's id is %s, the header's %s", p.RequestID, id)
			}
			if c := a.header.Get("Cache-Control"); c != "no-store" {
				t.Errorf("%d: Cache-Control is %q", a.status, c)
			}
		}
	}
	if strings.Contains(d.log.String(), d.as) {
		t.Error("the log holds a token")
	}
}

func TestOtherMethods(t *testing.T) {
	paths := map[string][]string{}
	for _, op := range operations(t) {
		paths[op.path] = append(paths[op.path], op.method)
		if op.method == http.MethodGet {
			paths[op.path] = append(paths[op.path], http.MethodHead)
		}
	}
	d := open(t, file(t))
	for path, methods := range paths {
		methods = append(methods, http.MethodOptions)
		slices.Sort(methods)
		address := operation{path: path}.at(map[string]string{"job": "a", "option": "b", "sheet": "c", "quote": "d", "n": "1", "token": "e", "import": "f", "name": "g"}, "")
		a := d.send(http.MethodPatch, address, nil)
		a.refused(405, "method-not-allowed")
		if got := a.header.Get("Allow"); got != strings.Join(methods, ", ") {
			t.Errorf("%s allows %q, want %v", path, got, methods)
		}
		if got := d.send(http.MethodOptions, address, nil).want(204).header.Get("Allow"); got != strings.Join(methods, ", ") {
			t.Errorf("OPTIONS %s allows %q, want %v", path, got, methods)
		}
	}
	for _, path := range []string{"/", "/nowhere", "/api/v1/", "/api/v1/jobs/", "/api/v1/jobs//hull", "/api/v1/%00", "/..%2f..%2fetc"} {
		d.get(path).refused(404, "not-found")
	}
}
