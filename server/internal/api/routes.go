package api

import (
	"net/http"
	"strconv"

	"ribband/server/internal/auth"
)

// route is one operation: where, who may, which query parameters, and what it does. No roles: anybody may.
type route struct {
	method, path string
	roles        []auth.Role
	query        []string
	handle       func(*call) error
}

// queryNeeded is the parameters that have to be there wherever an operation has the one they go with.
var queryNeeded = map[string][]string{"heights_mm": {"side"}, "plank_thickness_mm": {"side", "strakes"}, "pitch_mm": {"frame", "side"}, "sheet": {"sheet", "version"}, "from": {"from", "to"}}

// Who may, as the operations need it.
var (
	anybody  []auth.Role
	leadOnly = []auth.Role{auth.Lead}
	keepers  = []auth.Role{auth.Accountant}
	writers  = []auth.Role{auth.Lead, auth.Estimator}
	readers  = []auth.Role{auth.Lead, auth.Estimator, auth.Accountant}
	pricers  = []auth.Role{auth.Lead, auth.Accountant}
	deciders = []auth.Role{auth.Lead, auth.Estimator, auth.Owner}
	everyone = []auth.Role{auth.Lead, auth.Estimator, auth.Accountant, auth.Owner}
)

var paged = []string{"limit", "cursor"}

const v1 = "/api/v1/"

const (
	get  = http.MethodGet
	post = http.MethodPost
	put  = http.MethodPut
	del  = http.MethodDelete
)

