package api

import (
	"net/http"

	"ribband/server/internal/app"
	"ribband/server/internal/store"
	"ribband/takeoff/frame"
)

func listOptions(c *call) error {
	page := c.page()
	list, err := c.app.Options(c.Request.Context(), c.who, c.Param("job"), page)
	if err != nil {
		return err
	}
	return c.listed(list.Next, list)
}

func makeOption(c *call) error {
	fields, body, err := jsonBody[app.OptionFields](c)
	if err != nil {
		return err
	}
	key, err := c.key(body)
	if err != nil {
		return err
	}
	answer, err := c.app.MakeOption(c.Request.Context(), c.who, c.Param("job"), key, fields, func(o app.Option) (store.Answer, error) {
		return made(http.StatusCreated, etag(o.N), v1+"jobs/"+o.Job+"/options/"+o.ID, o)
	})
	if err != nil {
		return err
	}
	c.answer(answer)
	return nil
}

func readOption(c *call) error {
	o, err := c.app.Option(c.Request.Context(), c.who, c.Param("job"), c.Param("option"))
	if err != nil {
		return err
	}
	return c.json(http.StatusOK, etag(o.N), o)
}

func readRemedies(c *call) error {
	d, err := c.app.Remedies(c.Request.Context(), c.who, c.Param("job"), c.Param("option"))
	return reply(c, d, err)
}

func putRemedies(c *call) error {
	return putDocument(c, func(doc frame.Remedies, seen store.Seen) (app.Written[frame.Remedies], error) {
		return c.app.PutRemedies(c.Request.Context(), c.who, c.Param("job"), c.Param("option"), doc, seen)
	})
}
