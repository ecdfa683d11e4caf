package pdf

// lines sets the lines of every option by step, with subtotals, tax and total.
func (d *document) lines() {
	columns, tails := d.lineColumns()
	for i, o := range d.Options {
		title := "The price line by line"
		if len(d.Options) > 1 {
			title = "Line by line, option " + string(ordinal(i))
		}
		d.section(printable(title), 0, 150*pt)
		s := &schedule{document: d, option: o, columns: columns, tails: tails}
		s.set(d.optionName(i))
	}
}

// schedule is the table of one option's lines.
type schedule struct {
	*document
	option  Option
	columns []column
	tails   tails
}

// tails are the widths behind the decimal mark that the widest number of a
// column needs, so that marks stand below each other.
type tails struct{ quantity, amount length }

// The columns of a schedule.
const (
	inText = iota
	inQuantity
	inUnit
	inAmount
)

// lineColumns shares the body among text, quantity, unit and amount, alike for
// all options so that their tables can be laid beside each other.
func (d *document) lineColumns() ([]column, tails) {
	var t tails
	body := d.right - d.body
	quantity, unit, amount := 40*pt, 24*pt, 60*pt
	number := func(widest, tail *length, s printable, st style) {
		*tail = max(*tail, d.tail(s, st))
		*widest = max(*widest, d.width(s, st))
	}
	for _, o := range d.Options {
		number(&amount, &t.amount, d.figure(o.Net), textBold)
		number(&amount, &t.amount, d.figure(o.Gross), textBold)
		for _, x := range o.Taxes {
			number(&amount, &t.amount, d.figure(x.Amount), text)
		}
		for _, step := range o.Steps {
			number(&amount, &t.amount, d.figure(step.Subtotal), textBold)
			for _, l := range step.Lines {
				number(&amount, &t.amount, d.figure(l.Amount), text)
				number(&quantity, &t.quantity, d.line(grouped(l.Quantity)), text)
				unit = max(unit, d.width(d.line(l.Unit), text))
			}
		}
	}
	// A number's tail may stand under a longer head: both need their room.
	amount = min(amount+t.amount/2, body*34/100)
	quantity = min(quantity+t.quantity/2, body*24/100)
	unit = min(unit, body*16/100)
	const between = 12 * pt
	columns := make([]column, 4)
	columns[inAmount] = column{x: d.right - amount, w: amount, right: true}
	columns[inUnit] = column{x: columns[inAmount].x - between - unit, w: unit}
	columns[inQuantity] = column{x: columns[inUnit].x - between*2/3 - quantity, w: quantity, right: true}
	columns[inText] = column{x: d.body, w: columns[inQuantity].x - between - d.body}
	return columns, t
}

func (s *schedule) set(name printable) {
	t := table{columns: s.columns, head: []row{s.heads()}}
	body := s.right - s.body
	caption := printable("Selling prices before tax")
	if cur := s.line(s.option.Gross.Currency); cur != "" {
		caption += ", in " + cur
	}
	caption += "."
	if len(s.Options) > 1 {
		for _, line := range s.wrapTo(titleLines, name, textAccent, body) {
			s.put(s.body, s.y, line, textAccent)
			s.y += textAccent.lead
		}
		s.y += 2 * pt
	}
	for _, line := range s.wrapTo(titleLines, caption, text, body) {
		s.put(s.body, s.y, line, text)
		s.y += text.lead
	}
	if note := s.line(s.LinesNote); note != "" {
		for _, line := range s.wrap(note, small, body) {
			s.need(small.lead)
			s.put(s.body, s.y, line, small)
			s.y += small.lead
		}
	}
	s.y += 8 * pt
	for _, step := range s.option.Steps {
		t.rows = append(t.rows, s.step(step)...)
	}
	t.rows = append(t.rows, s.totals()...)
	s.table(t)
}

// heads names the columns; it is repeated on every sheet.
func (s *schedule) heads() row {
	r := row{cells: make([]cell, 4), after: 4 * pt}
	r.cells[inText] = cell{lines: []printable{"Item"}, style: small}
	r.cells[inQuantity] = cell{lines: []printable{"Quantity"}, style: small}
	r.cells[inUnit] = cell{lines: []printable{"Unit"}, style: small}
	amount := printable("Amount")
	if cur := s.line(s.option.Gross.Currency); cur != "" {
		amount += ", " + cur
	}
	amount = s.clip(amount, small, s.columns[inAmount].w)
	r.cells[inAmount] = cell{lines: []printable{amount}, style: small}
	return r
}

