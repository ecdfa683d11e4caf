package api_test

import (
	"net/http"
	"strings"
	"testing"
)

// Oak of random width on the yard's sheet, cheaper than boards of one width: the buy list orders it by measure, its ripping says so, and
// a row that cannot be is told where and what would be right.
func TestBoardsOfRandomWidthFromTheSheetToTheOrder(t *testing.T) {
	d := open(t, file(t))
	at, prices := d.priced()
	row := map[string]any{"kind": "timber", "supplier": "Hollow Oak Sawmill (invented)", "unit": "BFT", "price": "3.10", "species": "white_oak", "grade": "FAS", "thickness": "8/4", "width": "0-6-0", "widest": "1-2-0", "stock_length": "16-0-0", "available": "9"}
	prices.Items = append(prices.Items, row)
	p := d.send(http.MethodPut, at+"3", prices, firstPut).refused(http.StatusUnprocessableEntity, "document-faults")
	if len(p.Errors) != 1 || !strings.HasSuffix(p.Errors[0].Pointer, "/available") {
		t.Errorf("%+v", p.Errors)
	}
	delete(row, "available")
	d.stands(at+"3", prices)
	var list struct {
		Orders []struct {
			Lines []struct{ What, Measure string }
		}
		Ripping []struct {
			Boards []struct{ Widest string }
		}
	}
	d.get(d.option(0, "buy-list") + "?sheet=" + d.demo.Sheet + "&version=3").want(200).into(&list)
	ordered, ripped := false, false
	for _, o := range list.Orders {
		for _, l := range o.Lines {
			ordered = ordered || l.Measure != "" && strings.Contains(l.What, "0-6-0 to 1-2-0")
		}
	}
	for _, r := range list.Ripping {
		for _, b := range r.Boards {
			ripped = ripped || b.Widest == "1-2-0"
		}
	}
	if !ordered || !ripped {
		t.Errorf("ordered %v, ripped %v: %+v", ordered, ripped, list)
	}
	if svg := string(d.get(d.option(0, "ripping-list.svg") + "?sheet=" + d.demo.Sheet + "&version=3").want(200).body); !strings.Contains(svg, "as they come") {
		t.Error("the ripping list does not say that widths vary")
	}
}
