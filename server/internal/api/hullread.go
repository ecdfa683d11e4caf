package api

import (
	"io"
	"net/http"

	"ribband/server/internal/app"
	"ribband/takeoff/hull/offsets"
	"ribband/takeoff/notation"
)

// Layouts of a table of offsets as CSV.
const (
	longLayout = "long"
	wideLayout = "wide"
)

var layoutForm = queryForm{"long or wide", func(text string) bool { return text == longLayout || text == wideLayout }}

// writtenAs is how the query says that a table was written.
func (c *call) writtenAs() offsets.Written {
	return offsets.Written{Notation: notation.Notation(c.Query("notation")), Grain: c.Query("grain"), Surface: c.Query("surface")}
}

// tableOf writes the offsets in the layout that the query asks for.
func (c *call) tableOf(doc *offsets.Document) func(io.Writer) error {
	if c.Query("layout") == wideLayout {
		return func(w io.Writer) error { return offsets.WriteWide(w, doc) }
	}
	return func(w io.Writer) error { return offsets.WriteCSV(w, doc) }
}

// readTable answers a table with its good cells and, apart, its bad ones; nothing is stored.
func readTable(c *call) error {
	_, body, err := c.body(csvKind)
	if err != nil {
		return err
	}
	return c.json(http.StatusOK, "", app.TryHullTable(body, c.writtenAs()))
}
