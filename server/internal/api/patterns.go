package api

import (
	"bytes"
	"errors"
	"net/http"

	"ribband/server/internal/app"
	"ribband/takeoff/document"
	"ribband/takeoff/notation"
	"ribband/takeoff/pattern"
)

func readPatterns(c *call) error {
	d, err := c.app.Patterns(c.Request.Context(), c.who, c.Param("job"))
	if err != nil {
		return err
	}
	c.Header("Vary", "Accept")
	if !c.wantsTable() {
		return reply(c, d, nil)
	}
	var table bytes.Buffer
	if err := pattern.WriteCSV(&table, d.Doc); err != nil {
		return err
	}
	c.send(http.StatusOK, etag(d.N), csvKind, table.Bytes())
	return nil
}

func putPatterns(c *call) error {
	seen, err := c.seen()
	if err != nil {
		return err
	}
	kind, body, err := c.body(jsonKind, csvKind)
	if err != nil {
		return err
	}
	as := pattern.Written{Notation: notation.Notation(c.Query("notation")), Grain: c.Query("grain"), Surface: c.Query("surface")}
	if kind == csvKind {
		return written(c, func() (app.Written[pattern.Document], error) {
			d, err := c.app.PutPatternsTable(c.Request.Context(), c.who, c.Param("job"), body, as, seen)
			var faults document.Faults
			if errors.As(err, &faults) {
				err = &queryFaults{faults}
			}
			return d, err
		})
	}
	if as != (pattern.Written{}) {
		return malformedRequest.say("notation, grain and surface stand in the body when it is JSON; take them out of the query.")
	}
	doc, err := decoded[pattern.Document](c, body)
	if err != nil {
		return err
	}
	return written(c, func() (app.Written[pattern.Document], error) {
		return c.app.PutPatterns(c.Request.Context(), c.who, c.Param("job"), doc, seen)
	})
}
