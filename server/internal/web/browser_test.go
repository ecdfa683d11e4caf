package web_test

import (
	"context"
	"crypto/sha256"
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"slices"
	"strings"
	"sync"
	"testing"
	"time"

	"github.com/chromedp/cdproto/page"
	"github.com/chromedp/chromedp"

	"ribband/server/internal/auth"
)

// chromium is the browser's program; without one the tests that need it are passed over, except where CI runs them.
func chromium(t *testing.T) string {
	t.Helper()
	if testing.Short() {
		t.Skip("the browser looks at the pages without -short")
	}
	for _, name := range []string{"chromium", "chromium-browser", "google-chrome"} {
		if path, err := exec.LookPath(name); err == nil {
			return path
		}
	}
	if os.Getenv("RIBBAND_CI") != "" {
		t.Fatal("the pages are looked at with Chromium, which is not on this machine")
	}
	t.Skip("the pages are looked at with Chromium, which is not on this machine")
	return ""
}

// inBrowser says that a test looks at pages in Chromium: each has a server and a browser of its own, so they go side by side.
func inBrowser(t *testing.T) {
	t.Helper()
	chromium(t)
	t.Parallel()
}

// axe is the text of axe-core, which finds what keeps people out; empty where none is at hand.
func axe(t *testing.T) string {
	t.Helper()
	path := os.Getenv("RIBBAND_AXE")
	if path == "" {
		if os.Getenv("RIBBAND_CI") != "" {
			t.Fatal("RIBBAND_AXE names no axe.min.js")
		}
		return ""
	}
	b, err := os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	return string(b)
}

// tab is one page of a browser at one width.
type tab struct {
	t     *testing.T
	ctx   context.Context
	desk  *desk
	name  string // of its pictures
	width int64
	axe   string

	mu   sync.Mutex
	said []string // by the browser's console, which has to stay silent
}

// Widths that pages are looked at: a screen, a phone, and the narrowest that has to do.
const (
	screen    = 1280
	phone     = 360
	narrow    = 320
	tabLimit  = 8 * time.Minute
	stepLimit = time.Minute
)

// newTab opens a browser without a window.
func newTab(t *testing.T, d *desk, name string, width int64) *tab {
	t.Helper()
	options := append(chromedp.DefaultExecAllocatorOptions[:], chromedp.ExecPath(chromium(t)), chromedp.NoSandbox, chromedp.DisableGPU,
		chromedp.Flag("disable-quic", true), chromedp.Flag("disable-component-update", true), chromedp.Flag("disable-sync", true),
		chromedp.Flag("disable-background-networking", true))
	alone, cancel := context.WithTimeout(t.Context(), tabLimit)
	t.Cleanup(cancel)
	browser, cancel := chromedp.NewExecAllocator(alone, options...)
	t.Cleanup(cancel)
	ctx, cancel := chromedp.NewContext(browser)
	t.Cleanup(cancel)
	b := &tab{t: t, ctx: ctx, desk: d, name: name, width: width, axe: axe(t)}
	// The browser starts with the first step and ends with its context, so this one has the test's.
	if err := chromedp.Do(ctx, chromedp.EmulateViewport(width, 800)); err != nil {
		t.Fatal(err)
	}
	console := chromedp.Console(ctx)
	go func() {
		for m, err := range console {
			if err != nil {
				return
			}
			b.mu.Lock()
			b.said = append(b.said, string(m.Type)+": "+m.Text)
			b.mu.Unlock()
		}
	}()
	return b
}

func (b *tab) do(steps ...chromedp.Action[chromedp.Void]) {
	b.t.Helper()
	ctx, cancel := context.WithTimeout(b.ctx, stepLimit)
	defer cancel()
	if err := chromedp.Do(ctx, steps...); err != nil {
		b.t.Fatalf("%s at %d: %v; the server logged\n%s", b.name, b.width, err, b.desk.faults())
	}
}

