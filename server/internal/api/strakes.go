package api

import (
	"net/http"
	"strconv"
	"strings"

	"ribband/server/internal/app"
	"ribband/takeoff/boat"
	"ribband/takeoff/frame"
	"ribband/takeoff/hull/offsets"
	"ribband/takeoff/hull/planking"
)

// What is taken in one question; package planking takes as many.
const (
	mostStrakes = 60
	mostStock   = 50
)

// timberLength is a length that a piece of timber may have, mm.
func timberLength(text string) (float64, bool) {
	mm, ok := millimetres(text)
	return mm, ok && mm >= 0.001 && !strings.HasPrefix(text, "-")
}

// stockLengths are millimetres parted by commas.
func stockLengths(text string) ([]float64, bool) {
	var out []float64
	for _, one := range strings.Split(text, ",") {
		mm, ok := timberLength(one)
		if !ok || len(out) == mostStock {
			return nil, false
		}
		out = append(out, mm)
	}
	return out, true
}

var (
	strakesForm = queryForm{"a number of strakes, 1 to 60", func(text string) bool {
		n, ok := count(text)
		return ok && n <= mostStrakes
	}}
	thicknessForm = queryForm{"millimetres above 0, as 25 or 22.5", func(text string) bool { _, ok := timberLength(text); return ok }}
	stockForm     = queryForm{"up to 50 lengths in millimetres parted by commas, as 3600,4200", func(text string) bool { _, ok := stockLengths(text); return ok }}
)

func readStrakes(c *call) error {
	q := app.StrakesQuestion{Side: boat.Side(c.Query("side"))}
	q.Strakes, _ = strconv.Atoi(c.Query("strakes")) // known has looked at it, and at those below
	q.Thickness, _ = timberLength(c.Query("plank_thickness_mm"))
	if text := c.Query("stock_lengths_mm"); text != "" {
		q.Stock, _ = stockLengths(text)
	}
	s, err := c.app.StrakesOf(c.Request.Context(), c.who, c.Param("job"), q)
	if err != nil {
		return err
	}
	return c.json(http.StatusOK, "", s)
}

// strakesBody is lines with how one side is planked, lengths in the notation of the lines.
type strakesBody struct {
	Hull           offsets.Document  `json:"hull"`
	Frames         *frame.Document   `json:"frames,omitempty"`
	Side           boat.Side         `json:"side"`
	Strakes        planking.Division `json:"strakes"`
	PlankThickness string            `json:"plank_thickness,omitempty"`
	StockLengths   []string          `json:"stock_lengths,omitempty"`
	Butts          []planking.Given  `json:"butts,omitempty"`
	ButtsOnFrames  bool              `json:"butts_on_frames,omitempty"`
	ApartByBoth    bool              `json:"apart_by_both,omitempty"`
	Replace        []planking.Damage `json:"replace,omitempty"`
}

func layStrakes(c *call) error {
	in, _, err := jsonBody[strakesBody](c)
	if err != nil {
		return err
	}
	s, err := c.app.LayStrakes(c.Request.Context(), app.Measured{Hull: &in.Hull, Frames: in.Frames}, planking.Document{
		Side: in.Side, Strakes: in.Strakes, PlankThickness: in.PlankThickness, StockLengths: in.StockLengths,
		Butts: in.Butts, ButtsOnFrames: in.ButtsOnFrames, ApartByBoth: in.ApartByBoth, Replace: in.Replace,
	})
	if err != nil {
		return err
	}
	return c.json(http.StatusOK, "", s)
}
