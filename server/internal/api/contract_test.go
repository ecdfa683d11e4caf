package api_test

import (
	"bytes"
	"context"
	"flag"
	"fmt"
	"io"
	"net/http"
	"os"
	"slices"
	"sort"
	"strconv"
	"strings"
	"sync"
	"testing"

	"github.com/getkin/kin-openapi/openapi3"
	"github.com/getkin/kin-openapi/openapi3filter"
	"github.com/getkin/kin-openapi/routers"
	"github.com/getkin/kin-openapi/routers/legacy"

	"ribband/server/internal/api"
)

const contractFile = "../../../openapi.yaml"

// contract is openapi.yaml as the tests hold the server to it.
var contract = sync.OnceValues(func() (*openapi3.T, error) {
	doc, err := openapi3.NewLoader().LoadFromFile(contractFile)
	if err != nil {
		return nil, err
	}
	return doc, doc.Validate(context.Background(), openapi3.EnableExamplesValidation())
})

var finder = sync.OnceValues(func() (routers.Router, error) {
	doc, err := contract()
	if err != nil {
		return nil, err
	}
	return legacy.NewRouter(doc)
})

func theContract(t testing.TB) *openapi3.T {
	t.Helper()
	doc, err := contract()
	if err != nil {
		t.Fatal(err)
	}
	return doc
}

// plain reads a body as the text it is: tables, papers and the contract itself.
func plain(body io.Reader, _ http.Header, _ *openapi3.SchemaRef, _ openapi3filter.EncodingFn) (any, error) {
	b, err := io.ReadAll(body)
	return string(b), err
}

func init() {
	for _, kind := range []string{"application/pdf", "application/yaml", "text/csv", "image/svg+xml", "image/vnd.dxf"} {
		openapi3filter.RegisterBodyDecoder(kind, plain)
	}
}

// reached is which documented answers the whole suite has seen: operation -> status.
var reached = struct {
	mu sync.Mutex
	at map[string]map[int]bool
}{at: map[string]map[int]bool{}}

// hold validates one request with its answer against the contract. A request that the server took has to be one that
// the contract takes; every answer has to be one that the contract has.
func hold(t testing.TB, request *http.Request, body []byte, a answer) {
	t.Helper()
	find, err := finder()
	if err != nil {
		t.Fatal(err)
	}
	asked := request.Clone(t.Context())
	asked.Body = io.NopCloser(bytes.NewReader(body))
	if asked.Method == http.MethodHead {
		asked.Method = http.MethodGet
	}
	route, params, err := find.FindRoute(asked)
	if err != nil || strings.HasSuffix(asked.URL.Path, "/") { // the finder takes a slash at the end for none
		holdStray(t, request, a)
		return
	}
	options := &openapi3filter.Options{AuthenticationFunc: openapi3filter.NoopAuthenticationFunc, IncludeResponseStatus: true}
	in := &openapi3filter.RequestValidationInput{Request: asked, PathParams: params, Route: route, Options: options}
	if a.status < 300 {
		if err := openapi3filter.ValidateRequest(t.Context(), in); err != nil {
			t.Errorf("%s %s was taken and the contract does not take it: %s", request.Method, request.URL, short(err))
		}
	}
	if a.status < 500 && route.Operation.Responses.Status(a.status) == nil {
		t.Errorf("%s %s answered %d, which the contract does not have: %.300s", request.Method, request.URL, a.status, a.body)
	}
	if request.Method == http.MethodHead {
		return
	}
	out := &openapi3filter.ResponseValidationInput{RequestValidationInput: in, Status: a.status, Header: a.header, Options: options}
	out.SetBodyBytes(a.body)
	if err := openapi3filter.ValidateResponse(t.Context(), out); err != nil {
		t.Errorf("%s %s: the answer %d is not the contract's: %s", request.Method, request.URL, a.status, short(err))
	}
	reached.mu.Lock()
	defer reached.mu.Unlock()
	id := route.Operation.OperationID
	if reached.at[id] == nil {
		reached.at[id] = map[int]bool{}
	}
	reached.at[id][a.status] = true
}

// short is what an error of the validator says before it repeats schema and value.
func short(err error) string {
	first, _, _ := strings.Cut(err.Error(), "\nSchema:")
	return first
}

// holdStray holds an answer outside every operation: nothing but a problem, or what OPTIONS tells.
func holdStray(t testing.TB, request *http.Request, a answer) {
	t.Helper()
	if request.Method == http.MethodOptions && a.status == http.StatusNoContent {
		return
	}
	if a.status != http.StatusNotFound && a.status != http.StatusMethodNotAllowed {
		t.Errorf("%s %s answered %d and is in no operation of the contract", request.Method, request.URL, a.status)
	}
	if request.Method == http.MethodHead {
		return
	}
	var body any
	a.into(&body)
	if err := theContract(t).Components.Schemas["Problem"].Value.VisitJSON(body); err != nil {
		t.Errorf("%s %s: the answer is no problem: %v", request.Method, request.URL, err)
	}
	if kind := a.header.Get("Content-Type"); kind != "application/problem+json" {
		t.Errorf("%s %s: the problem comes as %q", request.Method, request.URL, kind)
	}
}