// ask is what the page answers to an expression.
func ask[T any](b *tab, expression string, options ...chromedp.EvaluateOption) T {
	b.t.Helper()
	v, err := chromedp.Run(b.ctx, chromedp.Evaluate[T](expression, options...))
	if err != nil {
		b.t.Fatalf("%s: %v", b.name, err)
	}
	return v
}

// open goes to a path.
func (b *tab) open(path string) { b.t.Helper(); b.do(chromedp.Navigate(b.desk.address + path)) }

// press follows a link or sends a form, and waits for the page that comes.
func (b *tab) press(selector string) {
	b.t.Helper()
	b.arrive(func() { b.do(chromedp.Click(selector)) })
}

// pressText is press for a link or button by the words on it.
func (b *tab) pressText(words string) {
	b.t.Helper()
	b.arrive(func() {
		if !ask[bool](b, fmt.Sprintf(`(() => { const e = [...document.querySelectorAll('main a, main button')].find(e => e.textContent.trim().startsWith(%q)); if (!e) return false; e.click(); return true })()`, words)) {
			b.t.Fatalf("%s: nothing reads %q on %s", b.name, words, ask[string](b, "document.title"))
		}
	})
}

// arrive does something and waits for the page that comes of it.
func (b *tab) arrive(do func()) {
	b.t.Helper()
	ctx, cancel := context.WithTimeout(b.ctx, stepLimit)
	defer cancel()
	loaded := chromedp.Events(ctx, page.LoadEventFired)
	do()
	for _, err := range loaded {
		if err != nil {
			b.t.Fatalf("%s: %v", b.name, err)
		}
		break
	}
}

// key presses a key.
func (b *tab) key(k string) { b.t.Helper(); b.do(chromedp.KeyEvent(k)) }

// enter signs in with the link of a role, as people do: open it, press the button.
func (b *tab) enter(role auth.Role) {
	b.t.Helper()
	b.open("/enter/" + b.desk.token(role))
	b.press("button.main")
	if at := ask[string](b, "location.pathname"); strings.Contains(at, "enter") {
		b.t.Errorf("after signing in the address is %s", at)
	}
}

// looked is what a page has to be like, as the browser measures it.
type looked struct {
	Title, Address string
	Beyond         int      // how far the page reaches beyond the window, pixels
	Wide           []string // what reaches there
	Unreached      []string // what can be used and has no place in the order of keys
	Small          []string // what is smaller than a finger's or pen's target, 24 pixels
	Tables         []string // without a caption, or with heads that say not of what
}

const lookAround = `(() => {
 const say = e => e.tagName.toLowerCase() + (e.id ? '#' + e.id : '') + (e.className && e.className.split ? '.' + e.className.split(' ').join('.') : '') + ' ' + e.textContent.trim().slice(0, 30);
 const out = {Title: document.title, Address: location.pathname, Beyond: document.documentElement.scrollWidth - document.documentElement.clientWidth, Wide: [], Unreached: [], Small: [], Tables: []};
 if (out.Beyond > 0) for (const e of document.querySelectorAll('main *')) { const r = e.getBoundingClientRect(); if (r.right > document.documentElement.clientWidth + 1 && !e.closest('.scroll')) out.Wide.push(say(e)); }
 for (const e of document.querySelectorAll('a[href], button, input:not([type=hidden]), select, textarea, summary')) {
  if (e.tabIndex < 0) out.Unreached.push(say(e));
  const r = e.getBoundingClientRect();
  const inline = e.tagName === 'A' && getComputedStyle(e).display === 'inline';
  if (!inline && r.width > 0 && !e.classList.contains('skip') && (r.width < 24 || r.height < 24)) out.Small.push(say(e) + ' ' + r.width + 'x' + r.height);
 }
 for (const e of document.querySelectorAll('table')) {
  if (!e.caption || !e.caption.textContent.trim()) out.Tables.push('no caption: ' + say(e));
  for (const h of e.querySelectorAll('th')) if (!h.scope) out.Tables.push('no scope: ' + say(h));
 }
 return out })()`

