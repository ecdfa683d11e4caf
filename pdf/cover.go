package pdf

import "strconv"

// titleLines is the most lines a title takes; what is cut off stands in full in
// the text.
const titleLines = 3

// cover sets the first sheet: who, for whom, which boat, the scope in plain
// sentences, the price with its range, and how long it holds.
func (d *document) cover() {
	if d.Draft {
		d.y += 8 * pt
	} else {
		d.y = edge
	}
	d.letterhead()
	d.y += 44 * pt
	d.mark(d.title(), 0)
	for _, line := range d.wrapTo(titleLines, d.title(), headBold, d.right-d.left) {
		d.need(headBold.lead)
		d.put(d.left, d.y, line, headBold)
		d.y += headBold.lead
	}
	d.y += 12 * pt
	d.table(table{columns: d.oneColumn(), rows: d.coverFacts()})
	d.coverPrices()
	d.table(table{columns: d.oneColumn(), rows: d.coverClose()})
	d.contents()
}

// letterhead sets the yard at the left and the estimate's dates at the right.
func (d *document) letterhead() {
	split := d.left + (d.right-d.left)*55/100
	columns := []column{
		{x: d.left, w: split - d.left - 20*pt},
		{x: split, w: d.right - split},
	}
	name := d.wrapTo(titleLines, d.line(d.Yard.Name), textAccent, columns[0].w)
	var where []printable
	for _, a := range append(append([]string{}, d.Yard.Address...), d.Yard.Contact) {
		where = append(where, d.wrap(d.clean(a), small, columns[0].w)...)
	}
	what := printable("Draft estimate")
	if !d.Draft {
		what = d.reference()
	}
	var when []printable
	if t := d.line(d.IssuedDate); t != "" && !d.Draft {
		when = append(when, d.wrap("Issued "+t, small, columns[1].w)...)
	}
	if t := d.line(d.ValidUntilDate); t != "" && !d.Draft {
		when = append(when, d.wrap("Valid until "+t, small, columns[1].w)...)
	}
	d.table(table{columns: columns, rows: []row{
		{cells: []cell{{lines: name, style: textAccent}, {lines: d.wrapTo(titleLines, what, textBold, columns[1].w), style: textBold}}},
		{cells: []cell{{lines: where, style: small}, {lines: when, style: small}}},
	}})
}

// oneColumn is the body of the page as one column.
func (d *document) oneColumn() []column {
	return []column{{x: d.body, w: d.right - d.body}}
}

// entry is words in the margin with sentences beside them, one row a sentence.
func (d *document) entry(label printable, s style, sentences ...string) []row {
	var rows []row
	for _, t := range sentences {
		lines := d.wrap(d.clean(t), s, d.right-d.body)
		if len(lines) == 0 {
			continue
		}
		r := row{cells: []cell{{lines: lines, style: s}}, after: 3 * pt}
		if len(rows) == 0 {
			r.label = d.labelled(label)
			r.group, r.above, r.before = true, full, 6*pt
		}
		rows = append(rows, r)
	}
	if n := len(rows); n > 0 {
		rows[n-1].after += 7 * pt
	}
	return rows
}

// labelled fits words into the margin; what does not fit is cut short.
func (d *document) labelled(t printable) []printable {
	return d.wrapTo(labelLines, t, labelStyle, marginColumn)
}

func (d *document) coverFacts() []row {
	var rows []row
	boat := d.Boat.Description
	if len(d.wrap(d.title(), headBold, d.right-d.left)) > titleLines {
		boat = d.Boat.Name + "\n" + boat
	}
	rows = append(rows, d.entry("The boat", text, boat)...)
	address := d.Customer.Name
	for _, a := range d.Customer.Address {
		address += "\n" + a
	}
	rows = append(rows, d.entry("Made for", text, address)...)
	rows = append(rows, d.entry("The work", text, d.Intro...)...)
	return rows
}

// coverPrices sets one price a row, each with its range.
func (d *document) coverPrices() {
	if len(d.Options) == 0 {
		d.table(table{columns: d.oneColumn(), rows: d.entry("The price", text, "Nothing has been priced yet.")})
		return
	}
	priceWidth := length(0)
	style := headBold
	for _, o := range d.Options {
		priceWidth = max(priceWidth, d.width(d.money(o.Gross), style))
	}
	if limit := (d.right - d.body) * 6 / 10; priceWidth > limit || len(d.Options) > 4 {
		style, priceWidth = textBold, 0
		for _, o := range d.Options {
			priceWidth = max(priceWidth, d.width(d.money(o.Gross), style))
		}
		priceWidth = min(priceWidth, limit)
	}
	columns := []column{
		{x: d.body, w: d.right - d.body - priceWidth - 14*pt},
		{x: d.right - priceWidth, w: priceWidth, right: true},
	}
	scales, end, drawable := spans(d.Options)
	var rows []row
	for i, o := range d.Options {
		r := row{above: fine, before: 6 * pt, after: 1 * pt, cells: []cell{
			{lines: d.wrapTo(titleLines, d.optionName(i), textBold, columns[0].w), style: textBold},
			{lines: d.wrap(d.money(o.Gross), style, priceWidth), style: style},
		}}
		if i == 0 {
			r.label, r.group, r.above = d.labelled("The price, "+d.taxWords()), true, full
		}
		rows = append(rows, r)
		wide := d.wrap(d.rangeSentence(o), text, d.right-d.body)
		said := row{keep: true, after: 3 * pt, cells: []cell{{lines: wide, style: text}, {}}}
		rows = append(rows, said)
		if drawable {
			rows = append(rows, row{keep: true, before: scaleHeight, after: 6 * pt, cells: []cell{{}, {}},
				drawn: func(top length) { d.scale(scales[i], top) }})
		}
	}
	if legend := d.wrap(d.rangeLegend(end, drawable), small, d.right-d.body); len(legend) > 0 {
		rows = append(rows, row{keep: true, after: 8 * pt, cells: []cell{{lines: legend, style: small}, {}}})
	}
	d.table(table{columns: columns, rows: rows})
}

// optionName is the option's name, with its letter where there are several.
func (d *document) optionName(i int) printable {
	name := d.line(d.Options[i].Name)
	switch {
	case len(d.Options) == 1 && name == "":
		return "The work"
	case len(d.Options) == 1:
		return name
	case name == "":
		return "Option " + ordinal(i)
	}
	return "Option " + ordinal(i) + ": " + name
}

// ordinal is the letter of option i, counted from nought: A to Z, then numbers.
func ordinal(i int) printable {
	if i < 26 {
		return printable(rune('A' + i))
	}
	return printable(strconv.Itoa(i + 1))
}

// taxWords say whether the prices contain tax; an estimate without any tax says
// so, rather than that nothing is included.
func (d *document) taxWords() printable {
	for _, o := range d.Options {
		if len(o.Taxes) > 0 {
			return "tax included"
		}
	}
	return "no tax added"
}

// coverClose says how long the prices hold and what they are.
func (d *document) coverClose() []row {
	var rows []row
	if d.Draft {
		rows = append(rows, d.entry("Validity", text, "This is a draft, not an offer. Scope and prices may still change, and nothing here can be accepted.")...)
	} else if d.ValidUntilDate != "" {
		rows = append(rows, d.entry("Validity", text, "The prices hold until "+d.ValidUntilDate+", for the work described here.")...)
	}
	return append(rows, d.entry("Note", text, d.Yard.Note)...)
}
