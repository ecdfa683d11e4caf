package pdf

// table is rows in columns in the body of the page, with words in the margin
// that say what a group of rows belongs to.
type table struct {
	columns []column
	head    []row // repeated on every sheet
	rows    []row
}

// column is a place across the page. Numbers stand at its right end.
type column struct {
	x, w  length
	right bool
}

// row is one entry of each column. Rows of up to wholeLines lines stay on one
// sheet, longer ones are split between lines.
type row struct {
	cells []cell
	// above is the line drawn over the row.
	above ruling
	// keep holds the row on the sheet of the row before, as a total needs.
	keep bool
	// label are words in the margin, at most labelLines of them; they begin a
	// group and are repeated, with "continued", on the sheets it goes on to.
	label []printable
	// group begins a group without words when label is empty.
	group bool
	// plain sets the words in the margin in the lighter weight.
	plain bool
	// drawn is called with the row's top when the row has been placed.
	drawn  func(top length)
	before length // white above the text, below the line
	after  length // white below the text
	// title enters the row in the list of contents, at level.
	title printable
	level int
}

// cell is text already broken into lines.
type cell struct {
	lines []printable
	style
	inset length // how far a number's end stands left of the column's end
	shift length // how far text stands right of the column's begin
}

type ruling int

const (
	none  ruling = iota
	fine         // hairline over the body
	full         // hairline from the margin on
	sum          // ink over the last column
	heavy        // ink over the body
)

const (
	wholeLines = 4
	labelLines = 3
	// labelAfter is the white below words in the margin.
	labelAfter = 3 * pt
)

// count is the number of lines in the row's longest cell.
func (r row) count() int {
	n := 0
	for _, c := range r.cells {
		n = max(n, len(c.lines))
	}
	return n
}

// leading is the distance of lines in the row: that of its largest style.
func (r row) leading() length {
	lead := length(0)
	for _, c := range r.cells {
		if len(c.lines) > 0 {
			lead = max(lead, c.lead)
		}
	}
	return lead
}

// biggest is the body size of the row's largest style.
func (r row) biggest() length {
	size := length(0)
	for _, c := range r.cells {
		if len(c.lines) > 0 {
			size = max(size, c.size)
		}
	}
	return size
}

func (r row) height() length {
	return r.before + length(r.count())*r.leading() + r.after
}

// split parts a row behind its first n lines.
func (r row) split(n int) (first, rest row) {
	first, rest = r, r
	first.cells, rest.cells = nil, nil
	for _, c := range r.cells {
		at := min(n, len(c.lines))
		a, b := c, c
		a.lines, b.lines = c.lines[:at], c.lines[at:]
		first.cells, rest.cells = append(first.cells, a), append(rest.cells, b)
	}
	first.after = 0
	rest.above, rest.label, rest.group, rest.title, rest.before, rest.drawn = none, nil, false, "", 0, nil
	return first, rest
}

// labelStyle is how words in the margin are set.
var labelStyle = textBold

// tableRun is a table being laid out.
type tableRun struct {
	*composer
	table
	label []printable // of the group being set
	below length      // where the words in the margin end
}

// table lays a table out from the present height on.
func (c *composer) table(t table) {
	if len(t.rows) == 0 {
		return
	}
	run := &tableRun{composer: c, table: t}
	outer := c.begin
	c.begin = func() {
		if outer != nil {
			outer()
		}
		run.heads()
	}
	first := run.chain(0)
	if r := t.rows[0]; r.count() > wholeLines {
		first = r.before + wholeLines*r.leading() // the rest may follow on the next sheet
	}
	if run.headHeight()+first > c.room() && !c.fresh() {
		c.turn()
	} else {
		run.heads()
	}
	for i := range t.rows {
		run.row(i)
	}
	c.y = max(c.y, run.below)
	c.begin = outer
}

// continuedGap is the white under the line at the head of a sheet that goes on
// with a group.
const continuedGap = 5 * pt

