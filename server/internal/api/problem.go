package api

import (
	"context"
	"encoding/json"
	"errors"
	"fmt"
	"net/http"
	"strconv"
	"strings"
	"time"

	"ribband/pricing/buy"
	"ribband/pricing/money"
	"ribband/pricing/pack"
	"ribband/pricing/quote"
	"ribband/pricing/reconcile"
	"ribband/pricing/sheet"
	"ribband/server/internal/app"
	"ribband/server/internal/store"
	"ribband/takeoff/bill"
	"ribband/takeoff/boat"
	"ribband/takeoff/document"
)

// problemPrefix stands before the name of every problem's type.
const problemPrefix = "urn:ribband:problem:"

// problem is an error as it is told (RFC 9457).
type problem struct {
	Type           string         `json:"type"`
	Title          string         `json:"title"`
	Status         int            `json:"status"`
	Detail         string         `json:"detail"`
	RequestID      string         `json:"request_id"`
	CurrentVersion *int64         `json:"current_version,omitempty"`
	Errors         []problemError `json:"errors,omitempty"`
	Moved          []app.Moved    `json:"moved,omitempty"`

	retryAfter time.Duration
}

// problemError is one thing that is wrong.
type problemError struct {
	Pointer string `json:"pointer,omitempty"`
	// Parameter of the query that it is about.
	Parameter string       `json:"parameter,omitempty"`
	Row       int          `json:"row,omitempty"`
	Column    int          `json:"column,omitempty"`
	Detail    string       `json:"detail"`
	Fix       string       `json:"fix"`
	Code      string       `json:"code,omitempty"`
	Member    *boat.Member `json:"member,omitempty"`
	Figure    string       `json:"figure,omitempty"`
	Limit     *bill.Limit  `json:"limit,omitempty"`
}

// class of problem: its name, status and title.
type class struct {
	name   string
	status int
	title  string
}

func (s class) say(detail string, args ...any) *problem {
	if len(args) > 0 {
		detail = fmt.Sprintf(detail, args...)
	}
	return &problem{Type: problemPrefix + s.name, Title: s.title, Status: s.status, Detail: detail}
}

// as is the same class under another status.
func (s class) as(status int) class { s.status = status; return s }

// Every class of problem there is; the contract lists the same.
var (
	malformedRequest = class{"malformed-request", 400, "The request cannot be read"}
	keyMissing       = class{"idempotency-key-missing", 400, "An Idempotency-Key is needed"}
	tokenMissing     = class{"token-missing", 401, "A token is needed"}
	roleNotAllowed   = class{"role-not-allowed", 403, "This role does not do that"}
	notFound         = class{"not-found", 404, "There is nothing here"}
	methodNotAllowed = class{"method-not-allowed", 405, "This cannot be done here"}
	documentsMissing = class{"documents-missing", 409, "A document is missing"}
	notComputable    = class{"cannot-be-computed", 409, "The documents do not go together"}
	memberInUse      = class{"member-in-use", 409, "An option names what would be gone"}
	takeoffFaults    = class{"takeoff-faults", 409, "It cannot be built as it stands"}
	notPrintable     = class{"cannot-be-printed", 409, "It cannot be printed as it stands"}
	alreadyIssued    = class{"already-issued", 409, "What is issued stands"}
	alreadyPublished = class{"already-published", 409, "What is published stands"}
	notPublished     = class{"not-published", 409, "This version is still a draft"}
	alreadyAccepted  = class{"already-accepted", 409, "A quote is accepted once"}
	notOpen          = class{"not-open", 409, "Nothing is decided on this revision"}
	nothingAccepted  = class{"nothing-accepted", 409, "There is nothing to hold spend against"}
	currenciesDiffer = class{"currencies-differ", 409, "Two currencies do not compare"}
	currencyStays    = class{"currency-stays", 409, "The currency of this job stands"}
	versionOrder     = class{"version-out-of-order", 409, "Versions follow one another"}
	versionStale     = class{"version-stale", 412, "Another version stands"}
	basisMoved       = class{"basis-moved", 412, "What the draft rests on has changed"}
	tooLarge         = class{"too-large", 413, "The body is too large"}
	wrongMediaType   = class{"unsupported-media-type", 415, "This kind of body is not taken"}
	documentFaults   = class{"document-faults", 422, "The document has faults"}
	keyReused        = class{"idempotency-key-reused", 422, "The key was used for another request"}
	pricesMissing    = class{"prices-missing", 422, "Prices are missing"}
	versionRequired  = class{"version-required", 428, "The change names no version"}
	internal         = class{"internal", 500, "The server failed"}
	unavailable      = class{"unavailable", 503, "The server cannot answer now"}
)

