package web

import (
	"net/http"

	"ribband/server/internal/auth"
)

// Who may, as the pages need it.
var (
	anybody  []auth.Role
	yard     = []auth.Role{auth.Lead, auth.Estimator, auth.Accountant}
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
	{method: get, path: "/jobs/{job}/body-plan.svg", roles: yard, handle: (*Pages).bodyPlan},
	{method: get, path: "/jobs/{job}/options/{option}/frames.svg", roles: yard, handle: (*Pages).framePlan},
	{method: get, path: "/jobs/{job}/options/{option}", roles: yard, handle: (*Pages).option},
	{method: get, path: "/jobs/{job}/options/{option}/figures/{figure...}", roles: yard, handle: (*Pages).oneFigure},

	{method: get, path: "/quotes/{quote}/{n}", roles: everyone, handle: (*Pages).revision},
	{method: get, path: "/quotes/{quote}/{n}/estimate.pdf", roles: everyone, handle: (*Pages).estimatePDF},
	{method: get, path: "/quotes/{quote}/{n}/frames/{option}", roles: everyone, handle: (*Pages).issuedFramePlan},
}
