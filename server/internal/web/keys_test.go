package web_test

import (
	"net/http"
	"slices"
	"strings"
	"testing"

	"github.com/chromedp/chromedp/kb"

	"ribband/server/internal/auth"
	"ribband/server/internal/web"
)

// pagesOf are the paths of every page that a role may open, filled with what the demo has: no drawings, no paper, no
// tables to keep.
func (d *desk) pagesOf(role auth.Role, imported string) []string {
	var out []string
	for _, r := range web.Routes() {
		file := strings.HasSuffix(r.Path, ".svg") || strings.HasSuffix(r.Path, ".pdf") || strings.HasSuffix(r.Path, ".csv") || strings.Contains(r.Path, "/frames/")
		if r.Method != http.MethodGet || file || strings.Contains(r.Path, "{token}") || len(r.Roles) > 0 && !slices.Contains(r.Roles, role) {
			continue
		}
		out = append(out, d.with(d.at(strings.ReplaceAll(r.Path, "{import}", imported))))
	}
	return out
}

// Every page there is, whoever it is for, is tabbed through from end to end.
func TestTheTabKeyReachesEverything(t *testing.T) {
	inBrowser(t)
	d := newDesk(t, "")
	table := spendHeader + today() + ",invoice,Sundries (invented),S-1,1,brushes,,,,18.40,USD,1.10,,\n"
	read := d.in(t, auth.Accountant).sendTable("/jobs/"+d.yard.Job+"/spend/import", "a", table).header.Get("Location")
	imported := read[strings.LastIndex(read, "/")+1:]
	walked := map[string]bool{}
	for _, c := range []struct {
		role  auth.Role
		width int64
	}{{auth.Lead, screen}, {auth.Accountant, screen}, {auth.Owner, phone}} {
		b := newTab(t, d, "keys", c.width)
		b.enter(c.role)
		pages := d.pagesOf(c.role, imported)
		if len(pages) < 5 {
			t.Fatalf("the %s has only the pages %q", c.role, pages)
		}
		for _, path := range pages {
			if c.role == auth.Accountant && walked[path] {
				continue // the same page as the lead's, a link or two apart
			}
			walked[path] = true
			b.open(path)
			b.tabThrough(path)
		}
	}
}

// toField presses the tab key until a field has the focus.
func (b *tab) toField(id string) {
	b.t.Helper()
	for range 100 {
		if ask[string](b, "document.activeElement.id") == id {
			return
		}
		b.key(kb.Tab)
	}
	b.t.Fatalf("the tab key does not come to #%s on %s", id, ask[string](b, "document.title"))
}

// types types a text, key by key.
func (b *tab) types(text string) {
	b.t.Helper()
	for _, letter := range text {
		if letter == '\n' {
			b.key(kb.Enter)
			continue
		}
		b.key(string(letter))
	}
}

// The accountant enters one row, and imports a table in its three steps, with the keyboard alone.
func TestTheBooksByKeys(t *testing.T) {
	inBrowser(t)
	d := newDesk(t, "")
	b := newTab(t, d, "keys", screen)
	b.open("/enter/" + d.token(auth.Accountant))
	follow := func(words string) {
		t.Helper()
		b.goTo(words)
		b.arrive(func() { b.key(kb.Enter) })
	}
	follow("Sign in")
	follow("Wendeline")
	follow("What was spent")
	follow("Enter one row")
	for _, f := range [][2]string{{"date", today()}, {"supplier", "Sundries"}, {"document", "S-1"}, {"line", "1"}, {"amount", "12.50"}} {
		b.toField(f[0])
		b.types(f[1])
	}
	b.toField("step")
	b.key(kb.ArrowDown)
	follow("Enter it")
	if said := ask[string](b, "document.querySelector('.done').textContent"); !strings.Contains(said, "The entry was made") {
		t.Errorf("after entering by keys the page says %q", said)
	}
	follow("Import a table")
	b.toField("rows")
	b.types("date,kind,supplier,document,line,amount,currency\n" + today() + ",invoice,Sundries,S-2,1,7.00,USD\n")
	follow("Read it")
	follow("Enter 1 good row")
	if said := ask[string](b, "document.querySelector('.done').textContent"); !strings.Contains(said, "1 row was entered") {
		t.Errorf("after importing by keys the page says %q", said)
	}
	rows := d.in(t, auth.Accountant).spent(d.yard.Job)
	if len(rows) != 2 || rows[0][9] != "12.50" || rows[0][12] == "" || rows[1][9] != "7.00" {
		t.Errorf("by keys was entered %q", rows)
	}
}
