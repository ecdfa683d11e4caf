package takeoff

import (
	"errors"
	"fmt"
	"strings"

	"ribband/takeoff/bill"
	"ribband/takeoff/boat"
	"ribband/takeoff/derivation"
	"ribband/takeoff/glue"
	"ribband/takeoff/quantity"
	"ribband/takeoff/step"
	"ribband/takeoff/timber"

	"github.com/shopspring/decimal"
)

// Gluing is how the blanks of a takeoff are glued up.
type Gluing struct {
	// Glue as the price sheet calls it.
	Glue string `json:"glue"`
	// Plan is there where the rules say how the yard lays up.
	Plan *glue.Plan `json:"plan,omitempty"`
	// Records to fill in, one of every blank, in the order of members.
	Records  []GlueRecord   `json:"records"`
	Cautions []glue.Caution `json:"cautions"`
}

// GlueRecord is the record of one blank: what is known of it, and what is to be filled in.
type GlueRecord struct {
	// Path is the blank's own: of a whole frame the member's, of a piece one below it.
	Path    string      `json:"blank"`
	Member  boat.Member `json:"member"`
	Species string      `json:"species"`
	// Trial asks for a trial block, for the reason in Note.
	Trial bool   `json:"trial_block"`
	Note  string `json:"note,omitempty"`
	// Laminates, Length, Area of glue line and Mixed glue; PartA and PartB of it where the mix is known.
	Laminates quantity.Quantity  `json:"laminates"`
	Length    quantity.Quantity  `json:"length"`
	Area      quantity.Quantity  `json:"glue_line_area"`
	Mixed     quantity.Quantity  `json:"glue_mixed"`
	PartA     *quantity.Quantity `json:"part_a,omitempty"`
	PartB     *quantity.Quantity `json:"part_b,omitempty"`
	// Clamps, Batch and Day are 0 where the rules do not say how the yard lays up, or no lay-up takes the blank.
	Clamps int64      `json:"clamps,omitempty"`
	Batch  int        `json:"batch,omitempty"`
	Day    int64      `json:"day,omitempty"`
	Fill   []glue.Ask `json:"fill_in"`
}

// gluing plans the blanks of the bill. A blank that no lay-up takes is a fault.
func (b Basis) gluing(of *bill.Bill, t *derivation.Table) (Gluing, error) {
	out := Gluing{Glue: b.Rules.Glue.Item, Records: []GlueRecord{}, Cautions: glue.Cautions()}
	var blanks []glue.Blank
	members := map[string]boat.Member{}
	for _, l := range of.Lines {
		if l.Material != bill.Glue || l.Driver != string(step.GlueLine) {
			continue // the glue of joints is spread in the hull
		}
		path := strings.TrimSuffix(l.ID, "/glue")
		wood, _ := b.Species.Find(b.Remedies[l.Member].Species)
		r := b.record(path, l, wood, t)
		n, _ := r.Laminates.Int()
		out.Records = append(out.Records, r)
		members[path] = l.Member
		blanks = append(blanks, glue.Blank{Path: path, Lines: n - 1, AreaM2: r.Area.Value(), LengthMM: r.Length.Value().Mul(decimal.NewFromInt(1000))})
	}
	g := b.Rules.Glue
	if g.Layup == nil || g.Times == nil || len(blanks) == 0 {
		return out, t.Err()
	}
	plan, err := glue.Make(*g.Times, *g.Layup, blanks)
	var wrong *glue.InputError
	if errors.As(err, &wrong) {
		of.Faults = append(of.Faults, bill.Fault{Code: "gluing_not_planned", Detail: "The gluing cannot be planned: " + wrong.Detail + ".", Fix: "In the rules of the glue: " + wrong.Fix + "."})
		return out, t.Err()
	}
	if err != nil {
		return out, err
	}
	out.Plan = &plan
	in := map[string]glue.Batch{}
	for _, batch := range plan.Batches {
		for _, path := range batch.Members {
			in[path] = batch
		}
	}
	for i, r := range out.Records {
		out.Records[i].Batch, out.Records[i].Day = in[r.Path].No, in[r.Path].Day
	}
	for _, long := range plan.TooLong {
		m := members[long.Path]
		of.Faults = append(of.Faults, bill.Fault{Code: "blank_beyond_layup", Member: &m, Figure: long.Path + "/glue_line_area",
			Detail: fmt.Sprintf("Frame %d %s: its blank %s.", m.No, m.Side, long.Detail), Fix: "What would do: " + long.Fix + "."})
	}
	return out, t.Err()
}

// record of one blank from its figures.
func (b Basis) record(path string, l bill.Line, wood timber.Species, t *derivation.Table) GlueRecord {
	r := GlueRecord{
		Path: path, Member: l.Member, Species: wood.Code, Trial: wood.Gluing.Doubtful, Fill: glue.Asks(wood.Gluing.Doubtful),
		Laminates: t.Quantity(path + "/laminates"), Length: t.Quantity(path + "/blank_length"), Area: t.Quantity(path + "/glue_line_area"), Mixed: l.Gross,
	}
	if r.Trial {
		r.Note = wood.Gluing.Text
	}
	if b.Rules.Glue.Handling != nil {
		a, rest := t.Quantity(path+"/glue_part_a"), t.Quantity(path+"/glue_part_b")
		r.PartA, r.PartB = &a, &rest
	}
	if b.Rules.Glue.Layup != nil {
		r.Clamps, _ = t.Quantity(path + "/clamps").Int()
	}
	return r
}
