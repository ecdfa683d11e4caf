package api_test

import (
	"net/http"
	"slices"
	"strconv"
	"testing"
)

// oakPack is a supplier's list of two lots of 8/4 oak.
func oakPack() map[string]any {
	return map[string]any{"rule": "surface_measure", "written": "inches_and_feet", "measured": "dry", "half_foot": "alternate", "grade": "FAS", "species": "white_oak", "moisture_pct": "12", "stated_board_feet": "31",
		"boards": []any{map[string]any{"count": 2, "thickness": "8/4", "width": "6 1/2", "length": "8"}, map[string]any{"count": 1, "thickness": "8/4", "width": "8", "length": "12 1/2"}}}
}

// A pack is counted by the rule, weighed, and set against what the supplier says; the yard's own wood and rule are taken.
func TestAPackOfTimberIsTallied(t *testing.T) {
	d := open(t, file(t))
	var a struct {
		BoardFeet string `json:"board_feet"`
		Half      string `json:"half_foot_source"`
		Stated    struct{ Difference string }
		Weight    struct{ Kg string }
		Version   int64 `json:"species_version"`
	}
	d.send(http.MethodPost, "/api/v1/timber-tally", oakPack()).want(200).into(&a)
	if a.BoardFeet != "32" || a.Stated.Difference != "-1" || a.Weight.Kg != "61.1" || a.Version != 1 {
		t.Errorf("%+v", a)
	}
	rules := d.get("/api/v1/rules").want(200).object()
	rules["half_foot"] = "down"
	d.send(http.MethodPut, "/api/v1/rules", rules, seen(`"1"`)).want(200)
	list := oakPack()
	delete(list, "half_foot")
	list["boards"] = []any{map[string]any{"count": 4, "thickness": "4/4", "width": "6", "length": "9"}}
	if d.send(http.MethodPost, "/api/v1/timber-tally", list).want(200).into(&a); a.BoardFeet != "16" || a.Half != "the yard's rules" {
		t.Errorf("%+v", a)
	}
	rules["half_foot"] = "sideways"
	if p := d.send(http.MethodPut, "/api/v1/rules", rules, seen(`"2"`)).refused(422, "document-faults"); !slices.Contains(p.pointers(), "/half_foot") {
		t.Errorf("%v", p.pointers())
	}
	list["boards"] = []any{map[string]any{"count": 1, "thickness": "4/4", "width": "wide", "length": "2"}}
	p := d.send(http.MethodPost, "/api/v1/timber-tally", list).refused(422, "document-faults")
	if !slices.Equal(p.pointers(), []string{"/boards/0/width", "/boards/0/length"}) {
		t.Errorf("%v", p.pointers())
	}
}

// A plank's movement between two moistures, and a question that nobody can answer.
func TestAPlankMoves(t *testing.T) {
	d := open(t, file(t))
	ask := map[string]any{"species": "white_oak", "notation": "inches", "sawn": "flatsawn", "width": "8", "from_pct": "28", "to_pct": "12", "seam": map[string]any{"opening": "1/16"}}
	var a struct {
		Width struct{ Change string }
		Seam  struct{ After string }
	}
	if d.send(http.MethodPost, "/api/v1/timber-movement", ask).want(200).into(&a); a.Width.Change != "-0.451 in" || a.Seam.After != "0.514 in" {
		t.Errorf("%+v", a)
	}
	ask["from_pct"] = "35"
	if p := d.send(http.MethodPost, "/api/v1/timber-movement", ask).refused(422, "document-faults"); !slices.Equal(p.pointers(), []string{"/from_pct"}) {
		t.Errorf("%v", p.pointers())
	}
}

// What is bought is weighed by the yard's wood; boards in hand are not carried in.
func TestTheBuyListIsWeighed(t *testing.T) {
	d := open(t, file(t))
	var a struct {
		Timber []struct {
			Boards []struct {
				Offer string
				Count float64
			}
		}
		Weights []struct {
			Species, Kg, M3 string
			Boards          float64
		}
	}
	d.get(d.option(0, "buy-list") + "?sheet=" + d.demo.Sheet + "&version=2").want(200).into(&a)
	boards := 0.0
	for _, t := range a.Timber {
		for _, b := range t.Boards {
			boards += b.Count
		}
	}
	if len(a.Weights) == 0 || a.Weights[0].Species != "white_oak" {
		t.Fatalf("%+v", a.Weights)
	}
	told := 0.0
	for _, w := range a.Weights {
		told += w.Boards
		kg, m3 := plainNumber(t, w.Kg), plainNumber(t, w.M3)
		if per := kg / m3; per < 300 || per > 1200 {
			t.Errorf("%s: %v kg/m3", w.Species, per)
		}
	}
	if told != boards || boards == 0 {
		t.Errorf("%v boards weighed of %v", told, boards)
	}
}

// Rod for bolts is weighed in the writer's own units, and a metal that is not known is refused.
func TestRodsAreWeighed(t *testing.T) {
	d := open(t, file(t))
	ask := map[string]any{"notation": "inches", "metal": "silicon_bronze", "rods": []any{map[string]any{"count": 4, "diameter": "3/4", "length": "24"}}}
	var a struct{ Kg string }
	if d.send(http.MethodPost, "/api/v1/rod-weight", ask).want(200).into(&a); a.Kg != "5.928" {
		t.Errorf("%+v", a)
	}
	ask["metal"] = "tin"
	if p := d.send(http.MethodPost, "/api/v1/rod-weight", ask).refused(422, "document-faults"); !slices.Equal(p.pointers(), []string{"/metal"}) {
		t.Errorf("%v", p.pointers())
	}
}

func plainNumber(t *testing.T, text string) float64 {
	t.Helper()
	x, err := strconv.ParseFloat(text, 64)
	if err != nil {
		t.Fatal(err)
	}
	return x
}
