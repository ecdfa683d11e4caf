package web_test

import (
	"encoding/json"
	"net/http"
	"regexp"
	"strings"
	"testing"
	"time"

	"ribband/server/internal/auth"
)

var madeLink = regexp.MustCompile(`<code class="once">(http[^<]*/enter/rbd_[^<]*)</code>`)

// A private link is made, shown once, opens the one job, is listed without its text, and ends when it is revoked and
// after its last day. Lead and estimator do that, nobody else.
func TestPrivateLinks(t *testing.T) {
	d := newDesk(t, "")
	v := d.in(t, auth.Estimator)
	there := "/jobs/" + d.yard.Job + "/links"
	until := d.clock.now().UTC().AddDate(0, 0, 10).Format("2006-01-02")
	form := sends("a", "name", "The owner, by letter", "until", until)
	got := v.post(there, form)
	m := madeLink.FindStringSubmatch(got.body)
	if got.status != http.StatusOK || m == nil || !strings.Contains(got.body, "until the end of "+strings.ReplaceAll(until, "-", "\u2011")) {
		t.Fatalf("making is answered %d\n%s", got.status, got.body)
	}
	got.carries(t, "a link just made")
	again := v.post(there, form)
	if again.status != http.StatusOK || strings.Contains(again.body, auth.Prefix) || !strings.Contains(again.body, "cannot be shown again") {
		t.Errorf("the same form again is answered %d\n%s", again.status, again.body)
	}
	token := m[1][strings.Index(m[1], auth.Prefix):]
	owner := d.visitor(t)
	owner.enter(token)
	if got := owner.get("/quotes/" + d.yard.Quote + "/1"); got.status != http.StatusOK {
		t.Errorf("the link opens the estimate with %d", got.status)
	}
	list := v.get(there).body
	if strings.Contains(list, token) || strings.Count(list, "The owner, by letter") != 2 || !strings.Contains(list, ">holds<") {
		t.Errorf("the list is\n%s", list)
	}
	revoke := regexp.MustCompile(regexp.QuoteMeta(there) + `/([^/"]+)/revoke`).FindStringSubmatch(list)
	if got := v.post(revoke[0], nil); got.status != http.StatusSeeOther {
		t.Fatalf("revoking is answered %d", got.status)
	}
	if got := owner.get("/quotes/" + d.yard.Quote + "/1"); got.status != http.StatusNotFound {
		t.Errorf("after revoking the estimate is answered %d", got.status)
	}
	if body := v.get(there + "?done=revoked").body; !strings.Contains(body, ">revoked<") || !strings.Contains(body, "The link was revoked") {
		t.Errorf("after revoking the list is\n%s", body)
	}
	short := madeLink.FindStringSubmatch(v.post(there, sends("b", "name", "x", "until", d.clock.now().UTC().Format("2006-01-02"))).body)
	if short == nil {
		t.Fatal("a link for today is not made")
	}
	d.clock.moveOn(25 * time.Hour)
	if got := d.visitor(t).get(short[1][strings.Index(short[1], "/enter/"):]); got.status != http.StatusNotFound {
		t.Errorf("a day after its last day a link is answered %d", got.status)
	}
}

// What cannot be a link is refused in words; whoever may end links ends none of the yard's own.
func TestPrivateLinksThatAreRefused(t *testing.T) {
	d := newDesk(t, "")
	v := d.in(t, auth.Estimator)
	there := "/jobs/" + d.yard.Job + "/links"
	for _, c := range []struct{ name, until, says string }{
		{"", "2999-01-01", `href="#name"`}, {"x", "", `href="#until"`}, {"x", "tomorrow", `href="#until"`}, {"x", "2020-01-01", "a day to come"}, {strings.Repeat("x", 201), "2999-01-01", `href="#name"`},
	} {
		got := v.post(there, sends("a", "name", c.name, "until", c.until))
		if got.status != http.StatusUnprocessableEntity || !strings.Contains(got.body, c.says) || strings.Contains(got.body, auth.Prefix) {
			t.Errorf("%q until %q is answered %d\n%s", c.name, c.until, got.status, got.body)
		}
	}
	lead, err := d.Who(t.Context(), d.token(auth.Lead))
	if err != nil {
		t.Fatal(err)
	}
	other, _, _ := d.otherJob(t)
	owner, err := d.Who(t.Context(), d.token(auth.Owner))
	if err != nil {
		t.Fatal(err)
	}
	for _, path := range []string{there + "/" + lead.TokenID + "/revoke", "/jobs/" + other + "/links/" + owner.TokenID + "/revoke", there + "/none/revoke"} {
		if got := v.post(path, nil); got.status != http.StatusNotFound {
			t.Errorf("%s is answered %d", path, got.status)
		}
	}
	for _, role := range []auth.Role{auth.Accountant, auth.Owner} {
		if got := d.in(t, role).get(there); got.status != http.StatusNotFound {
			t.Errorf("the %s sees the links: %d", role, got.status)
		}
	}
}

// The operation that makes a token answers the link too, at the address that people come by.
func TestTheAPIAnswersTheLink(t *testing.T) {
	d := newDesk(t, "https://yard.example")
	got := d.visitor(t).do(http.MethodPost, "/api/v1/tokens", strings.NewReader(`{"name":"the owner","role":"owner","job":"`+d.yard.Job+`"}`),
		http.Header{"Authorization": {"Bearer " + d.token(auth.Lead)}, "Content-Type": {"application/json"}, "Idempotency-Key": {"a-key-of-this-test"}})
	var made struct{ Text, Link string }
	if err := json.Unmarshal([]byte(got.body), &made); err != nil || got.status != http.StatusCreated {
		t.Fatalf("%d %s", got.status, got.body)
	}
	if made.Text == "" || made.Link != "https://yard.example/enter/"+made.Text {
		t.Errorf("the answer holds %+v", made)
	}
}

