package web

import (
	"net/http"
	"sort"
	"strings"

	"ribband/takeoff/derivation"
	"ribband/takeoff/quantity"
)

// opened is a figure with how it came about, ready to be read.
type opened struct {
	Value   string
	Unit    quantity.Unit
	Text    string // the formula in the book's symbols
	Source  string
	Letters []symbol // what stands for what, of symbols that no input names
	Inputs  []input
	Factors []factor
	Rounded string
	Href    string
}

type symbol struct{ Symbol, Means string }

type input struct {
	Symbol, Means, Value string
	Unit                 quantity.Unit
	Given                string
	// Of is which figure it is, in words.
	Of string
	// Href leads to the figure that this one is.
	Href string
}

type factor struct{ Symbol, Means, Value, Source string }

// figures of a takeoff by id.
type figures struct {
	at   map[string]derivation.Figure
	base string
}

func figuresOf(list []derivation.Figure, job, option string) figures {
	f := figures{map[string]derivation.Figure{}, optionPath(job, option) + "/figures/"}
	for _, x := range list {
		f.at[x.ID] = x
	}
	return f
}

// open is the figure with this id; nil where there is none.
func (f figures) open(id string) *opened {
	x, ok := f.at[id]
	if !ok {
		return nil
	}
	formula, _ := derivation.Lookup(x.Formula)
	out := &opened{Value: x.Value, Unit: x.Unit, Text: formula.Text, Source: formula.Source, Rounded: rounding(x.Rounding, x.Value), Href: f.base + id}
	named := map[string]bool{}
	for _, in := range x.Inputs {
		named[in.Symbol] = true
		i := input{Symbol: in.Symbol, Means: formula.Legend[in.Symbol], Value: in.Value, Unit: in.Unit, Given: plain(in.Given)}
		if in.Figure != "" {
			i.Href, i.Of = f.base+in.Figure, strings.ReplaceAll(plain(in.Figure), "/", " ")
		}
		out.Inputs = append(out.Inputs, i)
	}
	for _, fa := range x.Factors {
		named[fa.Symbol] = true
		out.Factors = append(out.Factors, factor{fa.Symbol, formula.Legend[fa.Symbol], fa.Value, fa.Source})
	}
	for s, means := range formula.Legend {
		if !named[s] {
			out.Letters = append(out.Letters, symbol{s, means})
		}
	}
	sort.Slice(out.Letters, func(i, j int) bool { return out.Letters[i].Symbol < out.Letters[j].Symbol })
	return out
}

func rounding(r derivation.Rounding, value string) string {
	if r.Mode == derivation.None || r.From == value {
		return ""
	}
	way := map[derivation.Mode]string{derivation.HalfAway: "to the nearest", derivation.Up: "up", derivation.Down: "down"}[r.Mode]
	return "Rounded " + way + " from " + grouped(r.From) + "."
}

// oneFigure is the page of one figure, which others lead to.
func (p *Pages) oneFigure(v *visit) error {
	job, option := v.PathValue("job"), v.PathValue("option")
	j, o, t, err := p.takenOff(v)
	if err != nil {
		return err
	}
	f := figuresOf(t.Figures, job, option).open(v.PathValue("figure"))
	if f == nil {
		return errNothing
	}
	return p.show(v, http.StatusOK, "figure", page{Title: "How one figure of " + j.Boat.Name + " came about",
		Way: []link{{"Jobs", "/"}, {j.Boat.Name, jobPath(job)}, {o.Name, optionPath(job, option)}}, Body: struct {
			ID     string
			Figure *opened
		}{v.PathValue("figure"), f}})
}
