package api_test

import (
	"bytes"
	"math"
	"strings"
	"testing"
)

// The form of a frame: tighter than it by n2/(n2 - 1), its base line shorter than the frame's chord, both ends on it.
func TestTheFormOfAFrame(t *testing.T) {
	d := open(t, file(t))
	var f struct {
		No         int
		Laminates  float64
		Thickness  string `json:"thickness_mm"`
		Face       string
		Depth      float64 `json:"depth_mm"`
		Springback struct {
			Share, Tighter float64
			Source         string
		}
		Length     float64 `json:"length_mm"`
		Chord      float64 `json:"chord_mm"`
		FrameChord float64 `json:"frame_chord_mm"`
		Along      string  `json:"pitch_along"`
		Ordinates  []struct {
			Base  float64 `json:"base_mm"`
			Off   float64 `json:"off_mm"`
			Along float64 `json:"along_mm"`
		}
	}
	ask := func(query string) {
		t.Helper()
		d.get(d.option(0, "form") + query).want(200).into(&f)
		n2 := f.Laminates * f.Laminates
		last := f.Ordinates[len(f.Ordinates)-1]
		if math.Abs(f.Springback.Share-1/n2) > 1e-6 || math.Abs(f.Springback.Tighter-n2/(n2-1)) > 1e-6 || f.Springback.Source == "" {
			t.Errorf("%v laminates: %+v", f.Laminates, f.Springback)
		}
		if f.Ordinates[0].Off != 0 || math.Abs(last.Off) > .001 || math.Abs(last.Base-f.Chord) > .001 || math.Abs(last.Along-f.Length) > .001 || f.FrameChord <= f.Chord {
			t.Errorf("%s: ends %+v and %+v, chord %v, of the frame %v", query, f.Ordinates[0], last, f.Chord, f.FrameChord)
		}
		for i, o := range f.Ordinates[1:] {
			if o.Base <= f.Ordinates[i].Base || i+2 < len(f.Ordinates) && o.Off <= 0 {
				t.Errorf("%s: ordinate %d is %+v", query, i+1, o)
			}
		}
	}
	ask("?frame=12&side=port")
	inner := f.Length
	if f.No != 12 || f.Face != "inner" || f.Depth <= 0 || f.Along != "base" || f.Ordinates[1].Base != 100 || f.Thickness != "6.35" {
		t.Errorf("%+v", f)
	}
	ask("?frame=12&side=port&face=faying&pitch_mm=76.2")
	if f.Face != "faying" || f.Depth != 0 || math.Abs(f.Ordinates[2].Base-152.4) > .001 || f.Length <= inner {
		t.Errorf("%+v", f)
	}
	// of a part let in, which runs to the heel: as far as the tip of its taper, which is told
	d.send("PUT", d.option(0, "remedies"), map[string]any{"remedies": []any{map[string]any{"member": map[string]any{"kind": "frame", "no": 12, "side": "port"},
		"remedy": "scarf_in", "species": "white_oak", "grade": "FAS"}}}, seen(d.get(d.option(0, "remedies")).etag())).want(200)
	var p struct {
		Piece  string
		From   float64 `json:"from_mm"`
		To     float64 `json:"to_mm"`
		Needed bool
		Note   string
		Length float64 `json:"length_mm"`
		Tapers []struct{ End string }
		Beyond struct {
			Heel float64 `json:"heel_mm"`
			Head float64 `json:"head_mm"`
		}
	}
	d.get(d.option(0, "form") + "?frame=12&side=port&piece=part_1&face=faying").want(200).into(&p)
	if p.Piece != "part_1" || p.From != 0 || p.To < 700 || math.Abs(p.To-p.Length) > 2 || len(p.Tapers) != 1 || p.Tapers[0].End != "head" || p.Beyond.Heel <= p.Beyond.Head || p.Beyond.Head <= 0 || !p.Needed || p.Note == "" {
		t.Errorf("%+v", p)
	}
	for _, query := range []string{
		"", "?frame=12&side=port&piece=part_2", "?frame=12&side=port&piece=plank", "?frame=12", "?side=port", "?frame=12&side=both", "?frame=1&side=port", "?frame=99&side=port", "?frame=12&side=port&face=top",
		"?frame=12&side=port&pitch_mm=4", "?frame=12&side=port&pitch_mm=NaN", "?frame=12&side=port&pitch_mm=2001",
	} {
		if p := d.get(d.option(0, "form")+query).refused(400, "malformed-request"); len(p.Errors) == 0 || p.Errors[0].Fix == "" {
			t.Errorf("%s: %+v", query, p)
		}
	}
}

