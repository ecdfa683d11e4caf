package api

import (
	"math"
	"net/http"
	"strconv"
	"strings"

	"ribband/server/internal/app"
	"ribband/takeoff/boat"
)

// mostHeights that are taken in one question.
const mostHeights = 50

// heights are millimetres parted by commas.
func heights(text string) ([]float64, bool) {
	var out []float64
	for _, one := range strings.Split(text, ",") {
		mm, ok := millimetres(one)
		if !ok || len(out) == mostHeights {
			return nil, false
		}
		out = append(out, mm)
	}
	return out, true
}

// millimetres is a plain number that a boat may have.
func millimetres(text string) (float64, bool) {
	if len(text) > 20 || strings.Trim(text, "-.0123456789") != "" {
		return 0, false
	}
	mm, err := strconv.ParseFloat(text, 64)
	return mm, err == nil && math.Abs(mm) < 1e6
}

var (
	sideForm    = queryForm{"port or starboard", func(text string) bool { return boat.Side(text).One() }}
	lengthForm  = queryForm{"millimetres, as 3048 or 3048.5", func(text string) bool { _, ok := millimetres(text); return ok }}
	heightsForm = queryForm{"up to 50 heights in millimetres parted by commas", func(text string) bool { _, ok := heights(text); return ok }}
	numberForm  = queryForm{"the number of a frame", func(text string) bool {
		n, err := strconv.ParseUint(text, 10, 16)
		return err == nil && len(text) <= 5 && n < 10_000
	}}
)

func readSection(c *call) error {
	q := app.SectionQuestion{Side: boat.Side(c.Query("side")), Frame: -1}
	frame, x := c.Query("frame"), c.Query("x_mm")
	switch {
	case (frame == "") == (x == ""):
		p := malformedRequest.say("A section is asked for at a frame or at x_mm, one of the two.")
		p.Errors = []problemError{{Parameter: "x_mm", Detail: "neither x_mm nor frame is given, or both are", Fix: "one of the two"}}
		return p
	case frame != "":
		q.Frame, _ = strconv.Atoi(frame) // known has looked at it
	default:
		q.XMM, _ = millimetres(x)
	}
	if text := c.Query("heights_mm"); text != "" {
		q.Heights, _ = heights(text)
	}
	s, err := c.app.SectionOf(c.Request.Context(), c.who, c.Param("job"), q)
	if err != nil {
		return err
	}
	return c.json(http.StatusOK, "", s)
}
