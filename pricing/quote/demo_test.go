package quote_test

import (
	"testing"

	"ribband/pricing/buy"
	"ribband/pricing/quote"
	"ribband/seed"
	"ribband/takeoff"
	"ribband/takeoff/boat"
	"ribband/takeoff/frame"
	"ribband/takeoff/hull/hulltest"
	"ribband/takeoff/rules"
)

// demo is both options of the demo boat as they are handed to pricing, with the shop's figures.
func demo(t *testing.T) (seed.Demo, []quote.OptionInput, buy.Rules) {
	t.Helper()
	d, err := seed.Load()
	if err != nil {
		t.Fatal(err)
	}
	h := hulltest.Hull(t, &d.Hull)
	frames, bad := frame.Read(d.Frames)
	if len(bad) > 0 {
		t.Fatal(bad)
	}
	shop, bad := rules.Read(d.Rules)
	if len(bad) > 0 {
		t.Fatal(bad)
	}
	var options []quote.OptionInput
	for _, o := range d.Options {
		remedies, bad := frame.ReadRemedies(o.Remedies, frames, d.Species)
		if len(bad) > 0 {
			t.Fatal(bad)
		}
		r, err := takeoff.Run(takeoff.Basis{Hull: h, Frames: frames, Remedies: remedies, Species: d.Species, Steps: d.Steps, Rules: shop})
		if err != nil {
			t.Fatal(err)
		}
		options = append(options, quote.OptionInput{ID: o.Name, Name: o.Name, Work: r.Work, Needs: r.Bill.Lines, Library: d.Steps})
	}
	return d, options, buy.Rules{Kerf: shop.Kerf, EndTrim: shop.EndTrim}
}

// The demo boat, both options on both versions of the invented sheet: every line stands under a step of the library,
// the options share keys, the dearer sheet gives the dearer quote, and the boards are not far above their bound.
func TestDemoBoat(t *testing.T) {
	d, options, shop := demo(t)
	var totals []int64
	for n, c := range d.Prices {
		for i := range options {
			l, err := buy.New(options[i].Needs, c, shop)
			if err != nil {
				t.Fatal(err)
			}
			options[i].Buy = l
			t.Logf("sheet %d, %s: buys for %s, none can be below %s", n+1, options[i].Name, l.Cost, l.Bound)
			for _, g := range l.Timber {
				t.Logf("  %s %s: %v %d strips, cost %s, bound %s", g.Species, g.Grade, g.Boards, len(g.Cuts), g.Cost, g.Bound)
			}
			for _, p := range l.Packs {
				t.Logf("  %s: %s %s, %+v, cost %s, bound %s", p.Item, p.Gross, p.Gross.Unit(), p.Bought, p.Cost, p.Bound)
			}
		}
		q, err := quote.Price(options, c, d.Terms)
		if err != nil {
			t.Fatal(err)
		}
		for i, o := range q.Options {
			t.Logf("%s: net %s, tax %s, total %s, hours %s, markup %s margin %s", o.Name, o.Net, o.Tax, o.Total, o.Hours, o.Markup, o.Margin)
			if why := foots(o, options[i], d.Terms); why != "" {
				t.Error(why)
			}
			for _, l := range o.Lines {
				if l.Step == quote.General {
					t.Errorf("no step of the library uses up %s", l.Item)
				}
			}
			totals = append(totals, o.Total.Minor())
		}
		shared := 0
		for _, r := range q.Comparison {
			if !r.Prices[0].IsZero() && !r.Prices[1].IsZero() {
				shared++
			}
		}
		steps := 0
		for _, s := range d.Steps.Steps {
			if s.Where.Holds(boat.Frame, "", boat.ReplaceLaminated) {
				steps++
			}
		}
		if steps == 0 || shared < steps {
			t.Errorf("the options share %d lines only", shared)
		}
	}
	if totals[2] <= totals[0] || totals[3] <= totals[1] {
		t.Errorf("sheet 2 is dearer line by line, the quotes are %v", totals)
	}
}
