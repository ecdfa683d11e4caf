package web

import (
	"net/http"

	"ribband/pricing/money"
)

// comparePage is any two options of an issued revision, at selling prices only.
type comparePage struct {
	*explainer
	Sides   [2]comparedSide
	Against against
}

type comparedSide struct {
	Letter, Name string
	Total        money.Money
	Does, Undone []string
}

// compare sets two options against each other, by their ids.
func (p *Pages) compare(v *visit) error {
	n, err := v.number("n")
	if err != nil {
		return err
	}
	id := v.PathValue("quote")
	paper, err := p.app.OwnerPaper(v.Context(), v.who, id, n)
	if err != nil {
		return err
	}
	place := func(option string) int {
		for i, o := range paper.Estimate.Options {
			if o.ID == option {
				return i
			}
		}
		return -1
	}
	first, second := place(v.FormValue("first")), place(v.FormValue("second"))
	if first < 0 || second < 0 {
		return errNothing
	}
	if first == second {
		return errSameOption
	}
	diff, err := paper.Difference(first, second)
	if err != nil {
		return err
	}
	words := newExplainer()
	body := comparePage{explainer: words, Against: against{words, diff, first, second, paper.LineText}}
	for k, i := range []int{first, second} {
		o, said := paper.Estimate.Options[i], paper.Paper.Options[i]
		body.Sides[k] = comparedSide{letter(i), o.Name, o.Total, said.InPlainWords, said.Undone}
	}
	return p.show(v, http.StatusOK, "difference", page{Title: "Option " + letter(second) + " against option " + letter(first) + " for " + paper.Paper.Boat.Name,
		Way: []link{{"Estimate " + paper.Number, revisionPath(id, n)}}, Body: body})
}
