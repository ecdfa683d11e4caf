package pdf

// WriteUncompressed is WriteEstimate without compression of the page contents,
// for tests that read them.
func WriteUncompressed(e Estimate) ([]byte, error) { return write(e, false) }

// Clean makes text printable and reports whether anything was replaced.
func Clean(s string) (string, bool) {
	var c cleaner
	t := c.clean(s)
	return string(t), c.replaced
}

// measure is made once: reading the faces takes longer than all its uses.
var measure = newMetrics(blank(paperFor(A4)))

// Wrap breaks text at a width in points, set in the text style.
func Wrap(s string, points int) []string {
	var c cleaner
	var lines []string
	for _, l := range measure.wrap(c.clean(s), text, length(points)*pt) {
		lines = append(lines, string(l))
	}
	return lines
}

// Width is the width of printable text in points, set in the text style.
func Width(s string) float64 {
	return points(measure.width(printable(s), text))
}

// Grouped sets a decimal for print.
func Grouped(s string) string { return grouped(s) }

// Scale places the options on the cover's scale, in thousandths.
func Scale(options []Option) (at [][3]int, ok bool) {
	spans, _, ok := spans(options)
	for _, s := range spans {
		at = append(at, [3]int{int(s.low), int(s.price), int(s.high)})
	}
	return at, ok
}

// WriteFullSizeUncompressed is WriteFullSize without compression of the page
// contents, for tests that read them.
func WriteFullSizeUncompressed(f FullSize) ([]byte, error) { return writeFullSize(f, false) }

// WriteFullSizeFormUncompressed is the same of a form.
func WriteFullSizeFormUncompressed(f FullSizeForm) ([]byte, error) {
	return writeFullSizeForm(f, false)
}
