package api_test

import (
	"net/http"
	"strings"
	"testing"
)

// An option of steamed frames tells how they are bent and how many pieces are had, and is bought as timber; a limit of the
// yard's own that they do not keep refuses the twin, and says what would do.
func TestSteamedFramesOverTheService(t *testing.T) {
	d := open(t, file(t))
	row := map[string]any{"member": map[string]any{"kind": "frame", "no": 12, "side": "both"}, "through_no": 21, "remedy": "replace_steamed", "species": "white_oak", "grade": "FAS"}
	d.send(http.MethodPut, d.option(0, "remedies"), map[string]any{"remedies": []any{row}}, seen(d.get(d.option(0, "remedies")).etag())).want(200)
	var got struct {
		Steaming struct {
			Frames []struct {
				Needs string
				Bends bool
			}
			Pieces []struct {
				Net, Gross struct{ Value string }
			}
			Cautions []struct{ Text string }
		}
		Faults []struct{ Code, Fix string }
	}
	d.get(d.option(0, "takeoff") + "?figures=true").want(200).into(&got)
	if len(got.Steaming.Frames) != 20 || len(got.Faults) != 0 || len(got.Steaming.Cautions) == 0 || len(got.Steaming.Pieces) == 0 {
		t.Fatalf("%+v", got)
	}
	for _, f := range got.Steaming.Frames {
		if !f.Bends || f.Needs != "free" {
			t.Errorf("%+v", f)
		}
	}
	d.get(d.option(0, "buy-list") + "?sheet=" + d.demo.Sheet + "&version=2").want(200)
	rules := d.get("/api/v1/rules").want(200).object()
	rules["steam"] = map[string]any{"without_strap": map[string]any{"value": "40", "source": "made up"}}
	papers := d.papers(0)
	papers["rules"] = rules
	p := d.send(http.MethodPost, "/api/v1/takeoff", papers).refused(422, "takeoff-faults")
	if len(p.Errors) != 20 {
		t.Fatalf("%+v", p.Errors)
	}
	for _, e := range p.Errors {
		if e.Code != "steam_bend_needs_strap" || !strings.Contains(e.Fix, "layers of") || e.Pointer != "/remedies/remedies/0" {
			t.Errorf("%+v", e)
		}
	}
}
