package api

import (
	"bytes"
	"net/http"

	"ribband/server/internal/app"
	"ribband/server/internal/store"
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
	as := pattern.Written{Notation: notation.Notation(c.Query("notation")), Grain: c.Query("grain"), Surface: c.Query("surface")}
	return putTable(c, as != (pattern.Written{}),
		func(table []byte, seen store.Seen) (app.Written[pattern.Document], error) {
			return c.app.PutPatternsTable(c.Request.Context(), c.who, c.Param("job"), table, as, seen)
		},
		func(doc pattern.Document, seen store.Seen) (app.Written[pattern.Document], error) {
			return c.app.PutPatterns(c.Request.Context(), c.who, c.Param("job"), doc, seen)
		})
}