// An estimate is turned down once; after that it is neither accepted nor offered, and both pages say who said so.
func TestTurningDown(t *testing.T) {
	d := newDesk(t, "")
	lead, owner := d.in(t, auth.Lead), d.in(t, auth.Owner)
	there := "/quotes/" + d.yard.Quote + "/1"
	if got := lead.post(there+"/decline", sends("a")); got.status != http.StatusUnprocessableEntity || !strings.Contains(got.body, `href="#name"`) {
		t.Errorf("without a name: %d\n%s", got.status, got.body)
	}
	for range 2 {
		if got := lead.post(there+"/decline", sends("b", "name", "E. Quillfeather", "reason", "Too dear")); got.status != http.StatusSeeOther {
			t.Fatalf("turning down is answered %d\n%s", got.status, got.body)
		}
	}
	for _, v := range []*visitor{owner, lead} {
		body := v.get(there).body
		if !strings.Contains(body, "entered by the yard for E. Quillfeather: “Too dear”") || strings.Contains(body, there+"/accept") || strings.Contains(body, there+"/decline") {
			t.Errorf("after that the page is\n%s", body)
		}
	}
	if got := owner.get(there + "/accept"); got.status != http.StatusConflict || !strings.Contains(got.body, "turned down") {
		t.Errorf("what was turned down is offered: %d\n%s", got.status, got.body)
	}
	if got := owner.get(there + "/accept"); !strings.Contains(got.body, `href="`+there+`"`) {
		t.Errorf("the fault does not lead back:\n%s", got.body)
	}
	if got := d.in(t, auth.Accountant).get(there + "/decline"); got.status != http.StatusNotFound {
		t.Errorf("an accountant may turn down: %d", got.status)
	}
}

// What the yard enters for the owner is said as the yard's, before and after.
func TestAcceptanceEnteredByTheYard(t *testing.T) {
	d := newDesk(t, "")
	lead, owner := d.in(t, auth.Lead), d.in(t, auth.Owner)
	there := "/quotes/" + d.yard.Quote + "/1"
	form := sends("a", "option", d.yard.Options[0], "name", "E. Quillfeather")
	check := lead.post(there+"/accept/check", form)
	if !strings.Contains(check.body, "enter for the owner that <strong>E. Quillfeather</strong> accepts") || !strings.Contains(check.body, "Check before the owner accepts") || strings.Contains(check.body, "You, ") {
		t.Errorf("the check says\n%s", check.body)
	}
	if body := owner.post(there+"/accept/check", form).body; !strings.Contains(body, "You, <strong>E. Quillfeather</strong>, are about to accept") {
		t.Errorf("the owner's check says\n%s", body)
	}
	if got := lead.post(there+"/accept", form); got.status != http.StatusSeeOther {
		t.Fatalf("entering is answered %d\n%s", got.status, got.body)
	}
	for _, v := range []*visitor{owner, lead} {
		if body := v.get(there).body; !strings.Contains(body, ", entered by the yard for E. Quillfeather: option") {
			t.Errorf("the page does not say who entered it:\n%s", body)
		}
	}
	if got := owner.get(there + "/accept"); !strings.Contains(got.body, "entered by the yard for E. Quillfeather") {
		t.Errorf("the fault does not say who entered it:\n%s", got.body)
	}
}

// A name too long is told before the page with the amount, and a missing option in words an owner reads.
func TestNamesThatAreTooLong(t *testing.T) {
	d := newDesk(t, "")
	owner := d.in(t, auth.Owner)
	there := "/quotes/" + d.yard.Quote + "/1"
	long := sends("a", "option", d.yard.Options[0], "name", strings.Repeat("é", 201))
	for _, path := range []string{"/accept/check", "/accept"} {
		got := owner.post(there+path, long)
		if got.status != http.StatusUnprocessableEntity || !strings.Contains(got.body, "201 characters, at most 200") {
			t.Errorf("%s with a long name is answered %d\n%s", path, got.status, got.body)
		}
		got = owner.post(there+path, sends("b", "option", "none", "name", "E. Quillfeather"))
		if got.status != http.StatusUnprocessableEntity || !strings.Contains(got.body, "choose the one that you accept") || strings.Contains(got.body, "the id of") {
			t.Errorf("%s without an option is answered %d\n%s", path, got.status, got.body)
		}
	}
	if body := owner.get(there + "/accept").body; !strings.Contains(body, `maxlength="200"`) {
		t.Errorf("the field takes longer names:\n%s", body)
	}
}

// Who the yard is stands on the owner's page and on the page of a fault, signed in or not; after accepting the page
// says what comes next, with the terms.
func TestWhomToAskAndWhatComesNext(t *testing.T) {
	d := newDesk(t, "")
	owner := d.in(t, auth.Owner)
	there := "/quotes/" + d.yard.Quote + "/1"
	line := d.demo.Letterhead.Address[0]
	for what, got := range map[string]answered{"estimate": owner.get(there), "fault": owner.get("/none"), "fault for nobody": d.visitor(t).get("/none")} {
		if !strings.Contains(got.body, line) || !strings.Contains(got.body, "<address>") {
			t.Errorf("%s does not say whom to ask:\n%s", what, got.body)
		}
	}
	if body := owner.get(there).body; strings.Contains(body, "What comes next") {
		t.Errorf("before accepting the page says what comes next:\n%s", body)
	}
	d.accept(t, 0)
	body := owner.get(there).body
	if !strings.Contains(body, "What comes next") || strings.Count(body, "Half on acceptance") != 1 {
		t.Errorf("after accepting the page does not say what comes next, or the terms not once:\n%s", body)
	}
}
