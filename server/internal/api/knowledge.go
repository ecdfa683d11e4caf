package api

import (
	"net/http"

	"ribband/server/internal/app"
	"ribband/server/internal/store"
	"ribband/takeoff/derivation"
	"ribband/takeoff/rules"
	"ribband/takeoff/step"
	"ribband/takeoff/timber"
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

func putSpecies(c *call) error {
	return putDocument(c, func(doc timber.Catalogue, seen store.Seen) (app.Written[timber.Catalogue], error) {
		return c.app.PutSpecies(c.Request.Context(), c.who, doc, seen)
	})
}

func putStepLibrary(c *call) error {
	return putDocument(c, func(doc step.Library, seen store.Seen) (app.Written[step.Library], error) {
		return c.app.PutStepLibrary(c.Request.Context(), c.who, doc, seen)
	})
}

func putRules(c *call) error {
	return putDocument(c, func(doc rules.Document, seen store.Seen) (app.Written[rules.Document], error) {
		return c.app.PutRules(c.Request.Context(), c.who, doc, seen)
	})
}

// formulaList is the register of formulas.
type formulaList struct {
	Items []derivation.Formula `json:"items"`
}

func readFormulas(c *call) error {
	return c.json(http.StatusOK, "", formulaList{derivation.Formulas()})
}
