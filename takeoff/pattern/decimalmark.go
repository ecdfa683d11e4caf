package pattern

// plainCommas reports whether a document in millimetres holds a cell whose comma can only be the decimal mark.
func (d *Document) plainCommas() bool {
	found := false
	d.each(func(text *string) { found = found || d.Notation.PlainComma(*text) })
	return found
}

// pointed writes the cells that can be read either way with a decimal point.
func (d *Document) pointed() {
	d.each(func(text *string) { *text = d.Notation.Pointed(*text) })
}

// each visits every length of the document.
func (d *Document) each(visit func(text *string)) {
	visit(&d.Grain)
	for i := range d.Patterns {
		p := &d.Patterns[i]
		visit(&p.Grain)
		for j := range p.Points {
			visit(&p.Points[j].Y)
			visit(&p.Points[j].Z)
		}
	}
}
