package api

import "net/http"

func readRepriced(c *call) error {
	n, err := c.number("n")
	if err != nil {
		return err
	}
	version, err := c.whole("version")
	if err != nil {
		return err
	}
	if c.Query("sheet") == "" || version == 0 {
		return malformedRequest.say("Say which prices: the query parameters sheet and version are both needed.")
	}
	out, err := c.app.Reprice(c.Request.Context(), c.who, c.Param("quote"), n, c.Query("sheet"), version)
	if err != nil {
		return err
	}
	return c.json(http.StatusOK, "", out)
}
