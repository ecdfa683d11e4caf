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

// panel is the strip at the foot. Its cells share the width by what they hold;
// a cell too full is cut short.
func (d *document) panel(p *composer, number string) {
	top := p.tall - 62*pt
	cells := d.panelCells()
	page := printable(number)
	pageWidth := p.width(page, smallBold) + 16*pt
	p.y = top
	p.across(p.left, p.right, hairline, ink)
	const deep = 18 * pt
	bottom := top + deep
	p.put(p.right-p.width(page, smallBold), top+(deep-small.lead)/2+1*pt, page, smallBold)

	width := p.right - p.left - pageWidth
	var wanted length
	for _, t := range cells {
		wanted += p.width(t, small) + 20*pt
	}
	x := p.left
	s := p.sheet()
	for i, t := range cells {
		w := p.width(t, small) + 20*pt
		if wanted > width {
			w = width / length(len(cells))
		}
		inset := length(0)
		if i > 0 {
			inset = 10 * pt
			s.strokes = append(s.strokes, strokeMark{x, top + 4*pt, x, bottom - 2*pt, hairline, ink})
		}
		p.put(x+inset, top+(deep-small.lead)/2+1*pt, p.clip(t, small, w-10*pt-inset), small)
		x += w
	}
}

func (d *document) panelCells() []printable {
	if d.Draft {
		return []printable{draftWords, d.line(d.Boat.Name)}
	}
	cells := []printable{d.reference()}
	if t := d.line(d.IssuedDate); t != "" {
		cells = append(cells, "issued "+t)
	}
	if t := d.line(d.HashText); t != "" {
		cells = append(cells, "fingerprint "+t)
	}
	return cells
}
