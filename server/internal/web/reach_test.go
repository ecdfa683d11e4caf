package web_test

import (
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/chromedp/cdproto/emulation"
	"github.com/chromedp/chromedp"
	"github.com/chromedp/chromedp/kb"

	"ribband/server/internal/auth"
)

// tabThrough presses the tab key until it has been everywhere, and fails for what it never reached, for focus that
// cannot be seen, and for a trap.
func (b *tab) tabThrough(what string) {
	b.t.Helper()
	ask[int](b, `window.stops = [...document.querySelectorAll('a[href], button, input:not([type=hidden]), select, textarea, summary, [tabindex="0"]')]
		.filter(e => e.checkVisibility() && !(e.type === 'radio' && e !== e.form.elements[e.name][0])); window.been = new Set(); document.activeElement.blur(); stops.length`)
	n := ask[int](b, "stops.length")
	for range n + 3 {
		b.key(kb.Tab)
		unseen := ask[string](b, `(() => { const e = document.activeElement; been.add(e); const s = getComputedStyle(e);
			if (e === document.body || e === document.documentElement) return '';
			const r = e.getBoundingClientRect();
			if (parseFloat(s.outlineWidth) < 2 || s.outlineStyle === 'none') return 'no ring: ' + e.outerHTML.slice(0, 100);
			if (r.right <= 0 || r.bottom <= 0 || r.top >= innerHeight || r.left >= innerWidth) return 'out of sight: ' + e.outerHTML.slice(0, 100);
			return '' })()`)
		if unseen != "" {
			b.t.Errorf("%s at %d: focus: %s", what, b.width, unseen)
		}
	}
	if missed := ask[[]string](b, "stops.filter(e => !been.has(e)).map(e => e.outerHTML.slice(0, 100))"); len(missed) > 0 {
		b.t.Errorf("%s at %d: the tab key never reaches %d of %d: %q", what, b.width, len(missed), n, missed)
	}
}

// goTo presses the tab key until a link or button with these words has the focus.
func (b *tab) goTo(words string) {
	b.t.Helper()
	for range 200 {
		b.key(kb.Tab)
		if strings.HasPrefix(ask[string](b, "document.activeElement.textContent.trim()"), words) {
			return
		}
	}
	b.t.Fatalf("the tab key does not come to %q on %s", words, ask[string](b, "document.title"))
}

// The owner's whole way with the keyboard alone: sign in, skip to the page, open what opens, accept. Every page on
// the way is tabbed through.
func TestKeyboardAlone(t *testing.T) {
	inBrowser(t)
	d := newDesk(t, "")
	b := newTab(t, d, "keyboard", screen)
	b.open("/enter/" + d.token(auth.Owner))
	b.tabThrough("sign in")
	b.goTo("Sign in")
	b.arrive(func() { b.key(kb.Enter) })
	b.tabThrough("estimate")
	b.do(chromedp.Navigate(ask[string](b, "location.href")))
	b.key(kb.Tab)
	if at := ask[string](b, "document.activeElement.textContent"); at != "Skip to the page" {
		t.Errorf("the first stop is %q", at)
	}
	b.picture("skip link")
	b.key(kb.Enter)
	if at := ask[string](b, "document.activeElement.id"); at != "page" {
		t.Errorf("skipping leads to %q", at)
	}
	b.goTo("Line by line")
	b.key(kb.Enter)
	if !ask[bool](b, "document.activeElement.closest('details').open") {
		t.Error("enter does not open what opens")
	}
	b.open(ask[string](b, "location.pathname"))
	b.goTo("Accept an option")
	b.arrive(func() { b.key(kb.Enter) })
	b.tabThrough("accept")
	b.do(chromedp.Navigate(ask[string](b, "location.href")))
	for ask[string](b, "document.activeElement.type || ''") != "radio" {
		b.key(kb.Tab)
	}
	b.key(kb.ArrowDown)
	b.key(kb.Tab)
	for _, letter := range "Quill" {
		b.key(string(letter))
	}
	b.picture("filled")
	b.arrive(func() { b.key(kb.Enter) })
	b.tabThrough("check")
	b.goTo("Accept for")
	b.arrive(func() { b.key(kb.Enter) })
	if said := ask[string](b, "(document.querySelector('.done') || document.body).textContent"); !strings.Contains(said, "by Quill") {
		t.Errorf("with the keyboard alone nothing was accepted: %.200s", said)
	}
}

// forcedColours is the name that style sheets have for a few colours that the reader sets.
const forcedColours = "forced-colors" //nolint:misspell // the standard's spelling

