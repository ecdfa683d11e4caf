package buy

import (
	"fmt"
	"slices"
	"strings"

	"ribband/pricing/sawing"
	"ribband/pricing/sheet"
	"ribband/takeoff/bill"
	"ribband/takeoff/step"

	"github.com/shopspring/decimal"
)

// Planks of one boat are nearly all of different widths, and backing out makes them ask for boards a little thicker or thinner.
// Bought one by one each would have boards of its own, and none would be cut from what another leaves. So those that every board,
// for sale or in hand, gives as many strips of are cut together, as wide and as thick as the widest and the thickest: no board
// then gives fewer of them than of each by itself, and whatever could be bought for them one by one can still be. Groups that are
// left are then laid side by side where that costs less; see besides.

// pool puts planks together.
func (g *groups) pool(from source, r Rules) {
	var out []*timberNeed
	for _, t := range g.timber {
		i := -1
		if g.planks(t) {
			i = slices.IndexFunc(out, func(o *timberNeed) bool { return g.planks(o) && from.alike(o.pieces, t.pieces, r) })
		}
		if i < 0 {
			out = append(out, t)
			continue
		}
		out[i].pieces = wider(out[i].pieces, t.pieces)
		out[i].lines = append(out[i].lines, t.lines...)
	}
	for _, t := range out {
		slices.Sort(t.lines)
	}
	slices.SortFunc(out, compareTimber)
	g.timber = out
}

// planks says that all pieces of a group are planks, or the blocks that back their butts, which come out of what planks leave.
func (g groups) planks(t *timberNeed) bool {
	return !slices.ContainsFunc(t.lines, func(i int) bool { return !ofPlanking(g.needs[i]) })
}

// ofPlanking says that timber is for a plank or a butt block.
func ofPlanking(n bill.Line) bool {
	return n.Driver == string(step.Planks) || n.Driver == string(step.NewButts)
}

func wider(a, b bill.Pieces) bill.Pieces {
	a.Thickness, a.Siding = decimal.Max(a.Thickness, b.Thickness), decimal.Max(a.Siding, b.Siding)
	return a
}

// alike says that every board gives as many strips of both as of the wider of the two.
func (s source) alike(a, b bill.Pieces, r Rules) bool {
	if !same(a.Species, b.Species) || !same(a.Grade, b.Grade) || !a.Planing.Equal(b.Planing) {
		return false
	}
	both := wider(a, b)
	gives := func(thickness, width decimal.Decimal) bool {
		strips := func(p bill.Pieces) int64 { return sawing.Best(thickness, width, p, false, r.Kerf, r.Resaw).Strips() }
		n := strips(both)
		return strips(a) == n && strips(b) == n
	}
	for _, it := range s.sheet.Boards(a.Species, a.Grade) {
		if !gives(it.Thickness.MM(), it.Width.MM()) {
			return false
		}
		all, _ := reckoned(it, both, false, r)
		for _, p := range []bill.Pieces{a, b} { // and those of random width are reckoned as wide
			if one, _ := reckoned(it, p, false, r); !one.Across().Equal(all.Across()) {
				return false
			}
		}
	}
	for _, h := range s.rack.Boards {
		if same(h.Species, a.Species) && same(h.Grade, a.Grade) && !gives(h.Thickness.MM(), h.Width.MM()) {
			return false
		}
	}
	return true
}

// asListed groups the timber as a list has it, which may have put planks together; false where the list is not of these needs.
func (g *groups) asListed(l List) bool {
	at := map[string]int{}
	for i, n := range g.needs {
		if n.Material == bill.Timber {
			at[n.ID] = i
		}
	}
	var out []*timberNeed
	for _, t := range l.Timber {
		of := &timberNeed{pieces: bill.Pieces{Species: t.Species, Grade: t.Grade, Thickness: t.Thickness, Siding: t.Siding, Planing: t.Planing}, flat: true}
		for _, id := range t.Lines {
			i, ok := at[id]
			if !ok {
				return false
			}
			delete(at, id)
			of.lines = append(of.lines, i)
			of.flat = of.flat && g.needs[i].Driver == string(step.Laminates)
		}
		out = append(out, of)
	}
	g.timber = out
	return len(at) == 0
}

// nearestBoard says which of the boards for sale comes nearest to holding a plank as wide, thick and long, and what it lacks; empty
// where none of the wood is for sale.
func nearestBoard(rows []sheet.Item, p bill.Pieces, least decimal.Decimal) string {
	best, lacks := -1, decimal.Zero
	var why string
	for i, it := range rows {
		var short []string
		sum := decimal.Zero
		for _, x := range []struct {
			has, wants decimal.Decimal
			word       string
		}{{it.Thickness.MM(), p.Siding.Add(p.Planing), "thin"}, {it.Width.MM(), p.Thickness.Add(p.Planing), "narrow"}, {it.StockLength.MM(), least, "short"}} {
			if d := x.wants.Sub(x.has); d.IsPositive() {
				sum = sum.Add(d.Div(x.wants))
				short = append(short, shown(d)+" too "+x.word)
			}
		}
		if best < 0 || sum.LessThan(lacks) {
			best, lacks, why = i, sum, strings.Join(short, " and ")
		}
	}
	if best < 0 || why == "" {
		return ""
	}
	it := rows[best]
	return fmt.Sprintf("; the nearest on the sheet, %s thick, %s wide and %s long, is %s", it.Thickness.Text(), it.Width.Text(), it.StockLength.Text(), why)
}
