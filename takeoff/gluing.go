package takeoff

import (
	"errors"
	"fmt"
	"slices"
	"strings"

	"ribband/takeoff/bill"
	"ribband/takeoff/boat"
	"ribband/takeoff/derivation"
	"ribband/takeoff/frame"
	"ribband/takeoff/glue"
	"ribband/takeoff/quantity"

	"github.com/shopspring/decimal"
)

// Gluing is how the blanks of a takeoff are glued up, and their joints in the hull.
type Gluing struct {
	// Glue as the price sheet calls it, and Mixed all of it that the bill asks for: of the records, and of what is spread
	// elsewhere.
	Glue  string          `json:"glue"`
	Mixed decimal.Decimal `json:"glue_l"`
	// Plan is there where the rules say how the yard lays up.
	Plan *glue.Plan `json:"plan,omitempty"`
	// Records to fill in, one of every blank and of every piece's joint, in the order of members.
	Records []GlueRecord `json:"records"`
	// Elsewhere is glue of the bill that is spread in no batch: with all batches, and the records in none, it is the bill's.
	Elsewhere []GlueElsewhere `json:"elsewhere,omitempty"`
	// Apart says which blanks share no batch, and why.
	Apart    []glue.Caution `json:"apart"`
	Cautions []glue.Caution `json:"cautions"`
}

// GlueElsewhere is glue of one line of the bill that no batch holds.
type GlueElsewhere struct {
	Line  string            `json:"line"`
	Item  string            `json:"glue"`
	Mixed quantity.Quantity `json:"glue_mixed"`
	Why   string            `json:"why"`
}

// gluing plans the glue of the bill. A blank that no lay-up takes is a fault. paired are the woods that were warned of already.
func (b Basis) gluing(of *bill.Bill, made []frame.MadeUp, paired map[string]bool, t *derivation.Table) (Gluing, error) {
	out := Gluing{Glue: b.Rules.Glue.Item, Records: []GlueRecord{}, Apart: glue.Apart(), Cautions: glue.Cautions()}
	var blanks []glue.Blank
	members := map[string]boat.Member{}
	var joints []boat.Member
	for _, l := range of.Lines {
		if l.Material != bill.Glue {
			continue
		}
		how, piece, ok := glueingOf(l)
		if !ok || l.Item != out.Glue {
			why := "The rules do not say how long it works: it is wetted out as its own work goes on, and not closed with clamps."
			if l.Member.Kind == boat.Strake {
				why = "Scarfs of planks are glued at the bench before the plank is got out, each by itself, and are in no batch."
			}
			out.Elsewhere = append(out.Elsewhere, GlueElsewhere{l.ID, l.Item, l.Gross, why})
			if l.Item == out.Glue {
				out.Mixed = out.Mixed.Add(l.Gross.Value())
			}
			continue
		}
		wood, _ := b.Species.Find(b.Remedies[l.Member].Species)
		r := b.record(how, piece, l, wood, t)
		if w, doubtful := gluePair(wood, out.Glue); doubtful && !paired[wood.Code] {
			paired[wood.Code] = true
			of.Warnings = append(of.Warnings, w)
		}
		if i := slices.IndexFunc(made, func(m frame.MadeUp) bool { return how.where == glue.Form && m.Path() == piece }); i >= 0 {
			r.MadeUp = &made[i]
		}
		out.Records, out.Mixed = append(out.Records, r), out.Mixed.Add(r.Mixed.Value())
		members[r.Path] = l.Member
		blanks = append(blanks, r.blank(piece, slices.ContainsFunc(of.Lines, func(o bill.Line) bool { return o.ID == piece+"/laminate_scarf_glue" })))
		if how.where == glue.Hull {
			joints = append(joints, l.Member)
		}
	}
	of.Warnings = append(of.Warnings, b.oldWoods(joints, paired)...)
	g := b.Rules.Glue
	if g.Layup == nil || g.Times == nil || len(blanks) == 0 {
		return out, t.Err()
	}
	if len(joints) > 0 && g.Layup.HullC == nil {
		of.Warnings = append(of.Warnings, bill.Warning{Code: "hull_temperature_unknown",
			Detail: fmt.Sprintf("%d joints are glued in the hull, and the rules do not say how warm it is, so they are in no batch.", len(joints)), Fix: "Enter how warm the hull is where joints are glued, hull_c, in the rules of the lay-up."})
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
		of.Faults = append(of.Faults, bill.Fault{Code: "blank_beyond_layup", Member: &m, Figure: area(long.Path),
			Detail: fmt.Sprintf("%s: its %s %s.", named(m), part(long.Path), long.Detail), Fix: "What would do: " + long.Fix + "."})
	}
	return out, t.Err()
}

// area is the id of the figure of a record's area of glue, and part what the record is of.
func area(path string) string {
	g, piece := joint(path)
	return piece + g.area
}

func part(path string) string {
	switch g, _ := joint(path); g.joint {
	case "/scarfs":
		return "scarfed piece"
	case "/side":
		return "sister"
	case "/laminate_scarfs":
		return "scarf within a laminate"
	}
	return "blank"
}

func joint(path string) (glueing, string) {
	for _, g := range glueings {
		if piece, ok := strings.CutSuffix(path, g.joint); ok {
			return g, piece
		}
	}
	return glueing{}, path
}
