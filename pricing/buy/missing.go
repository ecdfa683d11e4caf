package buy

import (
	"fmt"
	"slices"
	"strings"

	"ribband/pricing/sawing"
	"ribband/pricing/sheet"
	"ribband/takeoff/bill"

	"github.com/shopspring/decimal"
)

// missing lists what has no price, timber first.
func (g groups) missing(from source, r Rules) ([]sheet.Missing, error) {
	c := from.sheet
	var out []sheet.Missing
	for _, t := range g.timber {
		p := t.pieces
		all, err := from.boards(p, t.flat, r)
		if err != nil {
			return nil, err
		}
		longest := g.longest(t)
		least := longest.Add(r.EndTrim).Add(r.EndTrim)
		if gives(all, longest, r) {
			out = append(out, g.needScarf(t, all, from, r)...)
			continue
		}
		m := sheet.Missing{Kind: sheet.Timber, Item: TimberItem(p.Species, p.Grade), For: g.ids(t.lines)}
		m.Fix = fmt.Sprintf("a board of %s, grade %s, at least %s thick, %s wide and %s long, is needed", p.Species, p.Grade,
			shown(p.Siding.Add(p.Planing)), shown(p.Thickness.Add(p.Planing)), shown(least))
		if t.flat {
			rough := p.Thickness.Add(p.Planing)
			m.Fix += fmt.Sprintf("; or one to lie flat, at least %s thick and no more than %s mm, at least %s wide", shown(rough), sawing.ThickestPlaned(rough).RoundFloor(1), shown(p.Siding.Add(p.Planing)))
		}
		if t.flat && len(all) > 0 { // thick and wide enough, and too short
			m.Fix += "; or laminates made up of shorter lengths, as laminate_joints among the rules says"
		}
		m.Fix += nearestBoard(c.Boards(p.Species, p.Grade), p, least)
		if g.planks(t) {
			if len(all) > 0 { // thick and wide enough, and too short
				m.Fix += "; or the lengths for sale as stock_lengths with how she is planked, for one butt more or a scarf"
			}
		}
		if other := c.Grades(p.Species); len(other) == 0 {
			woods, err := from.otherWoods(t, longest, r)
			if err != nil {
				return nil, err
			}
			m.Fix += woods
		} else if len(c.Boards(p.Species, p.Grade)) == 0 {
			m.Fix += "; the sheet has this species in grade " + strings.Join(other, ", ")
		}
		out = append(out, m)
	}
	for _, p := range g.packs {
		unit := sheet.UnitOf(p.unit)
		rows := c.Item(p.item)
		if slices.ContainsFunc(rows, func(it sheet.Item) bool { _, ok := it.Holds(unit); return ok }) {
			continue
		}
		if spared, err := g.spared(p, from, r); err != nil {
			return nil, err
		} else if spared {
			continue
		}
		m := sheet.Missing{Kind: g.kind(p), Item: p.item, Unit: unit, For: g.ids(p.lines)}
		m.Fix = fmt.Sprintf("a row with item %s, kind %s, in a unit of %s, for example %s, is needed", p.item, m.Kind, unit.Dimension(), unit)
		if len(rows) > 0 {
			m.Fix += fmt.Sprintf("; the sheet has it by the %s, which does not convert", rows[0].Unit.Name()) + withSize(rows[0], unit)
		}
		out = append(out, m)
	}
	return out, nil
}

// spared says that off some suppliers' goods alone an item need not be bought: it is glue of scarfs that the bill counts, and their
// boards give all of those planks whole.
func (g groups) spared(p *packNeed, from source, r Rules) (bool, error) {
	if from.whole == nil {
		return false, nil
	}
	for _, i := range p.lines {
		k := slices.IndexFunc(g.needs, func(n bill.Line) bool {
			return n.Pieces != nil && n.Pieces.Scarf != nil && n.Pieces.Scarf.Glue.Line == g.needs[i].ID
		})
		if k < 0 {
			return false, nil
		}
		all, err := from.boards(*g.needs[k].Pieces, false, r)
		if err != nil || !gives(all, millimetres(g.needs[k].Pieces.Length), r) {
			return false, err
		}
	}
	return true, nil
}

// mostWoods is how many other woods are told.
const mostWoods = 5

