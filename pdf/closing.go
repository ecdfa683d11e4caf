package pdf

import (
	"strconv"
	"strings"
)

// terms sets the conditions, numbered.
func (d *document) terms() {
	if len(d.Terms) == 0 {
		return
	}
	d.section("Terms", 0, 60*pt)
	const number = 22 * pt
	columns := []column{{x: d.body, w: number}, {x: d.body + number, w: d.right - d.body - number}}
	var rows []row
	for i, t := range d.Terms {
		lines := d.wrap(d.clean(t), text, columns[1].w)
		rows = append(rows, row{after: 5 * pt, cells: []cell{
			{lines: []printable{printable(strconv.Itoa(i + 1))}, style: text},
			{lines: lines, style: text},
		}})
	}
	d.table(table{columns: columns, rows: rows})
}

// cautions sets the warnings at their steps; the deferral ends them.
func (d *document) cautions() {
	if len(d.Cautions) == 0 && d.Deferral == "" {
		return
	}
	d.section("Cautions", 0, 60*pt)
	var rows []row
	for i := 0; i < len(d.Cautions); {
		step := d.Cautions[i].Step
		var said []string
		for ; i < len(d.Cautions) && d.Cautions[i].Step == step; i++ {
			said = append(said, d.Cautions[i].Text)
		}
		rows = append(rows, d.entry(d.line(step), text, said...)...)
	}
	rows = append(rows, d.entry("Who decides", textBold, d.Deferral)...)
	d.table(table{columns: d.oneColumn(), rows: rows})
}

// acceptance sets what the owner agrees to and where both sides sign. A draft
// has nothing to sign.
func (d *document) acceptance() {
	if d.Draft || len(d.Signatures) == 0 {
		return
	}
	const signHeight = 96 * pt
	// What is signed stands on one sheet with what it is signed for, as long as a sheet holds it.
	whole := 150*pt + length(len(d.Options))*(2*text.lead+5*pt) + length(len(d.Signatures))*signHeight
	d.section("Acceptance", 0, whole)
	which := "this estimate"
	if ref := d.reference(); d.width(ref, text) < (d.right-d.body)*6/10 {
		which = "estimate" + strings.TrimPrefix(string(ref), "Estimate")
	}
	said := "I accept " + which + " in the option marked here, on its terms."
	if len(d.Options) <= 1 {
		said = "I accept " + which + " on its terms."
	}
	d.paragraph(printable(said), text, 8*pt)
	if len(d.Options) > 1 {
		for i, o := range d.Options {
			d.choice(d.optionName(i), d.money(o.Gross))
		}
	}
	d.gap(8 * pt)
	d.stopLine()
	for _, place := range d.Signatures {
		d.need(signHeight)
		d.signHere(d.line(place.Role))
	}
	if t := d.line(d.HashText); t != "" {
		d.gap(10 * pt)
		d.paragraph("All figures behind this estimate are kept unchanged under the fingerprint "+brief(t)+".", small, 0)
	}
}

// choice is a box to mark an option with, its name and its price.
func (d *document) choice(name, price printable) {
	const box = 9 * pt
	price = d.clip(price, text, (d.right-d.body)/2)
	w := d.width(price, text)
	nameWidth := d.right - d.body - 20*pt - w - 14*pt
	lines := d.wrapTo(2, name, text, nameWidth)
	d.need(2 * text.lead)
	d.box(d.body, d.y+2*pt, box)
	d.put(d.right-w, d.y, price, text)
	for _, line := range lines {
		d.put(d.body+20*pt, d.y, line, text)
		d.y += text.lead
	}
	d.y += 5 * pt
}

func (d *document) box(x, y, side length) {
	s := d.sheet()
	for _, l := range [][4]length{
		{x, y, x + side, y}, {x, y + side, x + side, y + side},
		{x, y, x, y + side}, {x + side, y, x + side, y + side},
	} {
		s.strokes = append(s.strokes, strokeMark{l[0], l[1], l[2], l[3], hairline, ink})
	}
}

// stopLine is where the owner writes the sum beyond which the yard must ask.
func (d *document) stopLine() {
	words := printable("The yard stops and asks me before the bill passes")
	if len(d.Options) > 0 {
		if cur := d.line(d.Options[0].Gross.Currency); cur != "" {
			words += " " + d.clip(cur, text, 60*pt)
		}
	}
	d.need(text.lead + 24*pt)
	d.y += 8 * pt
	d.put(d.body, d.y, words, text)
	x := d.body + d.width(words, text) + 8*pt
	d.y += text.lead
	d.across(x, d.right, hairline, ink)
	d.y += 16 * pt
}

// signHere is one place to sign: name, date, signature.
func (d *document) signHere(role printable) {
	const line = 28 * pt
	for i, t := range d.labelled(role) {
		d.put(d.left, d.y+line-labelStyle.lead+length(i)*labelStyle.lead, t, labelStyle)
	}
	half := d.body + (d.right-d.body)*62/100
	d.y += line
	d.across(d.body, half-14*pt, hairline, ink)
	d.across(half, d.right, hairline, ink)
	d.put(d.body, d.y+2*pt, "Name", small)
	d.put(half, d.y+2*pt, "Date", small)
	d.y += line + 10*pt
	d.across(d.body, d.right, hairline, ink)
	d.put(d.body, d.y+2*pt, "Signature", small)
	d.y += 24 * pt
}

// missingLetters tells what the box in the text means, when one is there.
func (d *document) missingLetters() {
	if !d.replaced {
		return
	}
	d.gap(16 * pt)
	d.need(3 * small.lead)
	d.paragraph(printable(string(substitute)+" stands for a character that this document's typeface cannot print."), small, 0)
}