func (t *tableRun) headHeight() length {
	h := continuedGap
	for _, r := range t.head {
		h += r.height()
	}
	return h
}

// heads sets the head rows, and after a turn the words of the group that goes on.
func (t *tableRun) heads() {
	for _, r := range t.head {
		t.draw(r)
	}
	t.below = 0
	if len(t.label) == 0 {
		return
	}
	t.ruling(full)
	t.y += continuedGap
	t.words(t.label, t.y, labelStyle)
	t.put(t.left, t.below-labelAfter, "continued", small)
	t.below += small.lead
}

// words sets words in the margin from top on.
func (t *tableRun) words(lines []printable, top length, s style) {
	for _, line := range lines {
		t.put(t.left, top, line, s)
		top += s.lead
	}
	t.below = top + labelAfter
}

// chain is the height of row i together with the rows that must stay with it.
func (t *tableRun) chain(i int) length {
	r := t.rows[i]
	h := r.height()
	for _, next := range t.rows[i+1:] {
		if !next.keep {
			break
		}
		h += next.height()
	}
	return max(h, r.before+length(len(r.label))*labelStyle.lead+labelAfter)
}

// row places row i, turning or splitting as needed.
func (t *tableRun) row(i int) {
	r := t.rows[i]
	if len(r.label) > 0 || r.group {
		// The words of the group before may reach below its rows.
		t.y = max(t.y, t.below)
		t.label, t.below = nil, 0
	}
	for {
		whole, follow := r.height(), t.chain(i)-t.rows[i].height()
		if whole+follow <= t.room() {
			break
		}
		n := t.fit(r)
		divisible := r.count() > wholeLines && n >= 2
		if !divisible && t.begun() {
			t.turn()
			continue
		}
		if !divisible && whole <= t.room() {
			break // more is to be kept together than a sheet holds: keep what can be
		}
		// When all of it fits but not what follows, two lines go on with that.
		n = max(1, min(n, r.count()-2))
		if n >= r.count() {
			break
		}
		first, rest := r.split(n)
		t.set(first)
		r = rest
		t.turn()
	}
	t.set(r)
}

// begun reports whether rows stand on this sheet already.
func (t *tableRun) begun() bool { return t.y > t.top+t.headHeight() }

// fit is the number of lines of r that the sheet still takes.
func (t *tableRun) fit(r row) int {
	if r.leading() == 0 {
		return 0
	}
	return max(0, int((t.room()-r.before)/r.leading()))
}

// set draws a row with its words in the margin.
func (t *tableRun) set(r row) {
	if r.title != "" {
		t.mark(r.title, r.level)
	}
	if len(r.label) > 0 {
		t.label = r.label
		s := labelStyle
		if r.plain {
			s = text
		}
		t.words(r.label, t.y+r.before, s)
	}
	top := t.y
	t.draw(r)
	if r.drawn != nil {
		r.drawn(top)
	}
}

// draw draws a row's line and cells.
func (t *tableRun) draw(r row) {
	t.ruling(r.above)
	lead, biggest := r.leading(), r.biggest()
	top := t.y + r.before
	for i, c := range r.cells {
		col := t.columns[i]
		for k, line := range c.lines {
			x := col.x + c.shift
			if col.right {
				x = col.x + col.w - c.inset - t.width(line, c.style)
			}
			// Smaller text shares the baseline of the row's largest.
			drop := (lead-c.lead)/2 + (biggest-c.size)*36/100
			t.put(x, top+length(k)*lead+drop, line, c.style)
		}
	}
	t.y += r.height()
}

func (t *tableRun) ruling(k ruling) {
	last := t.columns[len(t.columns)-1]
	switch k {
	case fine:
		t.across(t.body, t.right, hairline, rule)
	case full:
		t.across(t.left, t.right, hairline, rule)
	case sum:
		t.across(last.x, last.x+last.w, hairline, ink)
	case heavy:
		t.across(t.body, t.right, strong, ink)
	}
}
