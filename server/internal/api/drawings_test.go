package api_test

import (
	"bytes"
	"encoding/xml"
	"math"
	"net/http"
	"regexp"
	"slices"
	"strconv"
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
	oneByOne(t)
	d := open(t, file(t))
	d.putFloors()
	for _, name := range app.DrawingNames() {
		address := d.job("drawings", name)
		if strings.HasPrefix(name, "frame.") {
			address += "?frame=5&side=starboard"
		}
		if strings.HasPrefix(name, "section.") {
			address += "?x_mm=3000&side=port"
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
		{"section.svg?side=port", "x_mm"}, {"section.dxf?x_mm=3000", "side"}, {"section.pdf?x_mm=99999&side=port", "x_mm"}, {"section.svg?x_mm=3000&side=port&frame=5", "frame"},
		{"section.svg?x_mm=ten&side=port", "x_mm"}, {"section.dxf?x_mm=3000&side=port&paper=a3", "paper"}, {"frame.svg?frame=5&side=port&x_mm=3000", "x_mm"}, {"plank-expansion.svg?strakes=9&side=port&x_mm=9", "x_mm"},
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

// A section is drawn full size at a station and between two: the line in the file is the section's own, and the sheets hold it
// with what a mould needs to know.
func TestDrawingsOfASection(t *testing.T) {
	oneByOne(t)
	d := open(t, file(t))
	var s struct {
		Places []struct {
			Out float64 `json:"half_breadth_mm"`
			Up  float64 `json:"height_mm"`
		}
	}
	for _, x := range []string{"3454.4", "4000"} {
		query := "?x_mm=" + x + "&side=port"
		got := d.get(d.job("drawings", "section.dxf") + query).want(200)
		if name := got.header.Get("Content-Disposition"); name != `inline; filename="section-`+x+`-port.dxf"` {
			t.Error(name)
		}
		layer := string(got.body)
		if strings.Contains(layer, "INNER_FACE") || strings.Contains(layer, "frame") {
			t.Error("a section alone has an inner face, or a frame")
		}
		d.get(d.job("hull", "section") + query).want(200).into(&s)
		near := func(out, up float64) bool { // a point of the section's layer, which are no farther apart than this twice
			const apart = 25.
			codes := strings.Split(strings.ReplaceAll(layer, "\r", ""), "\n")
			on, y := "", 0.0
			for i := 0; i+1 < len(codes); i += 2 {
				switch strings.TrimSpace(codes[i]) {
				case "8":
					on = codes[i+1]
				case "10":
					y, _ = strconv.ParseFloat(strings.TrimSpace(codes[i+1]), 64)
				case "20":
					if z, err := strconv.ParseFloat(strings.TrimSpace(codes[i+1]), 64); err == nil && on == "SECTION" && math.Hypot(math.Abs(y)-out, z-up) < apart {
						return true
					}
				}
			}
			return false
		}
		for _, p := range s.Places {
			if !near(p.Out, p.Up) {
				t.Errorf("%s: no point of the file is near %v, %v", x, p.Out, p.Up)
			}
		}
		if svg := string(d.get(d.job("drawings", "section.svg") + query).want(200).body); !strings.Contains(svg, "Section port, ") || !strings.Contains(svg, "section, inside of plank") || strings.Contains(svg, "inner face") {
			t.Error(x)
		}
		a4, a3 := d.get(d.job("drawings", "section.pdf")+query).want(200), d.get(d.job("drawings", "section.pdf")+query+"&paper=a3").want(200)
		if bytes.Equal(a4.body, a3.body) {
			t.Error("A3 is printed as A4")
		}
		onPaper(t, a4.body, func(t *testing.T, text string) {
			for _, want := range []string{"Section port, ", "full size", "Heavy: the section at the inside of plank", "No thickness of moulds"} {
				if !strings.Contains(text, want) {
					t.Errorf("%q is not on the sheets", want)
				}
			}
		})
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
