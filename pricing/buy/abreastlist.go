package buy

import (
	"slices"

	"ribband/pricing/sheet"
	"ribband/takeoff/bill"
	"ribband/takeoff/cutting/flat"

	"github.com/shopspring/decimal"
)

// least is a plank as thin and as narrow as the thinnest and the narrowest.
func (l *abreast) least() bill.Pieces {
	p := l.g.timber[l.of[0]].pieces
	for _, i := range l.lines {
		q := l.g.needs[i].Pieces
		p.Thickness, p.Siding, p.Planing = decimal.Min(p.Thickness, q.Thickness), decimal.Min(p.Siding, q.Siding), decimal.Min(p.Planing, q.Planing)
	}
	return p
}

// stock is the boards thick enough for the thinnest plank, and wide enough for the narrowest.
func (l *abreast) stock(from source, r Rules) ([]board, error) {
	flatly := r
	flatly.Resaw = nil
	all, err := from.boards(l.least(), false, flatly)
	all = slices.DeleteFunc(all, func(b board) bool { return b.offer.RandomWidth() }) // how many lie side by side in those nobody knows
	for _, b := range all {
		if b.offer.Price.IsZero() {
			l.scale += b.avail
		}
	}
	if l.units = l.countedIn(all); from.many() {
		l.units = l.units[:1] // one of many lists that are weighed
	}
	return all, err
}

// two says that some board holds the two narrowest planks side by side, or the two shortest end to end in one strip: of groups that
// boards do not give as many strips of these may be of two. So may layers of one board.
func (l *abreast) two(all []board, from source, r Rules) bool {
	if r.Resaw != nil {
		resawn, err := from.boards(l.least(), false, r)
		if err == nil && slices.ContainsFunc(resawn, func(b board) bool { return b.offer.Way.Layers > 1 }) {
			return true
		}
	}
	var widths, lengths []decimal.Decimal
	for _, i := range l.lines {
		p := l.g.needs[i].Pieces
		length := millimetres(p.Length)
		if p.Scarf != nil { // a part of it may be as short as that
			length = decimal.Min(length, p.Scarf.Least)
		}
		widths, lengths = append(widths, p.Thickness.Add(p.Planing)), append(lengths, length)
	}
	slices.SortFunc(widths, decimal.Decimal.Cmp)
	slices.SortFunc(lengths, decimal.Decimal.Cmp)
	return len(widths) > 1 && slices.ContainsFunc(all, func(b board) bool {
		return !b.width.LessThan(widths[0].Add(widths[1]).Add(r.Kerf)) || !b.length.LessThan(lengths[0].Add(lengths[1]).Add(r.Kerf))
	})
}

// pieces are the planks to be laid, whole, or where the plans made apart make them of two so. Nil of parts where there are none.
func (l *abreast) pieces(timber []Timber, parts bool, unit int64) []flat.Piece {
	size := func(mm decimal.Decimal) int64 { return (nanoUp(mm) + unit - 1) / unit }
	joints := map[string][]Joint{}
	for _, i := range l.of {
		if s := timber[i].Scarfed; s != nil && parts {
			for _, j := range s.Joints {
				joints[j.Line] = append(joints[j.Line], j)
			}
		}
	}
	if parts && len(joints) == 0 {
		return nil
	}
	var out []flat.Piece
	for _, i := range l.lines {
		n := l.g.needs[i]
		qty, _ := n.Gross.Int()
		width, thick := size(n.Pieces.Thickness.Add(n.Pieces.Planing)), nanoUp(n.Pieces.Siding.Add(n.Pieces.Planing))
		for _, j := range joints[n.ID] {
			qty -= j.Count
			for _, part := range []decimal.Decimal{j.First, j.Second} {
				out = append(out, flat.Piece{ID: partID(n.ID, part), Width: width, Length: size(part), Qty: j.Count, Thickness: thick, AlongOnly: true})
			}
		}
		if qty > 0 {
			out = append(out, flat.Piece{ID: n.ID, Width: width, Length: size(millimetres(n.Pieces.Length)), Qty: qty, Thickness: thick, AlongOnly: l.mayScarf(i, timber, l.longest)})
		}
	}
	return merged(out)
}

// partID names a part of a need's pieces.
func partID(line string, part decimal.Decimal) string { return line + ofPart + part.String() }

const ofPart = ", part "

// merged are pieces of one id together: two halves of one length.
func merged(list []flat.Piece) []flat.Piece {
	var out []flat.Piece
	for _, p := range list {
		if i := slices.IndexFunc(out, func(o flat.Piece) bool { return o.ID == p.ID }); i >= 0 {
			out[i].Qty += p.Qty
			continue
		}
		out = append(out, p)
	}
	return out
}

// list counts boards down and pieces up to whole units, so that plans hold.
func (l *abreast) list(all []board, w laying, from source) flat.List {
	out := flat.List{Pieces: w.pieces, Rules: flat.Rules{First: w.first, Stages: 2, Kerf: (nanoUp(l.kerf) + w.unit - 1) / w.unit}}
	rows := from.sheet.Boards(l.g.timber[l.of[0]].pieces.Species, l.g.timber[l.of[0]].pieces.Grade)
	for _, b := range all {
		price, gone := b.offer.Price.Minor(), l.gone[b.offer.ID]
		if b.offer.Rack == nil {
			i := slices.IndexFunc(rows, func(it sheet.Item) bool { return id(from.sheet, it) == b.offer.ID })
			gone = 0
			for _, o := range from.sheet.Breaks(rows[i]) {
				gone += l.gone[id(from.sheet, o)]
			}
			if slices.ContainsFunc(from.sheet.Breaks(rows[i]), func(o sheet.Item) bool { return o.MinQty.LessThan(rows[i].MinQty) }) {
				continue // one board at its price for fewest
			}
		}
		length := nanoDown(b.length)
		if !b.untrimmed {
			length -= 2 * l.trim
		}
		s := flat.Stock{ID: b.offer.ID, Width: nanoDown(b.width) / w.unit, Length: length / w.unit, Price: max(1, price*l.scale), Avail: b.avail, Thickness: nanoDown(b.thickness)}
		if s.Avail >= 0 {
			s.Avail = max(0, s.Avail-gone)
			if s.Avail < b.least-l.gone[b.offer.ID] { // fewer are left than are sold
				s.Avail = 0
			}
		}
		if s.Length > 0 && s.Width > 0 {
			l.boards[b.offer.ID] = b
			l.rows[b.offer.ID] = l.article(b, all, from)
			out.Stock = append(out.Stock, s)
		}
	}
	return out
}

// article are the boards of a row at the price of each quantity.
func (l *abreast) article(of board, all []board, from source) (out []board) {
	if of.offer.Rack != nil {
		return []board{of}
	}
	rows := from.sheet.Boards(l.g.timber[l.of[0]].pieces.Species, l.g.timber[l.of[0]].pieces.Grade)
	i := slices.IndexFunc(rows, func(it sheet.Item) bool { return id(from.sheet, it) == of.offer.ID })
	for _, it := range from.sheet.Breaks(rows[i]) {
		if k := slices.IndexFunc(all, func(b board) bool { return b.offer.ID == id(from.sheet, it) }); k >= 0 {
			out = append(out, all[k])
		}
	}
	return out
}

// elsewhere are the boards that other groups cut.
func elsewhere(timber []Timber, of []int) map[string]int64 {
	out := map[string]int64{}
	for i, t := range timber {
		if slices.Contains(of, i) {
			continue
		}
		for _, b := range t.Boards {
			out[b.Offer] += b.Count
		}
	}
	return out
}
