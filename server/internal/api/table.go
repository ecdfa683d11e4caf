package api

import (
	"bytes"
	"errors"
	"io"
	"net/http"

	"ribband/server/internal/app"
	"ribband/server/internal/store"
	"ribband/takeoff/document"
)

// replyTable answers with a version of a document, as JSON or as the table that write gives, whichever Accept asks for.
func replyTable(c *call, n int64, doc any, write func(io.Writer) error) error {
	c.Header("Vary", "Accept")
	if !c.wantsTable() {
		return c.json(http.StatusOK, etag(n), doc)
	}
	var table bytes.Buffer
	if err := write(&table); err != nil {
		return err
	}
	c.send(http.StatusOK, etag(n), csvKind, table.Bytes())
	return nil
}

// putTable reads a document that may come as a table too, and hands it on with the version it was made on. How a table
// was written stands in the query; told is whether the query says anything of it, which a JSON body says itself.
func putTable[T any](c *call, told bool, table func([]byte, store.Seen) (app.Written[T], error), doc func(T, store.Seen) (app.Written[T], error)) error {
	seen, err := c.seen()
	if err != nil {
		return err
	}
	kind, body, err := c.body(jsonKind, csvKind)
	if err != nil {
		return err
	}
	if kind == csvKind {
		return written(c, func() (app.Written[T], error) {
			d, err := table(body, seen)
			var faults document.Faults
			if errors.As(err, &faults) {
				err = &queryFaults{faults}
			}
			return d, err
		})
	}
	if told {
		return malformedRequest.say("notation, grain and surface stand in the body when it is JSON; take them out of the query.")
	}
	in, err := decoded[T](c, body)
	if err != nil {
		return err
	}
	return written(c, func() (app.Written[T], error) { return doc(in, seen) })
}
