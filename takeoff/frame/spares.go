package frame

import (
	"cmp"
	"slices"
	"strings"

	"ribband/takeoff/bill"
	"ribband/takeoff/derivation"
	"ribband/takeoff/quantity"
	"ribband/takeoff/spare"
	"ribband/takeoff/step"

	"github.com/shopspring/decimal"
)

// Alike are steamed pieces of one wood, grade and section over the boat, with what is bought so that enough are left.
type Alike struct {
	Species   string            `json:"species"`
	Grade     string            `json:"grade"`
	Thickness decimal.Decimal   `json:"thickness_mm"` // as sawn, like the siding
	Siding    decimal.Decimal   `json:"siding_mm"`
	Net       quantity.Quantity `json:"net"`
	Gross     quantity.Quantity `json:"gross"`
	Losses    []bill.Loss       `json:"losses"`
	// PerLoad go into the steam box at once, in so many Loads; nil where the yard does not say how large that is.
	PerLoad *quantity.Quantity `json:"per_load,omitempty"`
	Loads   *quantity.Quantity `json:"loads,omitempty"`
}

// Spares puts the gross of steamed pieces on the lines of a bill, and what their work is counted by behind its measures;
// what comes back is by wood, grade and section.
//
// They are shared over the frames as spare.Count says.
func Spares(of *bill.Bill, t *derivation.Table) ([]Alike, error) {
	var out []Alike
	for _, lines := range spare.Alike(of.Lines, func(l bill.Line) bool { return l.Driver == string(step.Steamed) }) {
		one := lines[0]
		a := Alike{one.Pieces.Species, one.Pieces.Grade, one.Pieces.Thickness, one.Pieces.Siding, quantity.Zero(quantity.Each), quantity.Zero(quantity.Each), one.Losses, nil, nil}
		before, boxed := "", ""
		for _, l := range lines {
			before = spare.Count(l, before, t)
			var in bool
			if boxed, in = loads(l, boxed, t); in {
				a.load(l, t)
			}
			for _, sum := range []struct{ to, of *quantity.Quantity }{{&a.Net, &l.Net}, {&a.Gross, &l.Gross}} {
				more, err := sum.to.Add(*sum.of)
				if err != nil {
					return nil, cmp.Or(t.Err(), err)
				}
				*sum.to = more
			}
		}
		out = append(out, a)
	}
	for _, l := range of.Lines {
		if l.Driver == string(step.Steamed) {
			of.Measures = append(of.Measures, steamedWork(l, t)...)
		}
	}
	slices.SortFunc(out, func(a, b Alike) int {
		return cmp.Or(strings.Compare(a.Species, b.Species), strings.Compare(a.Grade, b.Grade), a.Thickness.Cmp(b.Thickness), a.Siding.Cmp(b.Siding))
	})
	return out, t.Err()
}

// load counts the loads of one line.
func (a *Alike) load(l *bill.Line, t *derivation.Table) {
	path := strings.TrimSuffix(l.ID, "/steamed_timber")
	if a.Loads == nil {
		k, none := t.Quantity(path+"/"+perLoadName), quantity.Zero(quantity.Each)
		a.PerLoad, a.Loads = &k, &none
	}
	if sum, err := a.Loads.Add(t.Quantity(path + "/steam_loads")); err == nil {
		a.Loads = &sum
	}
}

// steamedWork is what the work in steam of a line is counted by: its pieces, and the hours that they are in steam.
func steamedWork(l bill.Line, t *derivation.Table) []bill.Measure {
	hours := strings.TrimSuffix(l.ID, "steamed_timber") + "steam_hours"
	path := strings.TrimSuffix(hours, "/steam_hours")
	if _, boxed := t.Find(path + "/steam_loads"); boxed {
		t.Derive(hours, "steam/load_hours", []derivation.Input{t.Ref("L", path+"/steam_loads"), t.Ref("h", hours+"_each")})
	} else {
		t.Derive(hours, "steam/hours", []derivation.Input{t.Ref("N", l.GrossFigure), t.Ref("h", hours+"_each")})
	}
	var out []bill.Measure
	for _, m := range []struct {
		driver step.Driver
		figure string
	}{{step.Steamed, l.GrossFigure}, {step.InSteam, hours}} {
		out = append(out, bill.Measure{Driver: string(m.driver), Member: l.Member, Zone: l.Zone, Remedy: l.Remedy, Quantity: t.Quantity(m.figure), Figure: m.figure})
	}
	return out
}
