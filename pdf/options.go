package pdf

// sideBySide is the most options that stand beside each other on one sheet;
// more would leave columns too narrow to read, so they stand below each other.
const sideBySide = 3

// options sets what each option does, leaves undone and costs.
func (d *document) options() {
	n := len(d.Options)
	if n > 0 && len(d.sheets) == 1 {
		d.turn() // the cover is a sheet of its own
	}
	switch {
	case n == 0:
	case n == 1:
		d.section("What is done, and what is not", 0, 60*pt)
		d.stacked(0)
	case n <= sideBySide:
		d.section("The options side by side", 0, 80*pt)
		d.beside()
	default:
		d.section("The options", 0, 60*pt)
		for i := range d.Options {
			d.stacked(i)
		}
	}
}

// aspect is one thing said of every option.
type aspect struct {
	label     printable
	style     style
	sentences func(i int) []printable
}

// aspects are what an owner compares, in the order they are set. Prices are in
// the currency named with them.
func (d *document) aspects() []aspect {
	one := func(f func(o Option) printable) func(int) []printable {
		return func(i int) []printable {
			if t := f(d.Options[i]); t != "" {
				return []printable{t}
			}
			return nil
		}
	}
	many := func(f func(o Option) []string) func(int) []printable {
		return func(i int) []printable {
			var out []printable
			for _, s := range f(d.Options[i]) {
				if t := d.clean(s); t != "" {
					out = append(out, t)
				}
			}
			return out
		}
	}
	return []aspect{
		{"Price, " + d.taxWords(), textBold, one(func(o Option) printable { return d.money(o.Gross) })},
		{"Price before tax", text, one(func(o Option) printable { return d.money(o.Net) })},
		{"Likely range", text, one(d.rangeWords)},
		{"Time", text, one(func(o Option) printable { return d.line(o.TimeText) })},
		{d.timberWords(), text, one(func(o Option) printable {
			if w := d.line(grouped(o.WeightKg)); w != "" {
				return w + "\u00a0kg"
			}
			return ""
		})},
		{"What is done", text, many(func(o Option) []string { return o.InPlainWords })},
		{"What stays undone", text, many(func(o Option) []string { return o.Undone })},
	}
}

// timberWords name the weight of new timber: planks are not glued up.
func (d *document) timberWords() printable {
	for _, o := range d.Options {
		if o.Planks {
			return "New timber"
		}
	}
	return "New timber as glued up"
}

// beside sets two or three options in columns.
func (d *document) beside() {
	n := length(len(d.Options))
	const between = 16 * pt
	w := (d.right - d.body - (n-1)*between) / n
	t := table{}
	var names []cell
	for i := range d.Options {
		t.columns = append(t.columns, column{x: d.body + length(i)*(w+between), w: w})
		names = append(names, cell{lines: d.wrap(d.optionName(i), textAccent, w), style: textAccent})
	}
	first := row{cells: names, before: 6 * pt, after: 8 * pt}
	if first.count() <= wholeLines {
		t.head = []row{first}
	} else {
		t.rows = []row{first}
	}
	for _, a := range d.aspects() {
		t.rows = append(t.rows, d.compared(a, w)...)
	}
	if rows := d.stepRows(w); len(rows) > 0 {
		caption := row{above: full, group: true, before: 6 * pt, after: 4 * pt, label: d.labelled("Each step, before tax"), cells: make([]cell, n)}
		t.rows = append(t.rows, caption)
		for i := range rows {
			rows[i].keep = true
		}
		t.rows = append(t.rows, rows...)
	}
	d.table(t)
}

// compared is one aspect of all options as one row, a blank line between
// sentences, so that no column waits for another.
func (d *document) compared(a aspect, w length) []row {
	r := row{}
	empty := true
	for i := range d.Options {
		one := cell{style: a.style, lines: []printable{"–"}}
		if said := a.sentences(i); len(said) > 0 {
			one.lines = nil
			for k, s := range said {
				if k > 0 {
					one.lines = append(one.lines, "")
				}
				one.lines = append(one.lines, d.wrap(s, a.style, w)...)
			}
			empty = false
		}
		r.cells = append(r.cells, one)
	}
	if empty {
		return nil
	}
	return d.group(a.label, []row{r})
}

// stepRows set what each step comes to in each option, the steps in the order in
// which the options name them.
func (d *document) stepRows(w length) []row {
	var titles []printable
	sums := map[printable][]printable{}
	widest := length(0)
	for i, o := range d.Options {
		widest = max(widest, d.width(d.money(o.Gross), textBold))
		for _, step := range o.Steps {
			title := d.line(step.Title)
			if sums[title] == nil {
				titles = append(titles, title)
				sums[title] = make([]printable, len(d.Options))
			}
			if sums[title][i] != "" {
				return nil // two steps of one name cannot be told apart here
			}
			sums[title][i] = d.money(step.Subtotal)
			widest = max(widest, d.width(sums[title][i], text))
		}
	}
	var rows []row
	for _, title := range titles {
		r := row{label: d.labelled(title), group: true, plain: true, above: fine, before: 3 * pt, after: 3 * pt}
		for _, sum := range sums[title] {
			if sum == "" {
				sum = "–"
			}
			one := cell{style: text, lines: d.wrap(sum, text, w)}
			if at := widest - d.width(sum, text); at > 0 && widest <= w {
				one.shift = at
			}
			r.cells = append(r.cells, one)
		}
		rows = append(rows, r)
	}
	return rows
}

// group makes rows a group with words in the margin and white after it.
func (d *document) group(label printable, rows []row) []row {
	rows[0].label, rows[0].group = d.labelled(label), true
	rows[0].above, rows[0].before = full, 6*pt
	rows[len(rows)-1].after += 7 * pt
	return rows
}

// stacked sets option i by itself over the width of the body.
func (d *document) stacked(i int) {
	t := table{columns: d.oneColumn()}
	w := d.right - d.body
	if len(d.Options) > 1 {
		t.rows = append(t.rows, row{
			before: 14 * pt, after: 6 * pt, title: d.optionName(i), level: 1,
			cells: []cell{{lines: d.wrap(d.optionName(i), textAccent, w), style: textAccent}},
		})
	}
	for _, a := range d.aspects() {
		var rows []row
		for _, s := range a.sentences(i) {
			if lines := d.wrap(s, a.style, w); len(lines) > 0 {
				rows = append(rows, row{after: 3 * pt, cells: []cell{{lines: lines, style: a.style}}})
			}
		}
		if len(rows) > 0 {
			rows = d.group(a.label, rows)
			rows[0].keep = len(t.rows) == 1 && len(d.Options) > 1
			t.rows = append(t.rows, rows...)
		}
	}
	d.table(t)
}
