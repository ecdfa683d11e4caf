package api_test

import (
	"net/http"
	"strings"
	"testing"
)

// Five planks come out of one board where it is crosscut first: 6 and 4 in beside each other out of one length, three of 3 1/4 in out of another. Ripped
// first, in strips of 6 and of 4 in, it gives four. The list says so, its drawing shows the lengths, and the page tells them before what is ripped.
func TestABoardIsCrosscutFirst(t *testing.T) {
	engines(t, func(t *testing.T, p place) {
		d := open(t, p)
		var rules map[string]any
		stand := d.get("/api/v1/rules").want(200)
		stand.into(&rules)
		delete(rules, "plank_scarf")
		d.send(http.MethodPut, "/api/v1/rules", rules, seen(stand.etag())).want(200)
		at, newest := d.priced()
		var items []map[string]any
		for _, it := range newest.Items {
			if it["species"] != "white_oak" {
				items = append(items, it)
			}
		}
		board := map[string]any{"kind": "timber", "supplier": "A mill", "unit": "C62", "price": "100", "per": "1", "species": "white_oak", "grade": "FAS", "thickness": "8/4", "width": "0-11-0", "stock_length": "17-6-0"}
		d.stands(at+"3", newest.with(append(items, board)...))
		option := d.send(http.MethodPost, d.job("options"), map[string]any{"name": "Five planks"}, d.key()).want(201).header.Get("Location")
		var planks []map[string]any
		for k, width := range []string{"0-6-0", "0-4-0", "0-3-2", "0-3-2", "0-3-2"} {
			planks = append(planks, map[string]any{"strake": 4 + k, "side": "port", "species": "white_oak", "grade": "FAS", "thickness": "0-1-2", "by_hand": map[string]any{"length": "8-0-0", "width": width}})
		}
		d.send(http.MethodPut, option+"/planks", planksOf(planks...), firstPut).want(201)
		var list struct {
			Timber []struct {
				Cost, Bound amount
				Proven      bool
				SideBySide  struct {
					Layouts []struct {
						Boards  int
						Lengths []struct{ Count int }
					}
				} `json:"side_by_side"`
			}
			Ripping []struct {
				Boards []struct {
					Lengths []struct{ Count int }
					Strips  []struct {
						OfLength int `json:"of_length"`
					}
				}
			}
		}
		asked := "version=3&sheet=" + d.demo.Sheet
		d.get(option + "/buy-list?" + asked).want(200).into(&list)
		g := list.Timber[0]
		if g.Cost.Amount.String() != "100" || !g.Proven || len(g.SideBySide.Layouts) != 1 || len(g.SideBySide.Layouts[0].Lengths) != 2 {
			t.Fatalf("%+v", list)
		}
		b := list.Ripping[0].Boards[0]
		if len(b.Lengths) != 2 || len(b.Strips) == 0 || b.Strips[0].OfLength != 1 {
			t.Errorf("%+v", b)
		}
		if drawn := d.get(option + "/ripping-list.svg?list=1&" + asked).want(200); !strings.Contains(string(drawn.body), ">lengths<") {
			t.Error("the drawing does not show the lengths")
		}
	})
}
