package web_test

import (
	"strings"
	"testing"

	"github.com/chromedp/chromedp"

	"ribband/server/internal/auth"
)

// atWidths walks a path on a screen and on a phone.
func atWidths(t *testing.T, name string, walk func(*testing.T, *tab)) {
	inBrowser(t)
	for _, width := range []int64{screen, phone} {
		walk(t, newTab(t, newDesk(t, ""), name, width))
	}
}

// The lead signs in, finds the job, reads materials and hours and the quote, and signs out.
func TestTheYardsPath(t *testing.T) {
	atWidths(t, "yard", func(t *testing.T, b *tab) {
		b.open("/")
		b.look("signed out")
		b.open("/enter/" + b.desk.token(auth.Lead))
		b.look("sign in")
		b.press("button.main")
		b.look("jobs")
		b.press("tbody a")
		b.look("job")
		b.pressText("Materials and hours of option A")
		b.look("materials and hours")
		ask[int](b, "document.querySelectorAll('#materials + div > details:first-of-type, #hours + div > details:first-of-type, #each + div > details:first-of-type, #each + div > details:first-of-type details').forEach(d => d.open = true), 0")
		b.look("materials and hours opened")
		b.press(".how a")
		b.look("one figure")
		b.open("/jobs/" + b.desk.yard.Job)
		b.pressText("Revision 1")
		b.look("quote")
		b.pressText("Enter an acceptance for the owner")
		b.look("acceptance by the yard")
		b.do(chromedp.Click("input[type=radio]"), chromedp.SendKeys("#name", "E. Quillfeather"))
		b.press("form button.main")
		b.look("check of the yard")
		b.open("/quotes/" + b.desk.yard.Quote + "/1/decline")
		b.look("turning down")
		b.open("/jobs/" + b.desk.yard.Job)
		b.pressText("Private links of the owner")
		b.look("private links")
		b.press("main form button.main")
		b.look("private link made")
		b.pressText("To the private links")
		b.press("td form button")
		b.look("private link revoked")
		b.press(".out button")
		if at := ask[string](b, "document.querySelector('h1').textContent"); at != "Ribband" {
			t.Errorf("after signing out the page is %q", at)
		}
	})
}

// The owner signs in, reads the estimate, and accepts an option after looking at the amount once more.
func TestTheOwnersPath(t *testing.T) {
	atWidths(t, "owner", func(t *testing.T, b *tab) {
		b.enter(auth.Owner)
		b.look("estimate")
		ask[int](b, "document.querySelectorAll('details').forEach(d => d.open = true), 0")
		b.look("estimate opened")
		b.pressText("Accept an option")
		b.look("accept")
		b.press("form button.main")
		b.look("accept with nothing chosen")
		b.do(chromedp.Click("input[type=radio]"), chromedp.SendKeys("#name", "E. Quillfeather"))
		b.press("form button.main")
		b.look("check before accepting")
		b.pressText("Change it first")
		if at := ask[string](b, "document.querySelector('#name').value"); at != "E. Quillfeather" {
			t.Errorf("going back loses the name: %q", at)
		}
		b.press("form button.main")
		b.press("form button.main")
		b.look("accepted")
		if said := ask[string](b, "document.querySelector('.done').textContent"); !strings.Contains(said, "E. Quillfeather") || !strings.Contains(said, b.desk.total(t, 0)) {
			t.Errorf("after accepting the page says %q", said)
		}
	})
}

// The accountant signs in, finds nothing accepted, enters a row that is wrong and puts it right, imports a table in
// three steps, and reads quoted against spent, what moved between two price sheets, and the quote on the older one.
func TestTheAccountantsPath(t *testing.T) {
	atWidths(t, "accountant", func(t *testing.T, b *tab) {
		d := b.desk
		b.enter(auth.Accountant)
		b.press("tbody a")
		b.pressText("Quoted and spent")
		b.look("nothing accepted")
		d.accept(t, 0)
		b.open("/jobs/" + d.yard.Job)
		b.pressText("What was spent")
		b.look("nothing spent")
		b.pressText("Enter one row")
		b.press("form button.main")
		b.look("entry with faults")
		b.do(chromedp.SendKeys("#date", today()), chromedp.SendKeys("#supplier", "Hollow Oak Sawmill (invented)"), chromedp.SendKeys("#document", "H-204"),
			chromedp.SendKeys("#line", "1"), chromedp.SendKeys("#item", "white_oak FAS"), chromedp.SendKeys("#amount", "2345.60"), chromedp.SendKeys("#tax", "140.74"))
		b.press("form button.main")
		b.look("spent")
		b.pressText("Import a table")
		b.look("import")
		b.do(chromedp.SetUploadFiles("#table", []string{spendTable(t)}))
		b.press("form button.main")
		b.look("import read")
		b.press("form button.main")
		b.look("import done")
		b.pressText("To what was spent")
		b.pressText("Quoted and spent")
		b.look("reconciliation")
		ask[int](b, "document.querySelectorAll('details').forEach(d => d.open = true), 0")
		b.look("reconciliation opened")
		b.open("/price-sheets")
		b.look("price sheets")
		b.pressText("against version 1")
		b.look("price sheets compared")
		b.open("/quotes/" + d.yard.Quote + "/1")
		b.pressText("version 1 of")
		b.look("repriced")
	})
}

// An owner of an estimate that was revised reads that it was, and compares any two of three options.
func TestTheOwnersPathThroughThreeOptions(t *testing.T) {
	inBrowser(t)
	d := newDesk(t, "")
	d.thirdOption(t)
	for _, width := range []int64{screen, phone} {
		b := newTab(t, d, "three", width)
		b.enter(auth.Owner)
		b.look("estimate of three")
		b.do(chromedp.SetValue("#second", ask[string](b, "document.querySelector('#second').options[2].value")))
		b.pressText("Compare the two")
		b.look("two of three")
		b.open("/quotes/" + d.yard.Quote + "/1")
		b.look("superseded")
		b.pressText("Read the later revision")
		if at := ask[string](b, "location.pathname"); !strings.HasSuffix(at, "/2") {
			t.Errorf("the later revision is at %s", at)
		}
	}
}