// otherWoods says which woods on the sheet have boards that would be large enough, for a species that it does not have.
func (s source) otherWoods(t *timberNeed, longest decimal.Decimal, r Rules) (string, error) {
	var told []string
	for _, it := range s.sheet.Items {
		name := it.Species + ", grade " + it.Grade
		if it.Kind != sheet.Timber || len(told) == mostWoods || slices.Contains(told, name) {
			continue
		}
		p := t.pieces
		p.Species, p.Grade = it.Species, it.Grade
		all, err := s.boards(p, t.flat, r)
		if err != nil {
			return "", err
		}
		if gives(all, longest, r) {
			told = append(told, name)
		}
	}
	if len(told) == 0 {
		return "; the sheet has no wood of this name", nil
	}
	return "; the sheet has no wood of this name, and boards as large of " + strings.Join(told, "; "), nil
}

// withSize says what sizes a row would be laid out by; empty where none would do.
func withSize(it sheet.Item, unit sheet.Unit) string {
	switch d := it.Unit.Dimension(); {
	case unit.Dimension() != sheet.ByArea || d != sheet.ByLength && d != sheet.ByCount:
		return ""
	case d == sheet.ByCount:
		return " without the width and stock_length of one sheet; a pack is then a whole number of them"
	case it.Width.Empty():
		return " without the width of the roll"
	}
	return " where its pack is longer than its stock_length"
}

// longest that boards have to give for a group, mm: its longest piece, half of one with its joint where that may be of two parts.
func (g groups) longest(t *timberNeed) decimal.Decimal {
	most := decimal.Zero
	for _, i := range t.lines {
		p := g.needs[i].Pieces
		long := millimetres(p.Length)
		if s := p.Scarf; s != nil {
			long = decimal.Min(long, decimal.Max(s.Least, long.Add(s.Taper).DivRound(decimal.NewFromInt(2), nanoPlaces)))
		}
		most = decimal.Max(most, long)
	}
	return most
}

// shown is a least size as people are told it: millimetres and inches, each rounded up, so that what is read suffices.
func shown(mm decimal.Decimal) string {
	return mm.RoundCeil(1).String() + " mm (" + mm.DivRound(decimal.RequireFromString("25.4"), 9).RoundCeil(2).String() + " in)"
}

// kind of sheet row that a material is looked for under.
func (g groups) kind(p *packNeed) sheet.Kind {
	switch g.needs[p.lines[0]].Material {
	case bill.Glue:
		return sheet.Glue
	case bill.Metal, bill.Fastenings:
		return sheet.Metal
	}
	return sheet.Consumable
}

// needScarf lists what is missing for pieces that have to be scarfed, because no board gives them whole: rates of the trades that
// make joints, and the glue.
func (g groups) needScarf(t *timberNeed, all []board, from source, r Rules) []sheet.Missing {
	var out []sheet.Missing
	for _, i := range t.lines {
		n := g.needs[i]
		of := n.Pieces.Scarf
		if of == nil || gives(all, millimetres(n.Pieces.Length), r) {
			continue
		}
		_, trades := r.Labour.joint(n, from.sheet)
		for _, trade := range trades {
			out = append(out, sheet.Missing{Kind: sheet.Labour, Item: trade, Unit: "HUR", For: codes(r.Labour.steps(n)),
				Fix: fmt.Sprintf("a row with item %s, kind labour, unit HUR, is needed", trade)})
		}
		if len(from.sheet.Item(of.Glue.Item)) == 0 && !slices.ContainsFunc(g.packs, func(p *packNeed) bool { return same(p.item, of.Glue.Item) }) {
			out = append(out, sheet.Missing{Kind: sheet.Glue, Item: of.Glue.Item, Unit: "LTR", For: []string{n.ID},
				Fix: fmt.Sprintf("a row with item %s, kind glue, in a unit of volume, for example LTR, is needed", of.Glue.Item)})
		}
	}
	return out
}

// gives says that some board gives a piece so long.
func gives(all []board, length decimal.Decimal, r Rules) bool {
	least := length.Add(r.EndTrim).Add(r.EndTrim)
	return slices.ContainsFunc(all, func(b board) bool {
		return !b.length.LessThan(least) || b.untrimmed && !b.length.LessThan(length)
	})
}
