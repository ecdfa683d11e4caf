package buy

import "github.com/shopspring/decimal"

// part works out how many layers are sawn off for the strips that are cut, and what stays of the board. Of a board that is not
// resawn the rest of its width stays; of one that is, the layers not sawn off, and the rest of the last one's width.
func (b *RippedBoard) part(of board, r Rules) {
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
	keep := func(count int64, thickness, width decimal.Decimal) {
		b.Rest = append(b.Rest, Rest{count, thickness, width, of.length, r.keepsLength(of.length)})
	}
	layers := (strips + w.Across - 1) / w.Across
	saw := r.Resaw.OrNone()
	b.RipFirst = w.Layers > 1 && saw.Height.Sign() > 0 && of.width.GreaterThan(saw.Height)
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
			keep(1, of.thickness, of.width.Sub(w.Used(across, r.Kerf)))
		}
		return
	}
	b.LayersOff = layers
	if layers < w.Layers {
		keep(1, of.thickness.Sub(w.LayerMM.Add(saw.Kerf).Mul(decimal.NewFromInt(layers))), of.width)
	}
	if last := strips % w.Across; last > 0 {
		keep(1, w.LayerMM, of.width.Sub(w.Used(last, r.Kerf)))
	}
}
