package api

import "net/http"

func compareOptions(c *call) error {
	n, err := c.number("n")
	if err != nil {
		return err
	}
	first, second := c.Query("first"), c.Query("second")
	if (first == "") != (second == "") {
		return malformedRequest.say("Say which options: the query parameters first and second go together.")
	}
	out, err := c.app.Compare(c.Request.Context(), c.who, c.Param("quote"), n, first, second)
	if err != nil {
		return err
	}
	return c.json(http.StatusOK, "", out)
}

func comparePrices(c *call) error {
	from := c.whole("from")
	to := c.whole("to")
	out, err := c.app.ComparePrices(c.Request.Context(), c.who, c.Param("sheet"), from, to)
	if err != nil {
		return err
	}
	return c.json(http.StatusOK, "", out)
}
