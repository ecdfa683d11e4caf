package api_test

import (
	"bytes"
	"fmt"
	"net/http"
	"slices"
	"strings"
	"sync"
	"testing"
)

func TestJobsAreOpenedReadAndChanged(t *testing.T) {
	engines(t, func(t *testing.T, p place) {
		d := open(t, p)
		made := d.send(http.MethodPost, "/api/v1/jobs", jobFields(), d.key()).want(201)
		path := made.header.Get("Location")
		read := d.get(path).want(200)
		if !bytes.Equal(read.body, made.body) || read.etag() != made.etag() || read.etag() != `"1"` {
			t.Errorf("made %s %s, read %s %s", made.etag(), made.body, read.etag(), read.body)
		}
		fields := jobFields()
		fields["boat"] = map[string]any{"name": "Renamed", "description": "A sloop."}
		if got := d.send(http.MethodPut, path, fields, seen(read.etag())).want(200); got.etag() != `"2"` {
			t.Errorf("the change is version %s", got.etag())
		}
		late := d.send(http.MethodPut, path, fields, seen(read.etag())).refused(412, "version-stale")
		if late.CurrentVersion == nil || *late.CurrentVersion != 2 || !strings.Contains(late.Detail, "Version 2 stands") {
			t.Errorf("the current version is not named: %+v", late)
		}
	})
}

func TestEveryFaultOfAJobIsTold(t *testing.T) {
	d := open(t, file(t))
	before := d.rows()
	p := d.send(http.MethodPost, "/api/v1/jobs", map[string]any{
		"owner": map[string]any{"name": "", "address": []string{"ok", strings.Repeat("x", 201)}}, "boat": map[string]any{"name": strings.Repeat("ä", 201)},
		"notation": "cubits", "currency": "usd", "opened_date": "2026-02-30",
	}, d.key()).refused(422, "document-faults")
	want := []string{"/owner/name", "/owner/address/1", "/boat/name", "/notation", "/currency", "/opened_date"}
	if !slices.Equal(p.pointers(), want) {
		t.Errorf("faults at %q, want %q", p.pointers(), want)
	}
	for _, e := range p.Errors {
		if e.Detail == "" || e.Fix == "" {
			t.Errorf("%s: detail %q, fix %q", e.Pointer, e.Detail, e.Fix)
		}
	}
	p = d.send(http.MethodPost, "/api/v1/jobs", `{"owner":{"nam":"x"},"boat":"Sloop","notation":5,"currency":null,"open_date":"2026-01-05"}`, d.key()).refused(422, "document-faults")
	want = []string{"/owner/nam", "/owner/name", "/boat", "/notation", "/currency", "/open_date", "/opened_date"}
	if !slices.Equal(p.pointers(), want) {
		t.Errorf("faults at %q, want %q", p.pointers(), want)
	}
	if after := d.rows(); !equal(before, after) {
		t.Errorf("something was stored: %v, then %v", before, after)
	}
}

// The repeat of a request gets the stored answer byte for byte, also from a service that was started since.
func TestRepeatsGetTheStoredAnswer(t *testing.T) {
	engines(t, func(t *testing.T, p place) {
		d := open(t, p)
		key := d.key()
		first := d.send(http.MethodPost, "/api/v1/jobs", jobFields(), key).want(201)
		again := d.send(http.MethodPost, "/api/v1/jobs", jobFields(), header{"Idempotency-Key", `"` + key.value + `"`}).want(201)
		for _, name := range []string{"Etag", "Location", "Content-Type"} {
			if first.header.Get(name) != again.header.Get(name) {
				t.Errorf("%s was %q and is %q", name, first.header.Get(name), again.header.Get(name))
			}
		}
		if !bytes.Equal(first.body, again.body) {
			t.Errorf("first\n%s\nagain\n%s", first.body, again.body)
		}
		other := jobFields()
		other["currency"] = "EUR"
		d.send(http.MethodPost, "/api/v1/jobs", other, key).refused(422, "idempotency-key-reused")
	})
}

// clerks is how many send at once.
const clerks = 32

func TestOneKeyMakesOneJob(t *testing.T) {
	engines(t, func(t *testing.T, p place) {
		d := open(t, p)
		before := d.rows()["jobs"]
		key := d.key()
		bodies := make([]string, clerks)
		var all sync.WaitGroup
		for i := range clerks {
			all.Go(func() {
				a := d.send(http.MethodPost, "/api/v1/jobs", jobFields(), key)
				bodies[i] = fmt.Sprint(a.status, string(a.body))
			})
		}
		all.Wait()
		for i, b := range bodies {
			if b != bodies[0] || !strings.HasPrefix(b, "201") {
				t.Errorf("answer %d is %s, the first %s", i, b, bodies[0])
			}
		}
		if made := d.rows()["jobs"] - before; made != 1 {
			t.Errorf("%d jobs were made", made)
		}
	})
}

func TestListsAreReadPageByPage(t *testing.T) {
	d := open(t, file(t))
	const count = 7
	want := []string{d.demo.Job}
	for range count {
		var job struct{ ID string }
		d.send(http.MethodPost, "/api/v1/jobs", jobFields(), d.key()).want(201).into(&job)
		want = append(want, job.ID)
	}
	var got []string
	path := "/api/v1/jobs?limit=3"
	for path != "" {
		a := d.get(path).want(200)
		var page struct {
			Items []struct{ ID string }
			Next  string
		}
		a.into(&page)
		for _, j := range page.Items {
			got = append(got, j.ID)
		}
		link := a.header.Get("Link")
		if (page.Next == "") != (link == "") {
			t.Errorf("next is %q and the link %q", page.Next, link)
		}
		path, _, _ = strings.Cut(strings.TrimPrefix(link, "<"), ">")
		// What comes in between is at the end, and shifts nothing.
		if len(got) == 3 {
			var job struct{ ID string }
			d.send(http.MethodPost, "/api/v1/jobs", jobFields(), d.key()).want(201).into(&job)
			want = append(want, job.ID)
		}
	}
	if !slices.Equal(got, want) {
		t.Errorf("read %v, want %v", got, want)
	}
	d.get("/api/v1/jobs?limit=100000").want(200)
}
