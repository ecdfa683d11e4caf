package web

import (
	"net/http"

	"ribband/server/internal/auth"
)

// Who may, as the pages need it.
var (
	anybody  []auth.Role
	yard     = []auth.Role{auth.Lead, auth.Estimator, auth.Accountant}
	writers  = []auth.Role{auth.Lead, auth.Estimator}
	deciders = []auth.Role{auth.Lead, auth.Estimator, auth.Owner}
	keepers  = []auth.Role{auth.Accountant}
	everyone = []auth.Role{auth.Lead, auth.Estimator, auth.Accountant, auth.Owner}
)

const (
	get  = http.MethodGet
	post = http.MethodPost
)

// routes is every page and every form there is.
var routes = []route{
	{method: get, path: "/", roles: anybody, handle: (*Pages).home},
	{method: get, path: "/enter/{token}", roles: anybody, handle: (*Pages).askToEnter},
	{method: post, path: "/enter", roles: anybody, handle: (*Pages).enter},
	{method: post, path: "/leave", roles: anybody, handle: (*Pages).leave},

	{method: get, path: "/jobs/{job}", roles: yard, handle: (*Pages).job},
	{method: get, path: "/jobs/{job}/hull", roles: yard, handle: (*Pages).hull},
	{method: get, path: "/jobs/{job}/body-plan.svg", roles: yard, handle: (*Pages).bodyPlan},
	{method: get, path: "/jobs/{job}/profile.svg", roles: yard, handle: (*Pages).profile},
	{method: get, path: "/jobs/{job}/half-breadths.svg", roles: yard, handle: (*Pages).halfBreadths},
	{method: get, path: "/jobs/{job}/options/{option}/frames.svg", roles: yard, handle: (*Pages).framePlan},
	{method: get, path: "/jobs/{job}/options/{option}", roles: yard, handle: (*Pages).option},
	{method: get, path: "/jobs/{job}/options/{option}/buy-list", roles: yard, handle: (*Pages).buyList},
	{method: post, path: "/jobs/{job}/options/{option}/buy-list/rack", roles: writers, handle: (*Pages).putRackAfter},
	{method: get, path: "/jobs/{job}/options/{option}/gluing", roles: yard, handle: (*Pages).gluing},
	{method: get, path: "/jobs/{job}/options/{option}/floors.svg", roles: yard, handle: (*Pages).floorsPlan},
	{method: get, path: "/jobs/{job}/options/{option}/planks", roles: yard, handle: (*Pages).planks},
	{method: post, path: "/jobs/{job}/options/{option}/planks", roles: writers, handle: (*Pages).addPlank},
	{method: post, path: "/jobs/{job}/options/{option}/planks/out", roles: writers, handle: (*Pages).takeOutPlank},
	{method: post, path: "/jobs/{job}/options/{option}/planks/planking", roles: writers, handle: (*Pages).putPlanking},
	{method: get, path: "/jobs/{job}/options/{option}/planks/{side}/renewed.svg", roles: yard, handle: (*Pages).planksSVG},
	{method: get, path: "/jobs/{job}/options/{option}/forms", roles: yard, handle: (*Pages).forms},
	{method: get, path: "/jobs/{job}/options/{option}/forms/{frame}/{side}", roles: yard, handle: (*Pages).oneForm},
	{method: get, path: "/jobs/{job}/options/{option}/forms/{frame}/{side}/form.svg", roles: yard, handle: (*Pages).formSVG},
	{method: get, path: "/jobs/{job}/options/{option}/forms/{frame}/{side}/full-size.pdf", roles: yard, handle: (*Pages).formPDF},
	{method: get, path: "/jobs/{job}/options/{option}/figures/{figure...}", roles: yard, handle: (*Pages).oneFigure},

	{method: get, path: "/quotes/{quote}/{n}", roles: everyone, handle: (*Pages).revision},
	{method: get, path: "/quotes/{quote}/{n}/estimate.pdf", roles: everyone, handle: (*Pages).estimatePDF},
	{method: get, path: "/quotes/{quote}/{n}/frames/{option}", roles: everyone, handle: (*Pages).issuedFramePlan},
	{method: get, path: "/quotes/{quote}/{n}/compare", roles: everyone, handle: (*Pages).compare},
	{method: get, path: "/quotes/{quote}/{n}/accept", roles: deciders, handle: (*Pages).askToAccept},
	{method: post, path: "/quotes/{quote}/{n}/accept/again", roles: deciders, handle: (*Pages).askToAccept},
	{method: post, path: "/quotes/{quote}/{n}/accept/check", roles: deciders, handle: (*Pages).checkAcceptance},
	{method: post, path: "/quotes/{quote}/{n}/accept", roles: deciders, handle: (*Pages).accept},
	{method: get, path: "/quotes/{quote}/{n}/decline", roles: deciders, handle: (*Pages).askToDecline},
	{method: post, path: "/quotes/{quote}/{n}/decline", roles: deciders, handle: (*Pages).decline},
	{method: get, path: "/quotes/{quote}/{n}/repriced", roles: yard, handle: (*Pages).repriced},

	{method: get, path: "/jobs/{job}/links", roles: writers, handle: (*Pages).links},
	{method: post, path: "/jobs/{job}/links", roles: writers, handle: (*Pages).makeLink},
	{method: post, path: "/jobs/{job}/links/{link}/revoke", roles: writers, handle: (*Pages).revokeLink},

	{method: get, path: "/jobs/{job}/spend", roles: yard, handle: (*Pages).spend},
	{method: post, path: "/jobs/{job}/spend", roles: keepers, handle: (*Pages).enterSpend},
	{method: get, path: "/jobs/{job}/spend.csv", roles: yard, handle: (*Pages).spendCSV},
	{method: get, path: "/jobs/{job}/spend/new", roles: keepers, handle: (*Pages).askForSpend},
	{method: get, path: "/jobs/{job}/spend/import", roles: keepers, handle: (*Pages).askForTable},
	{method: get, path: "/jobs/{job}/spend/import/empty.csv", roles: keepers, handle: (*Pages).sampleTable},
	{method: post, path: "/jobs/{job}/spend/import", roles: keepers, handle: (*Pages).readTable, longest: longestTable},
	{method: get, path: "/jobs/{job}/spend/imports/{import}", roles: yard, handle: (*Pages).readImport},
	{method: post, path: "/jobs/{job}/spend/imports/{import}", roles: keepers, handle: (*Pages).confirmImport},
	{method: get, path: "/jobs/{job}/reconciliation", roles: yard, handle: (*Pages).reconciliation},
	{method: get, path: "/jobs/{job}/reconciliation.csv", roles: yard, handle: (*Pages).reconciliationCSV},

	{method: get, path: "/timber", roles: yard, handle: (*Pages).timber},
	{method: post, path: "/timber", roles: yard, handle: (*Pages).tallyTimber},
	{method: get, path: "/timber/movement", roles: yard, handle: (*Pages).movement},
	{method: post, path: "/timber/movement", roles: yard, handle: (*Pages).moveTimber},

	{method: get, path: "/price-sheets", roles: yard, handle: (*Pages).sheets},
	{method: get, path: "/price-sheets/{sheet}/compare", roles: yard, handle: (*Pages).comparePrices},
}
