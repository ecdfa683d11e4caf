package api

import (
	"ribband/server/internal/app"
	"ribband/server/internal/store"
	"ribband/takeoff/finding"
)

func readFindings(c *call) error {
	d, err := c.app.Findings(c.Request.Context(), c.who, c.Param("job"))
	return reply(c, d, err)
}

func putFindings(c *call) error {
	return putDocument(c, func(doc finding.Document, seen store.Seen) (app.Written[finding.Document], error) {
		return c.app.PutFindings(c.Request.Context(), c.who, c.Param("job"), doc, seen)
	})
}
