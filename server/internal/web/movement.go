package web

import (
	"errors"
	"net/http"
	"strconv"

	"ribband/server/internal/app"
	"ribband/takeoff/document"
	"ribband/takeoff/notation"
	"ribband/takeoff/timber/movement"
)

// Fields of a movement, in the order of the form.
var movementFields = []string{"species", "sawn", "notation", "width", "thickness", "from_pct", "to_pct", "opening", "planks"}

var movementLabels = map[string]string{
	"species": "Wood", "sawn": "Sawn", "notation": "Sizes are written in", "width": "Width", "thickness": "Thickness", "from_pct": "Moisture now", "to_pct": "Moisture then",
	"opening": "Seam now", "planks": "Planks",
}

var (
	movementSawn = []wayOf{{string(movement.Flatsawn), "flatsawn, the rings along the width"}, {string(movement.Quartersawn), "quartersawn, the rings across it"}}
	movementWays = []wayOf{{"inches", "inches: 5 1/2"}, {"feet_inches_eighths", "feet, inches and eighths: 0-5-4"}, {"mm", "millimetres: 140"}, {"m", "metres: 0.140"}}
)

type movementPage struct {
	form
	woods []wayOf
	Moved *app.TimberMovement
	Path  string
}

// Pickers of the form.
func (m movementPage) Pickers() []picker {
	return []picker{m.picker("species", "Wood", "", m.woods), m.picker("sawn", "Sawn", "", movementSawn), m.picker("notation", "Sizes are written in", "", movementWays)}
}

// Sides are the sizes that were moved, with what they are called.
func (m movementPage) Sides() []movedSide {
	out := []movedSide{{"Width", m.Moved.Width}}
	if t := m.Moved.Thickness; t != nil {
		out = append(out, movedSide{"Thickness", *t})
	}
	return out
}

type movedSide struct {
	Name string
	movement.Side
}

const movementPath = timberPath + "/movement"

func (p *Pages) movement(v *visit) error {
	woods, err := p.woods(v, "")
	if err != nil {
		return err
	}
	return p.showMovement(v, http.StatusOK, movementPage{form: newForm(movementFields...), woods: woods, Path: movementPath})
}

func (p *Pages) showMovement(v *visit, status int, body movementPage) error {
	return p.show(v, status, "movement", page{Title: body.title("How a plank moves"), Way: []link{{"Jobs", "/"}, {"Timber", timberPath}}, Body: body})
}

// moveTimber answers the form.
func (p *Pages) moveTimber(v *visit) error {
	woods, err := p.woods(v, "")
	if err != nil {
		return err
	}
	body := movementPage{woods: woods, Path: movementPath}
	if body.form, err = v.filled(movementFields...); err != nil {
		return err
	}
	x := body.Values
	doc := movement.Document{Species: x["species"], Notation: notation.Notation(x["notation"]), Sawn: movement.Sawn(x["sawn"]), Width: x["width"], Thickness: x["thickness"], FromPct: pointed(x["from_pct"]), ToPct: pointed(x["to_pct"])}
	var faults document.Faults
	if x["opening"] != "" || x["planks"] != "" {
		doc.Seam = &movement.SeamDocument{Opening: x["opening"]}
		if n := x["planks"]; n != "" {
			if doc.Seam.Planks, err = strconv.ParseInt(n, 10, 32); err != nil || doc.Seam.Planks < 1 {
				faults.Add("/planks", "a whole number from 1 to "+strconv.Itoa(movement.MostPlanks), "%s is no number of planks", notation.Quote(n))
				doc.Seam.Planks = 0
			}
		}
	}
	moved, err := p.app.MoveTimber(v.Context(), v.who, doc)
	var more document.Faults
	if err != nil && !errors.As(err, &more) {
		return err
	}
	for _, f := range more { // a seam's fields stand beside the others on the page
		switch f.Pointer {
		case "/seam/opening":
			f.Pointer = "/opening"
		case "/seam/planks":
			f.Pointer = "/planks"
		}
		faults = append(faults, f)
	}
	if len(faults) > 0 {
		body.wrong(faults, movementLabels)
		return p.showMovement(v, http.StatusUnprocessableEntity, body)
	}
	body.Moved = &moved
	return p.showMovement(v, http.StatusOK, body)
}
