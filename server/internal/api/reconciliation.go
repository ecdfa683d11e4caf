package api

import (
	"bytes"
	"net/http"

	"ribband/server/internal/app"
)

func readReconciliation(c *call) error {
	revision := c.whole("revision")
	at := app.Against{Quote: c.Query("quote"), Revision: revision, Option: c.Query("option")}
	if (at.Revision == 0) != (at.Option == "") || at.Option != "" && at.Quote == "" {
		return malformedRequest.say("Give quote, revision and option to hold spend against an issued estimate, quote alone for what was accepted of it, or none of them.")
	}
	out, err := c.app.Reconcile(c.Request.Context(), c.who, c.Param("job"), at)
	if err != nil {
		return err
	}
	c.Header("Vary", "Accept")
	if !c.wantsTable() {
		return c.json(http.StatusOK, "", out)
	}
	var table bytes.Buffer
	if err := out.WriteCSV(&table); err != nil {
		return err
	}
	c.send(http.StatusOK, "", csvKind, table.Bytes())
	return nil
}
