package api_test

import (
	"net/http"
	"slices"
	"strings"
	"testing"
)

// plySheets is a list to cut from sheets of four by eight feet.
func plySheets() map[string]any {
	return map[string]any{
		"currency": "USD", "notation": "feet_inches_eighths",
		"stock":  []any{map[string]any{"id": "ply", "width": "4-0-0", "length": "8-0-0", "price": "26.24"}},
		"pieces": []any{map[string]any{"id": "mould", "width": "1-3-0", "length": "3-10-0", "qty": 7}},
		"rules":  map[string]any{"kerf": "0-0-1", "trim_each": "0-0-0"},
	}
}

// Six moulds go on a sheet, three beside each other twice: seven take two sheets, and no plan takes fewer.
func TestSheetCuttingPlanOfAList(t *testing.T) {
	d := open(t, file(t))
	var a struct {
		Says        string
		Cost, Bound struct{ Amount string }
		Proven      bool
		Layouts     []struct {
			Rectangles []any
			Cuts       []struct{ Says string }
		}
	}
	d.send(http.MethodPost, "/api/v1/sheet-cutting-plan", plySheets()).want(200).into(&a)
	if a.Cost.Amount != "52.48" || a.Bound != a.Cost || !a.Proven || len(a.Layouts) != 2 || a.Says != "This plan costs 52.48 USD; no plan of such cuts costs less." {
		t.Errorf("%+v", a)
	}
	svg := string(d.send(http.MethodPost, "/api/v1/sheet-cutting-plan.svg", plySheets()).want(200).body)
	for _, want := range []string{"<title", "<desc", "ply, sheet 1", "ply, sheet 2", "mould"} {
		if !strings.Contains(svg, want) {
			t.Errorf("%q is not on the drawing", want)
		}
	}
	one := string(d.send(http.MethodPost, "/api/v1/sheet-cutting-plan.svg?list=2", plySheets()).want(200).body)
	if strings.Contains(one, "sheet 1") || !strings.Contains(one, "sheet 2") {
		t.Error("the second layout alone is not drawn alone")
	}
	p := d.send(http.MethodPost, "/api/v1/sheet-cutting-plan.svg?list=3", plySheets()).refused(http.StatusBadRequest, "malformed-request")
	if len(p.Errors) != 1 || p.Errors[0].Parameter != "list" {
		t.Errorf("%+v", p.Errors)
	}
}

// What is wrong is told together, where it stands; a piece that only fits turned is told so.
func TestSheetCuttingPlanTellsWhatWouldDo(t *testing.T) {
	d := open(t, file(t))
	for _, x := range []struct {
		list string
		with map[string]any
		want []string
	}{
		{"stock", map[string]any{"id": "ply", "width": "4-0-0", "length": "8-0-0", "price": "0.001"}, []string{"/stock/0/price"}},
		{"stock", map[string]any{"id": "ply", "width": "wide", "length": "8-0-0", "price": "0"}, []string{"/stock/0/width", "/stock/0/price"}},
		{"pieces", map[string]any{"id": "mould", "width": "5-0-0", "length": "4-6-0", "qty": 1}, []string{"/pieces/0"}},
		{"pieces", map[string]any{"id": "mould", "width": "6-0-0", "length": "2-0-0", "qty": 1}, []string{"/pieces/0/may_turn"}},
	} {
		list := plySheets()
		list[x.list] = []any{x.with}
		for _, route := range []string{"/api/v1/sheet-cutting-plan", "/api/v1/sheet-cutting-plan.svg"} {
			p := d.send(http.MethodPost, route, list).refused(http.StatusUnprocessableEntity, "document-faults")
			if at := p.pointers(); !slices.Equal(at, x.want) {
				t.Errorf("faults at %v, want %v", at, x.want)
			}
		}
	}
}
