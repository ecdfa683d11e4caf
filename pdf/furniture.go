package pdf

import "fmt"

// draftWords stand on every sheet of a draft.
const draftWords = "Draft, not an offer"

// furniture sets what stands outside the running text of every sheet: what the
// document is at the head, and at the foot a panel like the one in the corner of
// a drawing, with number, dates, fingerprint and the sheet's own number.
func (d *document) furniture() {
	n := len(d.sheets)
	for i, s := range d.sheets {
		page := &composer{metrics: d.metrics, paper: d.paper, sheets: []*sheet{s}}
		if d.Draft {
			d.draftStrip(page)
		} else if i > 0 {
			d.pageHead(page)
		}
		d.panel(page, fmt.Sprintf("Page %d of %d", i+1, n))
	}
}

// draftStrip says on a tinted strip, framed so that it shows in black as well,
// that this is no offer.
func (d *document) draftStrip(p *composer) {
	const top, height = edge - 5*pt, 20 * pt
	s := p.sheet()
	s.fills = append(s.fills, fillMark{p.left, top, p.right - p.left, height, tint})
	for _, y := range []length{top, top + height} {
		s.strokes = append(s.strokes, strokeMark{p.left, y, p.right, y, strong, warning})
	}
	p.put(p.left+8*pt, top+(height-textBold.lead)/2, draftWords, warn)
	words := p.clip(d.title(), small, (p.right-p.left)*6/10)
	p.put(p.right-8*pt-p.width(words, small), top+(height-small.lead)/2, words, small)
}

func (d *document) pageHead(p *composer) {
	half := (p.right - p.left - 20*pt) / 2
	p.put(p.left, edge, p.clip(d.title(), smallBold, half), smallBold)
	yard := p.clip(d.line(d.Yard.Name), small, half)
	p.put(p.right-p.width(yard, small), edge, yard, small)
	p.y = edge + small.lead + 4*pt
	p.across(p.left, p.right, hairline, rule)
}

// panel is the framed strip at the foot. Its cells are as wide as what they
// hold; when that is more than there is, they share the width and are cut short.
func (d *document) panel(p *composer, number string) {
	const deep, pad = 20 * pt, 9 * pt
	top := p.tall - 64*pt
	bottom := top + deep
	line := func(x1, y1, x2, y2 length) {
		s := p.sheet()
		s.strokes = append(s.strokes, strokeMark{x1, y1, x2, y2, hairline, ink})
	}
	write := func(x length, t printable, s style) { p.put(x, top+(deep-s.lead)/2, t, s) }

	line(p.left, top, p.right, top)
	line(p.left, bottom, p.right, bottom)
	line(p.left, top, p.left, bottom)
	line(p.right, top, p.right, bottom)
	page := printable(number)
	at := p.right - pad - p.width(page, smallBold)
	write(at, page, smallBold)
	line(at-pad, top, at-pad, bottom)

	cells := d.panelCells()
	room := at - pad - p.left
	var wanted length
	for _, t := range cells {
		wanted += p.width(t, small) + 2*pad
	}
	x := p.left
	for i, t := range cells {
		w := p.width(t, small) + 2*pad
		if wanted > room {
			w = room / length(len(cells))
		}
		write(x+pad, p.clip(t, small, w-2*pad), small)
		x += w
		if i < len(cells)-1 {
			line(x, top, x, bottom)
		}
	}
}

func (d *document) panelCells() []printable {
	if d.Draft {
		return []printable{draftWords, d.line(d.Boat.Name)}
	}
	cells := []printable{d.reference(), d.line(d.Boat.Name)}
	if cells[1] == "" {
		cells = cells[:1]
	}
	if t := d.line(d.IssuedDate); t != "" {
		cells = append(cells, "issued "+t)
	}
	if t := d.line(d.HashText); t != "" {
		cells = append(cells, "fingerprint "+t)
	}
	return cells
}
