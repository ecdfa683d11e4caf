package web

import (
	"errors"
	"fmt"
	"net/http"

	"ribband/pricing/quote"
	"ribband/server/internal/app"
	"ribband/server/internal/auth"
	"ribband/server/internal/store"
)

type acceptPage struct {
	form
	*explainer
	Path     string
	Boat     string
	Yard     string
	Estimate app.OwnerPaper
	Chosen   *quote.OwnerOption
	// Letter of the chosen option.
	Letter string
	// ByYard: somebody of the yard enters it on the owner's behalf.
	ByYard bool
}

// longestName is how long a name may be that stands for a decision, as the app takes it.
const longestName = 200

var acceptLabels = map[string]string{"option": "Option", "name": "Name"}

// acceptance reads the estimate that is to be accepted, as long as it can be.
func (p *Pages) acceptance(v *visit) (acceptPage, error) {
	n, err := v.number("n")
	if err != nil {
		return acceptPage{}, err
	}
	id := v.PathValue("quote")
	paper, err := p.app.OwnerPaper(v.Context(), v.who, id, n)
	if err != nil {
		return acceptPage{}, err
	}
	q, err := p.app.Quote(v.Context(), v.who, id)
	if err != nil {
		return acceptPage{}, err
	}
	if q.Acceptance != nil {
		return acceptPage{}, &app.AcceptedError{Decision: *q.Acceptance}
	}
	if paper.Status != "issued" {
		return acceptPage{}, &app.NotOpenError{N: n, Status: paper.Status, ValidUntilDate: paper.ValidUntilDate, Newest: newestIssued(q)}
	}
	return acceptPage{form: newForm("option", "name"), explainer: newExplainer(), Path: revisionPath(id, n), Boat: paper.Paper.Boat.Name,
		Yard: paper.Paper.Yard.Name, Estimate: paper, ByYard: !v.is(auth.Owner)}, nil
}

// newestIssued is the newest revision of a quote that was issued; 0 for none.
func newestIssued(q app.Quote) (n int64) {
	for _, r := range q.Revisions {
		if r.IssuedAt != nil {
			n = max(n, r.N)
		}
	}
	return n
}

// askToAccept shows the form, filled where it was sent before.
func (p *Pages) askToAccept(v *visit) error {
	body, err := p.acceptance(v)
	if err != nil {
		return err
	}
	if v.Method == http.MethodPost {
		if body.form, err = v.filled("option", "name"); err != nil {
			return err
		}
	}
	return p.showAccept(v, http.StatusOK, body)
}

func (p *Pages) showAccept(v *visit, status int, body acceptPage) error {
	return p.show(v, status, "accept", page{Title: body.title(map[bool]string{true: "Enter an acceptance of", false: "Accept"}[body.ByYard] + " the estimate for " + body.Boat),
		Way: []link{{"Estimate " + body.Estimate.Number, body.Path}}, Body: body})
}

// subject is who accepts, for sentences.
func (b *acceptPage) subject() string {
	if b.ByYard {
		return "the owner accepts"
	}
	return "you accept"
}

// choose finds the option that the form names, or says what is missing.
func (b *acceptPage) choose() bool {
	for i, o := range b.Estimate.Estimate.Options {
		if o.ID == b.Values["option"] {
			b.Chosen, b.Letter = &o, letter(i)
		}
	}
	if b.Chosen == nil {
		b.Faults = append(b.Faults, fieldFault{"option", "Option: choose the one that " + b.subject() + "."})
	}
	switch n := len([]rune(b.Values["name"])); {
	case n == 0 && b.ByYard:
		b.Faults = append(b.Faults, fieldFault{"name", "Name: write who accepts, as the owner signs."})
	case n == 0:
		b.Faults = append(b.Faults, fieldFault{"name", "Your name: write it as you would sign."})
	case n > longestName:
		b.Faults = append(b.Faults, fieldFault{"name", fmt.Sprintf("Name: it has %d characters, at most %d are taken. Write it shorter.", n, longestName)})
	}
	return !b.Bad()
}

// checkAcceptance shows the amount before anything is final.
func (p *Pages) checkAcceptance(v *visit) error {
	body, err := p.acceptance(v)
	if err != nil {
		return err
	}
	if body.form, err = v.filled("option", "name"); err != nil {
		return err
	}
	if !body.choose() {
		return p.showAccept(v, http.StatusUnprocessableEntity, body)
	}
	return p.show(v, http.StatusOK, "accept-check", page{Title: "Check before " + body.subject() + " the estimate for " + body.Boat,
		Way: []link{{"Estimate " + body.Estimate.Number, body.Path}}, Body: body})
}

// accept makes it final.
func (p *Pages) accept(v *visit) error {
	n, err := v.number("n")
	if err != nil {
		return err
	}
	sent, err := v.filled("option", "name")
	if err != nil {
		return err
	}
	key, err := sent.key(v, sent.content("option", "name"))
	if err != nil {
		return err
	}
	id := v.PathValue("quote")
	there := revisionPath(id, n)
	fields := app.AcceptFields{Option: sent.Values["option"], Name: sent.Values["name"]}
	_, err = p.app.Accept(v.Context(), v.who, id, n, key, fields, func(app.Quote) (store.Answer, error) {
		return store.Answer{Status: http.StatusOK, Location: there}, nil
	})
	if body, again := p.acceptance(v); again == nil && sent.wrong(err, acceptLabels) {
		// What is missing is told as the page before told it; whatever else is wrong as it was found.
		found := sent
		sent.Faults, sent.General = nil, nil
		if body.form = sent; body.choose() {
			body.form = found
		}
		return p.showAccept(v, http.StatusUnprocessableEntity, body)
	}
	if err != nil {
		return err
	}
	return v.to(there)
}

// decisionFault says why a revision cannot be accepted.
func decisionFault(err error) (fault, bool) {
	var accepted *app.AcceptedError
	var notOpen *app.NotOpenError
	switch {
	case errors.As(err, &accepted):
		d := accepted.Decision
		return fault{Status: 409, Title: "It was accepted already",
			Says:      fmt.Sprintf("Revision %d was accepted on %s%s %s: option “%s”. An estimate is accepted once, so nothing was changed.", d.Revision, unbroken(d.Date), byWhom(d), d.Name, d.OptionName),
			Explained: true,
			Do:        "If that was not meant, or something is to be changed, write to the yard."}, true
	case errors.As(err, &notOpen):
		says := fmt.Sprintf("Revision %d is %s.", notOpen.N, notOpen.Status)
		switch notOpen.Status {
		case "expired":
			says = fmt.Sprintf("Revision %d held until %s; that day has passed.", notOpen.N, unbroken(notOpen.ValidUntilDate))
		case "declined":
			says = fmt.Sprintf("Revision %d was turned down.", notOpen.N)
		case "superseded":
			says = fmt.Sprintf("Revision %d is not the newest: a later one takes its place.", notOpen.N)
		case "draft":
			says = fmt.Sprintf("Revision %d is a draft; it was not issued.", notOpen.N)
		}
		return fault{Status: 409, Title: "It cannot be accepted as it stands", Says: says,
			Do: "Read the newest revision and accept that, or ask the yard for one."}, true
	}
	return fault{}, false
}
