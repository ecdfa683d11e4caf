package web

import (
	"context"
	"errors"
	"fmt"
	"net/http"
	"strconv"
	"strings"
	"time"

	"ribband/pricing/money"
	"ribband/pricing/quote"
	"ribband/pricing/sheet"
	"ribband/server/internal/app"
	"ribband/server/internal/auth"
	"ribband/server/internal/store"
	"ribband/takeoff/document"
)

// errNothing is the one answer for what is not there, for what is somebody else's, and for a link that does not hold.
var errNothing = errors.New("nothing is here")

// errElsewhere refuses a form that another site sent.
var errElsewhere = errors.New("the form was sent from another site")

// errSameOption refuses to set an option against itself.
var errSameOption = errors.New("an option is compared with itself")

// errPartAgainst refuses to hold spend against what is named in part only.
var errPartAgainst = errors.New("quote, revision and option are named in part")

// errSignedOut refuses a form of somebody who is not signed in any more.
var errSignedOut = errors.New("the form came from somebody who is not signed in")

// errNeedsHTTPS refuses to sign anybody in over a line that all can read.
var errNeedsHTTPS = errors.New("signing in needs https")

// otherMethodError: nothing is done that way here.
type otherMethodError struct{ allowed []string }

func (e *otherMethodError) Error() string { return "only " + strings.Join(e.allowed, ", ") }

// fault is a page that says what happened and what to do.
type fault struct {
	Status int
	Title  string
	Says   string
	Do     string
	// Each is what is wrong, one by one.
	Each []document.Fault
	// RequestID is shown only where the yard's keeper has to look it up.
	RequestID string
	// Explained: it may name what an owner has to have explained.
	Explained bool
	// Links lead on to what there is instead.
	Links []link
	// Yard is whom to ask, where that is one and the same for whoever reads.
	Yard       *app.Letterhead
	retryAfter time.Duration
}

