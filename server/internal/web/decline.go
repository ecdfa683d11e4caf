package web

import (
	"net/http"

	"ribband/server/internal/app"
	"ribband/server/internal/store"
)

var (
	declineFields = []string{"name", "reason"}
	declineLabels = map[string]string{"name": "Name", "reason": "Reason"}
)

// askToDecline shows the form that turns an estimate down.
func (p *Pages) askToDecline(v *visit) error {
	body, err := p.acceptance(v)
	if err != nil {
		return err
	}
	body.form = newForm(declineFields...)
	return p.showDecline(v, http.StatusOK, body)
}

func (p *Pages) showDecline(v *visit, status int, body acceptPage) error {
	return p.show(v, status, "decline", page{Title: body.title("Turn down the estimate for " + body.Boat),
		Way: []link{{"Estimate " + body.Estimate.Number, body.Path}}, Body: body})
}

// decline turns a revision down.
func (p *Pages) decline(v *visit) error {
	n, err := v.number("n")
	if err != nil {
		return err
	}
	sent, err := v.filled(declineFields...)
	if err != nil {
		return err
	}
	key, err := sent.key(v, sent.content(declineFields...))
	if err != nil {
		return err
	}
	id := v.PathValue("quote")
	there := revisionPath(id, n)
	fields := app.DeclineFields{Name: sent.Values["name"], Reason: sent.Values["reason"]}
	_, err = p.app.Decline(v.Context(), v.who, id, n, key, fields, func(app.Quote) (store.Answer, error) {
		return store.Answer{Status: http.StatusOK, Location: there}, nil
	})
	if body, again := p.acceptance(v); again == nil && sent.wrong(err, declineLabels) {
		body.form = sent
		return p.showDecline(v, http.StatusUnprocessableEntity, body)
	}
	if err != nil {
		return err
	}
	return v.to(there)
}
