package api_test

import (
	"net/http"
	"strings"
	"testing"
)

// Frames that taper are stored with what they are at the head; laminates then run out, and the form is drawn outside only.
func TestTaperingFramesOverTheService(t *testing.T) {
	d := open(t, file(t))
	frames := d.get(d.job("frames")).want(200)
	doc := frames.object()
	spacing, ok := doc["spacing"].(map[string]any)
	if !ok {
		t.Fatalf("%v", doc)
	}
	spacing["moulded_head"] = "0-2-1"
	d.send(http.MethodPut, d.job("frames"), doc, seen(frames.etag())).want(200)
	var got struct {
		Ripping struct {
			Frames []struct {
				Laminates int `json:"laminates"`
				AtHead    int `json:"laminates_at_head"`
			}
		}
	}
	d.get(d.option(0, "takeoff") + "?figures=true").want(200).into(&got)
	for _, f := range got.Ripping.Frames {
		if f.AtHead <= 0 || f.AtHead >= f.Laminates {
			t.Errorf("%+v", f)
		}
	}
	form := d.option(0, "form") + "?frame=12&side=port"
	if a := d.get(form).want(400); !strings.Contains(string(a.body), "the face faying") {
		t.Errorf("a form inside: %s", a.body)
	}
	d.get(form + "&face=faying").want(200)
	spacing["moulded_head"] = "0-3-0"
	d.send(http.MethodPut, d.job("frames"), doc, seen(d.get(d.job("frames")).etag())).refused(422, "document-faults")
}
