package api

import (
	"io"

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
