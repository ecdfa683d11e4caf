package api

import (
	"net/http"

	"ribband/server/internal/app"
	"ribband/server/internal/store"
)

// reply answers with a document and its version.
func reply[T any](c *call, d app.Written[T], err error) error {
	if err != nil {
		return err
	}
	return c.json(http.StatusOK, etag(d.N), d.Doc)
}

// putDocument reads a document and the version it was made on, and hands both to put. The first version is answered
// with 201.
func putDocument[T any](c *call, put func(T, store.Seen) (app.Written[T], error)) error {
	seen, err := c.seen()
	if err != nil {
		return err
	}
	doc, _, err := jsonBody[T](c)
	if err != nil {
		return err
	}
	return written(c, func() (app.Written[T], error) { return put(doc, seen) })
}

func written[T any](c *call, put func() (app.Written[T], error)) error {
	d, err := put()
	if err != nil {
		return err
	}
	status := http.StatusOK
	if d.N == 1 {
		status = http.StatusCreated
	}
	return c.json(status, etag(d.N), d.Doc)
}
