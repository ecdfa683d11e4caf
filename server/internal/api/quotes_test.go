package api_test

import (
	"bytes"
	"context"
	"crypto/sha256"
	"encoding/hex"
	"encoding/json"
	"fmt"
	"net/http"
	"strings"
	"testing"
	"time"

	"ribband/seed"
	"ribband/server/internal/auth"
	"ribband/server/internal/store"
)

type revisionAnswer struct {
	Quote        string
	N            int
	Status       string
	Number       string
	SnapshotHash string `json:"snapshot_hash"`
	IssuedDate   string `json:"issued_date"`
	ValidUntil   string `json:"valid_until_date"`
	Faults       []struct{ Code string }
	Priced       struct {
		Options []struct {
			ID    string
			Total struct{ Amount string }
		}
	}
}

// draft makes a quote and is the address of its first revision.
func (d *desk) draft(options ...string) (quote, revision string) {
	d.t.Helper()
	quote = d.send(http.MethodPost, d.job("quotes"), d.quoteFields(options...), d.key()).want(201).header.Get("Location")
	return quote, quote + "/revisions/1"
}

func TestQuotesAreDraftedIssuedAndRevised(t *testing.T) {
	engines(t, func(t *testing.T, p place) {
		d := open(t, p)
		quote, revision := d.draft(d.demo.Options...)
		var draft revisionAnswer
		d.get(revision).want(200).into(&draft)
		if draft.Status != "draft" || draft.Number != "" || len(draft.Priced.Options) != 2 {
			t.Errorf("the draft is %+v", draft)
		}
		d.get(revision+"/snapshot").refused(404, "not-found")

		// The owner sees neither the draft nor that there is a quote.
		owner := d.role(auth.Owner)
		for _, path := range []string{quote, revision, revision + "/estimate.pdf"} {
			owner.get(path).refused(404, "not-found")
		}
		if list := owner.get(d.job("quotes")).want(200); strings.Contains(string(list.body), id(quote)) {
			t.Error("the owner's list shows a quote that was never issued")
		}

		d.clock.set(time.Date(2026, 12, 31, 23, 59, 0, 0, time.UTC))
		key := d.key()
		var issued revisionAnswer
		first := d.send(http.MethodPost, revision+"/issue", nil, key).want(200)
		first.into(&issued)
		if issued.Status != "issued" || issued.Number != "2026-0002" || issued.IssuedDate != "2026-12-31" || issued.ValidUntil != "2027-01-30" {
			t.Errorf("issued as %+v", issued)
		}
		if again := d.send(http.MethodPost, revision+"/issue", nil, key).want(200); !bytes.Equal(first.body, again.body) {
			t.Error("the repeat is answered with other bytes")
		}
		d.send(http.MethodPost, revision+"/issue", nil, d.key()).refused(409, "already-issued")

		frozen := d.get(revision + "/snapshot").want(200)
		sum := sha256.Sum256(frozen.body)
		if got := hex.EncodeToString(sum[:]); got != issued.SnapshotHash || frozen.etag() != `"`+got+`"` {
			t.Errorf("the snapshot hashes to %s, the revision says %s", got, issued.SnapshotHash)
		}

		// The next year begins its own count, and the quote keeps its number.
		d.clock.set(time.Date(2027, 1, 4, 8, 0, 0, 0, time.UTC))
		d.send(http.MethodPost, quote+"/revisions", map[string]any{"version": 1}, d.key(), seen(`"9"`)).refused(412, "version-stale")
		next := d.send(http.MethodPost, quote+"/revisions", map[string]any{"version": 1}, d.key(), seen(`"1"`)).want(201)
		d.send(http.MethodPost, quote+"/revisions", map[string]any{}, d.key()).want(200)
		path := next.header.Get("Location")
		d.send(http.MethodPost, path+"/issue", nil, d.key()).want(200).into(&issued)
		if issued.Number != "2026-0002" || issued.N != 2 {
			t.Errorf("the second revision is issued as %+v", issued)
		}
		var old revisionAnswer
		d.get(revision).want(200).into(&old)
		if old.Status != "superseded" {
			t.Errorf("the first revision is %s", old.Status)
		}
		_, third := d.draft(d.demo.Options[0])
		d.send(http.MethodPost, third+"/issue", nil, d.key()).want(200).into(&issued)
		if issued.Number != "2027-0001" {
			t.Errorf("the first number of the next year is %s", issued.Number)
		}
	})
}

