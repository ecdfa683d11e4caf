package api

import (
	"maps"
	"slices"
	"strconv"
	"strings"
	"time"

	"ribband/server/internal/store"
	"ribband/takeoff/document"
)

// queryForm is how the text of a query parameter is written.
type queryForm struct {
	is   string
	fits func(string) bool
}

var (
	wholeForm  = queryForm{"a whole number from 1", func(text string) bool { _, ok := count(text); return ok }}
	limitForm  = queryForm{"a whole number from 1, and more than 200 is cut to 200", wholeForm.fits}
	flagForm   = queryForm{"true or false", func(text string) bool { return text == "true" || text == "false" }}
	dayForm    = queryForm{"a day, year-month-day, such as 2027-03-15", func(text string) bool { _, err := time.Parse(time.DateOnly, text); return err == nil }}
	cursorForm = queryForm{"the next of the page before; begin again without one", store.CursorFits}
)

// queryForms of the parameters that are more than a text, whichever operation has them.
var queryForms = map[string]queryForm{
	"limit": limitForm, "cursor": cursorForm, "figures": flagForm,
	"side": sideForm, "layout": layoutForm, "x_mm": lengthForm, "frame": numberForm, "waterline_mm": lengthForm, "heights_mm": heightsForm, "paper": paperForm,
	"strakes": strakesForm, "plank_thickness_mm": thicknessForm, "stock_lengths_mm": stockForm, "list": wholeForm, "rack": wholeForm,
	"face": faceForm, "pitch_mm": pitchForm, "piece": pieceForm,
	"needed": dayForm, "version": wholeForm, "revision": wholeForm, "from": wholeForm, "to": wholeForm,
}

// known refuses what is wrong with the query, all of it at once: names that the operation does not have, what is given
// twice or is not written as it is read, and what is needed and not there.
func (c *call) known(r route) error {
	if strings.Contains(c.Request.URL.RawQuery, ";") {
		return malformedRequest.say("Query parameters are parted by &, not by a semicolon.")
	}
	var wrong []problemError
	add := func(name, fix, detail string) {
		wrong = append(wrong, problemError{Parameter: name, Detail: detail, Fix: fix})
	}
	have := "none"
	if len(r.query) > 0 {
		have = "one of " + strings.Join(r.query, ", ")
	}
	values := c.Request.URL.Query()
	for _, name := range slices.Sorted(maps.Keys(values)) {
		given := values[name]
		form, formed := queryForms[name]
		switch {
		case !slices.Contains(r.query, name):
			add(clip(name), have, "this operation has no query parameter "+shown(name))
		case len(given) > 1:
			add(name, "the parameter once", "the query parameter "+name+" is given "+strconv.Itoa(len(given))+" times")
		case formed && !form.fits(given[0]):
			add(name, form.is, "the query parameter "+name+" is "+shown(given[0])+", which is not "+form.is)
		}
	}
	for _, having := range r.query {
		for _, name := range queryNeeded[having] {
			if !values.Has(name) || values.Get(name) == "" && queryForms[name].fits == nil {
				add(name, "the parameter with its value", "the query parameter "+name+" is needed")
			}
		}
	}
	switch len(wrong) {
	case 0:
		return nil
	case 1:
		p := malformedRequest.say("%s. What is taken: %s.", capital(wrong[0].Detail), wrong[0].Fix)
		p.Errors = wrong
		return p
	}
	p := malformedRequest.say("%d query parameters are wrong. Each is listed with what would be right.", len(wrong))
	p.Errors = wrong
	return p
}

// page is which part of a list is asked for.
func (c *call) page() store.Page {
	page := store.Page{After: c.Query("cursor")}
	page.Limit, _ = strconv.Atoi(c.Query("limit")) // known has looked at it
	return page
}

// whole is a whole number from 1 in the query, 0 when it is not given.
func (c *call) whole(name string) int64 {
	n, _ := count(c.Query(name))
	return n
}

// flag is true or false in the query, false when it is not given.
func (c *call) flag(name string) bool { return c.Query(name) == "true" }

// queryFaults are faults of a table whose pointers name parameters of the query.
type queryFaults struct{ document.Faults }

// Unwrap is them as those of any document.
func (e *queryFaults) Unwrap() error { return e.Faults }

func faultsOfQuery(e *queryFaults) *problem {
	p := withFaults(documentFaults, "; nothing was stored", e.Faults)
	for i, x := range p.Errors {
		if name, is := strings.CutPrefix(x.Pointer, "/"); is && x.Row == 0 {
			p.Errors[i].Pointer, p.Errors[i].Parameter = "", name
		}
	}
	return p
}
