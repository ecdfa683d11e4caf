package api

import (
	_ "embed"
	"net/http"
)

//go:generate cp ../../../openapi.yaml openapi.yaml

// contract is the copy of openapi.yaml that the program carries with it.
//
//go:embed openapi.yaml
var contract []byte

func readContract(c *call) error {
	c.send(http.StatusOK, "", yamlKind, contract)
	return nil
}

type state struct {
	State string `json:"state"`
}

func checkHealth(c *call) error { return c.json(http.StatusOK, "", state{"ok"}) }

func checkReadiness(c *call) error {
	if err := c.app.Ready(c.Request.Context()); err != nil {
		return err
	}
	return c.json(http.StatusOK, "", state{"ok"})
}
