package app

import (
	"context"
	"errors"
	"fmt"

	"ribband/pricing/money"
	"ribband/pricing/quote"
	"ribband/pricing/rack"
	"ribband/pricing/sheet"
	"ribband/server/internal/auth"
	"ribband/server/internal/store"
	"ribband/takeoff/finding"
	"ribband/takeoff/frame"
	"ribband/takeoff/hull/offsets"
	"ribband/takeoff/hull/planking"
	"ribband/takeoff/notation"
	"ribband/takeoff/plank"
	"ribband/takeoff/rules"
	"ribband/takeoff/step"
	"ribband/takeoff/timber"
)

// Knowledge is what a new yard starts with until it enters its own.
type Knowledge struct {
	Species timber.Catalogue
	Steps   step.Library
	Rules   rules.Document
}

// Demo is an invented yard as it is to be set up.
type Demo struct {
	Knowledge
	Letterhead Letterhead
	Job        JobFields
	Hull       offsets.Document
	Frames     frame.Document
	Findings   finding.Document
	Planking   planking.Boat
	Rack       rack.Document
	Options    []DemoOption
	SheetName  string
	Notation   notation.Notation
	Currency   money.Currency
	Prices     []sheet.Content // versions, oldest first; all are published
	Terms      quote.Terms
}

// DemoOption is one option of the demo with what it does.
type DemoOption struct {
	Fields   OptionFields
	Remedies frame.Remedies
	// Planks that it renews; nil where it renews none. Such an option is in no quote of the demo's.
	Planks *plank.Document
}

// OtherYardError: a demo was asked for in a database that holds a yard which is none.
type OtherYardError struct{ Name string }

func (e *OtherYardError) Error() string {
	return fmt.Sprintf("the database holds the yard %q, which is not the demo's; name another place with -database", e.Name)
}

// program is who acts when the server itself writes.
var program = store.Actor{Name: "ribband"}

// FirstToken founds a yard in an empty database and makes a token for its lead. fresh is false when the database
// holds a yard already; then nothing is written and no token shown.
func (a *App) FirstToken(ctx context.Context, yard string, k Knowledge) (token auth.Secret, fresh bool, err error) {
	yards, err := a.store.Yards(ctx)
	if err != nil || len(yards) > 0 {
		return auth.Secret{}, false, err
	}
	request := store.Request{Actor: program, Action: "found yard", Found: &store.Founding{Name: yard, Alone: true}}
	_, _, err = a.store.Write(ctx, request, func(ctx context.Context, tx *store.Tx) (store.Answer, error) {
		if err := know(ctx, tx, k); err != nil {
			return store.Answer{}, err
		}
		minted, err := auth.Mint(ctx, tx, auth.Grant{Name: "the first lead", Role: auth.Lead})
		token = minted.Secret
		return store.Answer{}, err
	})
	var quicker *store.ExistsError
	if errors.As(err, &quicker) {
		return auth.Secret{}, false, nil
	}
	return token, err == nil, err
}

// know writes the first versions of what the yard knows.
func know(ctx context.Context, tx *store.Tx, k Knowledge) error {
	if err := errors.Join(k.Species.Check().Err(), k.Steps.Check().Err()); err != nil {
		return err
	}
	if _, faults := rules.Read(k.Rules); len(faults) > 0 {
		return faults
	}
	for _, d := range []struct {
		kind string
		doc  any
	}{{kindSpecies, k.Species}, {kindSteps, k.Steps}, {kindRules, k.Rules}} {
		if err := first(ctx, tx, d.kind, yardOwn, d.doc); err != nil {
			return err
		}
	}
	return nil
}

func first(ctx context.Context, tx *store.Tx, kind, id string, doc any) error {
	body, err := encode(kind, doc)
	if err != nil {
		return err
	}
	_, err = tx.PutDocument(ctx, store.Document{Kind: kind, ID: id, Schema: schema, Body: body}, store.Absent)
	return err
}

