package api

import (
	"net/http"
	"strings"

	"ribband/server/internal/app"
	"ribband/server/internal/store"
	"ribband/takeoff/floor"
	"ribband/takeoff/frame"
	"ribband/takeoff/hull/offsets"
	"ribband/takeoff/pattern"
)

func readHull(c *call) error {
	d, err := c.app.Hull(c.Request.Context(), c.who, c.Param("job"))
	if err != nil {
		return err
	}
	return replyTable(c, d.N, d.Doc, c.tableOf(&d.Doc))
}

// wantsTable reports whether the caller asks for text/csv rather than JSON.
func (c *call) wantsTable() bool {
	for _, one := range strings.Split(c.GetHeader("Accept"), ",") {
		switch kind, _, _ := strings.Cut(strings.TrimSpace(one), ";"); kind {
		case csvKind:
			return true
		case jsonKind, "*/*", "application/*":
			return false
		}
	}
	return false
}

func putHull(c *call) error {
	as := c.writtenAs()
	return putTable(c, as != (offsets.Written{}),
		func(table []byte, seen store.Seen) (app.Written[offsets.Document], error) {
			return c.app.PutHullTable(c.Request.Context(), c.who, c.Param("job"), table, as, seen)
		},
		func(doc offsets.Document, seen store.Seen) (app.Written[offsets.Document], error) {
			return c.app.PutHull(c.Request.Context(), c.who, c.Param("job"), doc, seen)
		})
}

func readMeasures(c *call) error {
	m, err := c.app.Measures(c.Request.Context(), c.who, c.Param("job"), c.waterline())
	if err != nil {
		return err
	}
	return c.json(http.StatusOK, "", m)
}

// waterline is the height that was asked for, nil where none was.
func (c *call) waterline() *float64 {
	mm, ok := millimetres(c.Query("waterline_mm")) // known has looked at it
	if !ok {
		return nil
	}
	return &mm
}

// measureBody is lines, patterns, frames and floors to be measured.
type measureBody struct {
	Hull     *offsets.Document `json:"hull,omitempty"`
	Patterns *pattern.Document `json:"patterns,omitempty"`
	Frames   *frame.Document   `json:"frames,omitempty"`
	Floors   *floor.Document   `json:"floors,omitempty"`
}

func measureHull(c *call) error {
	in, _, err := jsonBody[measureBody](c)
	if err != nil {
		return err
	}
	m, err := c.app.MeasuresOf(c.Request.Context(), app.Measured(in), c.waterline())
	if err != nil {
		return err
	}
	return c.json(http.StatusOK, "", m)
}

func readFrames(c *call) error {
	d, err := c.app.Frames(c.Request.Context(), c.who, c.Param("job"))
	return reply(c, d, err)
}

func putFrames(c *call) error {
	return putDocument(c, func(doc frame.Document, seen store.Seen) (app.Written[frame.Document], error) {
		return c.app.PutFrames(c.Request.Context(), c.who, c.Param("job"), doc, seen)
	})
}
