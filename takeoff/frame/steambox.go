package frame

import (
	"fmt"
	"slices"
	"strings"

	"ribband/takeoff/bill"
	"ribband/takeoff/derivation"
	"ribband/takeoff/quantity"

	"github.com/shopspring/decimal"
)

// perLoad is how many of the frame's pieces go into the steam box at once; 0 where the rules do not say how large that is, and where
// they do not go in, which is then a fault.
func (b *blank) perLoad(how steam) int64 {
	box := how.Box
	if box == nil || b.t.Err() != nil {
		return 0
	}
	given := func(symbol string, d decimal.Decimal) derivation.Input {
		return derivation.Given(symbol, "rules/steam/box", d, quantity.Millimetre)
	}
	sided := derivation.Given("S", "frames", b.frame.Siding, quantity.Millimetre)
	if b.shape.Lie != nil {
		sided = b.t.Ref("S", b.path+"/steamed_stock_siding")
	}
	k, _ := b.t.Derive(b.path+"/"+perLoadName, "steam/per_load", []derivation.Input{given("W", box.Width), given("H", box.Height), given("g", box.Apart), sided, b.t.Ref("t", b.path+"/steamed_stock")}).Int()
	long := b.length.Value().Shift(3)
	if k > 0 && !long.GreaterThan(box.Length) {
		return k
	}
	m := b.frame.Member()
	var would []string
	if long.GreaterThan(box.Length) {
		would = append(would, "a box at least "+b.rules.Shown(long.Ceil())+" long inside")
	}
	if k == 0 {
		would = append(would, "a box that holds a piece of this section with "+b.rules.Shown(box.Apart)+" round it", "thinner layers")
	}
	b.faults = append(b.faults, bill.Fault{Code: "steam_box_too_small", Member: &m, Figure: b.path + "/blank_length",
		Detail: fmt.Sprintf("Frame %d %s: a piece %s by %s and %s long does not go into the steam box, %s wide, %s high and %s long inside.", m.No, m.Side,
			b.rules.Shown(b.sided), b.rules.Shown(b.stock), b.rules.Shown(long), b.rules.Shown(box.Width), b.rules.Shown(box.Height), b.rules.Shown(box.Length)),
		Fix: anyOf(append(would, "glue it up of laminates"))})
	return 0
}

// perLoadName is the figure of a frame's pieces in a load.
const perLoadName = "steam_per_load"

// loads puts into the table how many loads of the box are begun for a line's pieces, counting on from the figure before, empty for
// none; the line's own count comes back, and false where the box's size is not known or holds none of them.
func loads(l *bill.Line, before string, t *derivation.Table) (count string, boxed bool) {
	path := strings.TrimSuffix(l.ID, "/steamed_timber")
	if k, ok := t.Find(path + "/" + perLoadName); !ok || k.Value == "0" {
		return before, false
	}
	var earlier []derivation.Input
	if before != "" {
		earlier = []derivation.Input{t.Ref("p", before)}
	}
	count = path + "/steam_boxed"
	t.Derive(count, "steam/boxed", append(slices.Clone(earlier), t.Ref("N", l.GrossFigure)))
	t.Derive(path+"/steam_loads", "steam/loads", append(slices.Clone(earlier), t.Ref("b", count), t.Ref("k", path+"/"+perLoadName)))
	return count, true
}