// number is a cell whose decimal mark stands below that of its column.
func (s *schedule) number(col int, t printable, st style, tail length) cell {
	w := s.columns[col].w
	if s.width(t, st) > w {
		// The longest quantities there are fit in the smaller size, unbroken.
		st.size, st.lead = small.size, small.lead
	}
	c := cell{lines: s.wrap(t, st, w), style: st}
	if inset := tail - s.tail(t, st); len(c.lines) == 1 && inset > 0 && s.width(t, st)+inset <= w {
		c.inset = inset
	}
	return c
}

// step is the rows of one step: its lines, then what they come to.
func (s *schedule) step(step StepLines) []row {
	var rows []row
	title := s.line(step.Title)
	if len(s.wrap(title, labelStyle, marginColumn)) > labelLines {
		// The margin shows the beginning of a long title; all of it stands here.
		rows = append(rows, s.row(title, textBold))
	}
	for _, l := range step.Lines {
		r := s.row(s.clean(l.Text), text)
		r.cells[inQuantity] = s.number(inQuantity, s.line(grouped(l.Quantity)), text, s.tails.quantity)
		r.cells[inUnit] = cell{lines: s.wrap(s.line(l.Unit), text, s.columns[inUnit].w), style: text}
		r.cells[inAmount] = s.number(inAmount, s.figure(l.Amount), text, s.tails.amount)
		rows = append(rows, r)
	}
	sub := s.row("This step", text)
	sub.cells[inAmount] = s.number(inAmount, s.figure(step.Subtotal), textBold, s.tails.amount)
	if len(rows) > 0 {
		sub.above, sub.keep = sum, true
	}
	sub.before, sub.after = 3*pt, 10*pt
	rows = append(rows, sub)
	// A short step stays on one sheet, a longer one begins with two lines at least.
	for i := 1; i < len(rows) && (i == 1 || len(rows) <= wholeLines+1); i++ {
		rows[i].keep = true
	}
	first := &rows[0]
	first.above, first.group, first.before = full, true, 5*pt
	first.label = s.labelled(title)
	first.title, first.level = title, 1
	return rows
}

// row is text in the first column and nothing yet in the others.
func (s *schedule) row(t printable, st style) row {
	r := row{cells: make([]cell, 4), after: 2500}
	r.cells[inText] = cell{lines: s.wrap(t, st, s.columns[inText].w), style: st}
	return r
}

// totals are the price before tax, each tax, and the price; they stay together.
func (s *schedule) totals() []row {
	amount := func(words printable, a Amount, st style) row {
		r := s.row(words, st)
		r.cells[inAmount] = s.number(inAmount, s.figure(a), st, s.tails.amount)
		r.keep, r.before = true, 3*pt
		return r
	}
	net := amount("All steps, before tax", s.option.Net, text)
	net.above, net.group, net.keep = heavy, true, len(s.option.Steps) > 0
	net.before = 6 * pt
	rows := []row{net}
	for _, x := range s.option.Taxes {
		rows = append(rows, amount(s.taxLine(x), x.Amount, text))
	}
	words := printable("Price, no tax added")
	if len(s.option.Taxes) > 0 {
		words = "Price, tax included"
	}
	if cur := s.line(s.option.Gross.Currency); cur != "" {
		words += ", " + cur
	}
	gross := amount(words, s.option.Gross, textBold)
	gross.above, gross.before, gross.after = heavy, 6*pt, 6*pt
	rows = append(rows, gross)
	return rows
}

// taxLine names a tax with its rate and what it is charged on.
func (s *schedule) taxLine(x Tax) printable {
	t := s.line(x.Category)
	if t == "" {
		t = "Tax"
	}
	if rate := s.line(grouped(x.Rate)); rate != "" {
		t += ", " + rate + "\u00a0%"
	}
	if x.Taxable.Text != "" {
		t += " of " + s.figure(x.Taxable)
	}
	return t
}
