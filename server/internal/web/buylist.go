package web

import (
	"bytes"
	"errors"
	"fmt"
	"html/template"
	"net/http"
	"slices"
	"strconv"
	"strings"

	"ribband/pricing/buy"
	"ribband/pricing/money"
	"ribband/pricing/pack"
	"ribband/pricing/ripping"
	"ribband/pricing/sheet"
	"ribband/server/internal/app"
	"ribband/server/internal/store"
	"ribband/takeoff/draw"
	"ribband/takeoff/drawing"
	"ribband/takeoff/notation"
)

// buyPage is what to buy for an option on one version of a price sheet, and how its boards are cut.
type buyPage struct {
	Path string
	// In is how lengths are written.
	In notation.Notation
	// On is the query that chose the version.
	On string
	// Offered are the versions that may be chosen; one of them is.
	Offered []offeredVersion
	// Rack is the version of what is in hand that may be drawn on, 0 where the yard wrote none down; Drawn whether it is.
	Rack  int64
	Drawn bool
	// Writes says that who looks may put the rack; Done that it was put.
	Writes, Done bool
	// Needed asks for the day on which all is needed.
	Needed field
	// Missing is what the version has no price for; then there is no list.
	Missing []sheet.Missing
	*app.Ripping
}

// offeredVersion is a published version of a sheet.
type offeredVersion struct {
	Sheet  app.Sheet
	N      int64
	Chosen bool
}

func buyPath(job, option string) string { return optionPath(job, option) + "/buy-list" }

// buyList is the page of what to buy and how it is cut, made to be printed for the saw.
func (p *Pages) buyList(v *visit) error {
	job, option := v.PathValue("job"), v.PathValue("option")
	o, err := p.app.Option(v.Context(), v.who, job, option)
	if err != nil {
		return err
	}
	j, err := p.app.Job(v.Context(), v.who, job)
	if err != nil {
		return err
	}
	body := buyPage{Path: buyPath(job, option), In: j.Notation}
	if body.Offered, err = p.offered(v, j); err != nil {
		return err
	}
	inHand, err := p.app.Rack(v.Context(), v.who, 0)
	var none *store.NotFoundError
	if err != nil && !errors.As(err, &none) {
		return err
	}
	body.Rack = inHand.N
	if asked := v.FormValue("rack"); asked != "" {
		if asked != strconv.FormatInt(body.Rack, 10) || body.Rack == 0 {
			return errNothing
		}
		body.Drawn = true
	}
	status := http.StatusOK
	body.Writes, body.Done = v.is(writers...), v.FormValue("done") == "rack"
	for _, of := range body.Offered {
		if !of.Chosen {
			continue
		}
		body.On = fmt.Sprintf("?sheet=%s&version=%d", of.Sheet.ID, of.N)
		drawn := int64(0)
		if body.Drawn {
			drawn = body.Rack
		}
		r, err := p.app.Ripping(v.Context(), v.who, job, option, of.Sheet.ID, of.N, drawn, drawing.Wide)
		var missing *sheet.MissingPriceError
		switch {
		case errors.As(err, &missing):
			body.Missing = missing.Items
		case err != nil:
			return err
		default:
			if body.Needed, err = p.byDay(&r.BuyList, v.FormValue("needed")); err != nil {
				return err
			}
			if body.Needed.Wrong != "" {
				status = http.StatusUnprocessableEntity
			}
			body.Ripping = &r
		}
	}
	return p.show(v, status, "buylist", page{Title: "What to buy for " + j.Boat.Name + ", option “" + o.Name + "”",
		Way: []link{{"Jobs", "/"}, {j.Boat.Name, jobPath(job)}, {o.Name, optionPath(job, option)}}, Body: body})
}

