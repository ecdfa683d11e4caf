package api_test

import (
	"encoding/json"
	"net/http"
	"net/url"
	"strings"
	"testing"
)

// Whoever sends an example of the contract gets what the contract promises. Its ids are those of nothing, so the
// demo's stand in their place.
func TestTheServerTakesTheExamples(t *testing.T) {
	oneByOne(t)
	for _, op := range operations(t) {
		if op.RequestBody == nil {
			continue
		}
		for kind, media := range op.RequestBody.Value.Content {
			t.Run(op.OperationID+" "+kind, func(t *testing.T) {
				d := open(t, file(t)).doer(op)
				s := d.sample(op)
				s.kind, s.body = kind, d.inDemo(exampleText(t, media.Example))
				query := url.Values{}
				for _, p := range op.parameters {
					if p.Value.In == "query" && kind == "text/csv" {
						query.Set(p.Value.Name, p.Value.Example.(string))
					}
				}
				ids := d.ids(op)
				if op.OperationID == "putPrices" {
					s.headers = []header{firstPut}
				}
				if a := op.ask(d, s, ids, query.Encode()); a.status >= http.StatusMultipleChoices {
					t.Errorf("the example is answered with %d: %s", a.status, a.body)
				}
			})
		}
	}
}

func exampleText(t *testing.T, example any) string {
	t.Helper()
	if text, is := example.(string); is {
		return text
	}
	b, err := json.Marshal(example)
	if err != nil {
		t.Fatal(err)
	}
	return string(b)
}

// inDemo is an example with the demo's ids.
func (d *desk) inDemo(example string) string {
	const of = "01933a3e-0000-7000-8000-00000000000"
	return strings.NewReplacer(of+"a", d.demo.Job, of+"b", d.demo.Options[0], of+"c", d.demo.Sheet, of+"d", d.demo.Quote, of+"f", d.demo.Options[1]).Replace(example)
}
