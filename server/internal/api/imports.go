package api

import (
	"net/http"

	"ribband/server/internal/app"
	"ribband/server/internal/store"
)

func readSpend(c *call) error {
	_, table, err := c.body(csvKind)
	if err != nil {
		return err
	}
	key, err := c.key(table)
	if err != nil {
		return err
	}
	answer, err := c.app.ReadSpend(c.Request.Context(), c.who, c.Param("job"), key, table, func(i app.Import) (store.Answer, error) {
		return made(http.StatusCreated, "", v1+"jobs/"+i.Job+"/spend/imports/"+i.ID, i)
	})
	if err != nil {
		return err
	}
	c.answer(answer)
	return nil
}

func readImport(c *call) error {
	i, err := c.app.ImportOf(c.Request.Context(), c.who, c.Param("job"), c.Param("import"))
	if err != nil {
		return err
	}
	return c.json(http.StatusOK, "", i)
}

func confirmImport(c *call) error {
	return c.bare(func(key app.Key) (store.Answer, error) {
		return c.app.ConfirmSpend(c.Request.Context(), c.who, c.Param("job"), c.Param("import"), key, changed[app.Import])
	})
}