// DemoYard is the demo as it stands, with the tokens that were just made.
type DemoYard struct {
	Job string
	// Options that renew no planks, which the demo's quote is over, and Planked those that do.
	Options []string
	Planked []string
	Sheet   string
	Quote   string
	Tokens  map[auth.Role]auth.Secret

	yard string
	lead store.Token
}

// SetUpDemo makes the demo in an empty database, or finds it again, and makes new tokens; the old ones are put out
// of force. A database that holds another yard is refused with an *OtherYardError.
func (a *App) SetUpDemo(ctx context.Context, d Demo) (DemoYard, error) {
	yards, err := a.store.Yards(ctx)
	if err != nil {
		return DemoYard{}, err
	}
	for _, y := range yards {
		if !y.Invented {
			return DemoYard{}, &OtherYardError{y.Name}
		}
	}
	if len(yards) == 0 {
		if err := a.foundDemo(ctx, d); err != nil {
			return DemoYard{}, err
		}
		if yards, err = a.store.Yards(ctx); err != nil {
			return DemoYard{}, err
		}
	}
	out, err := a.admitToDemo(ctx, yards[0].ID)
	if err != nil {
		return DemoYard{}, err
	}
	out.Quote, err = a.demoQuote(ctx, out, d.Terms)
	return out, err
}

// demoQuote is the demo's first quote. Where there is none, one over all options that replace frames, on the newest prices, is made
// and issued, so that the owner has something to see.
func (a *App) demoQuote(ctx context.Context, y DemoYard, terms quote.Terms) (string, error) {
	who := auth.Principal{Yard: y.yard, TokenID: y.lead.ID, Role: auth.Lead, Name: y.lead.Name}
	quotes, err := a.Quotes(ctx, who, y.Job, store.Page{Limit: 1})
	if err != nil {
		return "", err
	}
	if len(quotes.Items) > 0 {
		return quotes.Items[0].ID, nil
	}
	s, err := a.Sheet(ctx, who, y.Sheet)
	if err != nil {
		return "", err
	}
	var made Revision
	silent := func(r Revision) (store.Answer, error) { made = r; return store.Answer{}, nil }
	fields := QuoteFields{Options: y.Options, Sheet: y.Sheet, Version: int64(len(s.Published)), Terms: terms}
	if _, err := a.MakeQuote(ctx, who, y.Job, Key{}, fields, silent); err != nil {
		return "", err
	}
	_, err = a.Issue(ctx, who, made.Quote, made.N, Key{}, silent)
	return made.Quote, err
}

// foundDemo makes the yard with all its documents in one transaction. Another start that was quicker is no fault.
func (a *App) foundDemo(ctx context.Context, d Demo) error {
	request := store.Request{Actor: program, Action: "found demo yard", Found: &store.Founding{Name: d.Letterhead.Name, Invented: true, Alone: true}}
	_, _, err := a.store.Write(ctx, request, func(ctx context.Context, tx *store.Tx) (store.Answer, error) {
		if err := know(ctx, tx, d.Knowledge); err != nil {
			return store.Answer{}, err
		}
		if err := first(ctx, tx, kindLetterhead, yardOwn, d.Letterhead); err != nil {
			return store.Answer{}, err
		}
		if err := demoJob(ctx, tx, d); err != nil {
			return store.Answer{}, err
		}
		return store.Answer{}, demoPrices(ctx, tx, d)
	})
	var quicker *store.ExistsError
	if errors.As(err, &quicker) {
		return nil
	}
	return err
}

