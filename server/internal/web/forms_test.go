package web_test

import (
	"strings"
	"testing"

	"ribband/server/internal/auth"
)

// The option leads to its forms, each form to its ordinates and to its sheets in full size; what has no form says so.
func TestPagesOfForms(t *testing.T) {
	d := newDesk(t, "")
	v := d.in(t, auth.Estimator)
	path := "/jobs/" + d.yard.Job + "/options/" + d.yard.Options[0]
	if option := v.get(path); !strings.Contains(option.body, `href="`+path+`/forms"`) {
		t.Error("the option does not lead to its forms")
	}
	list := v.get(path + "/forms")
	for _, want := range []string{`href="` + path + `/forms/12/port"`, "Frame 12 port", "Tighter than the frame"} {
		if !strings.Contains(list.body, want) {
			t.Errorf("the list has no %q", want)
		}
	}
	one := v.get(path + "/forms/12/port")
	for _, want := range []string{"Form for frame 12 port", "/forms/12/port/form.svg?face=inner", "/forms/12/port/full-size.pdf?face=inner", "Ordinates of the form", "Springback: "} {
		if !strings.Contains(one.body, want) {
			t.Errorf("the form's page has no %q", want)
		}
	}
	if wider := v.get(path + "/forms/12/port?face=faying&pitch=0-8-0"); strings.Count(wider.body, "<tr>") >= strings.Count(one.body, "<tr>") || !strings.Contains(wider.body, "face=faying&amp;pitch=0-8-0") {
		t.Error("twice the pitch has as many ordinates, or the picture is asked for without it")
	}
	if svg := v.get(path + "/forms/12/port/form.svg?face=faying"); !strings.HasPrefix(svg.body, "<svg ") || !strings.Contains(svg.body, "Outside form") {
		t.Error("no picture of an outside form")
	}
	if file := v.get(path + "/forms/12/port/full-size.pdf"); !strings.HasPrefix(file.body, "%PDF") {
		t.Error("no sheets in full size")
	}
	if bad := v.get(path + "/forms/12/port?pitch=banana"); bad.status != 422 || !strings.Contains(bad.body, "from 5 to 2000 mm") {
		t.Errorf("%d", bad.status)
	}
	if none := v.get(path + "/forms/1/port"); none.status != 404 || !strings.Contains(none.body, "There is no form") {
		t.Errorf("%d", none.status)
	}
	for _, at := range []string{"/forms/12/both", "/forms/x/port", "/forms/12/port?face=top", "/forms/12/port?piece=keel", "/forms/12/port/form.svg?pitch=banana", "/forms/1/port/full-size.pdf"} {
		if got := v.get(path + at); got.status != 404 {
			t.Errorf("%s: %d", at, got.status)
		}
	}
	if got := d.in(t, auth.Owner).get(path + "/forms"); got.status != 404 {
		t.Errorf("an owner reads the forms: %d", got.status)
	}
}

// Floors and joints of laminates are drawn where they are told.
func TestFloorsAndJointsAreDrawn(t *testing.T) {
	d := newDesk(t, "")
	path := d.withFloors(t)
	v := d.in(t, auth.Estimator)
	page := v.get(path)
	for _, want := range []string{`src="` + path + `/floors.svg"`, "Grain of one board across an arm"} {
		if !strings.Contains(page.body, want) {
			t.Errorf("the page has no %q", want)
		}
	}
	if svg := v.get(path + "/floors.svg?width=narrow"); !strings.Contains(svg.body, "Floor 12, new, sawn") {
		t.Error("no picture of the floors")
	}
	short := d.shortBoards(t)
	for _, at := range []string{short, short + "/gluing"} {
		if body := v.get(at).body; strings.Count(body, `data-of="joint"`) < 4 || !strings.Contains(body, "Joints in the laminates of frame 12 port") {
			t.Errorf("%s draws no joints", at)
		}
	}
}

func TestFormsOnAScreenAndAPhone(t *testing.T) {
	inBrowser(t)
	d := newDesk(t, "")
	path := "/jobs/" + d.yard.Job + "/options/" + d.yard.Options[0] + "/forms"
	for _, width := range []int64{screen, narrow} {
		b := newTab(t, d, "forms", width)
		b.enter(auth.Estimator)
		b.open(path)
		b.look("forms")
		b.open(path + "/12/port")
		b.look("one form")
	}
}
