package web_test

import (
	"fmt"
	"html"
	"net/url"
	"regexp"
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
	cost := strings.Replace(list.Cost.String(), "2724", "2,724", 1)
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
	// of a board that ends the list fewer strips may be ripped than it has room for
	if n := len(regexp.MustCompile(`<li>Rip \d+ strips?, `).FindAllString(page.body, -1)); n != len(list.Ripping[0].Boards) {
		t.Errorf("%d boards are ripped, want %d", n, len(list.Ripping[0].Boards))
	}
	if !strings.Contains(page.body, html.EscapeString("guards, riving knife")) {
		t.Error("the saw has no caution")
	}
	_, split, found := strings.Cut(page.body, `<h2 id="split">`)
	if n := strings.Count(split, `<tr><th scope="row">`); !found || !strings.Contains(split, "timber by the length of its pieces") || n != len(list.Shares) || !strings.Contains(split, "colspan=\"3\">Together</th><td class=\"num\">"+cost+"</td>") {
		t.Errorf("%d needs with their parts, want %d", n, len(list.Shares))
	}
	older := v.get(path + "/buy-list?sheet=" + d.yard.Sheet + "&version=1")
	if older.status != 200 || !strings.Contains(older.body, "<strong>Version 1 of ") || strings.Contains(older.body, cost) {
		t.Errorf("the older prices are answered with %d", older.status)
	}
	drawn := v.get(path + "/buy-list?sheet=" + d.yard.Sheet + "&version=2&rack=1")
	if drawn.status != 200 || !strings.Contains(drawn.body, "In hand: A4") || !strings.Contains(drawn.body, "Without what is in hand") || strings.Contains(drawn.body, cost) {
		t.Errorf("what is in hand is answered with %d", drawn.status)
	}
	for _, bad := range []string{"?sheet=" + d.yard.Sheet + "&version=3", "?sheet=none&version=1", "?version=x", "?sheet=" + d.yard.Sheet, "?sheet=" + d.yard.Sheet + "&version=2&rack=2", "?rack=x"} {
		if at := v.get(path + "/buy-list" + bad); at.status != 404 {
			t.Errorf("%s is answered with %d", bad, at.status)
		}
	}
}

// A day by which all is needed brings the days to order on; what is no day comes back as it was written, with what would be right.
func TestByWhenToOrder(t *testing.T) {
	d := newDesk(t, "")
	v := d.in(t, auth.Estimator)
	path := "/jobs/" + d.yard.Job + "/options/" + d.yard.Options[0] + "/buy-list?sheet=" + d.yard.Sheet + "&version=2"
	if page := v.get(path + "&needed=2027-03-15"); page.status != 200 || !strings.Contains(page.body, `value="2027-03-15"`) || !strings.Contains(page.body, "from the order: order by 2027-") {
		t.Errorf("a day: %d", page.status)
	}
	for _, none := range []string{"15/3/2027", "2027-02-30", "soon"} {
		page := v.get(path + "&needed=" + url.QueryEscape(none))
		if page.status != 422 || !strings.Contains(page.body, `value="`+none+`"`) || !strings.Contains(page.body, "is not a day; year-month-day, for example 2026-03-31") || !strings.Contains(page.body, `aria-invalid="true"`) {
			t.Errorf("%s: %d", none, page.status)
		}
	}
}

// What is kept goes on the rack by a button, once: pressed again on the old page it is told that the rack has moved. An accountant
// has no such button.
func TestWhatIsKeptGoesOnTheRack(t *testing.T) {
	d := newDesk(t, "")
	v := d.in(t, auth.Estimator)
	path := "/jobs/" + d.yard.Job + "/options/" + d.yard.Options[0] + "/buy-list"
	if page := v.get(path + "?sheet=" + d.yard.Sheet + "&version=2&rack=1"); !strings.Contains(page.body, "Put the rack so") || !strings.Contains(page.body, "kept, to the rack") {
		t.Error("the page does not say what is kept, or has no button")
	}
	form := url.Values{"sheet": {d.yard.Sheet}, "version": {"2"}, "rack": {"1"}, "seen": {"1"}}
	put := v.post(path+"/rack", form)
	if put.status != 303 || !strings.Contains(v.get(put.header.Get("Location")).body, "The rack was put") {
		t.Fatalf("%d to %s", put.status, put.header.Get("Location"))
	}
	now, err := d.Rack(t.Context(), d.lead(t), 0)
	if err != nil || now.N != 2 {
		t.Fatalf("version %d, %v", now.N, err)
	}
	added := 0
	for _, row := range now.Doc.Boards {
		if row.ID == "A4" {
			t.Error("a board that was cut is still there")
		}
		if strings.HasPrefix(row.ID, "Wendeline ") {
			added++
		}
	}
	if added == 0 {
		t.Errorf("nothing was added: %+v", now.Doc.Boards)
	}
	if again := v.post(path+"/rack", form); again.status < 400 {
		t.Errorf("pressed again: %d", again.status)
	}
	if bad := v.post(path+"/rack", url.Values{"sheet": {d.yard.Sheet}, "version": {"x"}}); bad.status < 400 {
		t.Errorf("a form that is none: %d", bad.status)
	}
	if page := d.in(t, auth.Accountant).get(path); strings.Contains(page.body, "Put the rack so") {
		t.Error("an accountant is shown the button")
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

// Pattern stock whose sheets have a size on the newer prices is laid out: every sheet stands once, with its drawing, its pieces
// in a table and its cuts in words; by the older prices it is bought by area.
func TestTheBuyListPageShowsHowSheetsAreCut(t *testing.T) {
	d := newDesk(t, "")
	list, err := d.BuyList(t.Context(), d.lead(t), d.yard.Job, d.yard.Options[0], d.yard.Sheet, 2, 0)
	if err != nil {
		t.Fatal(err)
	}
	v := d.in(t, auth.Estimator)
	path := "/jobs/" + d.yard.Job + "/options/" + d.yard.Options[0] + "/buy-list"
	page := v.get(path)
	sheets := 0
	for _, p := range list.Packs {
		if p.Sheets == nil {
			continue
		}
		sheets += len(p.Sheets.Layouts)
		if p.Proven && !strings.Contains(page.body, "in two stages costs less than USD\u00a0"+p.Cost.String()) {
			t.Errorf("that nothing is below %s is not told", p.Cost)
		}
	}
	if n := strings.Count(page.body, "Pieces of pattern ply"); sheets == 0 || n != sheets {
		t.Errorf("%d tables of pieces for %d layouts", n, sheets)
	}
	if n := strings.Count(page.body, "<li>Crosscut at ") + strings.Count(page.body, "<li>Rip at "); n < sheets {
		t.Errorf("%d first cuts for %d layouts", n, sheets)
	}
	if !strings.Contains(page.body, "frame 21, both sides, laid into each other") || !strings.Contains(page.body, "whichever of these pairs are laid so") {
		t.Error("that both sides' patterns lie in each other is not told")
	}
	if older := v.get(path + "?sheet=" + d.yard.Sheet + "&version=1"); strings.Contains(older.body, "cut from sheets or rolls") {
		t.Error("sheets without a size are laid out")
	}
}
