package web_test

import (
	"bytes"
	"encoding/csv"
	"html"
	"mime/multipart"
	"net/http"
	"net/url"
	"regexp"
	"strconv"
	"strings"
	"testing"

	"ribband/server/internal/auth"
)

// sendTable sends a table as a file, under a key.
func (v *visitor) sendTable(path, key, table string) answered {
	v.t.Helper()
	var b bytes.Buffer
	w := multipart.NewWriter(&b)
	if err := w.WriteField("key", strings.Repeat(key, 32)); err != nil {
		v.t.Fatal(err)
	}
	f, err := w.CreateFormFile("table", "spend.csv")
	if err != nil {
		v.t.Fatal(err)
	}
	if _, err := f.Write([]byte(table)); err != nil {
		v.t.Fatal(err)
	}
	if err := w.Close(); err != nil {
		v.t.Fatal(err)
	}
	return v.do(http.MethodPost, path, &b, http.Header{"Content-Type": {w.FormDataContentType()}})
}

const spendHeader = "date,kind,supplier,document,line,item,description,quantity,unit,amount,currency,tax,step,author\n"

// spent is the rows of the table that the spend page gives.
func (v *visitor) spent(job string) [][]string {
	v.t.Helper()
	got := v.get("/jobs/" + job + "/spend.csv")
	if got.status != http.StatusOK || !strings.HasPrefix(got.header.Get("Content-Type"), "text/csv") {
		v.t.Fatalf("the table of spend is answered %d, %v", got.status, got.header)
	}
	rows, err := csv.NewReader(strings.NewReader(got.body)).ReadAll()
	if err != nil {
		v.t.Fatal(err)
	}
	return rows[1:]
}

// A table is read, looked at and confirmed; only then its good rows count, once, and what a spreadsheet would run
// comes out defused.
func TestImportInThreeSteps(t *testing.T) {
	d := newDesk(t, "")
	v := d.in(t, auth.Accountant)
	job := d.yard.Job
	there := "/jobs/" + job + "/spend/import"
	good := today() + ",invoice,Sundries (invented),S-1,1,brushes,=HYPERLINK(1),,,18.40,USD,1.10,,\n"
	table := spendHeader + good + today() + ",invoice,Sundries (invented),S-2,1,brushes,,,,18.40,EUR,1.10,,\n"
	got := v.sendTable(there, "a", table)
	if got.status != http.StatusSeeOther {
		t.Fatalf("reading is answered %d\n%s", got.status, got.body)
	}
	read := got.header.Get("Location")
	if again := v.sendTable(there, "a", table).header.Get("Location"); again != read {
		t.Errorf("pressing twice reads twice: %s and %s", read, again)
	}
	body := v.get(read).body
	for _, says := range []string{"Nothing counts yet", "1 row is good and waits", "1 row has faults", "currency", "Enter 1 good row"} {
		if !strings.Contains(body, says) {
			t.Errorf("what was read does not say %q:\n%s", says, body)
		}
	}
	if n := len(v.spent(job)); n != 0 {
		t.Errorf("%d rows count before anybody confirmed", n)
	}
	for range 2 {
		if got := v.post(read, url.Values{"key": {strings.Repeat("b", 32)}}); got.status != http.StatusSeeOther {
			t.Fatalf("confirming is answered %d\n%s", got.status, got.body)
		}
	}
	if got := v.sendTable(there, "c", spendHeader+good); got.status != http.StatusSeeOther || !strings.Contains(v.get(got.header.Get("Location")).body, "1 row is there already") {
		t.Errorf("the same table again is answered %d", got.status)
	}
	rows := v.spent(job)
	if len(rows) != 1 || !strings.HasPrefix(rows[0][6], "'=") {
		t.Errorf("what counts is %q", rows)
	}
	if body := v.get(read).body; !strings.Contains(body, "1 row was entered and counts") || strings.Contains(body, "Enter 1 good row") || strings.Contains(body, "Good rows") || !strings.Contains(body, `id="entered"`) {
		t.Errorf("after confirming the page says\n%s", body)
	}
}

