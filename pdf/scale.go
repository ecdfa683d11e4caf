package pdf

import (
	"math/big"
	"strings"
)

// span is where an option's likely range and price stand on a scale that begins
// at nought: thousandths of the scale's length. It is a drawing of amounts, not
// a reckoning with them; the figures stand in words beside it.
type span struct{ low, price, high length }

// spans places all options on one scale that ends at the highest amount; ok is
// false when amounts are missing, negative, nought or in several currencies.
func spans(options []Option) (at []span, end Amount, ok bool) {
	var top *big.Rat
	value := func(a Amount) *big.Rat {
		negative, _, _, isDecimal := decimal(a.Text)
		if !isDecimal || negative || len(a.Text) > maxScaleDigits || a.Currency != options[0].Gross.Currency {
			return nil
		}
		v, _ := new(big.Rat).SetString(a.Text)
		return v
	}
	var values [][3]*big.Rat
	for _, o := range options {
		var three [3]*big.Rat
		for i, a := range []Amount{o.RangeLow, o.Gross, o.RangeHigh} {
			v := value(a)
			if v == nil {
				return nil, Amount{}, false
			}
			if top == nil || v.Cmp(top) > 0 {
				top, end = v, a
			}
			three[i] = v
		}
		if three[0].Cmp(three[2]) > 0 {
			return nil, Amount{}, false
		}
		values = append(values, three)
	}
	if top == nil || top.Sign() == 0 {
		return nil, Amount{}, false
	}
	for _, v := range values {
		at = append(at, span{thousandths(v[0], top), thousandths(v[1], top), thousandths(v[2], top)})
	}
	return at, end, true
}

// maxScaleDigits keeps absurd amounts off the scale; sums of money have fewer.
const maxScaleDigits = 30

// thousandths is 1000 v / top, rounded down.
func thousandths(v, top *big.Rat) length {
	q := new(big.Rat).Quo(v, top)
	n := new(big.Int).Mul(q.Num(), big.NewInt(1000))
	return length(n.Quo(n, q.Denom()).Int64())
}

// scaleHeight is the height a scale takes.
const scaleHeight = 16 * pt

// scale draws one option's range like a dimension on a drawing: a thin line from
// nought, a heavy one from low to high between ticks, a tall tick at the price.
func (d *document) scale(s span, top length) {
	at := func(thousandth length) length { return d.body + (d.right-d.body)*thousandth/1000 }
	y := top + scaleHeight/2
	sh := d.sheet()
	line := func(x1, y1, x2, y2, w length, c rgb) {
		sh.strokes = append(sh.strokes, strokeMark{x1, y1, x2, y2, w, c})
	}
	const tick, tall = 3 * pt, 6 * pt
	line(d.body, y, d.right, y, hairline, ink)
	line(d.body, y-tick, d.body, y+tick, hairline, ink)
	line(at(s.low), y, at(s.high), y, 3*pt, ink)
	for _, x := range []length{at(s.low), at(s.high)} {
		line(x, y-tick, x, y+tick, hairline, ink)
	}
	line(at(s.price), y-tall, at(s.price), y+tall, strong*3/2, accent)
}

// scaleWords say how to read the scales.
func (d *document) scaleWords(end Amount) printable {
	which := "The line runs"
	if len(d.Options) > 1 {
		which = "Each line runs"
	}
	return printable(strings.Join([]string{which, "from 0 to", string(d.money(end)) + ";",
		"its heavy part is the likely range, the tall tick the price."}, " "))
}
