package api

import (
	"net/http"

	"ribband/takeoff/derivation"
)

func readSpecies(c *call) error {
	n := c.whole("version")
	d, err := c.app.Species(c.Request.Context(), c.who, n)
	return reply(c, d, err)
}

func readStepLibrary(c *call) error {
	n := c.whole("version")
	d, err := c.app.StepLibrary(c.Request.Context(), c.who, n)
	return reply(c, d, err)
}

func readRules(c *call) error {
	n := c.whole("version")
	d, err := c.app.Rules(c.Request.Context(), c.who, n)
	return reply(c, d, err)
}

// formulaList is the register of formulas.
type formulaList struct {
	Items []derivation.Formula `json:"items"`
}

func readFormulas(c *call) error {
	return c.json(http.StatusOK, "", formulaList{derivation.Formulas()})
}
