package api

import (
	"bytes"
	"encoding/json"
	"errors"
	"slices"
	"strings"
	"testing"

	"github.com/shopspring/decimal"

	"ribband/takeoff/document"
)

type sampleBody struct {
	Name   string            `json:"name"`
	Count  int               `json:"count,omitempty"`
	Price  *decimal.Decimal  `json:"price,omitempty"`
	Share  float64           `json:"share,omitempty"`
	On     bool              `json:"on,omitempty"`
	Parts  []samplePart      `json:"parts,omitempty"`
	Oiled  *sampleOiled      `json:"oiled,omitempty"`
	Labels map[string]string `json:"labels,omitempty"`
}

type samplePart struct {
	Length string `json:"length"`
}

type sampleOiled struct {
	samplePart
	Twice bool `json:"twice,omitempty"`
}

func TestDecodeTellsEveryFault(t *testing.T) {
	for _, c := range []struct {
		name, body string
		want       []string // pointers of the faults
	}{
		{"sound", `{"name":"x","count":-3,"price":"12.50","share":0.5,"on":true,"parts":[{"length":"1"}],"labels":{"a":"b"}}`, nil},
		{"missing", `{"parts":[{},{"length":"1"}]}`, []string{"/parts/0/length", "/name"}},
		{"unknown", `{"name":"x","Name":"y","na~me/":1}`, []string{"/Name", "/na~0me~1"}},
		{"twice", `{"name":"x","name":"y","parts":[{"length":"1","length":"2"}]}`, []string{"/name", "/parts/0/length"}},
		{"kinds", `{"name":1,"count":"1","price":1.5,"share":"x","on":0,"parts":{},"labels":[]}`,
			[]string{"/name", "/count", "/price", "/share", "/on", "/parts", "/labels"}},
		{"embedded", `{"name":"x","oiled":{"twice":1,"colour":"red"}}`, []string{"/oiled/twice", "/oiled/colour", "/oiled/length"}},
		{"embedded and sound", `{"name":"x","oiled":{"length":"1","twice":true}}`, nil},
		{"null", `{"name":null,"parts":[null]}`, []string{"/name", "/parts/0"}},
		{"numbers", `{"name":"x","count":1e3,"share":1e1000000,"price":"1e5"}`, []string{"/count", "/share", "/price"}},
		{"fractions of a count", `{"name":"x","count":1.5}`, []string{"/count"}},
		{"many digits", `{"name":"x","count":` + strings.Repeat("1", 100_000) + `,"price":"0.` + strings.Repeat("1", 100_000) + `"}`, []string{"/count", "/price"}},
		{"signs", `{"name":"x","price":"+1","share":-0.5}`, []string{"/price"}},
		{"NUL", `{"name":"a\u0000b"}`, []string{"/name"}},
		{"a text", `"name"`, []string{""}},
	} {
		t.Run(c.name, func(t *testing.T) {
			_, err := decode[sampleBody]([]byte(c.body))
			var faults document.Faults
			if err != nil && !errors.As(err, &faults) {
				t.Fatal(err)
			}
			var got []string
			for _, f := range faults {
				got = append(got, f.Pointer)
				if f.Detail == "" || f.Fix == "" || len(f.Detail) > 200 {
					t.Errorf("fault %+v", f)
				}
			}
			if !slices.Equal(got, c.want) {
				t.Errorf("faults at %q, want %q", got, c.want)
			}
		})
	}
}

func TestDecodeRefusesWhatIsNoJSON(t *testing.T) {
	for name, body := range map[string]string{
		"nothing": "", "half": `{"name":`, "two values": `{"name":"x"} {"name":"y"}`, "a bracket more": `{"name":"x"}]`, "a comma more": `{"name":"x",}`,
		"NaN": `{"name":"x","share":NaN}`, "Infinity": `{"share":Infinity}`, "a leading zero": `{"count":01}`, "not UTF-8": "{\"name\":\"\xff\"}",
		"a high half": `{"name":"\ud83d"}`, "a low half": `{"name":"\udc00"}`, "halves the wrong way round": `{"name":"\udea2\ud83d"}`,
		"a raw NUL": "{\"name\":\"a\x00b\"}", "too deep": strings.Repeat(`{"parts":[`, 30), "too much": "[" + strings.Repeat("0,", maxValues) + "0]", "a comment": `{"name":"x" /* y */}`,
	} {
		var bad *malformed
		if _, err := decode[sampleBody]([]byte(body)); !errors.As(err, &bad) || bad.detail == "" {
			t.Errorf("%s: %v", name, err)
		}
	}
	if got, err := decode[sampleBody]([]byte(`{"name":"\ud83d\udea2 \\ud83d"}`)); err != nil || got.Name != `🚢 \ud83d` {
		t.Errorf("a whole pair: %q, %v", got.Name, err)
	}
}

// What fits is read beside what does not, so that its content can be looked at.
func TestDecodeReadsWhatFits(t *testing.T) {
	got, err := decode[sampleBody]([]byte(`{"name":"x","count":"1","price":"1e5","share":0.5,"colour":{"a":[null,true,"b\u0000",2]},"parts":[null,{"length":"2"},{"length":"a\u0000"}],"name":"y","labels":{"a":3,"b":"c"}}`))
	if err == nil {
		t.Fatal("it was taken")
	}
	want := sampleBody{Price: &decimal.Decimal{}, Share: 0.5, Parts: []samplePart{{}, {Length: "2"}, {}}, Labels: map[string]string{"a": "", "b": "c"}}
	a, _ := json.Marshal(got)
	b, _ := json.Marshal(want)
	if !bytes.Equal(a, b) {
		t.Errorf("read\n%s, want\n%s", a, b)
	}
}

// Whatever is taken, encoding/json takes too and reads alike; whatever comes, nothing panics.
func FuzzDecode(f *testing.F) {
	for _, seed := range []string{`{"name":"x"}`, `{"name":"x","price":"1.5","parts":[{"length":"2"}]}`, `{"name":1}`, `[`, `{"name":"\u0000"}`, `{"a":{"b":[1,2,{"c":null}]}}`} {
		f.Add([]byte(seed))
	}
	f.Fuzz(func(t *testing.T, body []byte) {
		got, err := decode[sampleBody](body)
		if err != nil {
			return
		}
		strict := json.NewDecoder(bytes.NewReader(body))
		strict.DisallowUnknownFields()
		var want sampleBody
		if err := strict.Decode(&want); err != nil {
			t.Fatalf("taken, and encoding/json says %v: %q", err, body)
		}
		a, _ := json.Marshal(got)
		b, _ := json.Marshal(want)
		if !bytes.Equal(a, b) {
			t.Errorf("%s and %s of %q", a, b, body)
		}
		if strings.Contains(got.Name, "\x00") {
			t.Errorf("a NUL was taken: %q", body)
		}
	})
}