// A snapshot holds every document by value, byte for byte what its hash was taken of, and no binary float.
func TestASnapshotHoldsEverythingByValue(t *testing.T) {
	d := open(t, file(t))
	body := d.get("/api/v1/quotes/" + d.demo.Quote + "/revisions/1/snapshot").want(200).body
	var frozen struct {
		Program   string
		Documents []struct {
			Kind, Hash string
			Body       json.RawMessage
		}
		Takeoffs []struct {
			Figures []json.RawMessage
			BuyList struct{ Cost struct{ Amount string } } `json:"buy_list"`
		}
	}
	if err := json.Unmarshal(body, &frozen); err != nil {
		t.Fatal(err)
	}
	kinds := map[string]int{}
	for _, doc := range frozen.Documents {
		kinds[doc.Kind]++
		sum := sha256.Sum256(doc.Body)
		if got := hex.EncodeToString(sum[:]); got != doc.Hash {
			t.Errorf("the %s in it hashes to %s, it says %s", doc.Kind, got, doc.Hash)
		}
	}
	for kind, want := range map[string]int{"hull": 1, "frames": 1, "remedies": 2, "species": 1, "step-library": 1, "rules": 1, "price-sheet-version": 1} {
		if kinds[kind] != want {
			t.Errorf("%d documents of kind %s, want %d", kinds[kind], kind, want)
		}
	}
	if len(frozen.Takeoffs) != 2 || len(frozen.Takeoffs[0].Figures) == 0 || frozen.Takeoffs[0].BuyList.Cost.Amount == "" || frozen.Program != "test" {
		t.Errorf("the takeoffs are not in it whole")
	}
	numbers := json.NewDecoder(bytes.NewReader(body))
	numbers.UseNumber()
	for {
		token, err := numbers.Token()
		if err != nil {
			break
		}
		if n, is := token.(json.Number); is && strings.ContainsAny(n.String(), ".eE") {
			t.Errorf("the number %s is a binary float for whoever reads it", n)
		}
	}
}

// Days are the yard's clock's in UTC, wherever the machine thinks it stands.
func TestDaysDoNotShiftByZone(t *testing.T) {
	here := time.Local
	defer func() { time.Local = here }()
	for _, name := range []string{"Pacific/Kiritimati", "America/Los_Angeles"} {
		zone, err := time.LoadLocation(name)
		if err != nil {
			t.Fatal(err)
		}
		time.Local = zone
		d := open(t, file(t))
		_, revision := d.draft(d.demo.Options[0])
		d.clock.set(time.Date(2026, 12, 31, 23, 30, 0, 0, time.UTC).In(zone))
		var issued revisionAnswer
		d.send(http.MethodPost, revision+"/issue", nil, d.key()).want(200).into(&issued)
		if issued.IssuedDate != "2026-12-31" || issued.ValidUntil != "2027-01-30" || issued.Number != "2026-0002" {
			t.Errorf("%s: issued as %+v", name, issued)
		}
	}
}

// An offer holds until its last day, and is expired on the next.
func TestAnOfferExpires(t *testing.T) {
	d := open(t, file(t))
	path := "/api/v1/quotes/" + d.demo.Quote + "/revisions/1"
	var got revisionAnswer
	d.get(path).want(200).into(&got)
	last, err := time.Parse(time.DateOnly, got.ValidUntil)
	if err != nil {
		t.Fatal(err)
	}
	for _, c := range []struct {
		at   time.Time
		want string
	}{{last.Add(23 * time.Hour), "issued"}, {last.Add(25 * time.Hour), "expired"}} {
		d.clock.set(c.at)
		if d.get(path).want(200).into(&got); got.Status != c.want {
			t.Errorf("on %s it is %s, want %s", c.at.Format(time.DateOnly), got.Status, c.want)
		}
	}
}

