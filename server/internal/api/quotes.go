package api

import (
	"net/http"

	"ribband/pricing/money"
	"ribband/pricing/quote"
	"ribband/pricing/sheet"
	"ribband/server/internal/app"
	"ribband/server/internal/auth"
	"ribband/server/internal/store"
)

// termsBody is quote.Terms where what has a usual value may be left out.
type termsBody struct {
	Markup    map[sheet.Kind]string `json:"markup,omitempty"`
	Taxes     []quote.Tax           `json:"taxes,omitempty"`
	Rounding  money.Mode            `json:"rounding,omitempty"`
	ValidDays int                   `json:"valid_days"`
	RangeLow  string                `json:"range_low,omitempty"`
	RangeHigh string                `json:"range_high,omitempty"`
	Text      string                `json:"text,omitempty"`
}

func (t termsBody) terms() quote.Terms {
	out := quote.Terms(t)
	if out.Rounding == "" {
		out.Rounding = money.HalfUp
	}
	if out.Markup == nil {
		out.Markup = map[sheet.Kind]string{}
	}
	if out.Taxes == nil {
		out.Taxes = []quote.Tax{}
	}
	return out
}

type quoteBody struct {
	Options []string  `json:"options"`
	Sheet   string    `json:"sheet"`
	Version int64     `json:"version"`
	Terms   termsBody `json:"terms"`
}

func listQuotes(c *call) error {
	page := c.page()
	list, err := c.app.Quotes(c.Request.Context(), c.who, c.Param("job"), page)
	if err != nil {
		return err
	}
	return c.listed(list.Next, list)
}

func makeQuote(c *call) error {
	in, body, err := jsonBody[quoteBody](c)
	if err != nil {
		return err
	}
	key, err := c.key(body)
	if err != nil {
		return err
	}
	fields := app.QuoteFields{Options: in.Options, Sheet: in.Sheet, Version: in.Version, Terms: in.Terms.terms()}
	answer, err := c.app.MakeQuote(c.Request.Context(), c.who, c.Param("job"), key, fields, func(r app.Revision) (store.Answer, error) {
		return made(http.StatusCreated, etag(r.Edit), v1+"quotes/"+r.Quote, r)
	})
	if err != nil {
		return err
	}
	c.answer(answer)
	return nil
}

func readQuote(c *call) error {
	q, err := c.app.Quote(c.Request.Context(), c.who, c.Param("quote"))
	if err != nil {
		return err
	}
	return c.json(http.StatusOK, "", q)
}

// revisionBody is what a new revision changes; what is left out stays.
type revisionBody struct {
	Options []string   `json:"options,omitempty"`
	Sheet   string     `json:"sheet,omitempty"`
	Version int64      `json:"version,omitempty"`
	Terms   *termsBody `json:"terms,omitempty"`
}

func reviseQuote(c *call) error {
	in, body, err := jsonBody[revisionBody](c)
	if err != nil {
		return err
	}
	key, err := c.key(body)
	if err != nil {
		return err
	}
	var seen store.Seen
	if c.GetHeader("If-Match") != "" {
		if seen, err = c.seen(); err != nil {
			return err
		}
	}
	fields := app.RevisionFields{Options: in.Options, Sheet: in.Sheet, Version: in.Version, Seen: seen}
	if in.Terms != nil {
		terms := in.Terms.terms()
		fields.Terms = &terms
	}
	answer, err := c.app.Revise(c.Request.Context(), c.who, c.Param("quote"), key, fields, func(r app.Revision, fresh bool) (store.Answer, error) {
		status := http.StatusOK
		if fresh {
			status = http.StatusCreated
		}
		return made(status, etag(r.Edit), revisionPath(r), r)
	})
	if err != nil {
		return err
	}
	c.answer(answer)
	return nil
}

func revisionPath(r app.Revision) string { return v1 + "quotes/" + r.Quote + "/revisions/" + itoa(r.N) }

func readRevision(c *call) error {
	n, err := c.number("n")
	if err != nil {
		return err
	}
	if c.who.Role == auth.Owner {
		r, err := c.app.OwnerRevision(c.Request.Context(), c.who, c.Param("quote"), n)
		if err != nil {
			return err
		}
		return c.json(http.StatusOK, "", r)
	}
	r, err := c.app.Revision(c.Request.Context(), c.who, c.Param("quote"), n)
	if err != nil {
		return err
	}
	tag := ""
	if r.Issued == nil {
		tag = etag(r.Edit) // what If-Match of the next revision names
	}
	return c.json(http.StatusOK, tag, r)
}

func issueRevision(c *call) error {
	n, err := c.number("n")
	if err != nil {
		return err
	}
	return c.bare(func(key app.Key) (store.Answer, error) {
		return c.app.Issue(c.Request.Context(), c.who, c.Param("quote"), n, key, changed[app.Revision])
	})
}

func readEstimate(c *call) error {
	n, err := c.number("n")
	if err != nil {
		return err
	}
	file, name, err := c.app.EstimatePDF(c.Request.Context(), c.who, c.Param("quote"), n)
	if err != nil {
		return err
	}
	c.Header("Content-Disposition", `inline; filename="estimate-`+name+`.pdf"`)
	c.send(http.StatusOK, "", pdfKind, file)
	return nil
}

func readSnapshot(c *call) error {
	n, err := c.number("n")
	if err != nil {
		return err
	}
	body, hash, err := c.app.Snapshot(c.Request.Context(), c.who, c.Param("quote"), n)
	if err != nil {
		return err
	}
	c.send(http.StatusOK, `"`+hash+`"`, jsonKind, body)
	return nil
}
