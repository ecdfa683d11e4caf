package api

import "net/http"

func readGluing(c *call) error {
	g, err := c.app.GluingOf(c.Request.Context(), c.who, c.Param("job"), c.Param("option"))
	if err != nil {
		return err
	}
	return c.json(http.StatusOK, "", g)
}