// byDay asks for the day on which all is needed, and where one came along writes into the list by when to order for it.
func (p *Pages) byDay(list *app.BuyList, day string) (field, error) {
	const longest = 40 // a day has ten characters; more are kept to be shown as wrong
	asks := field{Name: "needed", Label: "Needed on", Hint: "such as 2027-03-15", Value: day, Max: longest}
	if day == "" {
		return asks, nil
	}
	err := p.app.ByDay(list, day)
	var wrong *app.QuestionError
	if errors.As(err, &wrong) {
		asks.Wrong, err = capital(wrong.Detail)+".", nil
	}
	return asks, err
}

// putRackAfter puts the rack as it is once the boards are cut, if it is still the version that the page was about.
func (p *Pages) putRackAfter(v *visit) error {
	f, err := v.filled("sheet", "version", "rack", "seen")
	if err != nil {
		return err
	}
	var numbers [3]int64
	for i, name := range []string{"version", "rack", "seen"} {
		if numbers[i], err = strconv.ParseInt(f.Values[name], 10, 64); err != nil || numbers[i] < 0 {
			return errForm
		}
	}
	job, option := v.PathValue("job"), v.PathValue("option")
	doc, err := p.app.RackAfter(v.Context(), v.who, job, option, f.Values["sheet"], numbers[0], numbers[1])
	if err != nil {
		return err
	}
	seen := store.Absent
	if numbers[2] > 0 {
		seen = store.Seen(numbers[2])
	}
	if _, err := p.app.PutRack(v.Context(), v.who, doc, seen); err != nil {
		return err
	}
	return v.to(fmt.Sprintf("%s?sheet=%s&version=%d&done=rack", buyPath(job, option), f.Values["sheet"], numbers[0]))
}

// offered are the published versions of the yard's sheets in the job's currency, newest first. Chosen is the one that was
// asked for, or the newest where none was; one that is not there is errNothing.
func (p *Pages) offered(v *visit, j app.Job) ([]offeredVersion, error) {
	list, err := p.app.Sheets(v.Context(), v.who, store.Page{Limit: store.LargestLimit})
	if err != nil {
		return nil, err
	}
	var out []offeredVersion
	for _, s := range list.Items {
		if s.Currency != j.Currency {
			continue
		}
		for i := len(s.Published) - 1; i >= 0; i-- {
			out = append(out, offeredVersion{Sheet: s, N: s.Published[i].N})
		}
	}
	asked, n := v.FormValue("sheet"), v.FormValue("version")
	if asked == "" && n == "" {
		if len(out) > 0 {
			out[0].Chosen = true
		}
		return out, nil
	}
	for i, of := range out {
		if of.Sheet.ID == asked && strconv.FormatInt(of.N, 10) == n {
			out[i].Chosen = true
			return out, nil
		}
	}
	return nil, errNothing
}

// rippedBoard is one kind of board on the page: its picture where there is room and where there is little, and the steps
// in words.
type rippedBoard struct {
	Name, Size  string
	Roomy, Slim template.HTML
	Steps       []string
}

// roomy is the width of a board's picture that is read as well on paper as on a screen.
const roomy = 760

// Rip are the boards of the i-th list.
func (b buyPage) Rip(i int) ([]rippedBoard, error) {
	list := b.Drawings[i]
	out := make([]rippedBoard, len(list.Boards))
	for k, of := range list.Boards {
		wide, err := picture(list, k, roomy, fmt.Sprintf("list-%d-board-%d", i, k))
		if err != nil {
			return nil, err
		}
		slim, err := picture(list, k, drawing.Narrow, fmt.Sprintf("list-%d-board-%d-slim", i, k))
		if err != nil {
			return nil, err
		}
		out[k] = rippedBoard{of.Name, of.Size, wide, slim, list.Steps(k)}
	}
	return out, nil
}

// picture of one kind of board, to stand in the page.
func picture(list drawing.RippingList, board int, width float64, id string) (template.HTML, error) {
	list.Sheet.Width = width
	var svg bytes.Buffer
	err := draw.WriteSVG(&svg, list.Board(board).List, id)
	return template.HTML(svg.String()), err //nolint:gosec // WriteSVG escapes every text and writes no script, style or link
}