// The drawing of a form and its sheets full size are what they say, named by frame, side and piece, and are of the form that is
// asked for: another face, another pitch, other paper make another.
func TestTheFormDrawn(t *testing.T) {
	d := open(t, file(t))
	const of = "?frame=12&side=port"
	svg := d.get(d.option(0, "form.svg") + of).want(200)
	if got := svg.header.Get("Content-Disposition"); got != `inline; filename="form-12-port.svg"` || svg.header.Get("Content-Type") != "image/svg+xml" {
		t.Errorf("%s, %s", got, svg.header.Get("Content-Type"))
	}
	for _, want := range []string{"Wendeline", "frame 12 port", "<desc"} {
		if !bytes.Contains(svg.body, []byte(want)) {
			t.Errorf("the drawing does not say %q", want)
		}
	}
	for _, query := range []string{"&face=faying", "&pitch_mm=76.2"} {
		if other := d.get(d.option(0, "form.svg") + of + query).want(200); bytes.Equal(other.body, svg.body) {
			t.Errorf("%s draws the same", query)
		}
	}
	sheets := d.get(d.option(0, "form.pdf") + of).want(200)
	if got := sheets.header.Get("Content-Disposition"); got != `inline; filename="form-12-port.pdf"` || !bytes.HasPrefix(sheets.body, []byte("%PDF-")) {
		t.Errorf("%s, %.10q", got, sheets.body)
	}
	if a4 := d.get(d.option(0, "form.pdf") + of + "&paper=a4").want(200); !bytes.Equal(a4.body, sheets.body) {
		t.Error("A4 is not what is printed unless asked otherwise")
	}
	if a3 := d.get(d.option(0, "form.pdf") + of + "&paper=a3").want(200); bytes.Equal(a3.body, sheets.body) {
		t.Error("A3 is printed as A4")
	}
	onPaper(t, sheets.body, func(t *testing.T, text string) {
		for _, want := range []string{"frame 12 port", "Measure this square before use"} {
			if !strings.Contains(strings.ToLower(text), strings.ToLower(want)) {
				t.Errorf("%q is not on the sheets", want)
			}
		}
	})
	for _, c := range []struct{ file, parameter string }{
		{"form.svg", "frame"}, {"form.pdf?frame=12", "side"}, {"form.svg?frame=99&side=port", "frame"}, {"form.pdf?frame=1&side=port", "frame"}, {"form.pdf?frame=12&side=port&paper=letter", "paper"},
		{"form.svg?frame=12&side=port&paper=a3", "paper"}, {"form.svg?frame=12&side=port&face=top", "face"}, {"form.pdf?frame=12&side=port&pitch_mm=4", "pitch_mm"}, {"form.svg?frame=12&side=port&piece=plank", "piece"},
	} {
		p := d.get(d.option(0)+"/"+c.file).refused(400, "malformed-request")
		if len(p.Errors) == 0 || p.Errors[0].Parameter != c.parameter || p.Errors[0].Fix == "" {
			t.Errorf("%s: %+v", c.file, p)
		}
	}
	d.send("PUT", d.option(0, "remedies"), map[string]any{"remedies": []any{map[string]any{"member": map[string]any{"kind": "frame", "no": 12, "side": "port"},
		"remedy": "scarf_in", "species": "white_oak", "grade": "FAS"}}}, seen(d.get(d.option(0, "remedies")).etag())).want(200)
	if got := d.get(d.option(0, "form.pdf") + of + "&piece=part_1").want(200).header.Get("Content-Disposition"); got != `inline; filename="form-12-port-part_1.pdf"` {
		t.Error(got)
	}
}
