package main

import (
	"context"
	"fmt"
	"io"

	"ribband/seed"
	"ribband/server/internal/app"
	"ribband/server/internal/auth"
	"ribband/server/internal/web"
)

// setUp gives an empty database its first yard and says how to get in; with demo it sets the invented yard up, or
// finds it again.
func setUp(ctx context.Context, service *app.App, demo bool, address web.Address, out io.Writer) error {
	if demo {
		return setUpDemo(ctx, service, address, out)
	}
	knowledge, err := seed.LoadKnowledge()
	if err != nil {
		return err
	}
	token, fresh, err := service.FirstToken(ctx, "Your yard", app.Knowledge(knowledge))
	if err != nil || !fresh {
		return err
	}
	_, err = fmt.Fprintf(out, `
A new yard was set up in this database. Say who it is before its first estimate is issued: the lead puts name, address
and contact with PUT /api/v1/yard. Its species carry their sources; its steps and rules are invented, and its estimates
say so.

The token of its lead, shown this once:

  %s

This link signs the lead in, in a browser:

  %s

`, token.Reveal(), address.EnterLink(token.Reveal()))
	return err
}

func setUpDemo(ctx context.Context, service *app.App, address web.Address, out io.Writer) error {
	demo, err := app.LoadDemo()
	if err != nil {
		return err
	}
	yard, err := service.SetUpDemo(ctx, demo)
	if err != nil {
		return err
	}
	say(out, "\n%s. %s\n\nTokens, new with every start; the ones before no longer work:\n\n", demo.Letterhead.Name, demo.Letterhead.Note)
	for _, role := range auth.Roles() {
		say(out, "  %-11s %s\n", role, yard.Tokens[role].Reveal())
	}
	if address.SignIn() {
		say(out, "\nIn a browser, one role at a time:\n\n")
		for _, role := range auth.Roles() {
			say(out, "  %-11s %s\n", role, address.EnterLink(yard.Tokens[role].Reveal()))
		}
	}
	job := address.Base + "/api/v1/jobs/" + yard.Job
	lead, owner := yard.Tokens[auth.Lead].Reveal(), yard.Tokens[auth.Owner].Reveal()
	say(out, `
What to try:

  What one option needs, with the derivation of every figure:
    curl -H 'Authorization: Bearer %s' '%s/options/%s/takeoff?figures=true'
  What to buy for it on the newer prices:
    curl -H 'Authorization: Bearer %s' '%s/options/%s/buy-list?sheet=%s&version=2'
  The issued estimate, as the boat's owner gets it:
    curl -o estimate.pdf -H 'Authorization: Bearer %s' '%s/api/v1/quotes/%s/revisions/1/estimate.pdf'

`, lead, job, yard.Options[0], lead, job, yard.Options[0], yard.Sheet, owner, address.Base, yard.Quote)
	if len(yard.Planked) > 0 {
		say(out, "  An option that renews planks, in no quote yet:\n    curl -H 'Authorization: Bearer %s' '%s/options/%s/takeoff'\n\n", lead, job, yard.Planked[0])
	}
	return nil
}
