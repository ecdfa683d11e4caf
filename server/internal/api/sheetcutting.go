package api

import (
	"net/http"

	"ribband/pricing/flatcut"
)

func planSheets(c *call) error {
	in, _, err := jsonBody[flatcut.Document](c)
	if err != nil {
		return err
	}
	plan, err := c.app.PlanSheets(c.Request.Context(), in)
	if err != nil {
		return err
	}
	return c.json(http.StatusOK, "", plan)
}

// drawSheets answers the drawing of such a plan, of all layouts unless one is named.
func drawSheets(c *call) error {
	in, _, err := jsonBody[flatcut.Document](c)
	if err != nil {
		return err
	}
	f, err := c.app.DrawSheets(c.Request.Context(), in, c.whole("list"))
	if err != nil {
		return err
	}
	c.Header("Content-Disposition", `inline; filename="sheet-cutting-plan.svg"`)
	c.send(http.StatusOK, "", f.Kind, f.Body)
	return nil
}
