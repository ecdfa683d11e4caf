package api_test

import (
	"net/http"
	"slices"
	"testing"
)

type cuttingAnswer struct {
	Cost, Bound int64
	Proof       string
	Proven      bool
	Bought      []struct {
		StockID string `json:"stock_id"`
		Boards  int64
	}
	Certificate struct{ Floor int64 }
}

// A list that comes along is cut, and what no plan can cost less than stands beside it.
func TestCuttingPlanOfAList(t *testing.T) {
	d := open(t, file(t))
	list := map[string]any{
		"stock":  []any{map[string]any{"id": "oak 2.4 m", "length": 2400, "price": 3000}, map[string]any{"id": "oak 3.6 m", "length": 3600, "price": 4700}},
		"pieces": []any{map[string]any{"id": "long", "length": 1750, "qty": 3}, map[string]any{"id": "short", "length": 1100, "qty": 4}},
		"rules":  map[string]any{"kerf": 3, "trim_each": 25},
	}
	var a cuttingAnswer
	d.send(http.MethodPost, "/api/v1/cutting-plan", list).want(200).into(&a)
	// two long ones in a 3.6 m board, one in a 2.4 m, the short ones two to a 2.4 m
	if a.Cost != 13_700 || a.Bound != 13_700 || !a.Proven || a.Certificate.Floor > a.Bound {
		t.Errorf("%+v", a)
	}
}

// A piece that no board gives and a board without a price are told together with what would do.
func TestCuttingPlanTellsWhatWouldDo(t *testing.T) {
	d := open(t, file(t))
	list := map[string]any{
		"stock":  []any{map[string]any{"id": "oak", "length": 2400, "price": 0}},
		"pieces": []any{map[string]any{"id": "keel", "length": 0, "qty": 1}},
		"rules":  map[string]any{"kerf": 3, "trim_each": 25},
	}
	d.cuttingRefused(list, "/stock/0/price", "/pieces/0/length")
	list["stock"] = []any{map[string]any{"id": "oak", "length": 2400, "price": 100}}
	list["pieces"] = []any{map[string]any{"id": "keel", "length": 9000, "qty": 1}}
	d.cuttingRefused(list, "/pieces/0/length")
}

func (d *desk) cuttingRefused(list any, at ...string) {
	d.t.Helper()
	p := d.send(http.MethodPost, "/api/v1/cutting-plan", list).refused(http.StatusUnprocessableEntity, "document-faults")
	if !slices.Equal(p.pointers(), at) {
		d.t.Errorf("faults at %v, want %v", p.pointers(), at)
	}
}
