package api

import (
	"net/http"

	"ribband/server/internal/app"
	"ribband/takeoff"
	"ribband/takeoff/bill"
	"ribband/takeoff/derivation"
	"ribband/takeoff/finding"
	"ribband/takeoff/floor"
	"ribband/takeoff/frame"
	"ribband/takeoff/hull/offsets"
	"ribband/takeoff/hull/planking"
	"ribband/takeoff/pattern"
	"ribband/takeoff/plank"
	"ribband/takeoff/quantity"
	"ribband/takeoff/rules"
	"ribband/takeoff/step"
	"ribband/takeoff/timber"
)

// takeoffBody is a takeoff as it is told; the figures only when they are asked for.
type takeoffBody struct {
	Basis       []app.Source            `json:"basis,omitempty"`
	BasisHash   string                  `json:"basis_hash,omitempty"`
	Lines       []bill.Line             `json:"lines"`
	Measures    []bill.Measure          `json:"measures"`
	Faults      []bill.Fault            `json:"faults"`
	Warnings    []bill.Warning          `json:"warnings"`
	Frames      []frame.Measures        `json:"frames"`
	Graded      []takeoff.Graded        `json:"graded,omitempty"`
	Scarfs      []takeoff.Scarf         `json:"scarfs,omitempty"`
	Floors      []takeoff.FloorMeasures `json:"floors,omitempty"`
	Planks      []takeoff.NewPlank      `json:"planks,omitempty"`
	MadeUp      []frame.MadeUp          `json:"made_up,omitempty"`
	Fastened    *takeoff.Fastened       `json:"fastened,omitempty"`
	NotFastened *bill.Warning           `json:"not_fastened,omitempty"`
	Ripping     frame.Ripping           `json:"ripping"`
	Steaming    *takeoff.Steaming       `json:"steaming,omitempty"`
	Work        []step.Work             `json:"work"`
	TotalHours  quantity.Quantity       `json:"total_hours"`
	Weight      quantity.Quantity       `json:"weight"`
	Figures     []derivation.Figure     `json:"figures,omitempty"`
	// Narrowing only where it is asked for.
	Narrowing *takeoff.Narrowing `json:"narrowing,omitempty"`
}

func takeoffBodyOf(r takeoff.Result, figures bool) takeoffBody {
	out := takeoffBody{Lines: r.Bill.Lines, Measures: r.Bill.Measures, Faults: r.Bill.Faults, Warnings: r.Bill.Warnings, Frames: r.Frames, Graded: r.Graded, Scarfs: r.Scarfs, MadeUp: r.MadeUp, Fastened: r.Fastened, NotFastened: r.NotFastened, Floors: r.Floors, Planks: r.Planks, Ripping: r.Ripping, Steaming: r.Steaming, Work: r.Work,
		TotalHours: r.TotalHours, Weight: r.Weight}
	if figures {
		out.Figures = r.Figures
	}
	return out
}

func readTakeoff(c *call) error {
	figures, narrowing := c.flag("figures"), c.flag("narrowing")
	t, err := c.app.Takeoff(c.Request.Context(), c.who, c.Param("job"), c.Param("option"))
	if err != nil {
		return err
	}
	out := takeoffBodyOf(t.Result, figures)
	out.Basis, out.BasisHash = t.Basis, t.BasisHash
	if narrowing {
		n, err := c.app.Narrowing(c.Request.Context(), c.who, c.Param("job"), c.Param("option"))
		if err != nil {
			return err
		}
		out.Narrowing = &n
	}
	return c.json(http.StatusOK, "", out)
}

// papersBody is what a takeoff reads, by value.
type papersBody struct {
	Hull     *offsets.Document `json:"hull,omitempty"`
	Patterns *pattern.Document `json:"patterns,omitempty"`
	Findings *finding.Document `json:"findings,omitempty"`
	Frames   frame.Document    `json:"frames"`
	Floors   *floor.Document   `json:"floors,omitempty"`
	Planking *planking.Boat    `json:"planking,omitempty"`
	Remedies frame.Remedies    `json:"remedies"`
	Planks   *plank.Document   `json:"planks,omitempty"`
	Species  timber.Catalogue  `json:"species"`
	Steps    step.Library      `json:"steps"`
	Rules    rules.Document    `json:"rules"`
}

func takeOff(c *call) error {
	figures, narrowing := c.flag("figures"), c.flag("narrowing")
	in, _, err := jsonBody[papersBody](c)
	if err != nil {
		return err
	}
	result, err := c.app.TakeoffOf(c.Request.Context(), app.Papers(in))
	if err != nil {
		return err
	}
	out := takeoffBodyOf(result, figures)
	if narrowing {
		n, err := c.app.NarrowingOf(c.Request.Context(), app.Papers(in))
		if err != nil {
			return err
		}
		out.Narrowing = &n
	}
	return c.json(http.StatusOK, "", out)
}
