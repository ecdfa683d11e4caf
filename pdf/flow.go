package pdf

// composer lays a document out on sheets, top to bottom.
type composer struct {
	cleaner
	*metrics
	paper
	sheets []*sheet
	// y is the top of what comes next.
	y length
	// begin is called on each fresh sheet to repeat what must be repeated.
	begin func()
}

// sheet returns the sheet being filled.
func (c *composer) sheet() *sheet { return c.sheets[len(c.sheets)-1] }

// turn begins a fresh sheet.
func (c *composer) turn() {
	c.sheets = append(c.sheets, &sheet{})
	c.y = c.top
	if c.begin != nil {
		c.begin()
	}
}

// room is the height left on the sheet.
func (c *composer) room() length { return c.bottom - c.y }

// fresh reports whether nothing but repeated heads stands on the sheet.
func (c *composer) fresh() bool { return c.y == c.top }

// need turns the page unless h fits on what is left of it.
func (c *composer) need(h length) {
	if h > c.room() && !c.fresh() {
		c.turn()
	}
}

// gap leaves white; at the head of a sheet it leaves none.
func (c *composer) gap(h length) {
	if !c.fresh() {
		c.y = min(c.y+h, c.bottom)
	}
}

// put sets one line of text whose line box begins at top.
func (c *composer) put(x, top length, t printable, s style) {
	if t == "" {
		return
	}
	// The baseline stands where the line box leaves equal white above capitals
	// and below; 0.72 is the height of capitals in Liberation Sans.
	y := top + (s.lead+s.size*72/100)/2
	sh := c.sheet()
	sh.words = append(sh.words, wordMark{x: x, y: y, text: t, style: s})
}

// across draws a horizontal line at the present height.
func (c *composer) across(x1, x2, width length, colour rgb) {
	sh := c.sheet()
	sh.strokes = append(sh.strokes, strokeMark{x1: x1, y1: c.y, x2: x2, y2: c.y, width: width, colour: colour})
}

// maxBookmark keeps an entry in the list of contents readable.
const maxBookmark = 80

// mark enters the present place in the list of contents.
func (c *composer) mark(title printable, level int) {
	if runes := []rune(title); len(runes) > maxBookmark {
		title = printable(runes[:maxBookmark-1]) + "…"
	}
	sh := c.sheet()
	sh.bookmarks = append(sh.bookmarks, bookmark{title: title, level: level, y: c.y})
}

// section begins a part of the document. keep is the height of what must stand
// on the same sheet as the title.
func (c *composer) section(title printable, level int, keep length) {
	lines := c.wrapTo(titleLines, title, head, c.right-c.left)
	c.gap(30 * pt)
	c.need(min(length(len(lines))*head.lead+14*pt+keep, c.bottom-c.top))
	c.mark(title, level)
	for _, line := range lines {
		c.need(head.lead)
		c.put(c.left, c.y, line, head)
		c.y += head.lead
	}
	c.y += 8 * pt
}

// paragraph sets text in the body column, with white after it.
func (c *composer) paragraph(t printable, s style, after length) {
	for _, line := range c.wrap(t, s, c.right-c.body) {
		c.need(s.lead)
		c.put(c.body, c.y, line, s)
		c.y += s.lead
	}
	c.gap(after)
}