// Nothing of what a thing costs the yard reaches the owner: not by name, not by amount, not on paper.
func TestTheOwnerSeesSellingPricesOnly(t *testing.T) {
	d := open(t, file(t))
	path := "/api/v1/quotes/" + d.demo.Quote + "/revisions/1"
	told := string(d.role(auth.Owner).get(path).want(200).body)
	for _, word := range []string{"cost", "markup", "margin", "rate_per", "supplier", "Sawmill", "bases", "faults", "wage"} {
		if strings.Contains(told, word) {
			t.Errorf("the owner's answer holds %q", word)
		}
	}
	var yard struct {
		Priced struct {
			Options []struct {
				Cost  struct{ Amount string }
				Lines []struct {
					Cost, Price struct{ Amount string }
				}
			}
		}
	}
	d.get(path).want(200).into(&yard)
	var costs []string
	for _, o := range yard.Priced.Options {
		costs = append(costs, o.Cost.Amount)
		for _, l := range o.Lines {
			if l.Cost != l.Price {
				costs = append(costs, l.Cost.Amount)
			}
		}
	}
	if len(costs) < 3 {
		t.Fatalf("the yard sees %d costs", len(costs))
	}
	for _, c := range costs {
		if strings.Contains(told, `"`+c+`"`) {
			t.Errorf("the owner's answer holds the cost %s", c)
		}
	}
	d.role(auth.Owner).get(path+"/snapshot").refused(403, "role-not-allowed")
	onPaper(t, d.role(auth.Owner).get(path+"/estimate.pdf").want(200).body, func(t *testing.T, text string) {
		for _, c := range costs {
			if strings.Contains(text, grouped(c)) {
				t.Errorf("the estimate holds the cost %s", c)
			}
		}
	})
}

// A draft whose documents have moved is not issued; the answer names what moved, and a new revision is the way on.
func TestADraftOnOldDocumentsIsNotIssued(t *testing.T) {
	engines(t, func(t *testing.T, p place) {
		d := open(t, p)
		quote, revision := d.draft(d.demo.Options[0])
		before := d.get(revision).want(200).body
		d.send(http.MethodPut, d.option(0, "remedies"), replace(14, 15), seen(`"1"`)).want(200)
		d.send(http.MethodPut, d.job("hull"), d.document(d.job("hull")), seen(`"1"`)).want(200)
		if !bytes.Equal(d.get(revision).want(200).body, before) {
			t.Error("the draft changed with documents that it does not rest on")
		}
		rows := d.rows()
		pr := d.send(http.MethodPost, revision+"/issue", nil, d.key()).refused(412, "basis-moved")
		if len(pr.Moved) != 2 || pr.Moved[0].Kind != "hull" || pr.Moved[1].Kind != "remedies" || pr.Moved[1].Was != 1 || pr.Moved[1].Is != 2 {
			t.Errorf("moved %+v", pr.Moved)
		}
		if after := d.rows(); !equal(rows, after) {
			t.Errorf("something was stored: %v, then %v", rows, after)
		}
		d.send(http.MethodPost, quote+"/revisions", map[string]any{}, d.key()).want(200)
		d.send(http.MethodPost, revision+"/issue", nil, d.key()).want(200)
	})
}

// While a laminate is too thick for its bend nothing is issued, and every fault is told.
func TestFaultsStopIssuing(t *testing.T) {
	d := open(t, file(t))
	d.knowRules(d.thick())
	option := d.send(http.MethodPost, d.job("options"), map[string]any{"name": "Too thick"}, d.key()).want(201).header.Get("Location")
	d.send(http.MethodPut, option+"/remedies", replace(14, 15), firstPut).want(201)
	var got takeoffAnswer
	d.get(option + "/takeoff").want(200).into(&got)
	if len(got.Faults) == 0 || got.Faults[0].Code != "laminate_too_thick" || got.Faults[0].Fix == "" {
		t.Fatalf("the takeoff carries %+v", got.Faults)
	}
	_, revision := d.draft(id(option))
	rows := d.rows()
	p := d.send(http.MethodPost, revision+"/issue", nil, d.key()).refused(409, "takeoff-faults")
	if len(p.Errors) != len(got.Faults) {
		t.Errorf("%d faults stop it, the takeoff has %d", len(p.Errors), len(got.Faults))
	}
	if after := d.rows(); !equal(rows, after) {
		t.Errorf("something was stored: %v, then %v", rows, after)
	}
}

// knowRules publishes rules, as an issue to come will let the yard do.
func (d *desk) knowRules(rules map[string]any) {
	d.t.Helper()
	yards, err := d.store.Yards(d.t.Context())
	if err != nil {
		d.t.Fatal(err)
	}
	_, _, err = d.store.Write(d.t.Context(), store.Request{Yard: yards[0].ID, Action: "publish rules"},
		func(ctx context.Context, tx *store.Tx) (store.Answer, error) {
			_, err := tx.PutDocument(ctx, store.Document{Kind: "rules", ID: "yard", Schema: 1, Body: bytesOf(d.t, rules)}, 1)
			return store.Answer{}, err
		})
	if err != nil {
		d.t.Fatal(err)
	}
}