// faultOf is what an error is told as.
func faultOf(err error) fault {
	var (
		method      *otherMethodError
		large       *http.MaxBytesError
		missing     *app.MissingDocumentError
		compute     *app.ComputeError
		faults      document.Faults
		prices      *sheet.MissingPriceError
		unpublished *app.NotPublishedError
		none        *store.NotFoundError
		cursor      *store.CursorError
		text        *store.TextError
		away        *store.UnavailableError
		busy        *store.BusyError
	)
	for _, say := range []func(error) (fault, bool){decisionFault, booksFault} {
		if f, ok := say(err); ok {
			return f
		}
	}
	switch {
	case errors.Is(err, errNothing), errors.As(err, &none), errors.As(err, &cursor):
		return fault{Status: 404, Title: "There is nothing here",
			Says: "Nothing stands at this address, or it is not for you, or the link has ended.",
			Do:   "Check the address. If it came in a message, ask whoever sent it for a new link. If you were signed in, your session may have ended: open your link again."}
	case errors.Is(err, errElsewhere):
		return fault{Status: 403, Title: "This was not done", Says: "The form came from another site, so nothing was changed.",
			Do: "Open the page here again, and send the form from it."}
	case errors.Is(err, errNeedsHTTPS):
		return fault{Status: 403, Title: "Nobody can sign in this way", Says: "The way between your browser and this server is not private, so others could take your sign-in.",
			Do: "Ask whoever keeps the server to set it behind https and to start it with -public and that address."}
	case errors.Is(err, errSameOption):
		return fault{Status: 422, Title: "One option does not differ from itself", Says: "Both choices are the same option, so there is nothing to compare.",
			Do: "Go back and choose two options that differ."}
	case errors.Is(err, errPartAgainst):
		return fault{Status: 422, Title: "What spend is held against is named in part only", Says: "An estimate is named by quote, revision and option, all three.",
			Do: "Open the page “Quoted and spent” of the job and choose an estimate there."}
	case errors.Is(err, errSignedOut):
		return fault{Status: 403, Title: "You are signed out, and nothing was kept", Says: "Your session ended before the form came, so what you typed is not kept here.",
			Do: "Do not close this page yet: open your link in a second one and sign in there. Then go back here with the button of your browser, which mostly still has what you typed, and send the form once more. Where it is gone, it has to be typed anew."}
	case errors.Is(err, errForm):
		return fault{Status: 400, Title: "The form cannot be read", Says: "What the browser sent is cut off or mixed up; nothing was kept.",
			Do: "Open the page again, and send the form once more."}
	case errors.As(err, &method):
		return fault{Status: 405, Title: "This is not done here", Says: "At this address a browser can use " + strings.Join(method.allowed, ", ") + " and nothing else.",
			Do: "Go back and use the links and buttons of the page."}
	case errors.As(err, &large):
		return fault{Status: 413, Title: "That is too much at once", Says: fmt.Sprintf("At most %s are taken here; nothing was kept.", bytesText(large.Limit)),
			Do: "Send less, for example the table in several files."}
	case errors.As(err, &missing):
		return fault{Status: 409, Title: "Something has to be entered first", Says: capital(missing.What) + ".", Do: capital(missing.Fix) + "."}
	case errors.As(err, &compute):
		return fault{Status: 409, Title: "It cannot be worked out as it stands", Says: "What was entered does not fit together.", Do: "Put right what is listed.", Each: compute.Faults}
	case errors.As(err, &prices):
		return missingPrices(prices)
	case errors.As(err, &unpublished):
		return fault{Status: 409, Title: "This version is still a draft", Says: fmt.Sprintf("Version %d of the price sheet is not published.", unpublished.N), Do: "Name a published version."}
	case errors.As(err, &faults):
		return fault{Status: 422, Title: "This cannot be taken as it stands", Says: "Nothing was kept.", Do: "Go back, put right what is listed, and send it again.", Each: faults}
	case errors.As(err, &text):
		return fault{Status: 422, Title: "This cannot be taken as it stands", Says: capital(text.Error()) + ". Nothing was kept.", Do: "Go back, write it anew, and send it again."}
	case errors.As(err, &away):
		return later("The database does not answer.", away.RetryAfter)
	case errors.As(err, &busy):
		return later("Others are writing at the moment.", busy.RetryAfter)
	case errors.Is(err, context.DeadlineExceeded), errors.Is(err, context.Canceled):
		return later("The work was not done in time.", 5*time.Second)
	}
	return fault{Status: 500, Title: "The server failed", Says: "Something went wrong that should not have. What you sent before this page was kept or refused whole, never in part.",
		Do: "Try once more. If it comes again, tell whoever keeps the server the number below; the log has more."}
}

func missingPrices(e *sheet.MissingPriceError) fault {
	f := fault{Status: 422, Title: "Prices are missing", Says: "The price sheet has no price for everything that is needed.", Do: "Enter what is listed, or choose another version."}
	for _, m := range e.Items {
		f.Each = append(f.Each, document.Fault{Detail: fmt.Sprintf("no price for %s (%s)", m.Item, m.Kind), Fix: m.Fix})
	}
	return f
}

// booksFault says why accounts and prices cannot be shown or entered.
func booksFault(err error) (fault, bool) {
	var (
		nothing *app.NothingAcceptedError
		sheets  *sheet.CurrencyError
		jobs    *quote.CurrencyError
		mixed   *money.MixedError
		much    *money.RangeError
		reused  *store.KeyReusedError
		stale   *store.StaleError
		exists  *store.ExistsError
	)
	switch {
	case errors.As(err, &nothing):
		return fault{Status: 409, Title: "There is nothing to hold spend against", Says: "No one option of this job is accepted.",
			Do: "Open the page “Quoted and spent” of the job and choose an estimate there."}, true
	case errors.As(err, &sheets), errors.As(err, &jobs), errors.As(err, &mixed):
		return fault{Status: 409, Title: "Two currencies do not compare", Says: capital(err.Error()) + ".", Do: "Choose prices in the currency of the job."}, true
	case errors.As(err, &much):
		return fault{Status: 409, Title: "It cannot be worked out as it stands", Says: capital(much.Error()) + ".", Do: "Look for an amount that was mistyped."}, true
	case errors.As(err, &reused):
		return fault{Status: 409, Title: "This form was sent already", Says: "It made something before, with other content; nothing was changed now.",
			Do: "Open the page anew, and fill the form in again."}, true
	case errors.As(err, &stale), errors.As(err, &exists):
		return fault{Status: 409, Title: "Somebody else was quicker", Says: "It was changed meanwhile; nothing was changed now.", Do: "Open the page anew and look."}, true
	}
	return fault{}, false
}

