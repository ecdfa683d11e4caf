package web_test

import (
	"net/url"
	"strings"
	"testing"

	"ribband/server/internal/auth"
)

func pack() url.Values {
	return url.Values{"rule": {"surface_measure"}, "written": {"inches_and_feet"}, "measured": {"dry"}, "half_foot": {"up"}, "grade": {"FAS"}, "species": {"white_oak"}, "moisture_pct": {"12"}, "stated_board_feet": {"36"},
		"boards": {"2 x 8/4 x 6 1/2 x 8\r\n\r\n1 × 8/4 × 8 × 12 1/2"}}
}

// A list typed as a supplier writes it is counted and weighed; the page leads on from the jobs.
func TestAListOfBoardsIsCounted(t *testing.T) {
	d := newDesk(t, "")
	for _, role := range []auth.Role{auth.Lead, auth.Estimator, auth.Accountant} {
		v := d.in(t, role)
		if home := v.get("/"); !strings.Contains(home.body, `href="/timber"`) {
			t.Errorf("%s: the jobs do not lead to the timber", role)
		}
		if empty := v.get("/timber"); empty.status != 200 || strings.Contains(empty.body, "What it comes to") {
			t.Errorf("%s: %d", role, empty.status)
		}
		page := v.post("/timber", pack())
		for _, want := range []string{"32&nbsp;board feet", "61.1&nbsp;kg", "another order of rounding", "Widths first", "1 13/16", "never take it for a waste factor", "2 x 8/4 x 6 1/2 x 8"} {
			if !strings.Contains(page.body, want) {
				t.Errorf("%s: %q is missing", role, want)
			}
		}
	}
	if owner := d.in(t, auth.Owner).get("/timber"); owner.status != 404 {
		t.Errorf("an owner is answered with %d", owner.status)
	}
}

// What is wrong is told on its line, with what would do, and what was typed stays.
func TestAListOfBoardsThatIsWrong(t *testing.T) {
	v := newDesk(t, "").in(t, auth.Estimator)
	list := pack()
	list.Set("boards", "2 x 8/4 x 6 1/2 x 8\n\n1 x 8/4 x wide x 20")
	page := v.post("/timber", list)
	for _, want := range []string{"To be put right", "Line 3: &#34;wide&#34; is not a width", "Line 3: hardwood is tallied in whole feet", "1 x 8/4 x wide x 20"} {
		if !strings.Contains(page.body, want) {
			t.Errorf("%q is missing", want)
		}
	}
	if page.status != 422 {
		t.Error(page.status)
	}
	list.Set("boards", "two eight-quarter boards")
	if page = v.post("/timber", list); page.status != 422 || !strings.Contains(page.body, "Line 1 is not a lot of boards") {
		t.Error(page.status)
	}
	list.Set("boards", "")
	if page = v.post("/timber", list); page.status != 422 || !strings.Contains(page.body, "between 1 and 500 rows") {
		t.Error(page.status)
	}
}

func TestAPlankOnThePageOfMovement(t *testing.T) {
	v := newDesk(t, "").in(t, auth.Estimator)
	ask := url.Values{"species": {"white_oak"}, "sawn": {"flatsawn"}, "notation": {"inches"}, "width": {"8"}, "thickness": {"1 1/4"}, "from_pct": {"12"}, "to_pct": {"28"}, "opening": {"1/16"}, "planks": {"12"}}
	page := v.post("/timber/movement", ask)
	for _, want := range []string{"Seam: closed", "+0.478 in", "Over 12 planks the movement is +5.737 in together.", "It holds from 0 to 30 % moisture", "crush"} {
		if page.status != 200 || !strings.Contains(page.body, want) {
			t.Errorf("%d: %q is missing", page.status, want)
		}
	}
	ask.Set("from_pct", "35")
	ask.Set("planks", "many")
	ask.Set("opening", "wide")
	page = v.post("/timber/movement", ask)
	for _, want := range []string{"write 30 for anything wetter", "is no number of planks", "Seam now: "} {
		if page.status != 422 || !strings.Contains(page.body, want) {
			t.Errorf("%d: %q is missing", page.status, want)
		}
	}
}

func TestTimberOnAScreenAndAPhone(t *testing.T) {
	atWidths(t, "timber", func(t *testing.T, b *tab) {
		b.enter(auth.Estimator)
		b.pressText("Timber")
		b.wholeChoices()
		b.look("empty")
		ask[int](b, `document.querySelector('#boards').value = '2 x 8/4 x 6 1/2 x 8\n1 x 8/4 x 8 x 12 1/2\n14 x 5/4 x 7 1/4 x 10', document.querySelector('#species').value = 'white_oak', document.querySelector('#moisture_pct').value = '18', document.querySelector('#grade').value = 'FAS', document.querySelector('#stated_board_feet').value = '150', 0`)
		b.press("main form button.main")
		b.look("counted")
		ask[int](b, `document.querySelector('#boards').value = '2 x 8/4 x wide', 0`)
		b.press("main form button.main")
		b.look("to be put right")
		b.pressText("How a plank moves")
		b.wholeChoices()
		ask[int](b, `document.querySelector('#width').value = '5 1/2', document.querySelector('#from_pct').value = '10', document.querySelector('#to_pct').value = '26', document.querySelector('#opening').value = '1/8', document.querySelector('#planks').value = '12', 0`)
		b.press("main form button.main")
		b.look("moved")
		if b.width == screen {
			b.tabThrough("movement")
		}
	})
}

// wholeChoices holds every list on the page to be wide enough for the longest of its choices, beside the arrow that opens it.
func (b *tab) wholeChoices() {
	b.t.Helper()
	cut := ask[[]string](b, `[...document.querySelectorAll('main select')].flatMap(s => {
		const style = getComputedStyle(s), pen = document.createElement('canvas').getContext('2d');
		pen.font = style.fontWeight + ' ' + style.fontSize + ' ' + style.fontFamily;
		const arrow = 24, room = s.clientWidth - parseFloat(style.paddingLeft) - parseFloat(style.paddingRight) - arrow;
		return [...s.options].filter(o => pen.measureText(o.text).width > room).map(o => s.name + ': ' + o.text);
	})`)
	for _, c := range cut {
		b.t.Errorf("%d px: cut off, %s", b.width, c)
	}
}
