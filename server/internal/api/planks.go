package api

import (
	"ribband/server/internal/app"
	"ribband/server/internal/store"
	"ribband/takeoff/hull/planking"
	"ribband/takeoff/plank"
)

func readPlanking(c *call) error {
	d, err := c.app.Planking(c.Request.Context(), c.who, c.Param("job"))
	return reply(c, d, err)
}

func putPlanking(c *call) error {
	return putDocument(c, func(doc planking.Boat, seen store.Seen) (app.Written[planking.Boat], error) {
		return c.app.PutPlanking(c.Request.Context(), c.who, c.Param("job"), doc, seen)
	})
}

func readPlanks(c *call) error {
	d, err := c.app.Planks(c.Request.Context(), c.who, c.Param("job"), c.Param("option"))
	return reply(c, d, err)
}

func putPlanks(c *call) error {
	return putDocument(c, func(doc plank.Document, seen store.Seen) (app.Written[plank.Document], error) {
		return c.app.PutPlanks(c.Request.Context(), c.who, c.Param("job"), c.Param("option"), doc, seen)
	})
}
