package app

import (
	"context"
	"fmt"
	"slices"
	"strings"
	"time"

	"ribband/pdf"
	"ribband/pricing/money"
	"ribband/pricing/quote"
	"ribband/pricing/sheet"
	"ribband/server/internal/auth"
	"ribband/takeoff/bill"
	"ribband/takeoff/boat"
	"ribband/takeoff/quantity"
	"ribband/takeoff/timber"
)

// EstimatePDF is the estimate on paper: the stored bytes of an issued revision, a draft made now and not kept.
func (a *App) EstimatePDF(ctx context.Context, who auth.Principal, id string, n int64) (file []byte, number string, err error) {
	q, r, _, err := a.revisionRecord(ctx, who, id, n)
	if err != nil {
		return nil, "", err
	}
	if r.Issued() {
		f, err := a.store.In(who.Yard).Frozen(ctx, id, n)
		return f.PDF, r.Number, err
	}
	d, err := stored[draft]("draft", r.Body)
	if err != nil {
		return nil, "", err
	}
	e, err := a.resume(ctx, who, q.JobID, d)
	if err != nil {
		return nil, "", err
	}
	done, err := a.heavy(ctx)
	if err != nil {
		return nil, "", err
	}
	defer done()
	paper, err := estimateOf(e.freeze(a.version, "", "", "", id, r.N), r.ChangedAt, "", true)
	if err != nil {
		return nil, "", err
	}
	file, err = pdf.WriteEstimate(paper)
	return file, "draft", err
}

// shownHash is how much of a snapshot's hash stands at the foot of a page: enough that no two estimates of a yard
// will ever share it.
const shownHash = 16

// deferral ends the cautions of every estimate.
const deferral = "These cautions are reminders, not instructions. Where a surveyor, local codes or a licensed practitioner ask for more, theirs is the word that counts."

// linesNote keeps a reader from dividing a price by a quantity that it is not the price of.
const linesNote = "A quantity is what the work takes. Its price includes what is lost in making it, and the whole boards, cans and sheets that have to be bought."

// estimateOf is the estimate as paper needs it, out of the snapshot alone, at selling prices only.
func estimateOf(s snapshot, at time.Time, hash string, draft bool) (pdf.Estimate, error) {
	view, err := s.Priced.OwnerView()
	if err != nil {
		return pdf.Estimate{}, err
	}
	names, err := namesOf(s)
	if err != nil {
		return pdf.Estimate{}, err
	}
	out := pdf.Estimate{
		Yard:     pdf.Yard{Name: s.Yard.Name, Address: s.Yard.Address, Contact: s.Yard.Contact, Note: s.Yard.Note},
		Customer: pdf.Customer{Name: s.Job.Owner.Name, Address: s.Job.Owner.Address},
		Boat:     pdf.Boat{Name: s.Job.Boat.Name, Description: s.Job.Boat.Description},
		Number:   s.Number, Revision: int(s.Revision), IssuedDate: s.IssuedDate, ValidUntilDate: s.ValidUntilDate, Draft: draft,
		Intro: intro(s), Terms: termsText(s.Terms), Cautions: cautions(s.Takeoffs), Deferral: deferral, LinesNote: linesNote,
		HashText:   hash[:min(len(hash), shownHash)],
		Signatures: []pdf.SignaturePlace{{Role: "For the owner"}, {Role: "For the yard"}},
		CreatedAt:  at, PageSize: pdf.A4,
	}
	for i, o := range view.Options {
		out.Options = append(out.Options, paperOption(s.Takeoffs[i], o, view, names))
	}
	return out, nil
}

// introSentences is how many sentences of scope the cover has room for.
const introSentences = 3

// intro is the scope in a few plain sentences: the option's own where there is one, otherwise the first of each
// option. A draft says that it is one.
func intro(s snapshot) []string {
	var lines []string
	if len(s.Takeoffs) == 1 {
		lines = s.Takeoffs[0].Option.Scope
		lines = slices.Clone(lines[:min(len(lines), introSentences)])
	} else {
		for i, t := range s.Takeoffs {
			if len(t.Option.Scope) > 0 {
				lines = append(lines, fmt.Sprintf("Option %c: %s", 'A'+i, t.Option.Scope[0]))
			}
		}
		lines = append(lines, "Each option is complete with its price; they are set side by side overleaf.")
	}
	if len(lines) == 0 {
		lines = append(lines, fmt.Sprintf("This estimate is for work on %s, as listed line by line.", s.Job.Boat.Name))
	}
	if s.ValidUntilDate == "" {
		lines = append(lines, "It is a draft: nothing in it is promised yet.")
	}
	return lines
}