// routes is every operation there is; the contract lists the same.
var routes = []route{
	{get, "/openapi.yaml", anybody, nil, readContract},
	{get, "/healthz", anybody, nil, checkHealth},
	{get, "/readyz", anybody, nil, checkReadiness},

	{get, v1 + "tokens", leadOnly, paged, listTokens},
	{post, v1 + "tokens", leadOnly, nil, makeToken},
	{del, v1 + "tokens/:token", leadOnly, nil, revokeToken},

	{get, v1 + "yard", readers, nil, readYard},
	{put, v1 + "yard", leadOnly, nil, putYard},

	{get, v1 + "jobs", readers, paged, listJobs},
	{post, v1 + "jobs", writers, nil, openJob},
	{get, v1 + "jobs/:job", readers, nil, readJob},
	{put, v1 + "jobs/:job", writers, nil, changeJob},
	{get, v1 + "jobs/:job/hull", readers, []string{"layout"}, readHull},
	{put, v1 + "jobs/:job/hull", writers, []string{"notation", "grain", "surface"}, putHull},
	{get, v1 + "jobs/:job/patterns", readers, nil, readPatterns},
	{put, v1 + "jobs/:job/patterns", writers, []string{"notation", "grain", "surface"}, putPatterns},
	{get, v1 + "jobs/:job/hull/measures", readers, []string{"waterline_mm"}, readMeasures},
	{get, v1 + "jobs/:job/hull/section", readers, []string{"side", "x_mm", "frame", "heights_mm"}, readSection},
	{get, v1 + "jobs/:job/hull/strakes", readers, []string{"side", "strakes", "plank_thickness_mm", "stock_lengths_mm"}, readStrakes},
	{get, v1 + "jobs/:job/drawings/:name", readers, []string{"frame", "side", "x_mm", "paper", "strakes", "stock_lengths_mm"}, readDrawing},
	{get, v1 + "jobs/:job/frames", readers, nil, readFrames},
	{put, v1 + "jobs/:job/frames", writers, nil, putFrames},
	{get, v1 + "jobs/:job/floors", readers, nil, readFloors},
	{put, v1 + "jobs/:job/floors", writers, nil, putFloors},
	{get, v1 + "jobs/:job/planking", readers, nil, readPlanking},
	{put, v1 + "jobs/:job/planking", writers, nil, putPlanking},
	{get, v1 + "jobs/:job/findings", readers, nil, readFindings},
	{put, v1 + "jobs/:job/findings", writers, nil, putFindings},

	{get, v1 + "jobs/:job/options", readers, paged, listOptions},
	{post, v1 + "jobs/:job/options", writers, nil, makeOption},
	{get, v1 + "jobs/:job/options/:option", readers, nil, readOption},
	{get, v1 + "jobs/:job/options/:option/remedies", readers, nil, readRemedies},
	{put, v1 + "jobs/:job/options/:option/remedies", writers, nil, putRemedies},
	{get, v1 + "jobs/:job/options/:option/planks", readers, nil, readPlanks},
	{put, v1 + "jobs/:job/options/:option/planks", writers, nil, putPlanks},
	{get, v1 + "jobs/:job/options/:option/planks.svg", readers, []string{"side"}, drawPlanks},
	{get, v1 + "jobs/:job/options/:option/takeoff", readers, []string{"figures", "narrowing"}, readTakeoff},
	{get, v1 + "jobs/:job/options/:option/form", readers, []string{"frame", "side", "piece", "face", "pitch_mm"}, readForm},
	{get, v1 + "jobs/:job/options/:option/form.svg", readers, []string{"frame", "side", "piece", "face", "pitch_mm"}, readFormDrawing},
	{get, v1 + "jobs/:job/options/:option/form.pdf", readers, []string{"frame", "side", "piece", "face", "pitch_mm", "paper"}, readFormSheets},
	{get, v1 + "jobs/:job/options/:option/gluing", readers, nil, readGluing},
	{get, v1 + "jobs/:job/options/:option/buy-list", readers, []string{"sheet", "version", "rack", "needed"}, readBuyList},
	{get, v1 + "jobs/:job/options/:option/rack-after", readers, []string{"sheet", "version", "rack"}, readRackAfter},
	{get, v1 + "jobs/:job/options/:option/ripping-list.svg", readers, []string{"sheet", "version", "rack", "list"}, readRippingList},

	{get, v1 + "price-sheets", readers, paged, listSheets},
	{post, v1 + "price-sheets", writers, nil, makeSheet},
	{get, v1 + "price-sheets/:sheet", readers, nil, readSheet},
	{get, v1 + "price-sheets/:sheet/versions/:n", readers, nil, readPrices},
	{get, v1 + "price-sheets/:sheet/compare", readers, []string{"from", "to"}, comparePrices},
	{put, v1 + "price-sheets/:sheet/versions/:n", writers, nil, putPrices},
	{post, v1 + "price-sheets/:sheet/versions/:n/publish", pricers, nil, publishPrices},

	{get, v1 + "jobs/:job/quotes", everyone, paged, listQuotes},
	{post, v1 + "jobs/:job/quotes", writers, nil, makeQuote},
	{get, v1 + "quotes/:quote", everyone, nil, readQuote},
	{post, v1 + "quotes/:quote/revisions", writers, nil, reviseQuote},
	{get, v1 + "quotes/:quote/revisions/:n", everyone, nil, readRevision},
	{post, v1 + "quotes/:quote/revisions/:n/issue", writers, nil, issueRevision},
	{post, v1 + "quotes/:quote/revisions/:n/accept", deciders, nil, acceptRevision},
	{post, v1 + "quotes/:quote/revisions/:n/decline", deciders, nil, declineRevision},
	{get, v1 + "quotes/:quote/revisions/:n/compare", everyone, []string{"first", "second"}, compareOptions},
	{get, v1 + "quotes/:quote/revisions/:n/repriced", readers, []string{"sheet", "version"}, readRepriced},
	{get, v1 + "quotes/:quote/revisions/:n/estimate.pdf", everyone, nil, readEstimate},
	{get, v1 + "quotes/:quote/revisions/:n/snapshot", readers, nil, readSnapshot},

	{get, v1 + "jobs/:job/spend", readers, paged, listSpend},
	{post, v1 + "jobs/:job/spend", keepers, nil, enterSpend},
	{post, v1 + "jobs/:job/spend/imports", keepers, nil, readSpend},
	{get, v1 + "jobs/:job/spend/imports/:import", readers, nil, readImport},
	{post, v1 + "jobs/:job/spend/imports/:import/confirm", keepers, nil, confirmImport},
	{get, v1 + "jobs/:job/reconciliation", readers, []string{"quote", "revision", "option"}, readReconciliation},

	{get, v1 + "species", readers, []string{"version"}, readSpecies},
	{get, v1 + "step-libraries", readers, []string{"version"}, readStepLibrary},
	{get, v1 + "rules", readers, []string{"version"}, readRules},
	{put, v1 + "species", leadOnly, nil, putSpecies},
	{put, v1 + "step-libraries", leadOnly, nil, putStepLibrary},
	{put, v1 + "rules", leadOnly, nil, putRules},
	{get, v1 + "rack", readers, []string{"version"}, readRack},
	{put, v1 + "rack", writers, nil, putRack},
	{get, v1 + "formulas", readers, nil, readFormulas},

	{post, v1 + "hull/read", writers, []string{"notation", "grain", "surface"}, readTable},
	{post, v1 + "patterns/read", writers, []string{"notation", "grain", "surface"}, tryPatterns},
	{post, v1 + "hull/measure", writers, []string{"waterline_mm"}, measureHull},
	{post, v1 + "hull/strakes", writers, nil, layStrakes},
	{post, v1 + "takeoff", writers, []string{"figures", "narrowing"}, takeOff},
	{post, v1 + "cutting-plan", writers, nil, planCutting},
	{post, v1 + "sheet-cutting-plan", writers, nil, planSheets},
	{post, v1 + "sheet-cutting-plan.svg", writers, []string{"list"}, drawSheets},
	{post, v1 + "timber-tally", readers, nil, tallyTimber},
	{post, v1 + "timber-movement", readers, nil, moveTimber},
	{post, v1 + "rod-weight", readers, nil, weighRods},
}

func itoa(n int64) string { return strconv.FormatInt(n, 10) }
