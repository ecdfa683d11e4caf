package api

import (
	"net/http"

	"ribband/takeoff/timber/movement"
	"ribband/takeoff/timber/tally"
)

func tallyTimber(c *call) error {
	in, _, err := jsonBody[tally.Document](c)
	if err != nil {
		return err
	}
	out, err := c.app.TallyTimber(c.Request.Context(), c.who, in)
	if err != nil {
		return err
	}
	return c.json(http.StatusOK, "", out)
}

func moveTimber(c *call) error {
	in, _, err := jsonBody[movement.Document](c)
	if err != nil {
		return err
	}
	out, err := c.app.MoveTimber(c.Request.Context(), c.who, in)
	if err != nil {
		return err
	}
	return c.json(http.StatusOK, "", out)
}