// After confirming every row stands under what became of it: entered, there already because somebody entered the same
// meanwhile, or refused because somebody entered other content under its name.
func TestImportedRowsAsTheyBecame(t *testing.T) {
	d := newDesk(t, "")
	v := d.in(t, auth.Accountant)
	there := "/jobs/" + d.yard.Job + "/spend"
	row := func(document, amount string) string {
		return today() + ",invoice,Sundries," + document + ",1,,,,," + amount + ",USD,,,\n"
	}
	read := v.sendTable(there+"/import", "a", spendHeader+row("S-1", "1.00")+row("S-2", "2.00")+row("S-3", "3.00")).header.Get("Location")
	if read == "" {
		t.Fatal("the table is not read")
	}
	for i, typed := range [][2]string{{"S-2", "2.00"}, {"S-3", "33.00"}} {
		form := url.Values{"key": {strings.Repeat(string(rune('b'+i)), 32)}, "date": {today()}, "kind": {"invoice"}, "supplier": {"Sundries"}, "document": {typed[0]}, "line": {"1"}, "amount": {typed[1]}}
		if got := v.post(there, form); got.status != http.StatusSeeOther {
			t.Fatalf("entering %s is answered %d\n%s", typed[0], got.status, got.body)
		}
	}
	if got := v.post(read, url.Values{"key": {strings.Repeat("e", 32)}}); got.status != http.StatusSeeOther {
		t.Fatalf("confirming is answered %d\n%s", got.status, got.body)
	}
	body := v.get(read).body
	under := func(id string) string {
		_, after, found := strings.Cut(body, `<h2 id="`+id+`">`)
		part, _, _ := strings.Cut(after, "</section>")
		if !found {
			t.Errorf("nothing stands under %s:\n%s", id, body)
		}
		return part
	}
	for id, document := range map[string]string{"entered": "S-1", "there": "S-2", "refused": "S-3"} {
		part := under(id)
		for _, other := range []string{"S-1", "S-2", "S-3"} {
			if strings.Contains(part, other+", 1") != (other == document) {
				t.Errorf("under %s stands %s", id, part)
			}
		}
	}
	if !strings.Contains(body, "Some rows were refused") || strings.Contains(body, "Good rows") {
		t.Errorf("after confirming the page says\n%s", body)
	}
}

// A fix that begins with what is to be typed stands as it is to be typed.
func TestFixesAreNotCapitalised(t *testing.T) {
	d := newDesk(t, "")
	got := d.in(t, auth.Accountant).sendTable("/jobs/"+d.yard.Job+"/spend/import", "a", spendHeader+today()+",Invoices,S,1,1,,,,,1.00,USD,,,\n")
	if !strings.Contains(got.body, "<td>invoice, credit or hours</td>") {
		t.Errorf("the fix of a kind does not stand as it is typed:\n%s", got.body)
	}
}

// Tables of which no row can be entered are refused by row and column, and nothing of them is kept.
func TestTablesThatAreNoTables(t *testing.T) {
	d := newDesk(t, "")
	v := d.in(t, auth.Accountant)
	there := "/jobs/" + d.yard.Job + "/spend/import"
	columns := strings.Repeat("x,", 1_000_000)
	for _, c := range []struct {
		what, table string
		status      int
		says        []string
	}{
		{"nothing", "", 422, []string{"There is no table"}},
		{"another currency", spendHeader + today() + ",invoice,S,1,1,,,,,1.00,EUR,,,\n", 422, []string{">2<", ">currency<", "USD"}},
		{"a day before the job", spendHeader + "2026-10-04,invoice,S,1,1,,,,,1.00,USD,,,\n", 422, []string{">date<", "2026-10-05"}},
		{"broken UTF-8", spendHeader + today() + ",invoice,\xff\xfe,1,1,,,,,1.00,USD,,,\n", 422, []string{">2<", ">supplier<"}},
		{"a million columns", columns + "\n", 422, []string{"1000001 columns"}},
		{"a picture", "\x89PNG\r\n\x1a\n\x00", 422, []string{"What is wrong"}},
		{"more than is taken", strings.Repeat("x", 5<<20), 413, []string{"4 MB"}},
	} {
		got := v.sendTable(there, "d", c.table)
		got.carries(t, c.what)
		if got.status != c.status {
			t.Errorf("%s is answered %d", c.what, got.status)
		}
		for _, s := range c.says {
			if !strings.Contains(got.body, s) {
				t.Errorf("%s is not answered with %q:\n%.2000s", c.what, s, got.body)
			}
		}
	}
	if n := len(v.spent(d.yard.Job)); n != 0 {
		t.Errorf("%d rows were kept", n)
	}
}

