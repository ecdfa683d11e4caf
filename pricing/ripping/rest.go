package ripping

import (
	"ribband/pricing/buy"
	"ribband/takeoff/quantity"

	"github.com/shopspring/decimal"
)

// part works out how many layers are sawn off for the strips that are cut, and what stays of the board. Of a board that is not
// resawn the rest of its width stays; of one that is, the layers not sawn off, and the rest of the last one's width.
func (b *Board) part(of buy.Offer, r buy.Rules) {
	b.LayersOff, b.RipFirst, b.Rest = 0, false, []Rest{}
	w, strips := b.Way, int64(0)
	for _, s := range b.Strips {
		if len(s.Pieces) > 0 {
			strips += s.Count
		}
	}
	if w.Layers < 1 || w.Across < 1 {
		return
	}
	length := of.Clear()
	keep := func(count int64, thickness, width decimal.Decimal) {
		b.Rest = append(b.Rest, Rest{count, thickness, width, length, keepsLength(r, length)})
	}
	layers := (strips + w.Across - 1) / w.Across
	saw := r.Resaw.OrNone()
	b.RipFirst = w.Layers > 1 && saw.Height.Sign() > 0 && of.WidthMM.GreaterThan(saw.Height)
	if w.Layers == 1 || b.RipFirst {
		across := (strips + w.Layers - 1) / w.Layers
		if w.Layers > 1 {
			b.LayersOff = w.Layers
		}
		if extra := across*w.Layers - strips; extra > 0 { // ripped and resawn with the others
			thickness, width := w.Strip()
			keep(extra, thickness, width)
		}
		if across < w.Across {
			keep(1, of.ThicknessMM, of.WidthMM.Sub(w.Used(across, r.Kerf)))
		}
		return
	}
	b.LayersOff = layers
	if layers < w.Layers {
		keep(1, of.ThicknessMM.Sub(w.LayerMM.Add(saw.Kerf).Mul(decimal.NewFromInt(layers))), of.WidthMM)
	}
	if last := strips % w.Across; last > 0 {
		keep(1, w.LayerMM, of.WidthMM.Sub(w.Used(last, r.Kerf)))
	}
}

// keeps says whether a left-over is kept; nil where that is not said or nothing is left.
func keeps(r buy.Rules, over quantity.Quantity) *bool {
	return keepsLength(r, millimetres(over))
}

func keepsLength(r buy.Rules, mm decimal.Decimal) *bool {
	if r.LeastShort.Sign() <= 0 || mm.IsZero() {
		return nil
	}
	keep := !mm.LessThan(r.LeastShort)
	return &keep
}

// millimetres of a length that a list tells in metres.
func millimetres(q quantity.Quantity) decimal.Decimal {
	if q.Unit() == quantity.Metre {
		return q.Value().Shift(3)
	}
	return q.Value()
}

// metres is a length cut down to the whole millimetre: what is left over is never told longer than it is.
func metres(mm decimal.Decimal) (quantity.Quantity, error) {
	return quantity.Of(mm.Floor().Shift(-3), quantity.Metre)
}
