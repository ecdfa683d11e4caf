package web

import (
	"cmp"
	"net/http"

	"ribband/server/internal/app"
	"ribband/takeoff"
	"ribband/takeoff/bill"
	"ribband/takeoff/boat"
	"ribband/takeoff/notation"
	"ribband/takeoff/quantity"
	"ribband/takeoff/step"

	"github.com/shopspring/decimal"
)

type optionPage struct {
	Job    app.Job
	Option app.Option
	Plan   plan
	app.Takeoff
	Materials []material
	Members   []memberNeeds
	// GluingPath is the page of batches and records.
	GluingPath string
	// BuyPath is the page of what to buy and how it is cut.
	BuyPath string
	// FormsPath is the page of the forms.
	FormsPath string
	// PlanksPath is the page of the planks that are renewed.
	PlanksPath string
	// FloorPlan is the drawing of the floors, nil where there are none.
	FloorPlan *plan
	Hours     []stepHours
}

// material is everything of one thing that the option needs, over all members.
type material struct {
	Name, Size string
	Net, Gross quantity.Quantity
	Losses     []bill.Loss
	// Shared says that what is lost is rounded up once over the lines, and not line by line.
	Shared bool
	Lines  []needed
}

// needed is one line of the bill with both its figures opened.
type needed struct {
	bill.Line
	in                 notation.Notation
	OpenNet, OpenGross *opened
}

// memberNeeds is what one member needs.
type memberNeeds struct {
	Member boat.Member
	Remedy boat.Remedy
	Lines  []needed
}

type stepHours struct {
	step.Work
	Open *opened
}

// takenOff is the job and the option that a page's address names, and the option's takeoff.
func (p *Pages) takenOff(v *visit) (j app.Job, o app.Option, t app.Takeoff, err error) {
	ctx, job, option := v.Context(), v.PathValue("job"), v.PathValue("option")
	if o, err = p.app.Option(ctx, v.who, job, option); err != nil {
		return
	}
	if j, err = p.app.Job(ctx, v.who, job); err != nil {
		return
	}
	t, err = p.app.Takeoff(ctx, v.who, job, option)
	return
}

// option is the page of materials and hours.
func (p *Pages) option(v *visit) error {
	job, option := v.PathValue("job"), v.PathValue("option")
	j, o, t, err := p.takenOff(v)
	if err != nil {
		return err
	}
	d, err := p.app.FramePlan(v.Context(), v.who, job, option, v.width())
	if err != nil {
		return err
	}
	body := optionPage{Job: j, Option: o, Takeoff: t, Plan: planOf(d, optionPath(job, option)+"/frames.svg"), GluingPath: gluingPath(job, option), BuyPath: buyPath(job, option), FormsPath: formsPath(job, option), PlanksPath: planksPath(job, option)}
	if len(t.Floors) > 0 {
		floors, err := p.app.FloorsDrawing(v.Context(), v.who, job, option, v.width())
		if err != nil {
			return err
		}
		drawn := planOf(floors, optionPath(job, option)+"/floors.svg")
		body.FloorPlan = &drawn
	}
	all := figuresOf(t.Figures, job, option)
	if body.Materials, err = materials(t.Bill.Lines, j.Notation, all); err != nil {
		return err
	}
	body.Members = byMember(t.Bill.Lines, j.Notation, all)
	for _, w := range t.Work {
		body.Hours = append(body.Hours, stepHours{w, all.open(w.Figure)})
	}
	return p.show(v, http.StatusOK, "option", page{Title: "Materials and hours for " + j.Boat.Name + ", option “" + o.Name + "”",
		Way: []link{{"Jobs", "/"}, {j.Boat.Name, jobPath(job)}}, Body: body})
}

// materials adds the bill up by what is needed.
func materials(lines []bill.Line, in notation.Notation, all figures) ([]material, error) {
	var out []material
	at := map[[2]string]int{}
	for _, l := range lines {
		m := nameOf(l, in)
		k := [2]string{m.Name, exactSize(l)}
		i, ok := at[k]
		if !ok {
			i = len(out)
			at[k] = i
			m.Net, m.Gross = quantity.Zero(l.Net.Unit()), quantity.Zero(l.Gross.Unit())
			m.Shared = all.at[l.GrossFigure].Formula == "bill/shared_pieces"
			out = append(out, m)
		}
		var err error
		if out[i].Net, err = out[i].Net.Add(l.Net); err != nil {
			return nil, err
		}
		if out[i].Gross, err = out[i].Gross.Add(l.Gross); err != nil {
			return nil, err
		}
		out[i].Lines = append(out[i].Lines, neededOf(l, in, all))
	}
	return out, nil
}

func neededOf(l bill.Line, in notation.Notation, all figures) needed {
	return needed{l, in, all.open(l.NetFigure), all.open(l.GrossFigure)}
}

// exactSize keeps apart what a tape reads alike.
func exactSize(l bill.Line) string {
	if l.Pieces == nil {
		return ""
	}
	return l.Pieces.Thickness.String() + " " + l.Pieces.Siding.String()
}

func nameOf(l bill.Line, in notation.Notation) material {
	m := material{Name: plain(cmp.Or(l.Item, string(l.Material))), Losses: l.Losses}
	if l.Pieces != nil {
		what := "laminates"
		if l.Driver == string(step.Steamed) || l.Driver == string(step.Sawn) {
			what = "solid pieces"
		}
		if l.Driver == string(step.Planks) {
			what = "planks"
		}
		if l.Driver == string(step.NewButts) {
			what = "butt blocks"
		}
		m.Name = what + " of " + plain(l.Pieces.Species) + ", grade " + l.Pieces.Grade
		m.Size = tapeRead(in, l.Pieces.Thickness) + " × " + tapeRead(in, l.Pieces.Siding)
	}
	return m
}

// tapeRead is an exact length of so many mm as the job's papers say it.
func tapeRead(in notation.Notation, mm decimal.Decimal) string {
	l, err := notation.FromMM(mm.InexactFloat64())
	if err != nil {
		return mm.String() + " mm"
	}
	return in.Said(l)
}

// blockRow is a butt block with the plank that makes its butt.
type blockRow struct {
	Name string
	takeoff.NewBlock
}

// Blocks are the butt blocks of all new planks.
func (b optionPage) Blocks() []blockRow {
	var out []blockRow
	for _, n := range b.Planks {
		name := capital(n.Member.String())
		if n.Part != "" {
			name += ", " + n.Part
		}
		for _, block := range n.Blocks {
			out = append(out, blockRow{name, block})
		}
	}
	return out
}

// Name and Size of a line in the table of one member.
func (n needed) Name() string { return nameOf(n.Line, n.in).Name }

// Size of the pieces, with their length.
func (n needed) Size() string {
	if n.Pieces == nil {
		return ""
	}
	return nameOf(n.Line, n.in).Size + ", " + tapeRead(n.in, n.Pieces.Length.Value().Shift(3)) + " long"
}

// byMember gathers the lines of each member, in the bill's order.
func byMember(lines []bill.Line, in notation.Notation, all figures) []memberNeeds {
	var out []memberNeeds
	for _, l := range lines {
		if n := len(out); n == 0 || out[n-1].Member != l.Member {
			out = append(out, memberNeeds{Member: l.Member, Remedy: l.Remedy})
		}
		m := &out[len(out)-1]
		m.Lines = append(m.Lines, neededOf(l, in, all))
	}
	return out
}
