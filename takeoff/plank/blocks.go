package plank

import (
	"fmt"

	"ribband/takeoff/bill"
	"ribband/takeoff/derivation"
	"ribband/takeoff/quantity"
	"ribband/takeoff/rules"
	"ribband/takeoff/spare"
	"ribband/takeoff/step"
	"ribband/takeoff/timber"

	"github.com/shopspring/decimal"
)

// Block is a butt between two frames that a new plank makes, and that a block is to back.
type Block struct {
	End   string // of the plank: "forward" or "aft"
	Where string
	X     float64 // mm aft of station 0
	// Width of the plank at the butt, at the high end of its range, and Room between the moulding faces of the frames on either
	// side of it along the plank, mm; Room is 0 where the butt does not stand between two frames.
	Width, Room float64
	// Siding of the thicker of the two frames.
	Siding decimal.Decimal
}

// Ends are what a new plank's two ends stand on, and what it fastens there.
type Ends struct {
	Blocks []Block
	// Landed is how many ends of planks are fastened to blocks with it: both planks' at a butt that it makes new, its own at one that
	// was there, and none at one that is new with another new plank, which counts it.
	Landed int
	// Hoods are its ends at stem, stern or transom.
	Hoods int
}

// MadeBlock is a butt block as it is made, mm.
type MadeBlock struct {
	End, Where               string
	Length, Width, Thickness decimal.Decimal
}

// backed puts the blocks of the butts that the plank makes new on the bill, and what fastens planks' ends to blocks.
//
// A block is as long as the frames leave room for, as wide as the plank and what it laps its neighbours by. It is one piece, picked
// from what is over, and bad wood is sawn round: no loss is reckoned. Where a frame beside it is doubled in the same option, the sister
// takes room that is not taken off here.
func (j Job) backed(r rules.Rules, t *derivation.Table, out *Result) error {
	rule := r.ButtBlock
	if rule == nil || t.Err() != nil {
		return t.Err()
	}
	if len(j.Ends.Blocks) > 0 {
		if _, err := j.BlockWood.Density(t); err != nil {
			return err
		}
	}
	thick := rule.Thickness
	if thick.IsZero() {
		thick = j.Thickness
	}
	for _, b := range j.Ends.Blocks {
		if err := j.block(b, thick, r, t, out); err != nil {
			return err
		}
	}
	if j.Ends.Landed == 0 {
		return t.Err()
	}
	path := j.Path()
	t.Derive(path+"/block_screws_net", "plank/end_screws", []derivation.Input{derivation.Given("e", "planks", decimal.NewFromInt(int64(j.Ends.Landed)), quantity.Each)},
		derivation.ByFactor("s", rule.Each, rule.Source))
	j.driven(step.NewButts, "block_screws", "block_plugs", path+"/block_screws_net", rule.Screw, rule.Plug, r, t, out)
	return t.Err()
}