// look looks the page over, keeps a picture, and lets axe-core look too.
func (b *tab) look(what string) {
	b.t.Helper()
	got := ask[looked](b, lookAround)
	where := fmt.Sprintf("%s at %d px (%s)", what, b.width, got.Address)
	if got.Beyond > 0 {
		b.t.Errorf("%s reaches %d px beyond the window: %q", where, got.Beyond, got.Wide)
	}
	for name, list := range map[string][]string{"keys do not reach": got.Unreached, "too small": got.Small, "tables": got.Tables} {
		if len(list) > 0 {
			b.t.Errorf("%s: %s: %q", where, name, list)
		}
	}
	b.picture(what)
	b.axeFinds(where)
	b.silent(where)
}

func (b *tab) picture(what string) {
	b.t.Helper()
	folder := os.Getenv("RIBBAND_OUT")
	if folder == "" {
		return
	}
	png, err := chromedp.Run(b.ctx, chromedp.FullScreenshot(100))
	if err != nil {
		b.t.Fatal(err)
	}
	name := fmt.Sprintf("%s-%s-%d.png", b.name, strings.ReplaceAll(what, " ", "-"), b.width)
	if err := os.MkdirAll(filepath.Join(folder, "pages"), 0o755); err != nil {
		b.t.Fatal(err)
	}
	if err := os.WriteFile(filepath.Join(folder, "pages", name), png, 0o644); err != nil {
		b.t.Fatal(err)
	}
}

// Rules of axe-core: those of WCAG 2.2 A and AA and its best practices, and of them those that the width of the window decides.
const (
	allRules   = `{type: 'tag', values: ['wcag2a', 'wcag2aa', 'wcag21a', 'wcag21aa', 'wcag22aa', 'best-practice']}`
	widthRules = `{type: 'rule', values: ['target-size', 'color-contrast', 'scrollable-region-focusable', 'css-orientation-lock']}`
)

// axeSaw are the pages that axe-core looked over by all its rules, by their text: at another width the same text asks only for the
// rules that the width decides, for the rest takes it half of a browser's time and finds the same.
var axeSaw sync.Map

// axeFinds fails for everything that axe-core finds wrong.
func (b *tab) axeFinds(where string) {
	b.t.Helper()
	if b.axe == "" {
		return
	}
	rules := allRules
	if _, again := axeSaw.LoadOrStore(sha256.Sum256([]byte(ask[string](b, `document.documentElement.outerHTML`))), true); again {
		rules = widthRules
	}
	ask[bool](b, b.axe+";true")
	found := ask[[]string](b, `axe.run(document, {runOnly: `+rules+`})
		.then(r => r.violations.flatMap(v => v.nodes.map(n => v.id + ': ' + v.help + ': ' + n.html.slice(0, 200))))`, chromedp.EvalAwaitPromise)
	if len(found) > 0 {
		b.t.Errorf("%s: axe-core finds\n%s", where, strings.Join(found, "\n"))
	}
}

// hears waits until the browser's console has said once what a page has to make it say, and forgets that: it comes when it comes,
// before the page or after it.
func (b *tab) hears(words string) {
	b.t.Helper()
	until := time.Now().Add(stepLimit)
	for {
		b.mu.Lock()
		at := slices.IndexFunc(b.said, func(s string) bool { return strings.Contains(s, words) })
		if at >= 0 {
			b.said = slices.Delete(b.said, at, at+1)
		}
		b.mu.Unlock()
		switch {
		case at >= 0:
			return
		case time.Now().After(until):
			b.t.Fatalf("%s at %d: the browser never said %q", b.name, b.width, words)
		}
		time.Sleep(10 * time.Millisecond)
	}
}

// silent fails for everything the browser complained of: refused by the policy, not found, broken.
func (b *tab) silent(where string) {
	b.t.Helper()
	b.mu.Lock()
	defer b.mu.Unlock()
	for _, s := range b.said {
		if strings.Contains(s, "status of 422") {
			continue // what a form with faults is answered with
		}
		b.t.Errorf("%s: the browser says %s", where, s)
	}
	b.said = nil
}