// Pages at the narrowest that has to do, with the text twice as large, in forced colours, and on paper.
func TestHardToRead(t *testing.T) {
	inBrowser(t)
	d := newDesk(t, "")
	d.accept(t, 0)
	lead, owner := newTab(t, d, "hard", screen), newTab(t, d, "hard", screen)
	lead.enter(auth.Lead)
	owner.enter(auth.Owner)
	quote := "/quotes/" + d.yard.Quote + "/1"
	for _, p := range []struct {
		*tab
		what, path string
	}{
		{owner, "estimate", quote}, {lead, "job", "/jobs/" + d.yard.Job}, {lead, "materials", "/jobs/" + d.yard.Job + "/options/" + d.yard.Options[0]},
		{lead, "quote", quote}, {lead, "reconciliation", "/jobs/" + d.yard.Job + "/reconciliation"}, {lead, "repriced", quote + "/repriced?version=1&sheet=" + d.yard.Sheet},
		{lead, "hull", asked(d.yard.Job, "waterline", "3-0-0", "strakes", "12", "stock", "12-0-0; 16-0-0")}, {lead, "fault", "/none"},
	} {
		p.width = narrow
		p.do(chromedp.EmulateViewport(narrow, 640))
		p.open(p.path)
		if p.path == "/none" { // a page that is not there says so in the console
			p.hears("status of 404")
		}
		p.look(p.what + " narrow")
		p.width = screen
		p.do(chromedp.EmulateViewport(screen, 800))
		ask[string](p.tab, "document.documentElement.style.fontSize = '200%'")
		p.look(p.what + " twice as large")
		ask[string](p.tab, "document.documentElement.style.fontSize = ''")
		_, err := chromedp.Call(p.ctx, emulation.SetEmulatedMedia, emulation.SetEmulatedMediaParams{Features: []*emulation.MediaFeature{{Name: forcedColours, Value: "active"}}})
		if err != nil {
			t.Fatal(err)
		}
		p.picture(p.what + " forced colours")
		_, err = chromedp.Call(p.ctx, emulation.SetEmulatedMedia, emulation.SetEmulatedMediaParams{Features: []*emulation.MediaFeature{}})
		if err != nil {
			t.Fatal(err)
		}
		p.paper(p.what)
	}
}

// paper prints a page.
func (b *tab) paper(what string) {
	b.t.Helper()
	file, err := chromedp.Run(b.ctx, chromedp.PrintToPDF())
	if err != nil {
		b.t.Fatal(err)
	}
	text := paperText(b.t, string(file))
	for _, out := range []string{"Sign out", "Skip to the page"} {
		if strings.Contains(text, out) {
			b.t.Errorf("%s on paper still reads %q", what, out)
		}
	}
	if folder := os.Getenv("RIBBAND_OUT"); folder != "" {
		if err := os.WriteFile(filepath.Join(folder, "pages", fmt.Sprintf("%s-%s.pdf", b.name, what)), file, 0o644); err != nil {
			b.t.Fatal(err)
		}
	}
}

// A job with nothing in it and the longest names, unbroken, and a thousand rows of spend.
func TestEmptyAndLong(t *testing.T) {
	inBrowser(t)
	d := newDesk(t, "")
	word := strings.Repeat("Wendeline", 22)
	d.demo.Job.Boat.Name, d.demo.Job.Owner.Name, d.demo.Job.Boat.Description = word, word, word
	job, owner, _ := d.otherJob(t)
	v := d.in(t, auth.Accountant)
	var table strings.Builder
	table.WriteString(spendHeader)
	for i := range 1000 {
		fmt.Fprintf(&table, "%s,invoice,%s,S-%d,1,%s,%s,,,18.40,USD,1.10,,\n", today(), word, i, word, word)
	}
	read := v.sendTable("/jobs/"+job+"/spend/import", "a", table.String()).header.Get("Location")
	if read == "" {
		t.Fatal("a thousand rows are not read")
	}
	for _, width := range []int64{narrow, screen} {
		b := newTab(t, d, "long", width)
		b.enter(auth.Accountant)
		for what, path := range map[string]string{"jobs": "/", "empty job": "/jobs/" + job, "empty hull": "/jobs/" + job + "/hull", "nothing spent": "/jobs/" + job + "/spend",
			"nothing to hold against": "/jobs/" + job + "/reconciliation", "a thousand rows": read, "entry": "/jobs/" + job + "/spend/new"} {
			b.open(path)
			b.look(what)
		}
		b.open("/leave")
		b.hears("status of 405") // signing out is done by the button, and not by going there
		b.open("/enter/" + owner)
		b.press("button.main")
		b.look("no estimate yet")
	}
}
