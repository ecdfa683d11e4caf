package api

import (
	"ribband/server/internal/app"
	"ribband/server/internal/store"
	"ribband/takeoff/floor"
)

func readFloors(c *call) error {
	d, err := c.app.Floors(c.Request.Context(), c.who, c.Param("job"))
	return reply(c, d, err)
}

func putFloors(c *call) error {
	return putDocument(c, func(doc floor.Document, seen store.Seen) (app.Written[floor.Document], error) {
		return c.app.PutFloors(c.Request.Context(), c.who, c.Param("job"), doc, seen)
	})
}
