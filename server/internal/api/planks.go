package api

import (
	"net/http"

	"ribband/server/internal/app"
	"ribband/server/internal/store"
	"ribband/takeoff/boat"
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

// drawPlanks answers one side's planks with those that the option renews marked.
func drawPlanks(c *call) error {
	side := c.Query("side")
	f, err := c.app.RenewedPlanksSVG(c.Request.Context(), c.who, c.Param("job"), c.Param("option"), boat.Side(side))
	if err != nil {
		return err
	}
	c.Header("Content-Disposition", `inline; filename="planks-renewed-`+side+`.svg"`)
	c.send(http.StatusOK, "", f.Kind, f.Body)
	return nil
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
