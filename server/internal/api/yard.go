package api

import (
	"ribband/server/internal/app"
	"ribband/server/internal/store"
)

func readYard(c *call) error {
	d, err := c.app.Yard(c.Request.Context(), c.who)
	return reply(c, d, err)
}

func putYard(c *call) error {
	return putDocument(c, func(fields app.YardFields, seen store.Seen) (app.Written[app.YardFields], error) {
		return c.app.PutYard(c.Request.Context(), c.who, fields, seen)
	})
}
