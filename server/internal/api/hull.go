package api

import (
	"bytes"
	"errors"
	"net/http"
	"strings"

	"ribband/server/internal/app"
	"ribband/server/internal/store"
	"ribband/takeoff/document"
	"ribband/takeoff/frame"
	"ribband/takeoff/hull"
	"ribband/takeoff/notation"
	"ribband/takeoff/pattern"
)

func readHull(c *call) error {
	d, err := c.app.Hull(c.Request.Context(), c.who, c.Param("job"))
	if err != nil {
		return err
	}
	c.Header("Vary", "Accept")
	if !c.wantsTable() {
		return reply(c, d, nil)
	}
	var table bytes.Buffer
	if err := hull.WriteCSV(&table, &d.Doc); err != nil {
		return err
	}
	c.send(http.StatusOK, etag(d.N), csvKind, table.Bytes())
	return nil
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
	seen, err := c.seen()
	if err != nil {
		return err
	}
	kind, body, err := c.body(jsonKind, csvKind)
	if err != nil {
		return err
	}
	as := hull.Written{Notation: notation.Notation(c.Query("notation")), Grain: c.Query("grain"), Surface: c.Query("surface")}
	if kind == csvKind {
		return written(c, func() (app.Written[hull.Document], error) {
			d, err := c.app.PutHullTable(c.Request.Context(), c.who, c.Param("job"), body, as, seen)
			var faults document.Faults
			if errors.As(err, &faults) {
				err = &queryFaults{faults}
			}
			return d, err
		})
	}
	if as != (hull.Written{}) {
		return malformedRequest.say("notation, grain and surface stand in the body when it is JSON; take them out of the query.")
	}
	doc, err := decoded[hull.Document](c, body)
	if err != nil {
		return err
	}
	return written(c, func() (app.Written[hull.Document], error) {
		return c.app.PutHull(c.Request.Context(), c.who, c.Param("job"), doc, seen)
	})
}

func readMeasures(c *call) error {
	m, err := c.app.Measures(c.Request.Context(), c.who, c.Param("job"))
	if err != nil {
		return err
	}
	return c.json(http.StatusOK, "", m)
}

// measureBody is lines, patterns and frames to be measured.
type measureBody struct {
	Hull     *hull.Document    `json:"hull,omitempty"`
	Patterns *pattern.Document `json:"patterns,omitempty"`
	Frames   *frame.Document   `json:"frames,omitempty"`
}

func measureHull(c *call) error {
	in, _, err := jsonBody[measureBody](c)
	if err != nil {
		return err
	}
	m, err := c.app.MeasuresOf(c.Request.Context(), app.Measured(in))
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
