package glue

import (
	"fmt"
	"strings"

	"ribband/takeoff/quantity"

	"github.com/shopspring/decimal"
)

// TooLong is a blank that one lay-up cannot take.
type TooLong struct {
	Path   string `json:"member"`
	Detail string `json:"detail"`
	Fix    string `json:"fix"`
}

// tooLong says by what it is, and everything that would do, the least first.
func tooLong(t Times, y Layup, r Room, b Blank, l Load) TooLong {
	out := TooLong{Path: b.Path}
	var fixes []string
	if l.Clamps > r.Clamps {
		out.Detail = fmt.Sprintf("takes %d clamps, and the yard has %d", l.Clamps, r.Clamps)
		fixes = append(fixes, fmt.Sprintf("%d clamps more, or a wider pitch", l.Clamps-r.Clamps))
	}
	if l.Hands() > r.Hands {
		needed := up(l.Hands(), y.Hands)
		if out.Detail != "" {
			out.Detail += ", and "
		}
		out.Detail += fmt.Sprintf("takes %d min to spread and close, and there are %d", up(needed, 60), r.Hands/y.Hands/60)
		fixes = append(fixes, slower(t, y, r, b, l, needed)...)
		if n, ok := lifts(y, r, b, l); ok {
			fixes = append(fixes, fmt.Sprintf("gluing it up in %d lifts", n))
		}
	}
	if len(fixes) == 0 {
		fixes = []string{"a shorter blank"}
	}
	out.Fix = strings.Join(fixes, "; or ")
	return out
}

// slower is how more time or more hands are had.
func slower(t Times, y Layup, r Room, b Blank, l Load, needed int64) []string {
	var out []string
	if n := up(l.Hands(), max(1, r.Hands/y.Hands)); r.Hands > 0 {
		out = append(out, fmt.Sprintf("%d hands", n))
	}
	if y.Room(1<<40).Hands < l.Hands() {
		return out // a day is too short for these hands, however slow the glue
	}
	if c, ok := t.Coolest(needed); ok {
		out = append(out, fmt.Sprintf("a %s at %s C", b.place().word(), c))
	}
	hours := decimal.NewFromInt(needed).DivRound(decimal.NewFromFloat(3600*t.stretch(y.ShopC)), 16)
	return append(out, fmt.Sprintf("a slower hardener, one that works %s h at %s C", quantity.SnapDecimal(hours).RoundCeil(2), t.AtC))
}

// lifts is in how few goes of whole glue lines the blank can be built up, closed with all its clamps each time.
func lifts(y Layup, r Room, b Blank, l Load) (int64, bool) {
	if b.Lines < 2 || l.Clamps > r.Clamps || r.Hands <= l.Close {
		return 0, false
	}
	for n := int64(2); n <= b.Lines; n++ {
		part := b
		part.AreaM2 = b.AreaM2.Mul(decimal.NewFromInt(up(b.Lines, n))).DivRound(decimal.NewFromInt(b.Lines), 16)
		if one, err := y.Load(part); err == nil && r.holds(one.Hands(), one.Clamps) {
			return n, true
		}
	}
	return 0, false
}
