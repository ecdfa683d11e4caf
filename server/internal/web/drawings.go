package web

import (
	"bytes"
	"net/http"

	"ribband/takeoff/draw"
	"ribband/takeoff/drawing"
)

// plan is a drawing on a page: the picture in two widths, what is to be seen in words, and the same as a table.
type plan struct {
	// Wide and Narrow are the addresses of the picture for a screen and for a phone.
	Wide, Narrow string
	// Width and Height of the wide one, so that the page does not jump when it comes.
	Width, Height int
	Title, Words  string
	Table         drawing.Table
}

func planOf(d drawing.Drawing, address string) plan {
	return plan{Wide: address, Narrow: address + "?width=narrow", Width: int(d.List.Width), Height: int(d.List.Height),
		Title: d.List.Title, Words: d.List.Desc, Table: d.Table}
}

// width that the picture is asked for.
func (v *visit) width() float64 {
	if v.FormValue("width") == "narrow" {
		return drawing.Narrow
	}
	return drawing.Wide
}

func (v *visit) sendSVG(d drawing.Drawing, err error) error {
	if err != nil {
		return err
	}
	var b bytes.Buffer
	if err := draw.WriteSVG(&b, d.List, "plan"); err != nil {
		return err
	}
	v.Header().Set("Content-Type", "image/svg+xml")
	v.send(http.StatusOK, b.Bytes())
	return nil
}

func (p *Pages) bodyPlan(v *visit) error {
	return v.sendSVG(p.app.BodyPlan(v.Context(), v.who, v.PathValue("job"), v.width()))
}

func (p *Pages) profile(v *visit) error {
	return v.sendSVG(p.app.Profile(v.Context(), v.who, v.PathValue("job"), v.width()))
}

func (p *Pages) halfBreadths(v *visit) error {
	return v.sendSVG(p.app.HalfBreadths(v.Context(), v.who, v.PathValue("job"), v.width()))
}

func (p *Pages) framePlan(v *visit) error {
	return v.sendSVG(p.app.FramePlan(v.Context(), v.who, v.PathValue("job"), v.PathValue("option"), v.width()))
}

func (p *Pages) issuedFramePlan(v *visit) error {
	n, err := v.number("n")
	if err != nil {
		return err
	}
	return v.sendSVG(p.app.IssuedFramePlan(v.Context(), v.who, v.PathValue("quote"), n, v.PathValue("option"), v.width()))
}