// termsText is the terms, one condition a line as they were written.
func termsText(t quote.Terms) []string {
	var out []string
	for _, line := range strings.Split(t.Text, "\n") {
		if line = strings.TrimSpace(line); line != "" {
			out = append(out, line)
		}
	}
	return out
}

// cautions of the steps that are done, each once, in the order of the work.
func cautions(takeoffs []frozenTakeoff) []pdf.Caution {
	var out []pdf.Caution
	seen := map[pdf.Caution]bool{}
	for _, t := range takeoffs {
		work := t.Work
		if t.Planned != nil {
			work = t.Planned
		}
		for _, w := range work {
			for _, text := range w.Cautions {
				if c := (pdf.Caution{Step: w.Name, Text: text}); !seen[c] {
					seen[c] = true
					out = append(out, c)
				}
			}
		}
	}
	return out
}

func paperOption(t frozenTakeoff, o quote.OwnerOption, view quote.OwnerQuote, names names) pdf.Option {
	out := pdf.Option{
		Name: o.Name, InPlainWords: t.Option.Scope, Undone: t.Option.Undone, Net: paperAmount(o.Net), Gross: paperAmount(o.Total),
		RangeLow: paperEnd(o, o.Low), RangeHigh: paperEnd(o, o.High), RangeNote: "the yard's own judgement, not a computed range",
		WeightKg: whole(t.Weight), Planks: slices.ContainsFunc(t.Bill.Lines, func(l bill.Line) bool { return l.Member.Kind == boat.Strake }), TimeText: "about " + whole(o.Hours) + " hours of work",
	}
	for _, tax := range o.Taxes {
		out.Taxes = append(out.Taxes, pdf.Tax{Category: tax.Category, Rate: percent(tax.Rate), Taxable: paperAmount(tax.Base), Amount: paperAmount(tax.Amount)})
	}
	for _, s := range o.Steps {
		lines := pdf.StepLines{Title: s.Name, Subtotal: paperAmount(s.Price)}
		for _, l := range s.Lines {
			lines.Lines = append(lines.Lines, pdf.Line{Text: names.of(l.Kind, l.Item), Quantity: l.Quantity.String(),
				Unit: paperUnit(l.Quantity.Unit()), Amount: paperAmount(l.Price)})
		}
		out.Steps = append(out.Steps, lines)
	}
	return out
}

func paperAmount(m money.Money) pdf.Amount {
	return pdf.Amount{Text: m.String(), Currency: string(m.Currency())}
}

// paperEnd is one end of a judged range: nothing where the yard judges none, and no cents where it has none.
func paperEnd(o quote.OwnerOption, end money.Money) pdf.Amount {
	if o.Low.Equal(o.Total) && o.High.Equal(o.Total) {
		return pdf.Amount{}
	}
	a := paperAmount(end)
	if end.Decimal().IsInteger() {
		a.Text = end.Decimal().StringFixed(0)
	}
	return a
}

// percent is a fraction such as 0.0625 as percent: 6.25.
func percent(fraction string) string {
	d, err := quantity.ParseDecimal(fraction)
	if err != nil {
		return fraction
	}
	return d.Shift(2).String()
}

// whole is a quantity to the nearest whole unit, for sentences.
func whole(q quantity.Quantity) string { return q.Value().Round(0).String() }

func paperUnit(u quantity.Unit) string {
	switch u {
	case quantity.Each:
		return "pieces"
	case quantity.SquareMetre:
		return "m²"
	case quantity.CubicMetre:
		return "m³"
	case quantity.BoardFoot:
		return "board ft"
	}
	return string(u)
}

// names are what things are called on paper.
type names struct {
	species timber.Catalogue
	prices  sheet.Content
}

func namesOf(s snapshot) (names, error) {
	var out names
	for _, d := range s.Documents {
		var err error
		switch d.Kind {
		case kindSpecies:
			out.species, err = stored[timber.Catalogue](d.Kind, d.Body)
		case kindPrices:
			out.prices, err = stored[sheet.Content](d.Kind, d.Body)
		}
		if err != nil {
			return out, err
		}
	}
	return out, nil
}

// of is a line's thing in plain words: a trade, a timber by its name, or an item by its description.
func (n names) of(kind sheet.Kind, item string) string {
	switch kind {
	case sheet.Labour:
		return "Labour: " + plainName(item)
	case sheet.Timber:
		code, grade, _ := strings.Cut(item, " ")
		if s, ok := n.species.Find(code); ok {
			return s.Name + " " + grade
		}
	}
	if rows := n.prices.Item(item); len(rows) > 0 && rows[0].Description != "" {
		return rows[0].Description
	}
	return plainName(item)
}

func plainName(s string) string { return strings.ReplaceAll(s, "_", " ") }
