package api

import (
	"net/http"

	"ribband/takeoff/cutting"
)

func planCutting(c *call) error {
	in, _, err := jsonBody[cutting.Document](c)
	if err != nil {
		return err
	}
	plan, err := c.app.PlanCutting(c.Request.Context(), in)
	if err != nil {
		return err
	}
	return c.json(http.StatusOK, "", plan)
}