// One row is entered once, whatever is pressed how often; the same name with another amount is refused.
func TestEnteringOneRow(t *testing.T) {
	d := newDesk(t, "")
	v := d.in(t, auth.Accountant)
	there := "/jobs/" + d.yard.Job + "/spend"
	form := func(key, amount string) url.Values {
		return url.Values{"key": {strings.Repeat(key, 32)}, "date": {today()}, "kind": {"invoice"}, "supplier": {"Sundries"}, "document": {"S-1"}, "line": {"1"}, "amount": {amount}}
	}
	for _, c := range [][2]string{{"a", "entered"}, {"b", "again"}} {
		if got := v.post(there, form(c[0], "12.50")); got.status != http.StatusSeeOther || got.header.Get("Location") != there+"?done="+c[1] {
			t.Fatalf("%d to %s\n%s", got.status, got.header.Get("Location"), got.body)
		}
	}
	if got := v.post(there, form("a", "12.50")); got.status != http.StatusSeeOther {
		t.Errorf("pressing twice is answered %d", got.status)
	}
	if got := v.post(there, form("a", "99.00")); got.status != http.StatusConflict || !strings.Contains(got.body, "sent already") {
		t.Errorf("the same key with another amount is answered %d", got.status)
	}
	got := v.post(there, form("c", "99.00"))
	if got.status != http.StatusUnprocessableEntity || !strings.Contains(got.body, "other content") || !strings.Contains(got.body, `value="99.00"`) {
		t.Errorf("a second amount under the same name is answered %d\n%s", got.status, got.body)
	}
	if n := len(v.spent(d.yard.Job)); n != 1 {
		t.Errorf("%d rows count", n)
	}
	for _, role := range []auth.Role{auth.Lead, auth.Estimator, auth.Owner} {
		if got := d.in(t, role).post(there, form("e", "12.50")); got.status != http.StatusNotFound {
			t.Errorf("the %s may enter spend: %d", role, got.status)
		}
	}
}

// What spend is held against is named whole, or not at all; what is named in part is refused in words.
func TestHeldAgainstInPart(t *testing.T) {
	d := newDesk(t, "")
	v := d.in(t, auth.Accountant)
	there := "/jobs/" + d.yard.Job + "/reconciliation"
	for query, c := range map[string]struct {
		status int
		says   string
	}{
		"?quote=" + d.yard.Quote + "&revision=1":                             {422, "named in part only"},
		"?quote=" + d.yard.Quote + "&option=" + d.yard.Options[0]:            {422, "named in part only"},
		"?option=" + d.yard.Options[0]:                                       {422, "named in part only"},
		"?revision=1":                                                        {422, "named in part only"},
		"?quote=" + d.yard.Quote:                                             {409, "There is nothing to hold spend against"},
		"?quote=" + d.yard.Quote + "&revision=1&option=" + d.yard.Options[0]: {200, "Held against"},
		"": {200, "Nothing of this job is accepted yet"},
	} {
		if got := v.get(there + query); got.status != c.status || !strings.Contains(got.body, c.says) {
			t.Errorf("%q is answered %d\n%s", query, got.status, got.body)
		}
	}
}

// What was spent reads as words: minutes as minutes, a step by its name.
func TestSpentReadsAsWords(t *testing.T) {
	d := newDesk(t, "")
	v := d.in(t, auth.Accountant)
	there := "/jobs/" + d.yard.Job + "/spend"
	form := sends("a", "date", today(), "kind", "hours", "supplier", "A. Plover", "document", "week 41", "line", "1", "item", "shipwright", "quantity", "90", "unit", "MIN", "amount", "70.00", "step", "general")
	if got := v.post(there, form); got.status != http.StatusSeeOther {
		t.Fatalf("entering is answered %d\n%s", got.status, got.body)
	}
	body := v.get(there).body
	for _, says := range []string{"<td>minutes</td>", "<td>General</td>"} {
		if !strings.Contains(body, says) {
			t.Errorf("the page does not say %q:\n%s", says, body)
		}
	}
}

