package api

import (
	"io"
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
	return replyTable(c, d.N, d.Doc, func(w io.Writer) error { return pattern.WriteCSV(w, d.Doc) })
}

// patternsAs is how the query says that a table of patterns was written.
func (c *call) patternsAs() pattern.Written {
	return pattern.Written{Notation: notation.Notation(c.Query("notation")), Grain: c.Query("grain"), Surface: c.Query("surface")}
}

// tryPatterns answers a table with its good cells and, apart, its bad ones; nothing is stored.
func tryPatterns(c *call) error {
	_, body, err := c.body(csvKind)
	if err != nil {
		return err
	}
	return c.json(http.StatusOK, "", app.TryPatternsTable(body, c.patternsAs()))
}

func putPatterns(c *call) error {
	as := c.patternsAs()
	return putTable(c, as != (pattern.Written{}),
		func(table []byte, seen store.Seen) (app.Written[pattern.Document], error) {
			return c.app.PutPatternsTable(c.Request.Context(), c.who, c.Param("job"), table, as, seen)
		},
		func(doc pattern.Document, seen store.Seen) (app.Written[pattern.Document], error) {
			return c.app.PutPatterns(c.Request.Context(), c.who, c.Param("job"), doc, seen)
		})
}
