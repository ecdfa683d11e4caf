package app

import (
	"context"
	"fmt"

	"ribband/pricing/buy"
	"ribband/pricing/quote"
	"ribband/pricing/sheet"
	"ribband/server/internal/auth"
	"ribband/server/internal/store"
	"ribband/takeoff/document"
	"ribband/takeoff/rules"
	"ribband/takeoff/step"
	"ribband/takeoff/timber"
)

// Repriced is a revision on another version of a price sheet, with a line-by-line account of what moved. It shows
// cost, so it is the yard's.
type Repriced struct {
	Quote string `json:"quote"`
	N     int64  `json:"n"`
	From  Source `json:"from"`
	To    Source `json:"to"`
	quote.Repriced
}

// Reprice prices a revision on version version of a sheet under its own terms, and changes nothing. What is needed
// stays as the revision has it: of an issued one as it was frozen, of a draft as the documents it rests on say.
func (a *App) Reprice(ctx context.Context, who auth.Principal, id string, n int64, sheetID string, version int64) (Repriced, error) {
	q, r, _, err := a.revisionRecord(ctx, who, id, n)
	if err == nil && who.Role == auth.Owner {
		err = &store.NotFoundError{Kind: "quote", ID: id}
	}
	if err != nil {
		return Repriced{}, err
	}
	to, content, err := a.published(ctx, who, sheetID, version)
	if err != nil {
		return Repriced{}, err
	}
	var b repricingBasis
	if r.Issued() {
		b, err = a.frozenBasis(ctx, who, id, n)
	} else {
		b, err = a.draftBasis(ctx, who, q, r)
	}
	if err != nil {
		return Repriced{}, err
	}
	done, err := a.heavy(ctx)
	if err != nil {
		return Repriced{}, err
	}
	defer done()
	out := Repriced{Quote: id, N: n, From: b.prices, To: Source{to.Kind, to.ID, to.N, to.Hash}.version(version)}
	out.Repriced, err = b.reprice(content)
	return out, err
}

// repricingBasis is what a revision was priced from. Shops are how the boards of each option are cut.
type repricingBasis struct {
	options []quote.OptionInput
	shops   []buy.Rules
	prices  Source
	from    sheet.Content
	terms   quote.Terms
	priced  quote.Quote
}

// reprice goes option by option, because two options may rest on two versions of the rules.
func (b repricingBasis) reprice(to sheet.Content) (quote.Repriced, error) {
	out := quote.Repriced{Currency: to.Currency, Options: []quote.RepricedOption{}}
	if err := quote.SameCurrency(b.from.Currency, to); err != nil {
		return quote.Repriced{}, err
	}
	var missing [][]sheet.Missing
	for i, o := range b.options {
		m, err := quote.Missing([]quote.OptionInput{o}, to, b.shops[i])
		if err != nil {
			return quote.Repriced{}, err
		}
		missing = append(missing, m)
	}
	if all := onceMissing(missing); len(all) > 0 {
		return quote.Repriced{}, &sheet.MissingPriceError{Items: all}
	}
	for i, o := range b.options {
		one, err := quote.Reprice([]quote.OptionInput{o}, b.from, to, b.shops[i], b.terms)
		if err != nil {
			return quote.Repriced{}, unbuyable(err)
		}
		// What was sent stands: an account that begins elsewhere explains nothing.
		if was := b.priced.Options[i]; one.Options[0].Cost.Old != was.Cost || one.Options[0].Total.Old != was.Total {
			return quote.Repriced{}, fmt.Errorf("option %s: worked out again it comes to %s and stands at %s", o.ID, one.Options[0].Total.Old, was.Total)
		}
		out.Options = append(out.Options, one.Options...)
	}
	return out, nil
}

// draftBasis works a draft out on the documents it rests on.
func (a *App) draftBasis(ctx context.Context, who auth.Principal, q store.Quote, r store.Revision) (repricingBasis, error) {
	d, err := stored[draft]("draft", r.Body)
	if err != nil {
		return repricingBasis{}, err
	}
	e, err := a.resume(ctx, who, q.JobID, d)
	if err != nil {
		return repricingBasis{}, err
	}
	b := repricingBasis{options: e.bought, prices: d.Prices.version(d.Version), terms: d.Terms, priced: e.priced}
	for _, w := range e.works {
		shop, err := w.shop()
		if err != nil {
			return repricingBasis{}, err
		}
		b.shops = append(b.shops, shop)
	}
	b.from, err = stored[sheet.Content](kindPrices, e.prices.Body)
	return b, err
}

// frozenBasis takes everything from the snapshot.
func (a *App) frozenBasis(ctx context.Context, who auth.Principal, id string, n int64) (repricingBasis, error) {
	s, err := a.snapshot(ctx, who, id, n)
	if err != nil {
		return repricingBasis{}, err
	}
	b := repricingBasis{prices: s.Prices.version(s.Version), terms: s.Terms, priced: s.Priced}
	if b.from, err = stored[sheet.Content](kindPrices, s.document(s.Prices).Body); err != nil {
		return repricingBasis{}, err
	}
	for i, t := range s.Takeoffs {
		in := quote.OptionInput{ID: t.Option.ID, Name: t.Option.Name, Work: t.Work, Needs: t.Bill.Lines, Buy: t.BuyList}
		var read rules.Rules
		var woods timber.Catalogue
		for _, at := range s.Bases[i].Basis {
			d := s.document(at)
			switch at.Kind {
			case kindSteps:
				if in.Library, err = stored[step.Library](at.Kind, d.Body); err != nil {
					return repricingBasis{}, err
				}
			case kindRules:
				written, err := stored[rules.Document](at.Kind, d.Body)
				if err != nil {
					return repricingBasis{}, err
				}
				var faults document.Faults
				read, faults = rules.Read(written)
				if err := faults.Err(); err != nil {
					return repricingBasis{}, fmt.Errorf("frozen rules: %w", &store.CorruptError{Table: "quote_revisions", ID: id, Reason: err.Error()})
				}
			case kindSpecies:
				if woods, err = stored[timber.Catalogue](at.Kind, d.Body); err != nil {
					return repricingBasis{}, err
				}
			}
		}
		b.options, b.shops = append(b.options, in), append(b.shops, shopOf(read, woods))
	}
	return b, nil
}