// classes lists them all.
var classes = []class{
	malformedRequest, keyMissing, tokenMissing, roleNotAllowed, notFound, methodNotAllowed, documentsMissing, notComputable, memberInUse, takeoffFaults, notPrintable, alreadyIssued, alreadyPublished, notPublished, alreadyAccepted, notOpen, nothingAccepted, currenciesDiffer, currencyStays, versionOrder, versionStale, basisMoved, tooLarge, wrongMediaType, documentFaults, keyReused, pricesMissing, versionRequired, internal, unavailable,
}

// errRow turns errors of one type into a problem.
type errRow func(err error) *problem

func on[E error](say func(E) *problem) errRow {
	return func(err error) *problem {
		var e E
		if errors.As(err, &e) {
			return say(e)
		}
		return nil
	}
}

// table says which error is which problem; the first row that knows the error has it. What no row knows is internal.
var table = []errRow{
	on(func(e *problem) *problem { return e }),
	on(func(e *malformed) *problem { return malformedRequest.say("%s", e.detail) }),
	on(func(e *http.MaxBytesError) *problem { return tooLarge.say("A body may have %d bytes.", e.Limit) }),
	on(func(e *app.FaultyTwinError) *problem { return twinFaults(e) }),
	on(func(e *app.ComputeError) *problem { return withFaults(notComputable, "", e.Faults) }),
	on(func(e *sheet.MissingPriceError) *problem { return missingPrices(e) }),
	on(func(e *queryFaults) *problem { return faultsOfQuery(e) }),
	on(func(e document.Faults) *problem { return withFaults(documentFaults, "; nothing was stored", e) }),
	on(func(e *app.QuestionError) *problem {
		p := malformedRequest.say("%s. What is taken: %s.", capital(e.Detail), e.Fix)
		p.Errors = []problemError{{Parameter: e.Parameter, Detail: e.Detail, Fix: e.Fix}}
		return p
	}),
	on(func(e *app.UnknownDrawingError) *problem { return noDrawing(e) }),
	on(func(e *app.MissingDocumentError) *problem {
		return documentsMissing.say("%s: %s.", capital(e.What), e.Fix)
	}),
	on(func(e *app.MemberInUseError) *problem { return membersInUse(e) }),
	on(func(e *app.FaultyTakeoffError) *problem { return faultyTakeoff(e) }),
	on(func(e *app.UnprintableError) *problem { return withFaults(notPrintable, "", e.Faults) }),
	on(func(e *app.BasisMovedError) *problem { return basisHasMoved(e) }),
	on(func(e *app.CurrencyStaysError) *problem {
		return currencyStays.say("The job has quotes or spend in %s, so it does not change to %s. Open a job of its own for %s.", e.Is, e.Asked, e.Asked)
	}),
	on(func(e *app.PublishedError) *problem {
		return alreadyPublished.say("Version %d is published and stands. Put the next version.", e.N)
	}),
	on(func(e *app.NotPublishedError) *problem {
		return notPublished.say("Version %d is still a draft. Publish it, or name a published one.", e.N)
	}),
	on(func(e *app.AcceptedError) *problem {
		return alreadyAccepted.say("Revision %d was accepted on %s, and a quote is accepted once. What comes on top of it is a new quote.", e.Decision.Revision, e.Decision.Date)
	}),
	on(func(e *app.NotOpenError) *problem { return closed(e) }),
	on(func(e *app.NothingAcceptedError) *problem {
		if e.Several > 0 {
			return nothingAccepted.say("%d quotes of this job are accepted. Name one in the query parameter quote.", e.Several)
		}
		return nothingAccepted.say("No option is accepted yet. Wait for the owner, or name an issued estimate with quote, revision and option.")
	}),
	on(func(e *quote.CurrencyError) *problem { return twoCurrencies(e.Job, e.Sheet) }),
	on(func(e *sheet.CurrencyError) *problem { return twoCurrencies(string(e.Old), string(e.New)) }),
	on(func(e *money.MixedError) *problem { return twoCurrencies(string(e.Left), string(e.Right)) }),
	on(func(e *quote.FootingError) *problem { return unsound(e) }),
	on(func(e *quote.BasisError) *problem { return unsound(e) }),
	on(func(e *buy.NeedError) *problem { return notComputable.say("It cannot be bought as it stands: %s.", e) }),
	on(func(e *buy.ShortBoardsError) *problem {
		return notComputable.say("It cannot be bought as it stands: %s.", e)
	}),
	on(func(e *pack.ShortError) *problem {
		return notComputable.say("It cannot be bought as it stands: %s.", e)
	}),
	on(func(e *reconcile.TwiceError) *problem { return notComputable.say("%s.", capital(e.Error())) }),
	on(func(e *money.RangeError) *problem { return notComputable.say("%s.", capital(e.Error())) }),
	on(func(e *app.VersionOrderError) *problem {
		return versionOrder.say("Version %d cannot be begun: the next version of this sheet is %d.", e.N, e.Next)
	}),
	on(func(e *store.StaleError) *problem { return stale(e.Seen, e.Current) }),
	on(func(e *store.ExistsError) *problem { return stale(0, e.Current) }),
	on(func(*store.UnseenError) *problem {
		return versionRequired.say("Send If-Match with the ETag that was read, or If-None-Match: * the first time.")
	}),
	on(func(e *store.KeyReusedError) *problem {
		return keyReused.say("This Idempotency-Key made something else before. Use a new key for a new request.")
	}),
	on(func(e *store.ImmutableError) *problem {
		return alreadyIssued.say("This revision is issued and stands. Make a new revision.")
	}),
	on(func(*store.NotFoundError) *problem { return nothingHere() }),
	on(func(e *store.CursorError) *problem {
		return malformedRequest.say("The cursor was not given out by this list. Begin again without one.")
	}),
	on(func(e *store.TextError) *problem { return documentFaults.say("%s.", capital(e.Error())) }),
	on(func(e *store.UnavailableError) *problem { return later("The database does not answer.", e.RetryAfter) }),
	on(func(e *store.BusyError) *problem { return later("Others are writing at the moment.", e.RetryAfter) }),
	func(err error) *problem {
		if errors.Is(err, context.DeadlineExceeded) || errors.Is(err, context.Canceled) {
			return later("The work was not done in time.", 5*time.Second)
		}
		return nil
	},
}