// An account of what moved can be followed by hand: how many at which prices, what that moves in cost, the markup, and
// what it moves in price; names stand as everywhere else.
func TestRepricedCanBeFollowed(t *testing.T) {
	d := newDesk(t, "")
	body := html.UnescapeString(d.in(t, auth.Lead).get("/quotes/" + d.yard.Quote + "/1/repriced?version=1&sheet=" + d.yard.Sheet).body)
	for _, says := range []string{"Difference of cost", "Markup on cost"} {
		if !strings.Contains(body, says) {
			t.Errorf("the page has no column %q", says)
		}
	}
	reasons := regexp.MustCompile(`<p class="reason">([^<]*)</p>`).FindAllStringSubmatch(body, -1)
	followed := regexp.MustCompile(`^(?:[\d,.]+ (?:of .+|h) at [\d,.]+(?: each)?, before at [\d,.]+|now .+; before .+).*: cost [+−][\d,.]+, price [+−][\d,.]+$`)
	if len(reasons) < 3 {
		t.Fatalf("only %d reasons are given:\n%s", len(reasons), body)
	}
	for _, r := range reasons {
		if !followed.MatchString(r[1]) || strings.Contains(r[1], "_") {
			t.Errorf("a reason cannot be followed: %q", r[1])
		}
	}
}

// Two rows of one item are told apart by pack and supplier where two versions of a sheet are compared.
func TestComparedRowsAreToldApart(t *testing.T) {
	d := newDesk(t, "")
	body := html.UnescapeString(d.in(t, auth.Lead).get("/price-sheets/" + d.yard.Sheet + "/compare?from=1&to=2").body)
	rows := regexp.MustCompile(`<th scope="row">([^<]*)</th>`).FindAllStringSubmatch(body, -1)
	seen := map[string]bool{}
	for _, r := range rows {
		if seen[r[1]] {
			t.Errorf("two rows read %q", r[1])
		}
		seen[r[1]] = true
	}
	if len(rows) < 2 || !strings.Contains(body, ", from ") || !strings.Contains(body, ", in packs of ") {
		t.Errorf("rows are %q", rows)
	}
}

// An entry is taken back by the form that its link fills in, and after that nothing is left of its amount.
func TestTakingBack(t *testing.T) {
	d := newDesk(t, "")
	v := d.in(t, auth.Accountant)
	there := "/jobs/" + d.yard.Job + "/spend"
	for key, typed := range map[string][]string{
		"a": {"kind", "invoice", "document", "S-1", "amount", "12.50", "tax", "0.75", "quantity", "2", "unit", "EA"},
		"b": {"kind", "credit", "document", "S-2", "amount", "-3.00"},
		"c": {"kind", "hours", "document", "week 41", "amount", "70.00", "quantity", "1.5", "unit", "HUR", "item", "shipwright"},
	} {
		form := sends(key, append([]string{"date", today(), "supplier", "Sundries", "line", "1"}, typed...)...)
		if got := v.post(there, form); got.status != http.StatusSeeOther {
			t.Fatalf("entering %v is answered %d\n%s", typed, got.status, got.body)
		}
	}
	links := regexp.MustCompile(`href="([^"]*\?back=[^"]*)"`).FindAllStringSubmatch(v.get(there).body, -1)
	if len(links) != 3 {
		t.Fatalf("%d entries can be taken back", len(links))
	}
	for i, m := range links {
		page := v.get(m[1]).body
		form := url.Values{"key": {strings.Repeat(string(rune('d'+i%3)), 32)}}
		for _, f := range regexp.MustCompile(`<input id="([a-z]+)" name="[a-z]+" value="([^"]*)"`).FindAllStringSubmatch(page, -1) {
			form.Set(f[1], html.UnescapeString(f[2]))
		}
		for _, f := range regexp.MustCompile(`(?s)<select id="([a-z]+)".*?</select>`).FindAllStringSubmatch(page, -1) {
			if chosen := regexp.MustCompile(`<option value="([^"]*)" selected>`).FindStringSubmatch(f[0]); chosen != nil {
				form.Set(f[1], chosen[1])
			}
		}
		if got := v.post(there, form); got.status != http.StatusSeeOther {
			t.Errorf("taking %s back is answered %d\n%s", form, got.status, got.body)
		}
	}
	sum := 0.0
	for _, row := range v.spent(d.yard.Job) {
		amount, err := strconv.ParseFloat(strings.TrimPrefix(row[9], "'"), 64)
		if err != nil {
			t.Fatal(err)
		}
		sum += amount
	}
	if sum != 0 {
		t.Errorf("after taking all back %v is left", sum)
	}
	if got := v.get(there + "/new?back=none"); got.status != http.StatusNotFound {
		t.Errorf("an entry that is none is taken back: %d", got.status)
	}
}