// TestMain runs the suite and then, when all of it ran (a short run leaves some out), asks whether every documented answer below 500 was reached.
func TestMain(m *testing.M) {
	flag.Parse()
	code := m.Run()
	if whole := flag.Lookup("test.run").Value.String() == "" && flag.Lookup("test.skip").Value.String() == "" &&
		flag.Lookup("test.list").Value.String() == "" && !testing.Short(); whole && code == 0 {
		if missing := unreached(); len(missing) > 0 {
			fmt.Printf("FAIL: %d documented answers were reached by no test:\n\t%s\n", len(missing), strings.Join(missing, "\n\t"))
			code = 1
		}
	}
	os.Exit(code)
}

func unreached() []string {
	doc, err := contract()
	if err != nil {
		return []string{err.Error()}
	}
	var missing []string
	for _, path := range doc.Paths.Map() {
		for _, op := range path.Operations() {
			for status := range op.Responses.Map() {
				n, err := strconv.Atoi(status)
				if err == nil && !reached.at[op.OperationID][n] {
					missing = append(missing, op.OperationID+" "+status)
				}
			}
		}
	}
	sort.Strings(missing)
	return missing
}

// operation is one operation of the contract.
type operation struct {
	method, path string
	*openapi3.Operation
	parameters openapi3.Parameters
}

// operations of the contract, sorted by path and method.
func operations(t testing.TB) []operation {
	t.Helper()
	var out []operation
	for path, item := range theContract(t).Paths.Map() {
		for method, op := range item.Operations() {
			out = append(out, operation{method, path, op, append(slices.Clone(item.Parameters), op.Parameters...)})
		}
	}
	sort.Slice(out, func(i, j int) bool { return out[i].path+out[i].method < out[j].path+out[j].method })
	return out
}

func TestContractIsSound(t *testing.T) {
	for _, op := range operations(t) {
		if op.OperationID == "" || op.Summary == "" || op.Description == "" || len(op.Tags) != 1 {
			t.Errorf("%s %s lacks an id, a summary, a description or a tag", op.method, op.path)
		}
		if op.RequestBody != nil {
			for kind, media := range op.RequestBody.Value.Content {
				if media.Example == nil && len(media.Examples) == 0 {
					t.Errorf("%s: the body %s has no example", op.OperationID, kind)
				}
			}
		}
		for status, response := range op.Responses.Map() {
			for kind, media := range response.Value.Content {
				if media.Example == nil && len(media.Examples) == 0 {
					t.Errorf("%s: the answer %s %s has no example", op.OperationID, status, kind)
				}
			}
		}
	}
}

// Every operation of the contract has a route and every route an operation, with the same roles and the same query.
func TestRoutesAreTheContract(t *testing.T) {
	routes := map[string]api.Route{}
	for _, r := range api.Routes() {
		routes[r.Method+" "+r.Path] = r
	}
	for _, op := range operations(t) {
		name := op.method + " " + op.path
		r, ok := routes[name]
		if !ok {
			t.Errorf("%s is in the contract and has no route", name)
			continue
		}
		delete(routes, name)
		roles := rolesOf(t, op)
		if got := strings.Join(r.Roles, " "); got != strings.Join(roles, " ") {
			t.Errorf("%s is for %q, the contract says %q", name, got, strings.Join(roles, " "))
		}
		var query []string
		for _, p := range op.parameters {
			if p.Value.In == "query" {
				query = append(query, p.Value.Name)
			}
		}
		if got, want := sorted(r.Query), sorted(query); !slices.Equal(got, want) {
			t.Errorf("%s takes the query %v, the contract says %v", name, got, want)
		}
	}
	for name := range routes {
		t.Errorf("%s has a route and is not in the contract", name)
	}
}

func rolesOf(t testing.TB, op operation) []string {
	t.Helper()
	raw, ok := op.Extensions["x-roles"].([]any)
	if !ok || len(raw) == 0 {
		t.Fatalf("%s has no x-roles", op.OperationID)
	}
	var out []string
	for _, r := range raw {
		out = append(out, fmt.Sprint(r))
	}
	return out
}

func sorted(s []string) []string {
	out := slices.Clone(s)
	sort.Strings(out)
	return out
}

// The program carries the very contract that lies at the top of the tree.
func TestEmbeddedContractIsTheFile(t *testing.T) {
	want, err := os.ReadFile(contractFile)
	if err != nil {
		t.Fatal(err)
	}
	d := bare(t, file(t))
	if got := d.get("/openapi.yaml").want(200).body; !bytes.Equal(got, want) {
		t.Error("the embedded copy differs from openapi.yaml: run go generate ./server/internal/api")
	}
}

// The types of problems in the contract are those of the program.
func TestProblemTypesAreTheContract(t *testing.T) {
	problem := theContract(t).Components.Schemas["Problem"].Value
	var documented []string
	for _, v := range problem.Properties["type"].Value.Enum {
		documented = append(documented, fmt.Sprint(v))
		if name := strings.TrimPrefix(fmt.Sprint(v), "urn:ribband:problem:"); !strings.Contains(problem.Description, "`"+name+"`") {
			t.Errorf("the description of Problem does not list %s", name)
		}
	}
	if got, want := sorted(api.ProblemTypes()), sorted(documented); !slices.Equal(got, want) {
		t.Errorf("the program has the problems\n%v\nthe contract\n%v", got, want)
	}
}