// flatSheet is sheets cut alike on the page.
type flatSheet struct {
	Name, Size  string
	Roomy, Slim template.HTML
	Table       drawing.Table
	Steps       []string
}

// flatPlan is how the sheets of one item are cut.
type flatPlan struct {
	Packs  pack.Plan
	Sheets []flatSheet
}

// Flat are the plans of sheets and rolls, one for each item that is laid out.
func (b buyPage) Flat() ([]flatPlan, error) {
	var out []flatPlan
	for _, p := range b.Packs {
		if p.Sheets == nil {
			continue
		}
		cut := b.Flats[len(out)]
		plan := flatPlan{Packs: p}
		for k, s := range cut.Layouts {
			of := flatSheet{Name: s.Name, Size: s.Size, Steps: s.Steps}
			for _, as := range []struct {
				width float64
				into  *template.HTML
				id    string
			}{{roomy, &of.Roomy, ""}, {drawing.Narrow, &of.Slim, "-slim"}} {
				cut.Sheet.Width = as.width
				drawn := cut.Layout(k)
				var svg bytes.Buffer
				if err := draw.WriteSVG(&svg, drawn.List, fmt.Sprintf("flat-%d-sheet-%d%s", len(out), k, as.id)); err != nil {
					return nil, err
				}
				*as.into, of.Table = template.HTML(svg.String()), drawn.Table //nolint:gosec // as picture
			}
			of.Table = bare(of.Table)
			plan.Sheets = append(plan.Sheets, of)
		}
		out = append(out, plan)
	}
	return out, nil
}

// bare leaves out of a table of one sheet which sheet it is, and its size, which stand above it.
func bare(t drawing.Table) drawing.Table {
	out := drawing.Table{Caption: t.Caption, Head: t.Head[2:]}
	for _, row := range t.Rows {
		out.Rows = append(out.Rows, row[2:])
	}
	return out
}

// Ordered is what all orders come to.
func (b buyPage) Ordered() (money.Money, error) {
	costs := make([]money.Money, len(b.Orders))
	for i, o := range b.Orders {
		costs[i] = o.Cost
		if o.Freight != nil {
			costs = append(costs, o.Freight.Cost)
		}
	}
	return money.Sum(b.Currency, costs...)
}

// Named is a board in the job's notation.
func (b buyPage) Named(t buy.Timber, offer string) string { return app.BoardName(t, offer, b.In) }

// RandomWidth says that some of the boards bought come in random widths.
func (b buyPage) RandomWidth(t buy.Timber) bool {
	return slices.ContainsFunc(t.Boards, func(of buy.Boards) bool {
		return slices.ContainsFunc(t.Offers, func(o buy.Offer) bool { return o.ID == of.Offer && o.RandomWidth() })
	})
}

// leftLine is a line of what remains.
type leftLine struct {
	Where string
	Count int64
	What  string
}

// Left is what remains of one kind of timber: what is kept, what is too short, and what nobody decided on.
func (b buyPage) Left(of ripping.Remains) []leftLine {
	var out []leftLine
	for _, x := range []struct {
		where string
		all   []ripping.Remnant
	}{{"kept, to the rack", of.Kept}, {"too short to keep", of.Scrap}, {"the rules say no least length", of.Undecided}} {
		for _, r := range x.all {
			what := map[string]string{"strip": "left of strips", "board": "uncut parts of boards"}[r.What]
			out = append(out, leftLine{x.where, r.Count, what + ", " + app.SizeIn(b.In, r.ThicknessMM, r.WidthMM, r.LengthMM)})
		}
	}
	return out
}

// Trimmed is a figure without zeros at its end.
func (buyPage) Trimmed(figure string) string {
	if !strings.Contains(figure, ".") {
		return figure
	}
	return strings.TrimSuffix(strings.TrimRight(figure, "0"), ".")
}

