package quote

import (
	"slices"

	"ribband/pricing/buy"
	"ribband/takeoff/derivation"
	"ribband/takeoff/step"
)

// shop is how boards are cut with what the option's hours are reckoned by.
func (o OptionInput) shop(r buy.Rules) buy.Rules {
	r.Labour = o.labour()
	return r
}

func (o OptionInput) labour() buy.Labour { return buy.Labour{Steps: o.Library, Work: o.Work} }

// Planned is the option's work with the scarfs of its buy list in it: each scarf stands once, as the plan makes it.
func (o OptionInput) Planned() ([]step.Work, error) {
	work, _, err := o.Buy.Planned(o.Needs, o.labour())
	return work, err
}

// planned are the options with such work, and how it came about.
func planned(options []OptionInput) ([]OptionInput, [][]derivation.Figure, error) {
	out, figures := slices.Clone(options), make([][]derivation.Figure, len(options))
	for i, o := range options {
		work, hours, err := o.Buy.Planned(o.Needs, o.labour())
		if err != nil {
			return nil, nil, &OptionError{o.ID, o.Name, err}
		}
		out[i].Work = work
		figures[i] = slices.Concat(o.Buy.Figures, hours)
	}
	return out, figures, nil
}
