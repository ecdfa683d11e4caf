package plank

import (
	"fmt"

	"ribband/takeoff/bill"
	"ribband/takeoff/derivation"
	"ribband/takeoff/quantity"
	"ribband/takeoff/rules"
	"ribband/takeoff/scarf"
	"ribband/takeoff/step"
)

// lengths is how the plank is got out of the stock: in one piece, or of as few lengths as it can be, all alike, scarfed end to
// end where the yard does that; otherwise it is at fault, with what would do. pieces is the figure of how many are needed, each how
// long one is.
func (j Job) lengths(r rules.Rules, t *derivation.Table, out *Result) (pieces string, each quantity.Quantity, part string, err error) {
	path := j.Path()
	whole := t.Quantity(path + "/board_length")
	if !j.Longest.IsPositive() || !whole.Value().Shift(3).GreaterThan(j.Longest) {
		return path + "/planks", whole, j.Part, t.Err()
	}
	s := r.PlankScarf
	if s == nil {
		m := j.Member
		fix := "Longer stock, or plank_scarf in the yard's rules where it scarfs planks."
		if j.Divide != "" {
			fix = "One butt more, " + j.Divide + ": renew it as two pieces that meet there. Or longer stock, or plank_scarf in the yard's rules where it scarfs planks."
		}
		out.Faults = append(out.Faults, bill.Fault{Code: "plank_longer_than_stock", Member: &m, Figure: path + "/board_length",
			Detail: fmt.Sprintf("%s asks for a board of %s m, and the longest of the stock gives %s m with its ends trimmed.", j.Name(), whole.Value(), j.Longest.Shift(-3)),
			Limit:  &bill.Limit{Value: j.Longest.Shift(-3).String(), Unit: quantity.Metre}, Fix: fix})
		return path + "/planks", whole, j.Part, t.Err()
	}
	thick := t.Ref("T", path+"/board_thickness")
	slope := derivation.ByFactor("s", s.Slope, s.Source)
	n := t.Derive(path+"/plank_scarfs", "plank/scarfs", []derivation.Input{t.Ref("L", path+"/board_length"), thick, mm("l", "planking/stock_lengths", j.Longest)}, slope)
	scarfs := t.Ref("n", path+"/plank_scarfs")
	each = t.Derive(path+"/scarfed_length", "plank/scarfed_length", []derivation.Input{t.Ref("L", path+"/board_length"), scarfs, thick}, slope)
	t.Derive(path+"/lengths", "plank/lengths", []derivation.Input{scarfs})
	face := scarf.Feather{Slope: s.Slope.InexactFloat64(), Depth: t.Quantity(path + "/board_thickness").Value().InexactFloat64()}
	t.Measured(path+"/scarf_face", "plank/scarf_face", face.Face(), thick, derivation.Given("s", "rules/plank_scarf", s.Slope, quantity.Ratio))
	t.Derive(path+"/scarf_area", "plank/scarf_area", []derivation.Input{scarfs, t.Ref("F", path+"/scarf_face"), t.Ref("W", path+"/board_width")})
	net := path + "/plank_glue_net"
	r.Glue.On().Net(t, net, path+"/scarf_area")
	if t.Err() != nil {
		return "", each, "", t.Err()
	}
	out.Lines = append(out.Lines, bill.Need(t, bill.Line{ID: path + "/plank_glue", NetFigure: net, Losses: r.For(bill.Glue), Material: bill.Glue, Item: r.Glue.Item,
		Driver: string(step.Scarfs), Member: j.Member, Part: j.Part, Remedy: Remedy}, "bill/gross_litres"))
	j.count(out, t, step.Scarfs, path+"/plank_scarfs")
	out.Scarfs = n.Value().IntPart()
	part = fmt.Sprintf("%d lengths scarfed", out.Scarfs+1)
	if j.Part != "" {
		part = j.Part + ", " + part
	}
	return path + "/lengths", each, part, t.Err()
}