// Resawn reports whether a board of the plan is sawn into layers.
func (buyPage) Resawn(t buy.Timber) bool {
	return slices.ContainsFunc(t.Boards, func(b buy.Boards) bool {
		return slices.ContainsFunc(t.Offers, func(o buy.Offer) bool { return o.ID == b.Offer && o.Way.Layers > 1 })
	})
}

// Caution of the saw.
func (buyPage) Caution() string { return drawing.SawCaution }

// Each is how many strips one board gives.
func (buyPage) Each(b buy.Boards) int64 { return b.Strips / b.Count }

// Proof says how sure it is that a plan of timber is the cheapest.
func (buyPage) Proof(t buy.Timber) string {
	of, all, labour := "choice of boards", t.Cost, ""
	if t.Scarfed != nil {
		of, labour = "choice of boards and scarfs", ", "+priced(t.Scarfed.Labour)+" of it labour"
		var err error
		if all, err = t.Cost.Add(t.Scarfed.Labour); err != nil {
			return ""
		}
	}
	if t.Proven {
		return "No " + of + " off these prices costs less than " + priced(all) + labour + "."
	}
	return "This " + of + " costs " + priced(all) + labour + "; none can be below " + priced(t.Bound) + "."
}

// Beside reports that the planks of a group lie side by side.
func (buyPage) Beside(t buy.Timber) bool { return t.CutSideBySide() }

// BySide says what laying planks side by side comes to beside boards for each width; empty where no board holds two.
func (b buyPage) BySide(t buy.Timber) string {
	s := t.SideBySide
	if s == nil {
		return ""
	}
	if b.Beside(t) && s.OnlyWay() {
		return "Strips of several widths lie side by side in these boards; for boards of each width by itself too few are for sale."
	}
	if b.Beside(t) {
		return "Strips of several widths lie side by side in these boards; with boards for each width of its own they would come to " + priced(s.Apart) + "."
	}
	out := "These boards are for these planks alone; so the " + countText(len(s.Lines), "plank", "planks") + " of this wood come to " + priced(s.Apart) + "."
	if s.Bound.Minor() >= s.Apart.Minor() {
		return out + " Side by side none could cost less."
	}
	out += " Side by side they were laid out for " + priced(s.Cost)
	if s.Bound.Minor() < s.ApartBound.Minor() {
		return out + ", and whether that can be had for less than " + priced(s.Apart) + " is not known: no such plan is below " + priced(s.Bound) + "."
	}
	return out + ", and no such plan is below " + priced(s.Bound) + "."
}

// Least reports that no plan can cost less than the list, the labour of its scarfs with it.
func (b buyPage) Least() bool { return b.Cost.Minor()+b.ScarfLabour.Minor() == b.Bound.Minor() }

// LeastDelivered reports the same of goods with their freight.
func (b buyPage) LeastDelivered() bool {
	return b.Total.Minor()+b.ScarfLabour.Minor() == b.TotalBound.Minor()
}

// Scarfs says what is made of two parts, what that takes and what it saves; empty where nothing is.
func (b buyPage) Scarfs(t buy.Timber) string {
	s := t.Scarfed
	if s == nil {
		return ""
	}
	out := fmt.Sprintf("Scarfed from two: %s, %s of labour at %s h each without setting up", countText(int(s.Count), "joint", "joints"), priced(s.Labour), b.Trimmed(s.HoursEach.String()))
	if s.Saves != nil {
		out += ", saves " + priced(*s.Saves) + " of " + plain(t.Species)
	}
	switch {
	case s.Must == s.Count:
		out += "; no board is long enough without"
	case s.Must > 0:
		out += fmt.Sprintf("; %d of them because no board is long enough", s.Must)
	}
	return out + ". Each lies over " + drawing.AsRead(b.In, s.Taper.InexactFloat64()) + "."
}
