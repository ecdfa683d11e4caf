// Package strap is what a strap inside a frame takes: metal by weight, or laminated glass in its place.
package strap

import (
	"ribband/takeoff/bill"
	"ribband/takeoff/boat"
	"ribband/takeoff/derivation"
	"ribband/takeoff/quantity"
	"ribband/takeoff/rules"
	"ribband/takeoff/step"

	"github.com/shopspring/decimal"
)

// Frame is the frame that a strap follows. Inner is the length of its inner face from heel to head, mm, and High the end
// of its range as a multiple, with where that comes from.
type Frame struct {
	Member boat.Member
	Remedy boat.Remedy
	Inner  float64
	High   decimal.Decimal
	Source string
	// Faying says that the inner face is not known, and Inner is the length of the faying face: too long at a bilge, too
	// short in a hollow.
	Faying bool
}

// Take works out what the strap takes, with every figure put into t.
func Take(f Frame, s rules.Strap, r rules.Rules, t *derivation.Table) ([]bill.Line, []bill.Measure, error) {
	w := &work{frame: f, strap: s, rules: r, t: t, path: f.Member.Path() + "/strap"}
	formula := "strap/inner_length"
	if f.Faying {
		formula = "strap/inner_length_bound"
	}
	t.Measured(w.path+"/inner_length", formula, f.Inner)
	t.Derive(w.path+"/length", "strap/length", []derivation.Input{t.Ref("G", w.path+"/inner_length"), derivation.Given("a", "rules/straps", s.Allow, quantity.Millimetre)},
		derivation.ByFactor("f", f.High, f.Source))
	width := derivation.Given("b", "rules/straps", s.Width, quantity.Millimetre)
	if m := s.Metal; m != nil {
		t.Derive(w.path+"/metal_net", "strap/metal", []derivation.Input{t.Ref("L", w.path+"/length"), width,
			derivation.Given("t", "rules/straps", m.Thickness, quantity.Millimetre)}, derivation.ByFactor("rho", m.KgM3, m.Source))
		w.need("metal", bill.Metal, m.Item, "bill/gross_weight", nil)
	}
	if g := s.Glass; g != nil {
		t.Derive(w.path+"/cloth_net", "strap/cloth", []derivation.Input{t.Ref("L", w.path+"/length"), width,
			derivation.Given("n", "rules/straps", decimal.NewFromInt(int64(g.Layers)), quantity.Each)})
		// every layer is as long as the strap and lies along the roll
		w.need("cloth", bill.Cloth, g.Cloth, "bill/gross_area", bill.ExactRectangles(int64(g.Layers), s.Width, t.Quantity(w.path+"/length").Value().Shift(3), false))
		t.Derive(w.path+"/resin_net", "strap/resin", []derivation.Input{t.Ref("A", w.path+"/cloth_net")},
			derivation.ByFactor("w", g.GM2, g.Source), derivation.ByFactor("p", g.FibreShare, g.Source), derivation.ByFactor("rho", g.ResinKgL, g.Source))
		w.need("resin", bill.Glue, g.Resin, "bill/gross_litres", nil)
	}
	w.measures = append(w.measures, bill.Measure{Driver: string(step.Straps), Member: f.Member, Remedy: f.Remedy, Quantity: t.Quantity(w.path + "/length"), Figure: w.path + "/length"})
	return w.lines, w.measures, t.Err()
}

type work struct {
	frame    Frame
	strap    rules.Strap
	rules    rules.Rules
	t        *derivation.Table
	path     string
	lines    []bill.Line
	measures []bill.Measure
}

// need puts one line on the bill, of the figure that is named after it.
func (w *work) need(name string, m bill.Material, item, gross string, cut *bill.Rectangles) {
	w.lines = append(w.lines, bill.Need(w.t, bill.Line{ID: w.path + "/" + name, NetFigure: w.path + "/" + name + "_net", Losses: w.rules.For(m),
		Material: m, Item: item, Rectangles: cut, Driver: string(step.Straps), Member: w.frame.Member, Remedy: w.frame.Remedy}, gross))
}
