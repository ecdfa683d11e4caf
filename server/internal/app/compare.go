package app

import (
	"context"

	"ribband/pricing/quote"
	"ribband/pricing/sheet"
	"ribband/server/internal/auth"
	"ribband/server/internal/store"
	"ribband/takeoff/quantity"
)

// Comparison is two options of an issued revision side by side, as the owner may see them: selling prices only.
type Comparison struct {
	Quote  string       `json:"quote"`
	N      int64        `json:"n"`
	First  ComparedSide `json:"first"`
	Second ComparedSide `json:"second"`
	// Difference is by step and line; its parts add to the total difference to the cent.
	Difference quote.OptionDifference `json:"difference"`
	// Words are what a line's thing is called in plain words, by the key of the line.
	Words map[string]string `json:"words"`
}

// ComparedSide is what an option means besides its price.
type ComparedSide struct {
	ID   string `json:"id"`
	Name string `json:"name"`
	// Scope says what is done, Undone what stays undone and what that means.
	Scope    []string  `json:"scope"`
	Undone   []string  `json:"undone"`
	Cautions []Caution `json:"cautions"`
	// Weight of what is put in, Hours of work.
	Weight quantity.Quantity `json:"weight"`
	Hours  quantity.Quantity `json:"hours"`
}

// Caution is what a step asks to be careful of.
type Caution struct {
	Step string `json:"step"`
	Text string `json:"text"`
}

// Compare sets the second option of an issued revision against the first, from what was frozen. Without ids it is the
// two options of a revision that has two. An option that the revision does not have is not found.
func (a *App) Compare(ctx context.Context, who auth.Principal, id string, n int64, first, second string) (Comparison, error) {
	if _, _, _, err := a.revisionRecord(ctx, who, id, n); err != nil {
		return Comparison{}, err
	}
	s, err := a.snapshot(ctx, who, id, n)
	if err != nil {
		return Comparison{}, err
	}
	if first == "" && second == "" && len(s.Options) == 2 {
		first, second = s.Options[0], s.Options[1]
	}
	i, j := s.option(first), s.option(second)
	if i < 0 || j < 0 {
		return Comparison{}, &store.NotFoundError{Kind: "option", ID: first + " " + second}
	}
	view, err := s.Priced.OwnerView()
	if err != nil {
		return Comparison{}, err
	}
	out := Comparison{Quote: id, N: n, First: s.side(i), Second: s.side(j)}
	if out.Difference, err = quote.Difference(view.Options[i], view.Options[j]); err != nil {
		return Comparison{}, err
	}
	out.Words, err = s.words(view.Options[i], view.Options[j])
	return out, err
}

// option is the place of an option in the snapshot; -1 for none.
func (s snapshot) option(id string) int {
	for i, o := range s.Priced.Options {
		if o.ID == id {
			return i
		}
	}
	return -1
}

func (s snapshot) side(i int) ComparedSide {
	t := s.Takeoffs[i]
	out := ComparedSide{ID: t.Option.ID, Name: t.Option.Name, Scope: t.Option.Scope, Undone: t.Option.Undone, Cautions: []Caution{},
		Weight: t.Weight, Hours: s.Priced.Options[i].Hours}
	if out.Scope == nil {
		out.Scope = []string{}
	}
	if out.Undone == nil {
		out.Undone = []string{}
	}
	for _, c := range cautions(s.Takeoffs[i : i+1]) {
		out.Cautions = append(out.Cautions, Caution{c.Step, c.Text})
	}
	return out
}

// words are the names of the options' lines, as the estimate has them on paper.
func (s snapshot) words(options ...quote.OwnerOption) (map[string]string, error) {
	names, err := namesOf(s)
	if err != nil {
		return nil, err
	}
	out := map[string]string{}
	for _, o := range options {
		for _, step := range o.Steps {
			for _, l := range step.Lines {
				out[l.Key] = names.of(l.Kind, l.Item)
			}
		}
	}
	return out, nil
}

// ComparedPrices is two versions of one price sheet, item by item.
type ComparedPrices struct {
	Sheet string `json:"sheet"`
	From  int64  `json:"from"`
	To    int64  `json:"to"`
	sheet.Comparison
}

// ComparePrices sets version to of a sheet against version from. The draft is compared as well, so that it can be
// looked at before it is published.
func (a *App) ComparePrices(ctx context.Context, who auth.Principal, id string, from, to int64) (ComparedPrices, error) {
	if who.Role == auth.Owner {
		return ComparedPrices{}, &store.NotFoundError{Kind: kindSheet, ID: id}
	}
	older, err := a.Prices(ctx, who, id, from)
	if err != nil {
		return ComparedPrices{}, err
	}
	newer, err := a.Prices(ctx, who, id, to)
	if err != nil {
		return ComparedPrices{}, err
	}
	c, err := sheet.Compare(older.Doc, newer.Doc)
	return ComparedPrices{id, from, to, c}, err
}
