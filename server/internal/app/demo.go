package app

import (
	"slices"

	"ribband/seed"
)

// LoadDemo is the invented yard of the seed, as SetUpDemo takes it.
func LoadDemo() (Demo, error) {
	d, err := seed.Load()
	if err != nil {
		return Demo{}, err
	}
	out := Demo{
		Knowledge:  Knowledge(d.Knowledge),
		Letterhead: Letterhead(d.Yard),
		Job: JobFields{Owner: Person{Name: d.Job.Owner}, Boat: Boat{Name: d.Job.Boat, Description: d.Job.Description},
			Notation: d.Job.Notation, Currency: d.Job.Currency, OpenedDate: d.Job.OpenedDate},
		Hull: d.Hull, Frames: d.Frames, Planking: d.Planking, Findings: d.Findings, Rack: d.Rack, SheetName: d.SheetName, Notation: d.Job.Notation, Currency: d.Job.Currency,
		Prices: d.Prices, Terms: d.Terms,
	}
	for _, o := range slices.Concat(d.Options, d.Planked) {
		out.Options = append(out.Options, DemoOption{OptionFields{Name: o.Name, Scope: o.Scope, Undone: o.Undone}, o.Remedies, o.Planks})
	}
	return out, nil
}
