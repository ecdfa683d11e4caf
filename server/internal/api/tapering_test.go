package api_test

import (
	"net/http"
	"testing"
)

// Frames that taper are stored with what they are at the head; laminates then run out, and the form says where.
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
	for _, face := range []string{"inner", "faying"} {
		var drawn struct {
			Laminates int
			RunsOut   []struct {
				From      float64 `json:"from_mm"`
				Laminates int
			} `json:"runs_out"`
		}
		d.get(form + "&face=" + face).want(200).into(&drawn)
		if n := len(drawn.RunsOut); n == 0 || drawn.RunsOut[0].Laminates != drawn.Laminates-1 || drawn.RunsOut[n-1].From <= drawn.RunsOut[0].From {
			t.Errorf("%s: %+v", face, drawn)
		}
	}
	spacing["moulded_head"] = "0-3-0"
	d.send(http.MethodPut, d.job("frames"), doc, seen(d.get(d.job("frames")).etag())).refused(422, "document-faults")
}
