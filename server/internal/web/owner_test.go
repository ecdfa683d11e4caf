package web_test

import (
	"html"
	"net/http"
	"net/url"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"slices"
	"strings"
	"testing"

	"ribband/pricing/money"
	"ribband/server/internal/auth"
	"ribband/server/internal/web"
)

// everything an owner can reach by following links, forms aside, by path.
func (v *visitor) everything(from string) map[string]answered {
	v.t.Helper()
	found := map[string]answered{}
	links := regexp.MustCompile(`(?:href|src|srcset)="(/[^"#]*)`)
	for next := []string{from}; len(next) > 0; next = next[1:] {
		path := strings.ReplaceAll(next[0], "&amp;", "&")
		if _, seen := found[path]; seen {
			continue
		}
		got := v.get(path)
		found[path] = got
		if to := got.header.Get("Location"); to != "" {
			next = append(next, to)
		}
		for _, m := range links.FindAllStringSubmatch(got.body, -1) {
			next = append(next, m[1])
		}
	}
	return found
}

// secrets of the yard that no owner may read: every amount of cost, wage and unit price, every markup and margin as
// it is written, every supplier. An amount that is also a selling price is none.
func (d *desk) secrets(t *testing.T) map[string]string {
	t.Helper()
	lead, err := d.Who(t.Context(), d.token(auth.Lead))
	if err != nil {
		t.Fatal(err)
	}
	r, err := d.Revision(t.Context(), lead, d.yard.Quote, 1)
	if err != nil {
		t.Fatal(err)
	}
	out, sold := map[string]string{}, map[money.Money]bool{}
	for _, o := range r.Priced.Options {
		for _, m := range []money.Money{o.Net, o.Tax, o.Total, o.Low, o.High} {
			sold[m] = true
		}
		for _, l := range o.Lines {
			sold[l.Price] = true
		}
	}
	for _, o := range r.Priced.Options {
		out[o.Cost.String()] = "cost of option " + o.Name
		out[o.Markup], out[o.Margin] = "markup of "+o.Name, "margin of "+o.Name
		for _, l := range o.Lines {
			if !sold[l.Cost] {
				out[l.Cost.String()] = "cost of " + l.Key
			}
			if l.Rate != "" {
				out[l.Rate] = "wage of " + l.Item
			}
		}
	}
	for _, prices := range d.demo.Prices {
		for _, item := range prices.Items {
			row := item.Row()
			out[row.Supplier] = "supplier of " + row.Item
			if strings.Contains(row.Price, ".") {
				out[row.Price] = "price of " + item.Label()
			}
		}
	}
	delete(out, "")
	return out
}

// holds finds a text that is not part of a longer word or number.
func holds(body, text string) bool {
	for _, form := range []string{text, grouped(text)} {
		if regexp.MustCompile(`(?:^|[^\w.,])` + regexp.QuoteMeta(form) + `(?:$|[^\w.]|\.\D)`).MatchString(body) {
			return true
		}
	}
	return false
}

func grouped(s string) string {
	whole, fraction, pointed := strings.Cut(s, ".")
	for i := len(whole) - 3; i > 0; i -= 3 {
		whole = whole[:i] + "," + whole[i:]
	}
	if pointed {
		whole += "." + fraction
	}
	return whole
}

// No byte that an owner can reach tells cost, wage, markup, margin or supplier: pages, drawings, and the paper's text.
func TestOwnersReadNoCost(t *testing.T) {
	oneByOne(t)
	d := newDesk(t, "")
	secrets := d.secrets(t)
	if len(secrets) < 25 {
		t.Fatalf("only %d secrets are looked for", len(secrets))
	}
	// The search finds what is there: the yard's own page holds nearly all of it.
	yards := d.in(t, auth.Lead).get("/quotes/" + d.yard.Quote + "/1").body
	seen := 0
	for s := range secrets {
		if holds(yards, s) {
			seen++
		}
	}
	if seen < 15 {
		t.Fatalf("the search finds %d secrets on the yard's page, which holds more", seen)
	}
	v := d.in(t, auth.Owner)
	check := func(all map[string]answered) {
		for path, got := range all {
			if got.status >= 400 {
				t.Errorf("a link of the owner's leads to %s, which is answered %d", path, got.status)
			}
			body := got.body
			if strings.HasSuffix(path, ".pdf") {
				body = paperText(t, got.body)
			}
			for s, what := range secrets {
				if holds(body, s) {
					t.Errorf("%s holds %q, the %s", path, s, what)
				}
			}
			if strings.HasSuffix(path, ".css") {
				continue // "margin" is a word of style sheets
			}
			for _, word := range []string{"markup", "margin", "wage", "supplier", "Sawmill", "Chandlery"} {
				if regexp.MustCompile(`(?i)\b` + word + `\b`).MatchString(body) {
					t.Errorf("%s holds the word %s", path, word)
				}
			}
		}
	}
	before := v.everything("/")
	if len(before) < 8 {
		t.Errorf("the owner reaches only %d pages and drawings", len(before))
	}
	check(before)
	there := "/quotes/" + d.yard.Quote + "/1"
	form := url.Values{"option": {d.yard.Options[0]}, "name": {"E. Quillfeather"}, "key": {strings.Repeat("a", 32)}}
	check(map[string]answered{
		"faults of the form": {header: http.Header{}, body: v.post(there+"/accept/check", nil).body},
		"the check":          v.post(there+"/accept/check", form),
		"accepting":          v.post(there+"/accept", form),
		"again":              {header: http.Header{}, body: v.post(there+"/accept/check", form).body},
	})
	check(v.everything("/"))
}

