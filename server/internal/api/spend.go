package api

import (
	"net/http"

	"ribband/pricing/reconcile"
	"ribband/server/internal/app"
	"ribband/server/internal/store"
)

// spendBody is reconcile.Row where what does not apply may be left out.
type spendBody struct {
	Date        string `json:"date"`
	Kind        string `json:"kind"`
	Supplier    string `json:"supplier"`
	Document    string `json:"document"`
	Line        string `json:"line"`
	Item        string `json:"item,omitempty"`
	Description string `json:"description,omitempty"`
	Quantity    string `json:"quantity,omitempty"`
	Unit        string `json:"unit,omitempty"`
	Amount      string `json:"amount"`
	Currency    string `json:"currency"`
	Tax         string `json:"tax,omitempty"`
	Step        string `json:"step,omitempty"`
	Author      string `json:"author,omitempty"`
}

func listSpend(c *call) error {
	page := c.page()
	list, err := c.app.SpendOf(c.Request.Context(), c.who, c.Param("job"), page)
	if err != nil {
		return err
	}
	return c.listed(list.Next, list)
}

func enterSpend(c *call) error {
	in, body, err := jsonBody[spendBody](c)
	if err != nil {
		return err
	}
	key, err := c.key(body)
	if err != nil {
		return err
	}
	answer, err := c.app.EnterSpend(c.Request.Context(), c.who, c.Param("job"), key, reconcile.Row(in), func(s app.Spend, fresh bool) (store.Answer, error) {
		status := http.StatusOK
		if fresh {
			status = http.StatusCreated
		}
		return made(status, "", "", s)
	})
	if err != nil {
		return err
	}
	c.answer(answer)
	return nil
}
