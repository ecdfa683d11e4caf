package web

import (
	"errors"
	"net/http"

	"ribband/server/internal/auth"
)

// enterPath begins a link that signs in.
const enterPath = "/enter/"

// askToEnter shows the one button of a link that holds.
func (p *Pages) askToEnter(v *visit) error {
	if !p.address.SignIn() {
		return errNeedsHTTPS
	}
	token := v.PathValue("token")
	who, err := p.whose(v, token)
	if err != nil {
		return err
	}
	yard, err := p.app.Letterhead(v.Context(), who)
	if err != nil {
		return err
	}
	nobody := &visit{v.ResponseWriter, v.Request, auth.Principal{}}
	return p.show(nobody, http.StatusOK, "enter", page{Title: "Sign in at " + yard.Name, Body: token})
}

// whose finds out whose a link is. Every link that does not hold is the same to whoever opens it.
func (p *Pages) whose(v *visit, token string) (auth.Principal, error) {
	who, err := p.app.Who(v.Context(), token)
	var refused *auth.RefusedError
	if errors.As(err, &refused) {
		p.log.Info("link refused", "request_id", traceOf(v.Context()).id, "reason", refused.Reason, "token", refused.TokenID)
		return auth.Principal{}, errNothing
	}
	return who, err
}

// enter signs in whoever pressed the button.
func (p *Pages) enter(v *visit) error {
	if !p.address.SignIn() {
		return errNeedsHTTPS
	}
	if err := v.ParseForm(); err != nil {
		return formFault(err)
	}
	who, err := p.whose(v, v.PostForm.Get("token"))
	if err != nil {
		return err
	}
	noteToken(v.Request, who.TokenID)
	if err := p.begin(v.Context(), who); err != nil {
		return err
	}
	p.log.Info("signed in", "request_id", traceOf(v.Context()).id, "token", who.TokenID, "role", string(who.Role))
	return v.to("/")
}

// leave signs out.
func (p *Pages) leave(v *visit) error {
	if err := p.sessions.Destroy(v.Context()); err != nil {
		return err
	}
	return v.to("/")
}

// formFault is a form that cannot be read, unless it is only too long.
func formFault(err error) error {
	var large *http.MaxBytesError
	if errors.As(err, &large) {
		return large
	}
	return errForm
}

var errForm = errors.New("the form cannot be read")