// problemOf is what an error is told as.
func problemOf(err error) *problem {
	for _, row := range table {
		if p := row(err); p != nil {
			return p
		}
	}
	return internal.say("Something went wrong that should not have. Tell the yard's keeper the request_id: the log has more.")
}

func (p *problem) Error() string { return p.Detail }

// nothingHere is the one answer for what is not there and for what is somebody else's.
func nothingHere() *problem {
	return notFound.say("Look at the address, and at the list it came from.")
}

func later(why string, wait time.Duration) *problem {
	seconds := max(1, int(wait.Round(time.Second)/time.Second))
	p := unavailable.say("%s Try again in %d seconds.", why, seconds)
	p.retryAfter = time.Duration(seconds) * time.Second
	return p
}

func stale(seen, current int64) *problem {
	var p *problem
	switch {
	case current == 0:
		p = versionStale.say("Nothing stands here yet, version %d was named. Send If-None-Match: * to put the first.", seen)
	case seen == 0:
		p = versionStale.say("Version %d stands here already. Read it, and send If-Match with its ETag.", current)
	default:
		p = versionStale.say("Version %d stands, version %d was named. Read it again and repeat the change on it.", current, seen)
	}
	p.CurrentVersion = &current
	return p
}

// closed says why nothing can be decided on a revision.
func closed(e *app.NotOpenError) *problem {
	switch {
	case e.ValidUntilDate != "":
		return notOpen.say("Revision %d held until %s. A new revision is needed.", e.N, e.ValidUntilDate)
	case e.Newest > e.N:
		return notOpen.say("Revision %d stands in the place of revision %d. Decide on that one.", e.Newest, e.N)
	}
	if e.Newest == 0 {
		return notOpen.say("Revision %d is still a draft. It has to be issued first.", e.N)
	}
	return notOpen.say("Revision %d was declined. A new revision is needed.", e.N)
}

// unsound is what this program would not have kept: somebody has been at the database, or the program is wrong.
func unsound(err error) *problem {
	return internal.say("What is kept does not add up, so nothing is made of it: %s. Tell the yard's keeper the request_id.", err)
}

