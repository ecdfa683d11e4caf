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

func checkHealth(c *call) error {
	c.fine()
	return nil
}

func checkReadiness(c *call) error {
	if err := c.app.Ready(c.Request.Context()); err != nil {
		return err
	}
	c.fine()
	return nil
}

// fine answers that all is well at this moment; nobody is to keep that.
func (c *call) fine() { c.write(http.StatusOK, jsonKind, []byte(`{"state":"ok"}`)) }
