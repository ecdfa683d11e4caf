package api

import (
	"net/http"
	"strconv"
	"strings"

	"ribband/pdf"
	"ribband/server/internal/app"
	"ribband/takeoff/boat"
)

var paperForm = queryForm{"a4 or a3", func(text string) bool {
	return pdf.SheetSize(text) == pdf.SheetA4 || pdf.SheetSize(text) == pdf.SheetA3
}}

func readDrawing(c *call) error {
	q := app.DrawingQuestion{Frame: -1, Side: boat.Side(c.Query("side")), Paper: pdf.SheetSize(c.Query("paper"))}
	if text := c.Query("frame"); text != "" {
		q.Frame, _ = strconv.Atoi(text) // known has looked at it
	}
	if text := c.Query("x_mm"); text != "" {
		x, _ := strconv.ParseFloat(text, 64)
		q.XMM = &x
	}
	q.Strakes, _ = strconv.Atoi(c.Query("strakes"))
	if text := c.Query("stock_lengths_mm"); text != "" {
		q.Stock, _ = stockLengths(text)
	}
	name := c.Param("name")
	f, err := c.app.Drawing(c.Request.Context(), c.who, c.Param("job"), name, q)
	if err != nil {
		return err
	}
	file := name
	stem, kind, _ := strings.Cut(name, ".")
	switch {
	case q.Frame >= 0:
		file = stem + "-" + strconv.Itoa(q.Frame) + "-" + string(q.Side) + "." + kind
	case q.XMM != nil:
		file = stem + "-" + c.Query("x_mm") + "-" + string(q.Side) + "." + kind
	case q.Side != "":
		file = stem + "-" + string(q.Side) + "." + kind
	}
	c.Header("Content-Disposition", `inline; filename="`+file+`"`)
	c.send(http.StatusOK, "", f.Kind, f.Body)
	return nil
}

// noDrawing lists what there is.
func noDrawing(e *app.UnknownDrawingError) *problem {
	return notFound.say("There is no drawing %s. What there is: %s.", shown(e.Name), strings.Join(app.DrawingNames(), ", "))
}
