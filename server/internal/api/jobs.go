package api

import (
	"net/http"

	"ribband/server/internal/app"
	"ribband/server/internal/store"
)

func listJobs(c *call) error {
	page := c.page()
	list, err := c.app.Jobs(c.Request.Context(), c.who, page)
	if err != nil {
		return err
	}
	return c.listed(list.Next, list)
}

func openJob(c *call) error {
	fields, body, err := jsonBody[app.JobFields](c)
	if err != nil {
		return err
	}
	key, err := c.key(body)
	if err != nil {
		return err
	}
	answer, err := c.app.OpenJob(c.Request.Context(), c.who, key, fields, func(j app.Job) (store.Answer, error) {
		return made(http.StatusCreated, etag(j.N), v1+"jobs/"+j.ID, j)
	})
	if err != nil {
		return err
	}
	c.answer(answer)
	return nil
}

func readJob(c *call) error {
	job, err := c.app.Job(c.Request.Context(), c.who, c.Param("job"))
	if err != nil {
		return err
	}
	return c.json(http.StatusOK, etag(job.N), job)
}

func changeJob(c *call) error {
	seen, err := c.seen()
	if err != nil {
		return err
	}
	fields, _, err := jsonBody[app.JobFields](c)
	if err != nil {
		return err
	}
	job, err := c.app.ChangeJob(c.Request.Context(), c.who, c.Param("job"), fields, seen)
	if err != nil {
		return err
	}
	return c.json(http.StatusOK, etag(job.N), job)
}
