package web

import (
	"context"
	"net/http"

	"ribband/server/internal/app"
	"ribband/server/internal/auth"
	"ribband/server/internal/store"
	"ribband/takeoff/drawing"
)

type jobPage struct {
	Job app.Job
	// Lines are her drawings: half-breadths below the profile on the same stations, then the body plan.
	Lines   []plan
	Options []jobOption
	Quotes  []app.Quote
	// Writes is set for those who may give the owner a private link.
	Writes bool
}

type jobOption struct {
	app.Option
	Plan *plan
}

// job is the page of one boat's refit.
func (p *Pages) job(v *visit) error {
	ctx, id := v.Context(), v.PathValue("job")
	j, err := p.app.Job(ctx, v.who, id)
	if err != nil {
		return err
	}
	body := jobPage{Job: j, Writes: v.is(writers...)}
	for _, l := range []struct {
		file string
		draw func(context.Context, auth.Principal, string, float64) (drawing.Drawing, error)
	}{{"profile.svg", p.app.Profile}, {"half-breadths.svg", p.app.HalfBreadths}, {"body-plan.svg", p.app.BodyPlan}} {
		d, err := l.draw(ctx, v.who, id, v.width())
		if err != nil {
			return err
		}
		body.Lines = append(body.Lines, planOf(d, jobPath(id)+"/"+l.file))
	}
	options, err := p.app.Options(ctx, v.who, id, store.Page{Limit: store.LargestLimit})
	if err != nil {
		return err
	}
	for _, o := range options.Items {
		d, err := p.app.FramePlan(ctx, v.who, id, o.ID, v.width())
		if err != nil {
			return err
		}
		drawn := planOf(d, optionPath(id, o.ID)+"/frames.svg")
		body.Options = append(body.Options, jobOption{o, &drawn})
	}
	quotes, err := p.app.Quotes(ctx, v.who, id, store.Page{Limit: store.LargestLimit})
	if err != nil {
		return err
	}
	body.Quotes = quotes.Items
	return p.show(v, http.StatusOK, "job", page{Title: "Job: refit of " + j.Boat.Name, Way: []link{{"Jobs", "/"}}, Body: body})
}

func jobPath(id string) string { return "/jobs/" + id }

func optionPath(job, option string) string { return jobPath(job) + "/options/" + option }