func demoJob(ctx context.Context, tx *store.Tx, d Demo) error {
	if err := d.Job.check().Err(); err != nil {
		return err
	}
	record, err := d.Job.record()
	if err != nil {
		return err
	}
	job, err := tx.AddJob(ctx, record)
	if err != nil {
		return err
	}
	if err := first(ctx, tx, kindHull, job.ID, d.Hull); err != nil {
		return err
	}
	if err := first(ctx, tx, kindFrames, job.ID, d.Frames); err != nil {
		return err
	}
	if err := first(ctx, tx, kindPlanking, job.ID, d.Planking); err != nil {
		return err
	}
	if err := first(ctx, tx, kindRack, yardOwn, d.Rack); err != nil {
		return err
	}
	if err := first(ctx, tx, kindFindings, job.ID, d.Findings); err != nil {
		return err
	}
	for _, o := range d.Options {
		versions, unknown, err := pinned(ctx, tx, o.Fields.Versions)
		if err := errors.Join(err, unknown.Err()); err != nil {
			return err
		}
		body, err := encode("option", optionBody{o.Fields.Scope, o.Fields.Undone, versions})
		if err != nil {
			return err
		}
		option, err := tx.AddOption(ctx, store.Option{JobID: job.ID, Name: o.Fields.Name, Body: body})
		if err != nil {
			return err
		}
		if err := demoOption(ctx, tx, option.ID, o); err != nil {
			return err
		}
	}
	return nil
}

// demoOption writes what an option does.
func demoOption(ctx context.Context, tx *store.Tx, id string, o DemoOption) error {
	if o.Planks == nil {
		return first(ctx, tx, kindRemedies, id, o.Remedies)
	}
	return first(ctx, tx, kindPlanks, id, *o.Planks)
}

func demoPrices(ctx context.Context, tx *store.Tx, d Demo) error {
	id, err := tx.NewID()
	if err != nil {
		return err
	}
	b := sheetBody{SheetFields: SheetFields{d.SheetName, d.Currency, d.Notation}, CreatedAt: tx.Now()}
	for i, content := range d.Prices {
		n := int64(i) + 1
		if err := first(ctx, tx, kindPrices, pricesID(id, n), content); err != nil {
			return err
		}
		version, err := publishable(ctx, tx, id, n)
		if err != nil {
			return err
		}
		b.Published = append(b.Published, version)
	}
	return first(ctx, tx, kindSheet, id, b)
}

// admitToDemo finds the demo's oldest job, its options and its price sheet, and makes a token for every role.
func (a *App) admitToDemo(ctx context.Context, yard string) (DemoYard, error) {
	out := DemoYard{Tokens: map[auth.Role]auth.Secret{}, yard: yard}
	_, _, err := a.store.Write(ctx, store.Request{Yard: yard, Actor: program, Action: "make demo tokens"}, func(ctx context.Context, tx *store.Tx) (store.Answer, error) {
		jobs, err := tx.Jobs(ctx, store.Page{Limit: 1})
		if err != nil {
			return store.Answer{}, err
		}
		sheets, err := tx.Documents(ctx, kindSheet, store.Page{Limit: 1})
		if err != nil {
			return store.Answer{}, err
		}
		if len(jobs.Items) == 0 || len(sheets.Items) == 0 {
			return store.Answer{}, errors.New("the demo's yard is there and its job or its price sheet is not; name another place with -database")
		}
		out.Job, out.Sheet = jobs.Items[0].ID, sheets.Items[0].ID
		options, err := tx.Options(ctx, out.Job, store.Page{})
		if err != nil {
			return store.Answer{}, err
		}
		out.Options, out.Planked = nil, nil
		for _, o := range options.Items {
			_, err := tx.Document(ctx, kindPlanks, o.ID)
			switch {
			case err == nil:
				out.Planked = append(out.Planked, o.ID)
			case gone(err):
				out.Options = append(out.Options, o.ID)
			default:
				return store.Answer{}, err
			}
		}
		if len(out.Options) == 0 { // somebody renews planks in all of them
			out.Options = out.Planked
		}
		minted, err := auth.MintAll(ctx, tx, out.Job)
		for _, m := range minted {
			out.Tokens[auth.Role(m.Token.Role)] = m.Secret
			if m.Token.Role == string(auth.Lead) {
				out.lead = m.Token
			}
		}
		return store.Answer{}, err
	})
	return out, err
}
