package web

import (
	"net/http"
	"strconv"
	"strings"

	"ribband/pricing/quote"
	"ribband/pricing/sheet"
	"ribband/server/internal/app"
	"ribband/server/internal/store"
)

// sheets lists the price sheets with their versions.
func (p *Pages) sheets(v *visit) error {
	list, err := p.app.Sheets(v.Context(), v.who, store.Page{Limit: store.LargestLimit, After: v.FormValue("after")})
	if err != nil {
		return err
	}
	return p.show(v, http.StatusOK, "sheets", page{Title: "Price sheets of the yard", Way: []link{{"Jobs", "/"}}, Body: list})
}

type comparedPage struct {
	Sheet app.Sheet
	app.ComparedPrices
}

// comparePrices sets two versions of a price sheet side by side.
func (p *Pages) comparePrices(v *visit) error {
	id := v.PathValue("sheet")
	s, err := p.app.Sheet(v.Context(), v.who, id)
	if err != nil {
		return err
	}
	from, err := strconv.ParseInt(v.FormValue("from"), 10, 64)
	if err != nil {
		return errNothing
	}
	to, err := strconv.ParseInt(v.FormValue("to"), 10, 64)
	if err != nil {
		return errNothing
	}
	c, err := p.app.ComparePrices(v.Context(), v.who, id, from, to)
	if err != nil {
		return err
	}
	return p.show(v, http.StatusOK, "compared", page{Title: "“" + s.Name + "”, version " + strconv.FormatInt(to, 10) + " against version " + strconv.FormatInt(from, 10),
		Way: []link{{"Jobs", "/"}, {"Price sheets", "/price-sheets"}}, Body: comparedPage{s, c}})
}

type repricedPage struct {
	Quote app.Quote
	Path  string
	Sheet app.Sheet
	// Version of the sheet that it is set on.
	Version int64
	app.Repriced
	// markups on cost as the revision has them, by option and line.
	markups map[[2]string]string
}

// Markup on cost of a line, as the revision has it.
func (r repricedPage) Markup(option, line string) string { return r.markups[[2]string{option, line}] }

// Because is a reason of a line in words.
func becauseText(c quote.Cause) string {
	var detail []string
	for word := range strings.FieldsSeq(c.Detail) {
		if trimmed := strings.TrimRight(word, ",;"); strings.Contains(trimmed, ".") {
			word = grouped(trimmed) + word[len(trimmed):]
		}
		detail = append(detail, plain(word))
	}
	return strings.Join(detail, " ")
}

// itemText tells one row of a price sheet from the others: what it is, how it is packed, and who sells it.
func itemText(c sheet.ItemChange) string {
	row := c.New
	if row == nil {
		row = c.Old
	}
	out := plain(c.Label)
	if row == nil {
		return out
	}
	if row.PackSize != "" {
		out += ", in packs of " + grouped(row.PackSize) + " " + soldBy(row.Unit)
	}
	if row.Supplier != "" {
		out += ", from " + row.Supplier
	}
	return out
}

// repriced is a revision on another version of a price sheet.
func (p *Pages) repriced(v *visit) error {
	ctx, id := v.Context(), v.PathValue("quote")
	n, err := v.number("n")
	if err != nil {
		return err
	}
	version, err := strconv.ParseInt(v.FormValue("version"), 10, 64)
	if err != nil {
		return errNothing
	}
	q, err := p.app.Quote(ctx, v.who, id)
	if err != nil {
		return err
	}
	j, err := p.app.Job(ctx, v.who, q.Job)
	if err != nil {
		return err
	}
	body := repricedPage{Quote: q, Path: revisionPath(id, n), Version: version}
	if body.Sheet, err = p.app.Sheet(ctx, v.who, v.FormValue("sheet")); err != nil {
		return err
	}
	if body.Repriced, err = p.app.Reprice(ctx, v.who, id, n, body.Sheet.ID, version); err != nil {
		return err
	}
	priced, err := p.app.Revision(ctx, v.who, id, n)
	if err != nil {
		return err
	}
	body.markups = map[[2]string]string{}
	for _, o := range priced.Priced.Options {
		for _, l := range o.Lines {
			body.markups[[2]string{o.ID, l.Key}] = l.Markup
		}
	}
	return p.show(v, http.StatusOK, "repriced", page{Title: quoteTitle(q.Number, n, j.Boat.Name) + ", on price version " + strconv.FormatInt(version, 10),
		Way: append(jobWay(j), link{"Quote " + q.Number, body.Path}), Body: body})
}
