package api_test

import (
	"net/http"
	"slices"
	"strings"
	"testing"

	"ribband/server/internal/auth"
)

// floorsOf is a document of floors abaft the frames of these numbers.
func floorsOf(nos ...int) map[string]any {
	list := []any{}
	for _, no := range nos {
		list = append(list, map[string]any{"no": no, "stands": "aft", "siding": "0-1-6", "depth": "0-4-0", "arm_end": "0-1-0", "arm": map[string]any{"girth": "0-10-0"}})
	}
	return map[string]any{"notation": "feet_inches_eighths", "floors": list}
}

// putFloors puts the first floors of the demo's job.
func (d *desk) putFloors() {
	d.t.Helper()
	d = d.role(auth.Lead)
	if d.get(d.job("floors")).status == http.StatusNotFound {
		d.send(http.MethodPut, d.job("floors"), floorsOf(12, 13), firstPut).want(201)
	}
}

// A yard puts a boat's floors, says what was found of them, replaces one and reads what it takes; what an option names stays.
func TestFloors(t *testing.T) {
	engines(t, func(t *testing.T, at place) {
		d := open(t, at)
		floors := d.job("floors")
		d.get(floors).refused(404, "not-found")
		spoiled := floorsOf(12, 12)
		if got := d.send(http.MethodPut, floors, spoiled, firstPut).refused(422, "document-faults").pointers(); !slices.Equal(got, []string{"/floors/1/no"}) {
			t.Errorf("%v", got)
		}
		row := func(remedy string, no int) map[string]any {
			r := map[string]any{"member": map[string]any{"kind": "floor", "no": no}, "remedy": remedy}
			if remedy == "replace_strap" {
				r["strap"] = "bronze"
			} else {
				r["species"], r["grade"] = "white_oak", "FAS"
			}
			return r
		}
		remedies := d.option(0, "remedies")
		put := func(rows ...any) answer {
			return d.send(http.MethodPut, remedies, map[string]any{"remedies": rows}, seen(d.get(remedies).etag()))
		}
		put(row("replace_sawn", 12)).refused(422, "document-faults")
		d.send(http.MethodPut, floors, floorsOf(12, 13, 14), firstPut).want(201)
		d.get(floors).want(200)
		put(row("scarf_in", 12)).refused(422, "document-faults")
		put(row("replace_sawn", 12), row("replace_strap", 13)).want(200)
		var got struct {
			Lines []struct {
				ID     string
				Member struct {
					Kind, Side string
					No         int
				}
			}
			Floors []struct {
				Across float64 `json:"across_mm"`
			}
			Faults   []struct{ Code, Detail string }
			Warnings []struct{ Code string }
			Basis    []struct{ Kind string }
		}
		d.get(d.option(0, "takeoff")).want(200).into(&got)
		if len(got.Faults) > 0 || len(got.Floors) != 3 || got.Floors[0].Across < 300 {
			t.Errorf("%+v, %+v", got.Floors, got.Faults)
		}
		var ids []string
		for _, l := range got.Lines {
			ids = append(ids, l.ID)
			if l.Member.Kind != "floor" || l.Member.Side != "" {
				t.Errorf("%+v", l)
			}
		}
		if want := []string{"floor/12/timber", "floor/12/pattern", "floor/13/strap/metal"}; !slices.Equal(ids, want) {
			t.Errorf("%v, %v wanted", ids, want)
		}
		if !slices.ContainsFunc(got.Basis, func(s struct{ Kind string }) bool { return s.Kind == "floors" }) {
			t.Errorf("%+v", got.Basis)
		}
		if p := d.send(http.MethodPut, floors, floorsOf(13), seen(d.get(floors).etag())).refused(409, "member-in-use"); !strings.Contains(p.Errors[0].Detail, "floor 12") {
			t.Errorf("%+v", p)
		}
		d.send(http.MethodPut, floors, floorsOf(12, 13), seen(d.get(floors).etag())).want(200)
		found := d.job("findings")
		doc := map[string]any{"notation": "feet_inches_eighths", "findings": []any{map[string]any{"member": map[string]any{"kind": "floor", "no": 12}, "through_no": 13, "state": "decayed"}}}
		d.send(http.MethodPut, found, doc, seen(d.get(found).etag())).want(200)
		d.get(d.option(0, "takeoff")).want(200)
	})
}

// The measures list floors, with the angle at which grain crosses their arms; of lines and floors alone too.
func TestMeasuresListFloors(t *testing.T) {
	d := open(t, file(t))
	d.putFloors()
	type measures struct {
		Floors []struct {
			Member struct{ No int }
			Across float64 `json:"across_mm"`
			Grain  struct {
				Run   float64 `json:"run_mm"`
				Most  float64 `json:"most_deg"`
				Steep float64 `json:"steepest_deg"`
			}
		}
	}
	var got measures
	d.get(d.job("hull", "measures")).want(200).into(&got)
	if len(got.Floors) != 2 || got.Floors[0].Member.No != 12 || got.Floors[0].Across < 300 || got.Floors[0].Grain.Run <= 0 || got.Floors[0].Grain.Most != 15 {
		t.Errorf("%+v", got)
	}
	lines := d.get(d.job("hull")).want(200).object()
	alone := map[string]any{"notation": "mm", "floors": []any{map[string]any{"no": 1, "x": "3000", "siding": "50", "depth": "120", "arm": map[string]any{"girth": "400"}}}}
	var along measures
	d.send(http.MethodPost, "/api/v1/hull/measure", map[string]any{"hull": lines, "floors": alone}).want(200).into(&along)
	if len(along.Floors) != 1 || along.Floors[0].Across <= 0 {
		t.Errorf("%+v", along)
	}
}

// Floors may come along with the documents of a takeoff; what is wrong with them is told under their name.
func TestFloorsThatComeAlong(t *testing.T) {
	d := open(t, file(t))
	papers := d.papers(0)
	papers["floors"] = floorsOf(12)
	papers["remedies"] = map[string]any{"remedies": []any{map[string]any{"member": map[string]any{"kind": "floor", "no": 12}, "remedy": "replace_sawn", "species": "white_oak", "grade": "FAS"}}}
	var got struct{ Lines []struct{ ID string } }
	d.send(http.MethodPost, "/api/v1/takeoff", papers).want(200).into(&got)
	if len(got.Lines) != 2 || got.Lines[0].ID != "floor/12/timber" {
		t.Errorf("%+v", got)
	}
	papers["remedies"] = map[string]any{"remedies": []any{map[string]any{"member": map[string]any{"kind": "floor", "no": 12}, "remedy": "replace_laminated", "species": "white_oak", "grade": "FAS"}}}
	p := d.send(http.MethodPost, "/api/v1/takeoff", papers).refused(422, "takeoff-faults")
	if len(p.Errors) != 1 || p.Errors[0].Code != "floor_throat_unknown" || p.Errors[0].Pointer != "/remedies/remedies/0" {
		t.Errorf("%+v", p.Errors)
	}
	spoiled := floorsOf(12)
	spoiled["floors"].([]any)[0].(map[string]any)["siding"] = "0-0-0"
	papers["floors"] = spoiled
	if got := d.send(http.MethodPost, "/api/v1/takeoff", papers).refused(422, "document-faults").pointers(); !slices.Equal(got, []string{"/floors/floors/0/siding"}) {
		t.Errorf("%v", got)
	}
}
