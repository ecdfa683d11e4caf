package frame

import (
	"strings"

	"ribband/takeoff/bill"
	"ribband/takeoff/derivation"
	"ribband/takeoff/quantity"
	"ribband/takeoff/step"

	"github.com/shopspring/decimal"
)

// taperedArea puts glue line and timber of a blank into the table of which some laminates run out: each glue line is as long
// as the shorter of its two laminates.
func (b *blank) taperedArea() {
	in := []derivation.Input{b.t.Ref("n", b.path+"/laminates_head"), b.siding, b.t.Ref("L", b.path+"/blank_length")}
	for _, r := range b.out {
		in = append(in, b.t.Ref("l", b.path+"/"+r.name))
	}
	b.t.Derive(b.path+"/glue_line_area", "frame/glue_line_area_taper", in)
	b.t.Derive(b.path+"/net_volume", "frame/net_volume_taper", append(in[:len(in):len(in)], b.t.Ref("t", b.path+"/laminate_thickness")))
}

// taperedLaminates puts the laminates that run through on the bill, and each that runs out as a line of its own. Their gross
// is counted on from the longest, so that they are rounded up once together.
func (b *blank) taperedLaminates(thick decimal.Decimal) {
	before := ""
	one := func(name, part, net string, length quantity.Quantity) {
		l := bill.Line{ID: b.path + "/" + name + "_timber", NetFigure: net, GrossFigure: b.path + "/" + name + "_timber_gross", Net: b.t.Quantity(net),
			Material: bill.Timber, Driver: string(step.Laminates), Losses: b.rules.For(bill.Timber), Member: b.frame.Member(), Part: part, Remedy: b.choice.Remedy,
			Pieces: &bill.Pieces{Species: b.choice.Species, Grade: b.choice.Grade, Thickness: thick, Siding: b.wide, Planing: b.rules.Planing, Length: length}}
		before = passOn(&l, before, b.t)
		b.lines = append(b.lines, l)
	}
	one("laminates", "running through", b.path+"/laminates_head", b.length)
	for _, r := range b.out {
		net := b.path + "/" + r.name + "_net"
		b.t.Derive(net, "frame/run_out", nil)
		one(r.name, strings.ReplaceAll(r.name, "_", " "), net, r.length)
	}
	var losses []derivation.Factor
	for _, l := range b.rules.For(bill.Timber) {
		losses = append(losses, derivation.ByFactor("l", l.Fraction, l.Name+": "+l.Source))
	}
	b.t.Derive(b.path+"/laminates_gross", "bill/gross_pieces", []derivation.Input{b.t.Ref("n", b.path+"/laminates")}, losses...)
	b.count(step.Laminates, b.path+"/laminates_gross")
}
