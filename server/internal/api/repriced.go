package api

import "net/http"

func readRepriced(c *call) error {
	n, err := c.number("n")
	if err != nil {
		return err
	}
	version := c.whole("version")
	out, err := c.app.Reprice(c.Request.Context(), c.who, c.Param("quote"), n, c.Query("sheet"), version)
	if err != nil {
		return err
	}
	return c.json(http.StatusOK, "", out)
}
