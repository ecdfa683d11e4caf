package api

import (
	"net/http"

	"ribband/server/internal/app"
	"ribband/server/internal/store"
)

func listTokens(c *call) error {
	page := c.page()
	list, err := c.app.Tokens(c.Request.Context(), c.who, page)
	if err != nil {
		return err
	}
	return c.listed(list.Next, list)
}

func makeToken(c *call) error {
	fields, body, err := jsonBody[app.TokenFields](c)
	if err != nil {
		return err
	}
	key, err := c.key(body)
	if err != nil {
		return err
	}
	location := func(t app.Token) string { return v1 + "tokens/" + t.ID }
	token, kept, fresh, err := c.app.MakeToken(c.Request.Context(), c.who, key, fields, func(t app.Token) (store.Answer, error) {
		return made(http.StatusCreated, "", location(t), t)
	})
	if err != nil {
		return err
	}
	if !fresh {
		c.answer(kept)
		return nil
	}
	if c.link != nil {
		token.Link = c.link(token.Text)
	}
	c.Header("Location", location(token))
	return c.json(http.StatusCreated, "", token)
}

func revokeToken(c *call) error {
	if err := c.app.RevokeToken(c.Request.Context(), c.who, c.Param("token")); err != nil {
		return err
	}
	c.Status(http.StatusNoContent)
	c.Writer.WriteHeaderNow()
	return nil
}