func later(why string, wait time.Duration) fault {
	seconds := max(1, int(wait.Round(time.Second)/time.Second))
	return fault{Status: 503, Title: "The server cannot answer now", Says: why, Do: fmt.Sprintf("Load the page again in %d seconds.", seconds),
		retryAfter: time.Duration(seconds) * time.Second}
}

func bytesText(n int64) string {
	if n >= 1<<20 {
		return strconv.FormatInt(n>>20, 10) + " MB"
	}
	return strconv.FormatInt(n>>10, 10) + " kB"
}

func capital(s string) string {
	if s == "" || s[0] < 'a' || s[0] > 'z' {
		return s
	}
	return string(s[0]-'a'+'A') + s[1:]
}

// leadOn are links from a page of a quote that cannot be done as it stands to what can.
func leadOn(r *http.Request, err error) []link {
	quote := r.PathValue("quote")
	var accepted *app.AcceptedError
	var notOpen *app.NotOpenError
	switch {
	case quote == "":
	case errors.As(err, &accepted):
		return []link{{"Read what was accepted", revisionPath(quote, accepted.Decision.Revision)}}
	case errors.As(err, &notOpen) && notOpen.Newest > notOpen.N:
		return []link{{"Read the newest revision", revisionPath(quote, notOpen.Newest)}}
	case errors.As(err, &notOpen):
		return []link{{"Read this revision", revisionPath(quote, notOpen.N)}}
	}
	return nil
}

// fail answers with the page that err is, and logs what nobody outside is told. The page is the same for everybody:
// it does not tell who is signed in.
func (p *Pages) fail(w http.ResponseWriter, r *http.Request, err error) {
	f := faultOf(err)
	t := traceOf(r.Context())
	if f.Status >= 500 {
		f.RequestID = t.id
		p.log.Error("page refused", "request_id", t.id, "status", f.Status, "error", auth.Hide(err.Error()))
	} else {
		p.log.Debug("page refused", "request_id", t.id, "status", f.Status, "error", auth.Hide(err.Error()))
	}
	for _, name := range []string{"Content-Disposition", "Location", "ETag"} {
		w.Header().Del(name)
	}
	w.Header().Set("Cache-Control", "no-store")
	if f.retryAfter > 0 {
		w.Header().Set("Retry-After", strconv.Itoa(int(f.retryAfter/time.Second)))
	}
	f.Links = leadOn(r, err)
	if yard, one, err := p.app.SoleYard(r.Context()); err == nil && one {
		f.Yard = &yard
	}
	body, broken := p.look.render("fault", page{Title: f.Title, CSS: p.look.css.path, Plain: true, Body: f})
	if broken != nil {
		p.log.Error("the page of faults", "request_id", t.id, "error", broken.Error())
		body = []byte("The server failed. Try again later.\n")
		w.Header().Set("Content-Type", "text/plain; charset=utf-8")
	} else {
		w.Header().Set("Content-Type", "text/html; charset=utf-8")
	}
	w.Header().Set("Content-Length", strconv.Itoa(len(body)))
	w.WriteHeader(f.Status)
	_, _ = w.Write(body) // whoever asked has gone
}