func (j Job) block(b Block, thick decimal.Decimal, r rules.Rules, t *derivation.Table, out *Result) error {
	rule := r.ButtBlock
	path := j.Path() + "/" + b.End + "_butt"
	m := j.Member
	if b.Room == 0 {
		out.Warnings = append(out.Warnings, bill.Warning{Code: "butt_block_not_sized", Member: &m, Detail: fmt.Sprintf("%s: the butt %s stands between no two frames, so how long its block is is not known, and it is not on the bill.", j.Name(), b.Where),
			Fix: "Put the block with what the quote names beside the bill."})
		return nil
	}
	at, err := quantity.Decimal(b.X, quantity.Millimetre)
	if err != nil {
		return err
	}
	x := mm("x", "planks", at.Round(1))
	t.Measured(path+"/room", "plank/butt_room", b.Room, x)
	t.Measured(path+"/width", "plank/butt_width", b.Width, x)
	room := t.Quantity(path + "/room").Value().Sub(b.Siding).Sub(rule.Clear).Sub(rule.Clear)
	if t.Err() != nil {
		return t.Err()
	}
	if !room.IsPositive() {
		out.Faults = append(out.Faults, bill.Fault{Code: "no_room_for_butt_block", Member: &m, Figure: path + "/room",
			Detail: fmt.Sprintf("%s: %s the frames leave no room for a butt block with %s mm clear at either end.", j.Name(), b.Where, rule.Clear), Fix: "Less clear in butt_blocks of the yard's rules, or butts on frames with how she is planked."})
		return nil
	}
	length := t.Derive(path+"/block_length", "plank/block_length", []derivation.Input{t.Ref("B", path+"/room"), mm("s", "frames", b.Siding), mm("c", "rules/butt_blocks", rule.Clear)})
	width := t.Derive(path+"/block_width", "plank/block_width", []derivation.Input{t.Ref("W", path+"/width"), mm("l", "rules/butt_blocks", rule.Laps)})
	t.Derive(path+"/block_volume", "plank/block_volume", []derivation.Input{t.Ref("L", path+"/block_length"), t.Ref("W", path+"/block_width"), mm("T", "planking/plank_thickness", thick)})
	t.Derive(path+"/block_weight", "timber/weight", []derivation.Input{t.Ref("V", path+"/block_volume"), t.Ref("rho", timber.DensityFigure(j.BlockWood.Code))})
	t.Derive(path+"/blocks", "plank/block", nil)
	if t.Err() != nil {
		return t.Err()
	}
	out.WeightFigures = append(out.WeightFigures, path+"/block_weight")
	out.Blocks = append(out.Blocks, MadeBlock{b.End, b.Where, length.Value().Shift(3), width.Value(), thick})
	out.Lines = append(out.Lines, bill.Need(t, bill.Line{ID: path + "/block", NetFigure: path + "/blocks", Losses: []bill.Loss{}, Material: bill.Timber, Driver: string(step.NewButts), Member: j.Member,
		Part: "butt block " + b.Where, Remedy: Remedy,
		Pieces: &bill.Pieces{Species: j.BlockWood.Code, Grade: rule.Grade, Thickness: width.Value(), Siding: thick, Planing: r.Planing, Length: length}}, "bill/gross_pieces"))
	return t.Err()
}

// hooded puts what fastens the plank's hood ends on the bill, where the yard counts fastenings.
func (j Job) hooded(r rules.Rules, t *derivation.Table, out *Result) error {
	rule := r.Fastening
	if rule == nil || j.Ends.Hoods == 0 || t.Err() != nil {
		return t.Err()
	}
	path := j.Path()
	each, source, err := rule.AtHood(t.Quantity(path + "/board_width").Value())
	if err != nil {
		return err
	}
	t.Derive(path+"/hood_screws_net", "plank/end_screws", []derivation.Input{derivation.Given("e", "planks", decimal.NewFromInt(int64(j.Ends.Hoods)), quantity.Each)}, derivation.ByFactor("s", each, source))
	out.ScrewFigures = append(out.ScrewFigures, path+"/hood_screws_net")
	j.driven(step.PlankFastenings, "hood_screws", "hood_plugs", path+"/hood_screws_net", rule.Screw, rule.Plug, r, t, out)
	return t.Err()
}

// driven puts screws by the figure net on the bill, with the plugs over their heads where there are any, for the step that uses them
// up, and what the hours of driving them are counted by. Their gross is open until spare.Items shares it over the boat.
func (j Job) driven(used step.Driver, screws, plugs, net, screw, plug string, r rules.Rules, t *derivation.Table, out *Result) {
	need := func(name, net string, m bill.Material, item string) {
		out.Lines = append(out.Lines, spare.Item(j.Path()+"/"+name, net, bill.Line{Losses: r.For(m), Material: m, Item: item,
			Driver: string(used), Member: j.Member, Part: j.Part, Remedy: Remedy}, t))
	}
	need(screws, net, bill.Fastenings, screw)
	if plug != "" {
		over := j.Path() + "/" + plugs + "_net"
		t.Derive(over, "fastening/plugs", []derivation.Input{t.Ref("N", net)})
		need(plugs, over, bill.Plugs, plug)
	}
	j.count(out, t, step.PlankFastenings, net)
}