func twoCurrencies(a, b string) *problem {
	return currenciesDiffer.say("One is in %s and the other in %s, and nothing is exchanged here.", a, b)
}

func withFaults(s class, and string, faults document.Faults) *problem {
	p := s.say("%s %s wrong%s. %s listed with what would be right.", things(len(faults), "thing"), are(len(faults)), and, each(len(faults)))
	for _, f := range faults {
		p.Errors = append(p.Errors, problemError{Pointer: f.Pointer, Row: f.Row, Column: f.Column, Detail: f.Detail, Fix: f.Fix})
	}
	return p
}

// things is a number of things in words.
func things(n int, one string) string {
	if n == 1 {
		return "1 " + one
	}
	return strconv.Itoa(n) + " " + one + "s"
}

func are(n int) string {
	if n == 1 {
		return "is"
	}
	return "are"
}

func each(n int) string {
	if n == 1 {
		return "It is"
	}
	return "Each is"
}

func twinFaults(e *app.FaultyTwinError) *problem {
	p := takeoffFaults.as(422).say("%s cannot be built as the papers stand, so there is no bill.", things(len(e.Faults), "thing"))
	for _, f := range e.Faults {
		row := faultRow(f.Fault)
		row.Pointer = f.Pointer
		p.Errors = append(p.Errors, row)
	}
	return p
}

func faultyTakeoff(e *app.FaultyTakeoffError) *problem {
	p := takeoffFaults.say("%s cannot be built as the papers stand. Change the remedies or the frames, make a new revision, and issue that.", things(len(e.Faults), "thing"))
	for _, f := range e.Faults {
		p.Errors = append(p.Errors, faultRow(f))
	}
	return p
}

func faultRow(f bill.Fault) problemError {
	return problemError{Detail: f.Detail, Fix: f.Fix, Code: f.Code, Member: f.Member, Figure: f.Figure, Limit: f.Limit}
}

func basisHasMoved(e *app.BasisMovedError) *problem {
	var kinds []string
	for _, m := range e.Moved {
		kinds = append(kinds, strings.ReplaceAll(m.Kind, "-", " "))
	}
	p := basisMoved.say("What the draft rests on has another version now: %s. Make a new revision, look at it, and issue that.", strings.Join(kinds, ", "))
	p.Moved = e.Moved
	return p
}

func membersInUse(e *app.MemberInUseError) *problem {
	p := memberInUse.say("%s that options name would be gone. Take what is named out of the options' remedies first.", things(len(e.Uses), "frame"))
	for _, u := range e.Uses {
		m := u.Member
		p.Errors = append(p.Errors, problemError{Member: &m, Detail: fmt.Sprintf("%s is named by the option %s", m, u.Name),
			Fix: "take it out of the remedies of option " + u.Option})
	}
	return p
}

func missingPrices(e *sheet.MissingPriceError) *problem {
	p := pricesMissing.say("The price sheet has no price for %s that %s needed.", things(len(e.Items), "thing"), are(len(e.Items)))
	for _, m := range e.Items {
		p.Errors = append(p.Errors, problemError{Detail: fmt.Sprintf("no price for %s (%s)", m.Item, m.Kind), Fix: m.Fix})
	}
	return p
}

func capital(s string) string {
	if s == "" || s[0] < 'a' || s[0] > 'z' {
		return s
	}
	return string(s[0]-'a'+'A') + s[1:]
}

// write sends the problem as the answer.
func (p *problem) write(w http.ResponseWriter, requestID string) {
	p.RequestID = requestID
	h := w.Header()
	for _, name := range []string{"ETag", "Location", "Link", "Content-Disposition"} {
		h.Del(name)
	}
	h.Set("Content-Type", "application/problem+json")
	h.Set("Cache-Control", "no-store")
	if p.Status == http.StatusUnauthorized {
		h.Set("WWW-Authenticate", "Bearer")
	}
	if p.retryAfter > 0 {
		h.Set("Retry-After", strconv.Itoa(int(p.retryAfter/time.Second)))
	}
	body, err := json.Marshal(p)
	if err != nil {
		body = []byte(`{}`) // a problem holds nothing that cannot be written
	}
	h.Set("Content-Length", strconv.Itoa(len(body)))
	w.WriteHeader(p.Status)
	_, _ = w.Write(body) // whoever asked has gone
}
