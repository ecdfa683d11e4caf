package plank

import (
	"fmt"

	"ribband/takeoff/bill"
	"ribband/takeoff/derivation"
	"ribband/takeoff/quantity"
	"ribband/takeoff/rules"
	"ribband/takeoff/scarf"
	"ribband/takeoff/step"

	"github.com/shopspring/decimal"
)

// pieces is what boards are bought for: the figure of how many pieces are needed, how long one is, what it is called, and how it
// may be made of two parts.
type pieces struct {
	figure string
	each   quantity.Quantity
	part   string
	scarf  *bill.Scarf
}

// lengths is how the plank is got out of the stock. A plank that goes whole, or of two lengths, is bought whole: where the yard
// scarfs, the bill says what a scarf takes and buying decides whether and where one costs less, and the bill counts one of those
// that the stock does not give whole until then. A longer one is made of as few lengths as it can be, all alike. Where the yard
// does not scarf, a plank longer than the stock is at fault, with what would do.
func (j Job) lengths(r rules.Rules, t *derivation.Table, out *Result) (pieces, error) {
	path := j.Path()
	whole := t.Quantity(path + "/board_length")
	as := pieces{figure: path + "/planks", each: whole, part: j.Part}
	longer := j.Longest.IsPositive() && whole.Value().Shift(3).GreaterThan(j.Longest)
	s := r.PlankScarf
	if t.Err() != nil || s == nil && !longer {
		return as, t.Err()
	}
	if s == nil {
		out.Faults = append(out.Faults, j.tooLong(whole))
		return as, nil
	}
	scarfs := decimal.Zero
	thick := t.Ref("T", path+"/board_thickness")
	slope := derivation.ByFactor("s", s.Slope, s.Source)
	face := scarf.Feather{Slope: s.Slope.InexactFloat64(), Depth: t.Quantity(path + "/board_thickness").Value().InexactFloat64()}
	t.Measured(path+"/scarf_face", "plank/scarf_face", face.Face(), thick, derivation.Given("s", "rules/plank_scarf", s.Slope, quantity.Ratio))
	t.Derive(path+"/scarf_taper", "plank/scarf_taper", []derivation.Input{thick}, slope)
	if longer {
		scarfs = t.Derive(path+"/plank_scarfs", "plank/scarfs", []derivation.Input{t.Ref("L", path+"/board_length"), thick, mm("l", "planking/stock_lengths", j.Longest)}, slope).Value()
	}
	if out.Scarfs = scarfs.IntPart(); out.Scarfs > 1 {
		n := t.Ref("n", path+"/plank_scarfs")
		as.each = t.Derive(path+"/scarfed_length", "plank/scarfed_length", []derivation.Input{t.Ref("L", path+"/board_length"), n, thick}, slope)
		t.Derive(path+"/lengths", "plank/lengths", []derivation.Input{n})
		as.figure = path + "/lengths"
		as.part = fmt.Sprintf("%d lengths scarfed", out.Scarfs+1)
		if j.Part != "" {
			as.part = j.Part + ", " + as.part
		}
	} else {
		as.scarf = j.scarf(r, t, out.Scarfs)
	}
	if out.Scarfs > 0 {
		j.glueScarfs(r, t, out)
	}
	return as, t.Err()
}

// tooLong is the fault of a plank longer than the stock, with where one more butt would part it.
func (j Job) tooLong(whole quantity.Quantity) bill.Fault {
	m := j.Member
	fix := "Longer stock, or plank_scarf in the yard's rules where it scarfs planks."
	if j.Divide != "" {
		fix = "One butt more, " + j.Divide + ": renew it as two pieces that meet there. Or longer stock, or plank_scarf in the yard's rules where it scarfs planks."
	}
	return bill.Fault{Code: "plank_longer_than_stock", Member: &m, Figure: j.Path() + "/board_length",
		Detail: fmt.Sprintf("%s asks for a board of %s m, and the longest of the stock gives %s m with its ends trimmed.", j.Name(), whole.Value(), j.Longest.Shift(-3)),
		Limit:  &bill.Limit{Value: j.Longest.Shift(-3).String(), Unit: quantity.Metre}, Fix: fix}
}

// scarf is what one joint of the plank takes.
func (j Job) scarf(r rules.Rules, t *derivation.Table, counted int64) *bill.Scarf {
	path, s := j.Path(), r.PlankScarf
	taper := t.Quantity(path + "/scarf_taper").Value()
	return &bill.Scarf{
		Taper: taper, Least: s.LeastPart(taper), OnlyLonger: s.OnlyLonger, Driver: string(step.Scarfs), Counted: counted,
		Glue: bill.ScarfGlue{Line: path + "/plank_glue", Item: r.Glue.Item, Face: t.Quantity(path + "/scarf_face").Value(), Width: t.Quantity(path + "/board_width").Value(),
			Spread: r.Glue.Spread, PerFace: r.Glue.PerFace, Source: r.Glue.Source, Losses: r.For(bill.Glue)},
	}
}

// glueScarfs puts the scarfs that the bill counts on it, with their glue.
func (j Job) glueScarfs(r rules.Rules, t *derivation.Table, out *Result) {
	path := j.Path()
	t.Derive(path+"/scarf_area", "plank/scarf_area", []derivation.Input{t.Ref("n", path+"/plank_scarfs"), t.Ref("F", path+"/scarf_face"), t.Ref("W", path+"/board_width")})
	net := path + "/plank_glue_net"
	r.Glue.On().Net(t, net, path+"/scarf_area")
	if t.Err() != nil {
		return
	}
	out.Lines = append(out.Lines, bill.Need(t, bill.Line{ID: path + "/plank_glue", NetFigure: net, Losses: r.For(bill.Glue), Material: bill.Glue, Item: r.Glue.Item,
		Driver: string(step.Scarfs), Member: j.Member, Part: j.Part, Remedy: Remedy}, "bill/gross_litres"))
	j.count(out, t, step.Scarfs, path+"/plank_scarfs")
}
