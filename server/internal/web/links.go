package web

import (
	"net/http"
	"time"

	"ribband/server/internal/app"
	"ribband/server/internal/auth"
	"ribband/server/internal/store"
)

// linkDays is how long the form proposes that a private link holds, as the API does when nobody says otherwise.
const linkDays = 90

var (
	linkFields = []string{"name", "until"}
	linkLabels = map[string]string{"name": "Whose link it is", "until": "Last day"}
)

type linksPage struct {
	form
	Job   app.Job
	Path  string
	Links []shownLink
	// SignIn is false where nobody can sign in by a link.
	SignIn bool
	Done   string
}

// shownLink is a private link as it is listed: nobody can show its text again.
type shownLink struct {
	app.Token
	State, Until string
}

type madePage struct {
	Job  app.Job
	Path string
	// Link is empty where the form was sent before: it was shown then and never is again.
	Link, Name, Until string
}

func linksPath(job string) string { return jobPath(job) + "/links" }

// untilText is the last day of a link: it ends at the end of a day, and a link made elsewhere at whatever time.
func untilText(t *time.Time) string {
	if t == nil {
		return "no end"
	}
	return day(t.UTC().Add(-time.Second))
}

func (p *Pages) linksOf(v *visit) (linksPage, error) {
	job := v.PathValue("job")
	j, err := p.app.Job(v.Context(), v.who, job)
	if err != nil {
		return linksPage{}, err
	}
	body := linksPage{form: newForm(linkFields...), Job: j, Path: linksPath(job), SignIn: p.address.SignIn()}
	body.Values["name"], body.Values["until"] = j.Owner.Name, day(p.now().UTC().AddDate(0, 0, linkDays))
	list, err := p.app.OwnerLinks(v.Context(), v.who, job)
	for _, t := range list {
		body.Links = append(body.Links, shownLink{t, t.State(p.now()), untilText(t.ExpiresAt)})
	}
	return body, err
}

// links lists the private links of a job's owner, with the form of a new one.
func (p *Pages) links(v *visit) error {
	body, err := p.linksOf(v)
	if err != nil {
		return err
	}
	if v.FormValue("done") == "revoked" {
		body.Done = "The link was revoked. Whoever opens it finds nothing, and whoever was signed in with it is out."
	}
	return p.showLinks(v, http.StatusOK, body)
}

func (p *Pages) showLinks(v *visit, status int, body linksPage) error {
	return p.show(v, status, "links", page{Title: body.title("Private links of the owner of " + body.Job.Boat.Name), Way: jobWay(body.Job), Body: body})
}

// lastDay reads the day that a link ends after.
func (b *linksPage) lastDay(now time.Time) time.Time {
	last, err := time.Parse(time.DateOnly, b.Values["until"])
	end := last.AddDate(0, 0, 1)
	if err != nil || !end.After(now) {
		b.Faults = append(b.Faults, fieldFault{"until", "Last day: write a day to come as year, month and day, such as " + day(now.UTC().AddDate(0, 0, linkDays)) + "."})
	}
	return end
}

// makeLink makes a link and shows it this once.
func (p *Pages) makeLink(v *visit) error {
	body, err := p.linksOf(v)
	if err != nil {
		return err
	}
	if body.form, err = v.filled(linkFields...); err != nil {
		return err
	}
	key, err := body.key(v, body.content(linkFields...))
	if err != nil {
		return err
	}
	until := body.lastDay(p.now())
	if body.Bad() {
		return p.showLinks(v, http.StatusUnprocessableEntity, body)
	}
	fields := app.TokenFields{Name: body.Values["name"], Role: auth.Owner, Job: body.Job.ID, ExpiresAt: &until}
	made, _, fresh, err := p.app.MakeToken(v.Context(), v.who, key, fields, func(app.Token) (store.Answer, error) {
		return store.Answer{Status: http.StatusOK, Location: body.Path}, nil
	})
	if body.wrong(err, linkLabels) {
		return p.showLinks(v, http.StatusUnprocessableEntity, body)
	}
	if err != nil {
		return err
	}
	done := madePage{Job: body.Job, Path: body.Path, Name: body.Values["name"], Until: body.Values["until"]}
	if fresh {
		done.Link = p.address.EnterLink(made.Text)
	}
	return p.show(v, http.StatusOK, "link-made", page{Title: "A private link for the owner of " + body.Job.Boat.Name,
		Way: append(jobWay(body.Job), link{"Private links", body.Path}), Body: done})
}

// revokeLink puts a link out of force.
func (p *Pages) revokeLink(v *visit) error {
	job := v.PathValue("job")
	if err := p.app.RevokeOwnerLink(v.Context(), v.who, job, v.PathValue("link")); err != nil {
		return err
	}
	return v.to(linksPath(job) + "?done=revoked")
}
