package buy

import (
	"cmp"
	"fmt"
	"slices"
	"strings"

	"ribband/pricing/pack"
	"ribband/pricing/sheet"
	"ribband/takeoff/bill"
	"ribband/takeoff/quantity"
	"ribband/takeoff/step"

	"github.com/shopspring/decimal"
)

// groups are the needs, gathered into what is bought together.
type groups struct {
	needs  []bill.Line
	timber []*timberNeed
	packs  []*packNeed
	// whole plans what is bought in packs.
	whole *pack.Planner
}

// timberNeed is pieces that come from the same boards.
type timberNeed struct {
	pieces bill.Pieces
	lines  []int // into needs
	// flat says that strips may lie flat in a board: all of them are laminates.
	flat bool
}

// packNeed is one item in one unit.
type packNeed struct {
	item  string
	unit  quantity.Unit
	lines []int
}

// mostMM bounds every size of a piece: a kilometre.
var mostMM = decimal.NewFromInt(1_000_000)

func group(needs []bill.Line, r Rules) (groups, error) {
	g := groups{needs: needs, whole: pack.NewPlanner(r.Kerf)}
	for _, x := range []struct {
		name string
		mm   decimal.Decimal
	}{{"kerf", r.Kerf}, {"end trim", r.EndTrim}, {"shortest left-over kept", r.LeastShort}, {"kerf of resawing", r.Resaw.OrNone().Kerf},
		{"planing after resawing", r.Resaw.OrNone().Planing}, {"height under the guide", r.Resaw.OrNone().Height}} {
		if x.mm.IsNegative() || x.mm.GreaterThan(mostMM) {
			return groups{}, &NeedError{"", fmt.Sprintf("the %s runs from 0 to %s mm", x.name, mostMM)}
		}
	}
	ids := map[string]bool{}
	timber, packs := map[string]*timberNeed{}, map[string]*packNeed{}
	for i, n := range needs {
		if ids[n.ID] {
			return groups{}, &NeedError{n.ID, "the need stands twice"}
		}
		ids[n.ID] = true
		if n.Net.Value().IsNegative() || n.Gross.Value().LessThan(n.Net.Value()) || n.Net.Unit() != n.Gross.Unit() {
			return groups{}, &NeedError{n.ID, "net runs from 0 and gross from net, in one unit"}
		}
		if n.Material == bill.Timber {
			if err := piecesOf(n); err != nil {
				return groups{}, err
			}
			key := timberKey(*n.Pieces)
			if timber[key] == nil {
				timber[key] = &timberNeed{pieces: *n.Pieces, flat: true}
				g.timber = append(g.timber, timber[key])
			}
			timber[key].lines = append(timber[key].lines, i)
			timber[key].flat = timber[key].flat && n.Driver == string(step.Laminates)
			continue
		}
		if q := n.Rectangles; q != nil && (q.Count < 1 || q.Width.Sign() <= 0 || q.Length.Sign() <= 0 || q.Width.GreaterThan(mostMM) || q.Length.GreaterThan(mostMM)) {
			return groups{}, &NeedError{n.ID, fmt.Sprintf("a rectangle runs from 1 piece and from above 0 to %s mm each way", mostMM)}
		}
		if strings.TrimSpace(n.Item) == "" || sheet.UnitOf(n.Net.Unit()) == "" {
			return groups{}, &NeedError{n.ID, "an item and a unit that goods are sold in are needed"}
		}
		key := strings.ToLower(strings.TrimSpace(n.Item))
		if p := packs[key]; p != nil && p.unit != n.Net.Unit() {
			return groups{}, &NeedError{n.ID, fmt.Sprintf("%s is needed in %s here and in %s elsewhere; one unit is needed", n.Item, n.Net.Unit(), p.unit)}
		}
		if packs[key] == nil {
			packs[key] = &packNeed{item: n.Item, unit: n.Net.Unit()}
			g.packs = append(g.packs, packs[key])
		}
		packs[key].lines = append(packs[key].lines, i)
	}
	slices.SortFunc(g.timber, compareTimber)
	slices.SortFunc(g.packs, func(a, b *packNeed) int { return cmp.Compare(a.item, b.item) })
	return g, nil
}

func piecesOf(n bill.Line) error {
	p := n.Pieces
	if p == nil || p.Species == "" || p.Grade == "" {
		return &NeedError{n.ID, "timber needs its pieces with species and grade"}
	}
	for _, x := range []struct {
		name  string
		mm    decimal.Decimal
		least int
	}{{"thickness", p.Thickness, 1}, {"siding", p.Siding, 1}, {"planing", p.Planing, 0}, {"length", millimetres(p.Length), 1}} {
		if x.mm.Sign() < x.least || x.mm.GreaterThan(mostMM) {
			return &NeedError{n.ID, fmt.Sprintf("the %s of a piece is %s mm, out of range", x.name, x.mm)}
		}
	}
	if s := p.Scarf; s != nil && (s.Taper.Sign() <= 0 || !s.Least.GreaterThan(s.Taper) || s.Least.GreaterThan(mostMM) || s.Counted < 0 || s.Glue.Face.IsNegative() || s.Glue.Width.IsNegative() || s.Glue.Spread.IsNegative()) {
		return &NeedError{n.ID, "a scarf needs a taper above 0, parts longer than it, and glue from 0"}
	}
	if _, ok := n.Gross.Int(); !ok || n.Gross.Unit() != quantity.Each {
		return &NeedError{n.ID, "timber in pieces is counted in whole pieces"}
	}
	return nil
}

func millimetres(q quantity.Quantity) decimal.Decimal {
	if q.Unit() == quantity.Metre {
		return q.Value().Shift(3)
	}
	if q.Unit() == quantity.Millimetre {
		return q.Value()
	}
	return decimal.NewFromInt(-1)
}

func timberKey(p bill.Pieces) string {
	scarf := ""
	if p.Scarf != nil {
		scarf = p.Scarf.Driver
	}
	return strings.ToLower(scarf + "\x00" + p.Species + "\x00" + p.Grade + "\x00" + p.Thickness.String() + "\x00" + p.Siding.String() + "\x00" + p.Planing.String())
}

func compareTimber(a, b *timberNeed) int {
	p, q := a.pieces, b.pieces
	return cmp.Or(cmp.Compare(p.Species, q.Species), cmp.Compare(p.Grade, q.Grade), p.Thickness.Cmp(q.Thickness),
		p.Siding.Cmp(q.Siding), p.Planing.Cmp(q.Planing))
}

// total adds what the lines of a group need, net and gross.
func (g groups) total(lines []int, unit quantity.Unit) (net, gross quantity.Quantity, err error) {
	net, gross = quantity.Zero(unit), quantity.Zero(unit)
	for _, i := range lines {
		if net, err = net.Add(g.needs[i].Net); err != nil {
			return net, gross, &NeedError{g.needs[i].ID, err.Error()}
		}
		if gross, err = gross.Add(g.needs[i].Gross); err != nil {
			return net, gross, &NeedError{g.needs[i].ID, err.Error()}
		}
	}
	return net, gross, nil
}

func (g groups) ids(lines []int) []string {
	out := make([]string, len(lines))
	for k, i := range lines {
		out[k] = g.needs[i].ID
	}
	return out
}