// paperText is the text of a PDF, by pdftotext where it is on the machine, otherwise its bytes.
func paperText(t *testing.T, file string) string {
	t.Helper()
	program, err := exec.LookPath("pdftotext")
	if err != nil {
		if os.Getenv("RIBBAND_CI") != "" {
			t.Fatal("pdftotext is needed to read the paper")
		}
		return file
	}
	path := filepath.Join(t.TempDir(), "estimate.pdf")
	if err := os.WriteFile(path, []byte(file), 0o600); err != nil {
		t.Fatal(err)
	}
	text, err := exec.CommandContext(t.Context(), program, "-layout", path, "-").Output()
	if err != nil {
		t.Fatal(err)
	}
	return string(text) + file
}

// Every word of the trade that an owner reads is explained where it first stands on the page: in its place, or in the
// list of words before a table.
func TestOwnersReadNoUnexplainedWord(t *testing.T) {
	d := newDesk(t, "")
	v := d.in(t, auth.Owner)
	there := "/quotes/" + d.yard.Quote + "/1"
	form := sends("a", "option", d.yard.Options[0], "name", "E. Quillfeather")
	pages := map[string]string{
		"estimate": v.get(there).body, "compare": v.get(there + "/compare?first=" + d.yard.Options[0] + "&second=" + d.yard.Options[1]).body,
		"accept": v.get(there + "/accept").body, "check": v.post(there+"/accept/check", form).body, "decline": v.get(there + "/decline").body,
	}
	v.post(there+"/accept", form)
	pages["accepted"] = v.get(there).body
	pages["accepted already"] = v.get(there + "/accept").body
	alt := regexp.MustCompile(`<img[^>]* alt="([^"]*)"[^>]*>`)
	piece := regexp.MustCompile(`(?s)<dfn>(.*?)</dfn>|<span class="means">.*?</span>|<[^>]*>|[^<]+`)
	for what, body := range pages {
		_, body, _ = strings.Cut(body, "<main")
		body, _, _ = strings.Cut(body, "</main>")
		var explained []string
		for _, m := range piece.FindAllStringSubmatch(alt.ReplaceAllString("<main"+body, " $1 "), -1) {
			if m[1] != "" {
				explained = append(explained, strings.ToLower(html.UnescapeString(m[1])))
				continue
			}
			if strings.HasPrefix(m[0], "<") {
				continue
			}
			for _, word := range web.TradeWords(html.UnescapeString(m[0])) {
				if !slices.ContainsFunc(explained, func(e string) bool { return web.SameWord(e, word) }) {
					explained = append(explained, word) // told once
					t.Errorf("%s: %q is not explained before it stands in %q", what, word, strings.TrimSpace(m[0]))
				}
			}
		}
	}
}

// addsUp adds the differences of each table behind a place on a page up, and fails where they do not make the last
// row to the cent, as printed. It gives the whole differences back, in cents.
func addsUp(t *testing.T, body string) []int64 {
	t.Helper()
	cents := func(text string) int64 {
		m, err := money.Parse(strings.NewReplacer(",", "", "+", "", "−", "-").Replace(text), "USD")
		if err != nil {
			t.Fatal(err)
		}
		return m.Minor()
	}
	last := regexp.MustCompile(`<td class="num">([^<]*)</td></tr>`)
	var out []int64
	for i, table := range regexp.MustCompile(`(?s)<table.*?</table>`).FindAllString(html.UnescapeString(body), -1) {
		rows := last.FindAllStringSubmatch(table, -1)
		if len(rows) < 7 {
			t.Fatalf("table %d has %d rows", i, len(rows))
		}
		var sum int64
		for _, r := range rows[:len(rows)-1] {
			sum += cents(r[1])
		}
		whole := cents(rows[len(rows)-1][1])
		if sum != whole {
			t.Errorf("table %d: the differences add up to %d cents and the whole is %d", i, sum, whole)
		}
		out = append(out, whole)
	}
	return out
}

