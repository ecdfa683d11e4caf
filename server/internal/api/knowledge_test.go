package api_test

import (
	"encoding/json"
	"net/http"
	"strings"
	"testing"

	"ribband/server/internal/auth"
)

// A yard puts a timber, a rate of hours and a shop figure of its own in the place of what the program came with. Options
// made after that go by them; those made before go on with theirs.
func TestAYardsOwnKnowledge(t *testing.T) {
	engines(t, func(t *testing.T, at place) {
		d := open(t, at)
		edit := func(path string, change func(map[string]any)) {
			var doc map[string]any
			got := d.get(path).want(200)
			got.into(&doc)
			change(doc)
			d.send(http.MethodPut, path, doc, seen(got.etag())).want(200)
		}
		edit("/api/v1/species", func(doc map[string]any) {
			list := doc["species"].([]any)
			own, _ := json.Marshal(list[0])
			var copied map[string]any
			if err := json.Unmarshal(own, &copied); err != nil {
				t.Fatal(err)
			}
			copied["code"], copied["name"] = "marsh_oak", "Marsh oak (invented)"
			doc["species"] = append(list, copied)
		})
		edit("/api/v1/step-libraries", func(doc map[string]any) {
			doc["steps"].([]any)[0].(map[string]any)["per_unit_h"] = "2.5"
		})
		edit("/api/v1/rules", func(doc map[string]any) { doc["rips"] = []string{"3/16", "1/4"} })

		before := takeoffOf(d).Basis
		option := d.send(http.MethodPost, d.job("options"), map[string]any{"name": "By its own figures"}, d.key()).want(201).header.Get("Location")
		row := map[string]any{"member": map[string]any{"kind": "frame", "no": 12, "side": "both"}, "remedy": "replace_laminated", "species": "marsh_oak", "grade": "FAS"}
		d.send(http.MethodPut, option+"/remedies", map[string]any{"remedies": []any{row}}, firstPut).want(201)
		var after struct {
			Basis []struct {
				Kind string
				N    int
			}
			Work []struct{ Code string }
		}
		d.get(option + "/takeoff").want(200).into(&after)
		versions := map[string]int{}
		for _, b := range before {
			versions[b["kind"].(string)] = int(b["n"].(float64))
		}
		for _, b := range after.Basis {
			want := 1
			switch b.Kind {
			case "species", "step-library", "rules":
				want = 2
				if versions[b.Kind] != 1 {
					t.Errorf("the older option rests on version %d of %s", versions[b.Kind], b.Kind)
				}
			}
			if b.N != want {
				t.Errorf("the newer option rests on version %d of %s, want %d", b.N, b.Kind, want)
			}
		}
	})
}

func TestKnowledgeThatIsWrongIsNotKept(t *testing.T) {
	d := open(t, file(t))
	for path, spoil := range map[string][2]string{
		"/api/v1/species":        {`"code":"white_oak"`, `"code":""`},
		"/api/v1/step-libraries": {`"driver":"patterns"`, `"driver":"wishes"`},
		"/api/v1/rules":          {`"value":"100"`, `"value":"0"`},
	} {
		got := d.get(path).want(200)
		bad := strings.Replace(string(got.body), spoil[0], spoil[1], 1)
		if bad == string(got.body) {
			t.Fatalf("%s does not hold %s", path, spoil[0])
		}
		before := d.rows()
		if p := d.send(http.MethodPut, path, []byte(bad), seen(got.etag())); p.status != 422 && p.status != 400 {
			t.Errorf("%s: %d", path, p.status)
		}
		if after := d.rows(); !equal(before, after) {
			t.Errorf("%s: something was stored", path)
		}
		d.send(http.MethodPut, path, got.body, seen(`"7"`)).want(412)
		d.role(auth.Estimator).send(http.MethodPut, path, got.body, seen(got.etag())).want(403)
	}
}