func TestEveryFaultOfAQuoteIsTold(t *testing.T) {
	d := open(t, file(t))
	bad := terms()
	bad["markup"] = map[string]any{"timber": "1e9"}
	bad["valid_days"] = 0
	fields := map[string]any{"options": []string{nobody, d.demo.Options[0], d.demo.Options[0]}, "sheet": nobody, "version": 1, "terms": bad}
	p := d.send(http.MethodPost, d.job("quotes"), fields, d.key()).refused(422, "document-faults")
	want := "/options/0 /options/2 /sheet /terms/markup/timber /terms/valid_days"
	if got := strings.Join(p.pointers(), " "); got != want {
		t.Errorf("faults at %s, want %s", got, want)
	}
	draftOnly := d.newSheet()
	d.send(http.MethodPut, draftOnly+"/versions/1", seed.PricesCSV(1), asCSV, firstPut).want(201)
	fields = d.quoteFields(d.demo.Options[0])
	fields["sheet"], fields["version"] = id(draftOnly), 1
	if p := d.send(http.MethodPost, d.job("quotes"), fields, d.key()).refused(422, "document-faults"); p.Errors[0].Pointer != "/version" {
		t.Errorf("faults %+v", p.Errors)
	}
	// An option that has nothing to do yet can be named by no quote.
	empty := d.send(http.MethodPost, d.job("options"), map[string]any{"name": "Empty"}, d.key()).want(201).header.Get("Location")
	d.send(http.MethodPost, d.job("quotes"), d.quoteFields(id(empty)), d.key()).refused(409, "documents-missing")
	d.send(http.MethodPost, "/api/v1/quotes/"+d.demo.Quote+"/revisions", map[string]any{"options": []string{id(empty)}}, d.key()).refused(409, "documents-missing")
}

// An amount beyond what is carried is told by what it is the price of, in a quote, a draft made anew, and prices that
// are looked at.
func TestAPriceBeyondWhatIsCarriedIsNamed(t *testing.T) {
	d := open(t, file(t))
	dear := bytes.Replace(seed.PricesCSV(2), []byte("shipwright,Shipwright's hour (invented rate),labour,,HUR,48.50"), []byte("shipwright,,labour,,HUR,999999999999"), 1)
	if bytes.Equal(dear, seed.PricesCSV(2)) {
		t.Fatal("the demo's prices have no such row")
	}
	fields := d.quoteFields(d.demo.Options[0])
	fields["sheet"], fields["version"] = id(d.sheetOf(dear)), 1
	for _, a := range []answer{
		d.send(http.MethodPost, d.job("quotes"), fields, d.key()),
		d.send(http.MethodPost, "/api/v1/quotes/"+d.demo.Quote+"/revisions", map[string]any{"sheet": fields["sheet"], "version": 1}, d.key()),
	} {
		p := a.refused(409, "cannot-be-computed")
		if len(p.Errors) == 0 {
			t.Fatalf("nothing is listed: %s", p.Detail)
		}
		for _, e := range p.Errors {
			for _, want := range []string{"shipwright", "999999999999 USD", "below 1000000000000"} {
				if !strings.Contains(e.Detail, want) {
					t.Errorf("%q does not say %q", e.Detail, want)
				}
			}
		}
	}
	d.get("/api/v1/quotes/"+d.demo.Quote+"/revisions/1/repriced?version=1&sheet="+id(d.sheetOf(dear))).refused(409, "cannot-be-computed")
}

// Issuing at once from many hands leaves one issued revision and no gap in the numbers.
func TestManyHandsIssueOnce(t *testing.T) {
	engines(t, func(t *testing.T, p place) {
		d := open(t, p)
		_, revision := d.draft(d.demo.Options[0])
		const hands = 8
		results := make(chan answer, hands)
		for i := range hands {
			go func() {
				results <- d.send(http.MethodPost, revision+"/issue", nil, header{"Idempotency-Key", fmt.Sprintf("hand %d", i)})
			}()
		}
		issued := 0
		for range hands {
			if a := <-results; a.status == 200 {
				issued++
			} else {
				a.refused(409, "already-issued")
			}
		}
		if issued != 1 {
			t.Errorf("%d hands issued it", issued)
		}
		var last int
		if err := d.raw.QueryRow("SELECT last FROM counters WHERE series = 'quote' AND year = 2026").Scan(&last); err != nil || last != 2 {
			t.Errorf("the last number of the year is %d (%v), want 2", last, err)
		}
	})
}
