package api

import (
	"ribband/pricing/rack"
	"ribband/server/internal/app"
	"ribband/server/internal/store"
)

func readRack(c *call) error {
	d, err := c.app.Rack(c.Request.Context(), c.who, c.whole("version"))
	return reply(c, d, err)
}

func putRack(c *call) error {
	return putDocument(c, func(doc rack.Document, seen store.Seen) (app.Written[rack.Document], error) {
		return c.app.PutRack(c.Request.Context(), c.who, doc, seen)
	})
}
