package api_test

import (
	"net/http"
	"strings"
	"testing"
)

func frames(count int) map[string]any {
	return map[string]any{"notation": "inches", "moulding_face": "aft", "spacing": map[string]any{"first_no": 1, "count": count, "first_x": "10",
		"spacing": "12", "siding": "1 3/4", "moulded": "2 7/8"}}
}

func replace(no, through int) map[string]any {
	return map[string]any{"remedies": []any{map[string]any{"member": map[string]any{"kind": "frame", "no": no, "side": "both"}, "through_no": through,
		"remedy": "replace_laminated", "species": "white_oak", "grade": "FAS"}}}
}

func TestFramesThatAnOptionNamesStay(t *testing.T) {
	engines(t, func(t *testing.T, p place) {
		d := open(t, p)
		job := d.newJob()
		option := d.send(http.MethodPost, job+"/options", map[string]any{"name": "One", "versions": map[string]any{"rules": 1}}, d.key()).want(201).header.Get("Location")
		d.get(option+"/remedies").refused(404, "not-found")
		d.send(http.MethodPut, option+"/remedies", replace(3, 5), firstPut).refused(409, "documents-missing")
		d.get(option+"/takeoff").refused(409, "documents-missing")
		for _, form := range []string{"/form", "/form.svg", "/form.pdf"} {
			d.get(option+form+"?frame=12&side=port").refused(409, "documents-missing")
		}

		d.send(http.MethodPut, job+"/frames", frames(10), firstPut).want(201)
		pr := d.send(http.MethodPut, option+"/remedies", replace(9, 12), firstPut).refused(422, "document-faults")
		if len(pr.Errors) != 4 { // 11 and 12, port and starboard
			t.Errorf("faults %+v", pr.Errors)
		}
		d.send(http.MethodPut, option+"/remedies", replace(3, 5), firstPut).want(201)
		d.send(http.MethodPut, option+"/remedies", replace(3, 6), seen(`"1"`)).want(200)

		d.send(http.MethodPut, job+"/frames", frames(8), seen(`"1"`)).want(200)
		pr = d.send(http.MethodPut, job+"/frames", frames(5), seen(`"2"`)).refused(409, "member-in-use")
		if len(pr.Errors) != 2 || !strings.Contains(pr.Errors[0].Detail, "frame 6 port") {
			t.Errorf("the members in use are %+v", pr.Errors)
		}
		d.get(job + "/frames").want(200)
	})
}

func TestOptionsNameTheVersionsOfWhatTheYardKnows(t *testing.T) {
	d := open(t, file(t))
	d.send(http.MethodPost, d.job("options"), map[string]any{"name": "Of things to come", "versions": map[string]any{"species": 2}}, d.key()).refused(422, "document-faults")
	var option struct{ Versions map[string]int }
	d.send(http.MethodPost, d.job("options"), map[string]any{"name": "As things are"}, d.key()).want(201).into(&option)
	for _, kind := range []string{"species", "step_library", "rules"} {
		if option.Versions[kind] != 1 {
			t.Errorf("%s is version %d", kind, option.Versions[kind])
		}
	}
	for _, path := range []string{"species", "step-libraries", "rules"} {
		d.get("/api/v1/" + path + "?version=1").want(200)
		d.get("/api/v1/"+path+"?version=2").refused(404, "not-found")
	}
}