// The differences that an owner reads add up to the whole difference, to the cent, as printed: by step with the
// taxes, and by line; against the first option, and of any two, either way round.
func TestDifferencesAddUpOnThePage(t *testing.T) {
	d := newDesk(t, "")
	third := d.thirdOption(t)
	v := d.in(t, auth.Owner)
	there := "/quotes/" + d.yard.Quote + "/2"
	body := v.get(there).body
	from, to := strings.Index(body, `id="difference"`), strings.Index(body, `id="plans"`)
	if got := addsUp(t, body[from:to]); len(got) != 4 || got[0] <= 0 || got[2] >= 0 {
		t.Errorf("three options are set against each other by %v cents", got)
	}
	one := addsUp(t, v.get(there+"/compare?first="+third+"&second="+d.yard.Options[1]).body)
	other := addsUp(t, v.get(there+"/compare?first="+d.yard.Options[1]+"&second="+third).body)
	same := v.get(there + "/compare?first=" + third + "&second=" + third)
	if len(one) != 2 || len(other) != 2 || one[0] != -other[0] || one[1] != -other[1] || one[0] <= 0 {
		t.Errorf("two options differ by %v cents one way and %v the other", one, other)
	}
	if same.status != http.StatusUnprocessableEntity || !strings.Contains(same.body, "does not differ from itself") {
		t.Errorf("an option against itself is answered %d\n%s", same.status, same.body)
	}
	for _, query := range []string{"", "?first=" + third, "?first=none&second=" + third} {
		if got := v.get(there + "/compare" + query); got.status != http.StatusNotFound {
			t.Errorf("comparing with %q is answered %d", query, got.status)
		}
	}
	if got := v.get("/quotes/" + d.yard.Quote + "/1/compare?first=" + d.yard.Options[0] + "&second=" + third); got.status != http.StatusNotFound {
		t.Errorf("an option of another revision is compared: %d", got.status)
	}
}

// An estimate is accepted once. Pressing twice is pressing once; anything else is refused in words, whoever asks.
func TestAcceptingOnce(t *testing.T) {
	d := newDesk(t, "")
	owner, lead := d.in(t, auth.Owner), d.in(t, auth.Lead)
	there := "/quotes/" + d.yard.Quote + "/1"
	form := func(option, name, key string) url.Values {
		return url.Values{"option": {option}, "name": {name}, "key": {strings.Repeat(key, 32)}}
	}
	if got := owner.post(there+"/accept", form(d.yard.Options[0], " ", "a")); got.status != 422 || !strings.Contains(got.body, `href="#name"`) {
		t.Errorf("without a name: %d\n%s", got.status, got.body)
	}
	if got := owner.post(there+"/accept", form("none", "E. Quillfeather", "b")); got.status != 422 || !strings.Contains(got.body, `href="#option"`) {
		t.Errorf("without an option: %d\n%s", got.status, got.body)
	}
	if got := owner.post(there+"/accept/check", form(d.yard.Options[1], "E. <b>Quillfeather", "c")); !strings.Contains(got.body, "USD\u00a0"+d.total(t, 1)) || !strings.Contains(got.body, "E. &lt;b&gt;Quillfeather") {
		t.Errorf("the check does not show the amount:\n%s", got.body)
	}
	for range 2 {
		got := owner.post(there+"/accept", form(d.yard.Options[1], "E. Quillfeather", "c"))
		if got.status != http.StatusSeeOther || got.header.Get("Location") != there {
			t.Fatalf("accepting is answered %d\n%s", got.status, got.body)
		}
	}
	for what, got := range map[string]answered{
		"the same form anew": owner.post(there+"/accept", form(d.yard.Options[1], "E. Quillfeather", "d")),
		"another option":     owner.post(there+"/accept", form(d.yard.Options[0], "E. Quillfeather", "e")),
		"the yard":           lead.post(there+"/accept", form(d.yard.Options[0], "The yard", "f")),
		"the form":           owner.get(there + "/accept"),
		"the check":          owner.post(there+"/accept/check", form(d.yard.Options[0], "E. Quillfeather", "g")),
	} {
		if got.status != http.StatusConflict || !strings.Contains(got.body, "It was accepted already") || !strings.Contains(got.body, "option “All <dfn>frames</dfn>") {
			t.Errorf("%s after that is answered %d\n%s", what, got.status, got.body)
		}
	}
	for _, v := range []*visitor{owner, lead} {
		body := v.get(there).body
		if !regexp.MustCompile(`ccepted on \d{4}‑\d\d‑\d\d by E\. Quillfeather: option “All (<dfn>)?frames`).MatchString(regexp.MustCompile(`\s+`).ReplaceAllString(body, " ")) || strings.Contains(body, there+"/accept") {
			t.Errorf("the page does not say what was accepted, or still offers it:\n%s", body)
		}
	}
	if got := d.in(t, auth.Accountant).get(there + "/accept"); got.status != http.StatusNotFound {
		t.Errorf("an accountant may accept: %d", got.status)
	}
}
