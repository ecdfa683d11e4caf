package api_test

import (
	"encoding/json"
	"net/http"
	"slices"
	"strings"
	"testing"

	"ribband/server/internal/auth"
)

// sample is a request that its operation takes.
type sample struct {
	body    any
	kind    string // of the body where it is not JSON
	query   string
	headers []header
}

// fields of a job that is taken.
func jobFields() map[string]any {
	return map[string]any{
		"owner": map[string]any{"name": "An Invented Owner"}, "boat": map[string]any{"name": "An Invented Sloop"},
		"notation": "inches", "currency": "USD", "opened_date": "2026-03-02",
	}
}

// terms that are taken.
func terms() map[string]any {
	return map[string]any{
		"markup": map[string]any{"timber": "0.25", "labour": "0.35"}, "valid_days": 30, "range_low": "0.10", "range_high": "0.25",
		"taxes": []any{map[string]any{"category": "Sales tax", "rate": "0.06", "kinds": []string{"timber", "glue", "consumable"}}},
		"text":  "Half on acceptance.",
	}
}

// quoteFields of a quote over some of the demo's options.
func (d *desk) quoteFields(options ...string) map[string]any {
	return map[string]any{"options": options, "sheet": d.demo.Sheet, "version": 2, "terms": terms()}
}

// document is a document of the yard as it is written.
func (d *desk) document(path string) json.RawMessage {
	d.t.Helper()
	return d.get(path).want(200).body
}

// papers is everything that a takeoff of an option reads.
func (d *desk) papers(option int) map[string]any {
	d.t.Helper()
	return map[string]any{
		"hull": d.document(d.job("hull")), "frames": d.document(d.job("frames")), "findings": d.document(d.job("findings")), "remedies": d.document(d.option(option, "remedies")),
		"species": d.document("/api/v1/species"), "steps": d.document("/api/v1/step-libraries"), "rules": d.document("/api/v1/rules"),
	}
}

