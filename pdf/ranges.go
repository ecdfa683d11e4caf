package pdf

// rangeSentence says between which prices the work is likely to end and who says so.
func (d *document) rangeSentence(o Option) printable {
	if o.RangeLow.Text == "" && o.RangeHigh.Text == "" {
		return "No range is stated for this price."
	}
	t := "The bill is likely to end between " + d.money(o.RangeLow) + " and " + d.money(o.RangeHigh)
	if note := d.line(o.RangeNote); note != "" && !d.oneNote() {
		t += ": " + note
	}
	return t + "."
}

// oneNote reports whether the ranges of all options come from the same source,
// which is then said once below them.
func (d *document) oneNote() bool {
	for _, o := range d.Options {
		if o.RangeNote != d.Options[0].RangeNote {
			return false
		}
	}
	return true
}

// rangeLegend says where the ranges come from and how to read the scales.
func (d *document) rangeLegend(end Amount, drawn bool) printable {
	var said printable
	if len(d.Options) > 0 && d.oneNote() {
		if note := d.line(d.Options[0].RangeNote); note != "" {
			said = "The range is " + note + "."
		}
	}
	if drawn {
		said += " " + d.scaleWords(end)
	}
	return said
}

// rangeWords is the range and where it comes from, for a column.
func (d *document) rangeWords(o Option) printable {
	if o.RangeLow.Text == "" && o.RangeHigh.Text == "" {
		return "not stated"
	}
	t := d.money(o.RangeLow) + " to " + d.money(o.RangeHigh) + ", " + d.taxWords()
	if note := d.line(o.RangeNote); note != "" {
		t += ": " + note
	}
	return t
}
