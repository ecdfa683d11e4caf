package frame

import (
	"strings"

	"ribband/takeoff/derivation"

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

// taperedLaminates puts the laminates that run through on the bill, and each that runs out as a line of its own.
func (b *blank) taperedLaminates(thick decimal.Decimal) {
	b.laminate("laminates_timber", "running through", b.path+"/laminates_head", thick, b.length)
	for _, r := range b.out {
		net := b.path + "/" + r.name + "_net"
		b.t.Derive(net, "frame/run_out", nil)
		b.laminate(r.name+"_timber", strings.ReplaceAll(r.name, "_", " "), net, thick, r.length)
	}
	b.countRipped()
}