// The empty table is read as a table; its sample row is refused until somebody writes it over.
func TestEmptyTable(t *testing.T) {
	d := newDesk(t, "")
	v := d.in(t, auth.Accountant)
	there := "/jobs/" + d.yard.Job + "/spend/import"
	table := v.get(there + "/empty.csv")
	rows, err := csv.NewReader(strings.NewReader(table.body)).ReadAll()
	if err != nil || table.status != http.StatusOK || len(rows) != 2 || len(rows[0]) != len(rows[1]) {
		t.Fatalf("%d, %v, %q", table.status, err, table.body)
	}
	if got := v.sendTable(there, "a", table.body); got.status != http.StatusUnprocessableEntity || !strings.Contains(got.body, "<td>date</td>") || strings.Count(got.body, `<th scope="row">2</th>`) != 1 {
		t.Errorf("the sample row is answered %d\n%s", got.status, got.body)
	}
	if got := v.sendTable(there, "b", strings.ReplaceAll(table.body, rows[1][0], today())); got.status != http.StatusSeeOther {
		t.Errorf("written over the sample row is answered %d\n%s", got.status, got.body)
	}
}

// What lies in no line stands at the top of the reconciliation: what has no step, and what has one and fits no line.
func TestWhatLiesInNoLineStandsOnTop(t *testing.T) {
	d := newDesk(t, "")
	d.accept(t, 0)
	v := d.in(t, auth.Accountant)
	there := "/jobs/" + d.yard.Job
	for key, typed := range map[string][]string{"a": {"document", "S-1", "amount", "12.50"}, "b": {"document", "S-2", "amount", "7.00", "step", "take_pattern", "item", "brushes"}, "c": {"document", "S-3", "amount", "2.00", "step", "general"}} {
		if got := v.post(there+"/spend", sends(key, append([]string{"date", today(), "kind", "invoice", "supplier", "Sundries", "line", "1"}, typed...)...)); got.status != http.StatusSeeOther {
			t.Fatalf("entering is answered %d\n%s", got.status, got.body)
		}
	}
	body := v.get(there + "/reconciliation").body
	for what, amount := range map[string]string{"Spent and posted to no step": "12.50", "Spent on a step, and on no line of it": "9.00"} {
		if !strings.Contains(body, "<dt>"+what+`</dt><dd class="num">USD`+"\u00a0"+amount+"</dd>") {
			t.Errorf("%s is not %s:\n%.1500s", what, amount, body[strings.Index(body, "<main"):])
		}
	}
	if !strings.Contains(body, "take it back on the page") {
		t.Error("the page does not say how an entry is posted")
	}
}

// Where reading stopped in the middle of a table the page says so and offers no way to enter what came before it; a
// row that looks as if it had been entered under another line is pointed at, and may be entered all the same.
func TestImportsThatWantASecondLook(t *testing.T) {
	d := newDesk(t, "")
	v := d.in(t, auth.Accountant)
	there := "/jobs/" + d.yard.Job + "/spend/import"
	row := func(line, amount string) string {
		return today() + ",invoice,Sundries,S-1," + line + ",brushes,,,," + amount + ",USD,,,\n"
	}
	stopped := v.get(v.sendTable(there, "a", spendHeader+row("1", "5.00")+today()+",invoice,\"Sundries,S-2,1,,,,,1.00,USD,,,\n").header.Get("Location")).body
	if !strings.Contains(stopped, "Reading stopped at row 3") || strings.Contains(stopped, "Enter 1 good row") {
		t.Errorf("of a table that broke off the page says\n%s", stopped)
	}
	alike := v.get(v.sendTable(there, "b", spendHeader+row("1", "5.00")+row("2", "5.00")).header.Get("Location")).body
	if !strings.Contains(alike, "Worth a look") || !strings.Contains(alike, "Enter 2 good rows") {
		t.Errorf("of two rows alike the page says\n%s", alike)
	}
}
