package api_test

import (
	"bytes"
	"encoding/xml"
	"net/http"
	"regexp"
	"slices"
	"strings"
	"testing"

	"ribband/server/internal/app"
)

// kinds of drawing files by the end of their name, with how they begin.
var kinds = map[string][2]string{
	"svg": {"image/svg+xml", "<svg "}, "dxf": {"image/vnd.dxf", "999\r\n"}, "pdf": {"application/pdf", "%PDF-1."},
}

// Every drawing of the contract is answered as what it is, named, and not sent again to whoever has it.
func TestEveryDrawing(t *testing.T) {
	d := open(t, file(t))
	d.putFloors()
	for _, name := range app.DrawingNames() {
		address := d.job("drawings", name)
		if strings.HasPrefix(name, "frame.") {
			address += "?frame=5&side=starboard"
		}
		if strings.HasPrefix(name, "plank-") {
			address += "?side=port&strakes=12&stock_lengths_mm=3600,4800,6000"
		}
		a := d.get(address).want(200)
		kind := kinds[name[strings.Index(name, ".")+1:]]
		if got := a.header.Get("Content-Type"); got != kind[0] || !strings.HasPrefix(string(a.body), kind[1]) {
			t.Errorf("%s is %s and begins %.20q", name, got, a.body)
		}
		if again := d.get(address); !bytes.Equal(again.body, a.body) {
			t.Errorf("%s differs when it is asked for again", name)
		}
		d.send(http.MethodGet, address, nil, header{"If-None-Match", a.header.Get("ETag")}).want(304)
		if kind[0] == "image/svg+xml" {
			var s struct {
				Title string `xml:"title"`
				Desc  string `xml:"desc"`
			}
			if err := xml.Unmarshal(a.body, &s); err != nil || !strings.Contains(s.Title, "Wendeline") || s.Desc == "" {
				t.Errorf("%s: %v, title %q, description %q", name, err, s.Title, s.Desc)
			}
		}
	}
	a4, a3 := d.get(d.job("drawings", "frame.pdf")+"?frame=5&side=port").want(200), d.get(d.job("drawings", "frame.pdf")+"?frame=5&side=port&paper=a3").want(200)
	if bytes.Equal(a4.body, a3.body) {
		t.Error("A3 is printed as A4")
	}
	onPaper(t, a4.body, func(t *testing.T, text string) {
		for _, want := range []string{"Frame 5 port, full size", "Measure this square before use", "row A, column "} {
			if !strings.Contains(text, want) {
				t.Errorf("%q is not on the sheets", want)
			}
		}
	})
	if got := d.get(d.job("drawings", "frame.dxf") + "?frame=5&side=port").header.Get("Content-Disposition"); got != `inline; filename="frame-5-port.dxf"` {
		t.Errorf("it is named %s", got)
	}
	planks := d.get(d.job("drawings", "plank-expansion.svg") + "?strakes=12&side=port&stock_lengths_mm=3600,4800,6000")
	if got := planks.header.Get("Content-Disposition"); got != `inline; filename="plank-expansion-port.svg"` || !bytes.Contains(planks.body, []byte("proposed by the rules")) {
		t.Errorf("it is named %s", got)
	}
	// The contract lists the names.
	for _, op := range operations(t) {
		if op.OperationID != "readDrawing" {
			continue
		}
		var listed []string
		for _, p := range op.parameters {
			if p.Value.Name == "name" {
				for _, x := range p.Value.Schema.Value.Enum {
					listed = append(listed, x.(string))
				}
			}
		}
		if !slices.Equal(listed, app.DrawingNames()) {
			t.Errorf("the contract lists %v, the server has %v", listed, app.DrawingNames())
		}
	}
}

// What cannot be drawn is told with what would do.
func TestDrawingsThatAreRefused(t *testing.T) {
	d := open(t, file(t))
	for _, c := range []struct{ query, parameter string }{
		{"frame.svg", "frame"}, {"frame.dxf?side=port", "frame"}, {"frame.dxf?frame=5", "side"}, {"frame.svg?frame=99&side=port", "frame"},
		{"frame.svg?frame=x&side=port", "frame"}, {"frame.svg?frame=5&side=both", "side"}, {"body-plan.svg?frame=5&side=port", "frame"}, {"profile.svg?side=port", "side"},
		{"frame.pdf?frame=5&side=port&paper=letter", "paper"}, {"frame.svg?frame=5&side=port&paper=a3", "paper"}, {"frame.pdf?frame=5", "side"},
		{"body-plan.svg?strakes=5", "strakes"}, {"frame.svg?frame=5&side=port&stock_lengths_mm=4000", "stock_lengths_mm"}, {"plank-expansion.svg?side=port", "strakes"},
		{"plank-expansion.svg?strakes=9", "side"}, {"plank-expansion.svg?strakes=9&side=port&frame=3", "frame"}, {"plank-expansion.svg?strakes=99&side=port", "strakes"},
		{"plank-expansion.svg?strakes=9&side=port&paper=a3", "paper"},
	} {
		p := d.get(d.job("drawings")+"/"+c.query).refused(400, "malformed-request")
		if len(p.Errors) == 0 || p.Errors[0].Parameter != c.parameter || p.Errors[0].Fix == "" {
			t.Errorf("%s: %+v", c.query, p)
		}
	}
	for _, name := range []string{"keel.svg", "body-plan", "body-plan.dxf", "Body-Plan.svg"} {
		if p := d.get(d.job("drawings", name)).refused(404, "not-found"); !strings.Contains(p.Detail, "half-breadths.svg") {
			t.Errorf("%s: %s", name, p.Detail)
		}
	}
	empty := d.newJob()
	for _, name := range []string{"body-plan.svg", "sections.dxf", "frame.svg?frame=1&side=port", "floors.svg", "plank-expansion.svg?strakes=9&side=port"} {
		d.get(empty+"/drawings/"+name).refused(409, "documents-missing")
	}
}

// A frame that has a pattern is drawn by it, without bevels, and says so.
func TestDrawingOfAPattern(t *testing.T) {
	d := open(t, file(t))
	lines := d.get(d.job("drawings", "frame.dxf") + "?frame=5&side=port").want(200)
	d.send(http.MethodPut, d.job("patterns"), onePattern(5), firstPut).want(201)
	pattern := d.get(d.job("drawings", "frame.dxf") + "?frame=5&side=port").want(200)
	if bytes.Equal(lines.body, pattern.body) {
		t.Error("with a pattern the frame is drawn as without")
	}
	if plan := d.get(d.job("drawings", "body-plan.svg")).want(200); !strings.Contains(string(plan.body), `data-of="pattern/5/port"`) {
		t.Error("the body plan does not show the pattern")
	}
	bevel := regexp.MustCompile(`bevel [+-]?\d`)
	if !bevel.Match(lines.body) || bevel.Match(pattern.body) || !strings.Contains(string(pattern.body), "no bevels are given") {
		t.Error("bevels are given of the pattern, or not of the lines")
	}
}
