package web_test

import (
	"fmt"
	"html"
	"strings"
	"testing"

	"ribband/server/internal/auth"
)

// The page of what to buy shows cost and floor, every board of the list once, and what the saw hand does with each.
func TestTheBuyListPageTellsWhatToBuyAndCut(t *testing.T) {
	d := newDesk(t, "")
	list, err := d.BuyList(t.Context(), d.lead(t), d.yard.Job, d.yard.Options[0], d.yard.Sheet, 2, 0)
	if err != nil {
		t.Fatal(err)
	}
	v := d.in(t, auth.Estimator)
	path := "/jobs/" + d.yard.Job + "/options/" + d.yard.Options[0]
	if option := v.get(path); !strings.Contains(option.body, `href="`+path+`/buy-list"`) {
		t.Error("the option does not lead to what to buy for it")
	}
	page := v.get(path + "/buy-list")
	if page.status != 200 {
		t.Fatal(page.status)
	}
	cost := strings.Replace(list.Cost.String(), "2751", "2,751", 1)
	if !strings.Contains(page.body, "This plan: <strong>USD\u00a0"+cost+"</strong>") {
		t.Errorf("the cost %s is not told", cost)
	}
	for _, r := range list.Ripping {
		for _, b := range r.Boards {
			name := fmt.Sprintf("<h4>Board %d: ", b.First)
			if b.Last > b.First {
				name = fmt.Sprintf("<h4>Boards %d to %d: ", b.First, b.Last)
			}
			if n := strings.Count(page.body, name); n != 1 {
				t.Errorf("%s stands %d times", name, n)
			}
		}
	}
	if n := strings.Count(page.body, "<li>Rip 14 strips, "); n != len(list.Ripping[0].Boards) {
		t.Errorf("%d boards are ripped, want %d", n, len(list.Ripping[0].Boards))
	}
	if !strings.Contains(page.body, html.EscapeString("guards, riving knife")) {
		t.Error("the saw has no caution")
	}
	older := v.get(path + "/buy-list?sheet=" + d.yard.Sheet + "&version=1")
	if older.status != 200 || !strings.Contains(older.body, "<strong>Version 1 of ") || strings.Contains(older.body, cost) {
		t.Errorf("the older prices are answered with %d", older.status)
	}
	drawn := v.get(path + "/buy-list?sheet=" + d.yard.Sheet + "&version=2&rack=1")
	if drawn.status != 200 || !strings.Contains(drawn.body, "rack: A4") || !strings.Contains(drawn.body, "Without what is in hand") || strings.Contains(drawn.body, cost) {
		t.Errorf("what is in hand is answered with %d", drawn.status)
	}
	for _, bad := range []string{"?sheet=" + d.yard.Sheet + "&version=3", "?sheet=none&version=1", "?version=x", "?sheet=" + d.yard.Sheet, "?sheet=" + d.yard.Sheet + "&version=2&rack=2", "?rack=x"} {
		if at := v.get(path + "/buy-list" + bad); at.status != 404 {
			t.Errorf("%s is answered with %d", bad, at.status)
		}
	}
}

func TestTheBuyListOnAScreenAPhoneAndPaper(t *testing.T) {
	inBrowser(t)
	d := newDesk(t, "")
	for _, width := range []int64{screen, 375, narrow} {
		b := newTab(t, d, "buy-list", width)
		b.enter(auth.Lead)
		b.open("/jobs/" + d.yard.Job + "/options/" + d.yard.Options[0])
		b.pressText("What to buy for it, and how the boards are cut")
		b.look("what to buy")
		if width == screen {
			b.tabThrough("buy list")
		}
	}
}
