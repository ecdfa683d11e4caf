package app

import (
	"context"
	"slices"

	"ribband/pricing/buy"
	"ribband/pricing/quote"
	"ribband/pricing/sheet"
	"ribband/server/internal/auth"
	"ribband/takeoff/bill"
	"ribband/takeoff/step"
)

// came is the version of steps and of rules that a yard is founded with.
const came = 1

// inventedNote stands on every estimate of a yard that reckons with what the program came with.
const inventedNote = "The hours and shop figures behind this estimate are the invented ones that the program came with, not the yard's own."

// address finds out who makes the estimate, and on which day.
func (e *estimated) address(ctx context.Context, a *App, who auth.Principal) (err error) {
	e.now, e.day = a.now().UTC(), a.today()
	e.yard, e.named, err = a.letterhead(ctx, who.Yard)
	e.invented = e.yard.Note == "" && e.reckonsWithInvented()
	if e.invented {
		e.yard.Note = inventedNote
	}
	return err
}

// reckonsWithInvented reports whether an option counts its hours or cuts its wood by what the program came with.
func (e *estimated) reckonsWithInvented() bool {
	for _, o := range e.options {
		if o.Versions.StepLibrary == came || o.Versions.Rules == came {
			return true
		}
	}
	return false
}

// rows of the price sheet that serve some option.
func (e *estimated) rows() []sheet.Item {
	var lists []buy.List
	var work [][]step.Work
	for i, w := range e.works {
		lists, work = append(lists, e.bought[i].Buy), append(work, e.work(i, w))
	}
	return wanted(e.content, lists, work)
}

// unfreighted reports whether goods are bought off a sheet that says nothing of freight.
func (e *estimated) unfreighted() bool {
	freight := func(it sheet.Item) bool { return it.Kind == sheet.Freight }
	bought := func(o quote.OptionInput) bool { return o.Buy.Cost.Sign() > 0 }
	return !slices.ContainsFunc(e.content.Items, freight) && slices.ContainsFunc(e.bought, bought)
}

// caveats is what whoever issues the estimate has to know of it as a whole.
func (e *estimated) caveats() []bill.Warning {
	var out []bill.Warning
	if !e.named {
		out = append(out, bill.Warning{Code: "yard_not_named", Detail: "The yard has not said who it is, so the estimate is not issued.",
			Fix: "put the yard's name, address and contact (PUT /api/v1/yard)"})
	}
	if e.invented {
		out = append(out, bill.Warning{Code: "invented_figures", Detail: "Hours and shop figures are the invented ones that the program came with, and the estimate says so.",
			Fix: "reckon with steps and rules of the yard's own before a real boat is priced"})
	}
	if e.unfreighted() {
		out = append(out, bill.Warning{Code: "freight_not_priced", Detail: "The price sheet names no freight, so what suppliers ask for bringing the goods is not in the estimate.",
			Fix: "put rows of kind freight on the next version; where prices hold it, say so in the terms"})
	}
	rows := e.rows()
	out = append(out, lapsed(rows, e.day)...)
	out = append(out, outlasted(rows, e.day, quote.ValidUntil(e.now, e.draft.Terms.ValidDays))...)
	for _, x := range e.unprintable() {
		out = append(out, bill.Warning{Code: "cannot_be_printed", Detail: capital(x.Detail) + ", so the estimate is not issued.", Fix: x.Fix})
	}
	return out
}
