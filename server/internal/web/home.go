package web

import (
	"net/http"
	"strconv"

	"ribband/server/internal/app"
	"ribband/server/internal/auth"
	"ribband/server/internal/store"
)

// home is the first page: what this is for whoever is not signed in, the jobs for the yard, the estimate for an owner.
func (p *Pages) home(v *visit) error {
	switch {
	case !v.in():
		return p.show(v, http.StatusOK, "front", page{Title: "Ribband", Body: nil})
	case v.is(auth.Owner):
		return p.ownerHome(v)
	}
	list, err := p.app.Jobs(v.Context(), v.who, store.Page{Limit: store.LargestLimit, After: v.FormValue("after")})
	if err != nil {
		return err
	}
	return p.show(v, http.StatusOK, "jobs", page{Title: "Jobs of the yard", Body: jobsPage{list.Items, list.Next}})
}

type jobsPage struct {
	Jobs []app.Job
	Next string
}

// ownerHome sends an owner of one estimate to it, and lets one of several choose.
func (p *Pages) ownerHome(v *visit) error {
	quotes, err := p.app.Quotes(v.Context(), v.who, v.who.Job, store.Page{Limit: store.LargestLimit})
	if err != nil {
		return err
	}
	j, err := p.app.Job(v.Context(), v.who, v.who.Job)
	if err != nil {
		return err
	}
	if len(quotes.Items) == 1 {
		q := quotes.Items[0]
		return v.to(revisionPath(q.ID, q.Revisions[len(q.Revisions)-1].N))
	}
	return p.show(v, http.StatusOK, "estimates", page{Title: "Estimates for " + j.Boat.Name, Body: quotes.Items})
}

func revisionPath(quote string, n int64) string {
	return "/quotes/" + quote + "/" + strconv.FormatInt(n, 10)
}

// number is the number in a path, nothing where it is none.
func (v *visit) number(name string) (int64, error) {
	text := v.PathValue(name)
	n, err := strconv.ParseInt(text, 10, 64)
	if err != nil || n < 1 || strconv.FormatInt(n, 10) != text {
		return 0, errNothing
	}
	return n, nil
}
