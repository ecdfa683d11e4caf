package api

import (
	"ribband/server/internal/app"
	"ribband/server/internal/store"
)

func acceptRevision(c *call) error {
	return decided(c, func(n int64, key app.Key, fields app.AcceptFields) (store.Answer, error) {
		return c.app.Accept(c.Request.Context(), c.who, c.Param("quote"), n, key, fields, changed[app.Quote])
	})
}

func declineRevision(c *call) error {
	return decided(c, func(n int64, key app.Key, fields app.DeclineFields) (store.Answer, error) {
		return c.app.Decline(c.Request.Context(), c.who, c.Param("quote"), n, key, fields, changed[app.Quote])
	})
}

// decided reads what was decided and answers with what came of it.
func decided[T any](c *call, do func(n int64, key app.Key, fields T) (store.Answer, error)) error {
	n, err := c.number("n")
	if err != nil {
		return err
	}
	fields, body, err := jsonBody[T](c)
	if err != nil {
		return err
	}
	key, err := c.key(body)
	if err != nil {
		return err
	}
	answer, err := do(n, key, fields)
	if err != nil {
		return err
	}
	c.answer(answer)
	return nil
}