// sample is a request that the operation takes in the demo's yard.
func (d *desk) sample(op operation) sample {
	d.t.Helper()
	var s sample
	switch op.OperationID {
	case "makeToken":
		s.body = map[string]any{"name": "another estimator", "role": "estimator"}
	case "putYard":
		s.body = map[string]any{"name": "An Invented Yard, renamed", "address": []string{"2 Invented Quay"}, "contact": "invented@yard.example"}
	case "openJob", "changeJob":
		s.body = jobFields()
	case "putHull":
		s.body = d.document(d.job("hull"))
	case "readHullTable":
		s.kind, s.body = "text/csv", []byte(wideTable)
	case "readPatternsTable":
		s.kind, s.body = "text/csv", []byte(patternTable)
	case "readPatterns":
		d.putPattern()
	case "putPatterns":
		d.putPattern()
		s.body = onePattern(12)
	case "putFrames":
		s.body = d.document(d.job("frames"))
	case "putSpecies":
		s.body = d.document("/api/v1/species")
	case "putStepLibrary":
		s.body = d.document("/api/v1/step-libraries")
	case "putRack":
		s.body = d.document("/api/v1/rack")
	case "putRules":
		s.body = d.document("/api/v1/rules")
	case "readFloors":
		d.putFloors()
	case "putFloors":
		d.putFloors()
		s.body = floorsOf(12)
	case "readPlanking", "readPlanks":
		d.putPlanks()
	case "putPlanking":
		d.putPlanks()
		s.body = carvelled(15)
	case "putPlanks":
		d.putPlanks()
		s.body = planksOf(plankRow(5, "port", 14, 16))
	case "putFindings":
		s.body = d.document(d.job("findings"))
	case "putRemedies":
		s.body = d.document(d.option(0, "remedies"))
	case "makeOption":
		s.body = map[string]any{"name": "Another way"}
	case "makePriceSheet":
		s.body = map[string]any{"name": "More prices", "currency": "USD", "notation": "inches"}
	case "putPrices":
		s.body = d.document(d.sheet("versions", "2"))
	case "makeQuote":
		s.body = d.quoteFields(d.demo.Options[0])
	case "reviseQuote":
		s.body = map[string]any{"version": 1}
	case "measureHull":
		s.body = map[string]any{"hull": d.document(d.job("hull")), "frames": d.document(d.job("frames"))}
	case "takeOff":
		s.body = d.papers(0)
	case "planCutting":
		s.body = map[string]any{"stock": []any{map[string]any{"id": "oak", "length": 3600, "price": 4700}}, "pieces": []any{map[string]any{"id": "a", "length": 1700, "qty": 5}}, "rules": map[string]any{"kerf": 3, "trim_each": 25}}
	case "planSheets", "drawSheets":
		s.body = plySheets()
	case "tallyTimber":
		s.body = oakPack()
	case "weighRods":
		s.body = map[string]any{"notation": "inches", "metal": "silicon_bronze", "rods": []any{map[string]any{"count": 4, "diameter": "3/4", "length": "24"}}}
	case "moveTimber":
		s.body = map[string]any{"species": "white_oak", "notation": "inches", "sawn": "flatsawn", "width": "8", "from_pct": "28", "to_pct": "12"}
	case "readBuyList", "readRackAfter", "readRippingList", "readRepriced":
		s.query = "sheet=" + d.demo.Sheet + "&version=2"
	case "readStrakes":
		s.query = "side=port&strakes=12"
	case "layStrakes":
		s.body = map[string]any{"hull": d.document(d.job("hull")), "side": "port", "strakes": map[string]any{"count": 12}}
	case "drawPlanks":
		d.putPlanks()
		s.query = "side=port"
	case "readForm", "readFormDrawing", "readFormSheets":
		s.query = "frame=12&side=port"
	case "readSection":
		s.query = "side=port&x_mm=3048"
	case "comparePrices":
		s.query = "from=1&to=2"
	case "acceptRevision":
		s.body = map[string]any{"option": d.demo.Options[0], "name": "An Invented Owner"}
	case "declineRevision":
		s.body = map[string]any{"name": "An Invented Owner"}
	case "enterSpend":
		s.body = invoice("1")
	case "readSpend":
		s.body, s.kind = spendTable(invoice("1")), "text/csv"
	case "readReconciliation":
		s.query = "quote=" + d.demo.Quote + "&revision=1&option=" + d.demo.Options[0]
	}
	if op.takes("Idempotency-Key") {
		s.headers = append(s.headers, d.key())
	}
	if op.method == http.MethodPut {
		s.headers = append(s.headers, seen(`"1"`))
	}
	return s
}

// takes reports whether the operation has a header.
func (op operation) takes(name string) bool {
	for _, p := range op.parameters {
		if p.Value.In == "header" && p.Value.Name == name {
			return true
		}
	}
	return false
}

// ids of the things in the demo's yard, by the name of the path parameter.
func (d *desk) ids(op operation) map[string]string {
	n := "1"
	if op.OperationID == "putPrices" || op.OperationID == "publishPrices" {
		n = "3" // the draft
	}
	ids := map[string]string{"job": d.demo.Job, "option": d.demo.Options[0], "sheet": d.demo.Sheet, "quote": d.demo.Quote, "n": n, "token": nobody, "name": "body-plan.svg"}
	if slices.Contains(op.placed(), "import") {
		ids["import"] = id(d.accountant().imported(spendTable(invoice("of an import"))).header.Get("Location"))
	}
	return ids
}

// nobody is an id that belongs to nothing.
const nobody = "01933a3e-0000-7000-8000-0000000000aa"

// at is the operation's address with these ids in it.
func (op operation) at(ids map[string]string, query string) string {
	path := op.path
	for name, id := range ids {
		path = strings.ReplaceAll(path, "{"+name+"}", id)
	}
	if query != "" {
		path += "?" + query
	}
	return path
}

// placed is the names of the path parameters.
func (op operation) placed() []string {
	var out []string
	for _, p := range op.parameters {
		if p.Value.In == "path" {
			out = append(out, p.Value.Name)
		}
	}
	return out
}

// anybody reports whether anybody may call the operation.
func (op operation) anybody(t testing.TB) bool { return rolesOf(t, op)[0] == "anonymous" }

var roles = auth.Roles()
