package api

import (
	"net/http"

	"ribband/takeoff/fastening"
)

func weighRods(c *call) error {
	in, _, err := jsonBody[fastening.RodDocument](c)
	if err != nil {
		return err
	}
	out, err := in.Weigh()
	if err != nil {
		return err
	}
	return c.json(http.StatusOK, "", out)
}
