package web

import (
	"net/http"
	"strconv"

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
	return p.show(v, http.StatusOK, "repriced", page{Title: quoteTitle(q.Number, n, j.Boat.Name) + ", on price version " + strconv.FormatInt(version, 10),
		Way: append(jobWay(j), link{"Quote " + q.Number, body.Path}), Body: body})
}
