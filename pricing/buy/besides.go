package buy

import (
	"slices"
	"strings"

	"ribband/pricing/money"
	"ribband/takeoff/bill"
	"ribband/takeoff/cutting/flat"

	"github.com/shopspring/decimal"
)

// besides cuts planks of groups that were planned apart side by side, where that costs less. First those are laid together that the same
// boards are thick enough for, then all of a wood: a thin plank may lie beside a thick one in a board that both come out of. What was
// laid in the first turn stands beside the others there as it is. A set that has too many kinds of board or plank stays as it is.
func (g groups) besides(timber []Timber, from source, r Rules) ([]Timber, error) {
	apart := slices.Clone(timber)
	thick := g.sets(timber, func(p bill.Pieces) string {
		return woodKey(p.Species, p.Grade) + "\x00" + p.Planing.String() + "\x00" + from.thickEnough(p)
	})
	woods := g.sets(timber, func(p bill.Pieces) string { return woodKey(p.Species, p.Grade) })
	if from.many() {
		thick = nil
	}
	woods = slices.DeleteFunc(woods, func(of []int) bool {
		return slices.ContainsFunc(thick, func(done []int) bool { return slices.Equal(done, of) })
	})
	for _, of := range append(thick, woods...) {
		if len(of) < 2 {
			continue // every board gives as many strips of all of them: side by side gives no more
		}
		l, ok, err := g.lay(of, apart, timber, from, r)
		if err != nil {
			return nil, err
		}
		switch {
		case !ok:
		case l.taken:
			for _, i := range of {
				timber[i] = Timber{}
			}
			timber[of[0]] = l.out
		default:
			if err := l.tell(timber, from.sheet.Currency); err != nil {
				return nil, err
			}
		}
	}
	return slices.DeleteFunc(timber, func(t Timber) bool { return len(t.Lines) == 0 }), nil
}

// sets are the groups of planks by a key, each set once where two keys give the same.
func (g groups) sets(timber []Timber, key func(bill.Pieces) string) [][]int {
	at := map[string]int{}
	var out [][]int
	for i, t := range g.timber {
		if len(timber[i].Lines) == 0 || !g.planks(t) {
			continue
		}
		k := key(t.pieces)
		if _, ok := at[k]; !ok {
			at[k] = len(out)
			out = append(out, nil)
		}
		out[at[k]] = append(out[at[k]], i)
	}
	return out
}

// tell writes down what laying the planks side by side would come to, on those that lie apart. Where the floor of all of them is below the
// sum of the groups' floors, those that were laid side by side before come down first, and the others by what is left; see lowered.
func (l *abreast) tell(timber []Timber, c money.Currency) (err error) {
	told, laid := l.told, []string(nil)
	told.Lines = nil
	for _, i := range l.of {
		t := &timber[i]
		if !t.CutSideBySide() {
			told.Lines = append(told.Lines, t.Lines...)
			continue
		}
		laid = append(laid, t.Lines...)
		down := min(max(0, told.ApartBound.Minor()-told.Bound.Minor()), t.Bound.Minor())
		if t.Bound, err = money.New(t.Bound.Minor()-down, c); err != nil {
			return err
		}
		*t = t.judged()
		if told.ApartBound, err = money.New(told.ApartBound.Minor()-down, c); err != nil {
			return err
		}
	}
	told.Lines = append(told.Lines, laid...)
	if len(laid) == len(told.Lines) {
		i := l.of[slices.IndexFunc(l.of, func(i int) bool { return len(timber[i].Lines) > 0 })]
		own := *timber[i].SideBySide
		own.OfTheWood = &told
		timber[i].SideBySide = &own
		return nil
	}
	for _, i := range l.of {
		if t := &timber[i]; len(t.Lines) > 0 && !t.CutSideBySide() {
			one := told
			t.SideBySide = &one
			told.Certificate, told.Counted = flat.Certificate{}, nil
		}
	}
	return nil
}

// joined are the groups with some of them in one, at the first's place; the others are left without lines.
func (g groups) joined(of []int) groups {
	g.timber = slices.Clone(g.timber)
	one := *g.timber[of[0]]
	one.lines = slices.Clone(one.lines)
	for _, i := range of[1:] {
		one.pieces = wider(one.pieces, g.timber[i].pieces)
		one.pieces.Planing = decimal.Max(one.pieces.Planing, g.timber[i].pieces.Planing)
		one.lines = append(one.lines, g.timber[i].lines...)
		g.timber[i] = &timberNeed{pieces: g.timber[i].pieces}
	}
	slices.Sort(one.lines)
	g.timber[of[0]] = &one
	return g
}

// thickEnough tells the thicknesses of boards that hold such pieces.
func (s source) thickEnough(p bill.Pieces) string {
	var out []string
	add := func(species, grade string, mm decimal.Decimal) {
		if text := mm.String(); same(species, p.Species) && same(grade, p.Grade) && !mm.LessThan(p.Siding.Add(p.Planing)) && !slices.Contains(out, text) {
			out = append(out, text)
		}
	}
	for _, it := range s.sheet.Boards(p.Species, p.Grade) {
		add(it.Species, it.Grade, it.Thickness.MM())
	}
	for _, b := range s.rack.Boards {
		add(b.Species, b.Grade, b.Thickness.MM())
	}
	slices.Sort(out)
	return strings.Join(out, " ")
}
