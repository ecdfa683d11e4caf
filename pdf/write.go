package pdf

import (
	"fmt"
	"slices"
)

// WriteEstimate lays an estimate out and returns it as a PDF file. The same
// Estimate always gives the same bytes. Any text is accepted: what cannot be
// printed shows as a box, and a note at the end says so. An error means a fault
// in this package or the library under it, never in the estimate.
func WriteEstimate(e Estimate) ([]byte, error) {
	return write(e, true)
}

// write is WriteEstimate with a choice of compression; the library underneath
// reports some faults by panic, which must not pass the border of this package.
func write(e Estimate, compress bool) (file []byte, err error) {
	defer func() {
		if fault := recover(); fault != nil {
			file, err = nil, fmt.Errorf("write the PDF of an estimate: %v", fault)
		}
	}()
	c, props := compose(e)
	props.compress = compress
	describe(c.doc, props)
	drawSheets(c.doc, c.sheets)
	return output(c.doc)
}

// compose lays an estimate out.
func compose(e Estimate) (*composer, properties) {
	p := paperFor(e.PageSize)
	m := newMetrics(blank(p))
	var known []place
	for range maxPasses {
		d := &document{composer: &composer{paper: p, metrics: m}, Estimate: e, known: known}
		d.layOut()
		if found := d.places(); !slices.Equal(found, known) {
			known = found
			continue
		}
		return d.finish()
	}
	// The list of contents pushes its own sections on and back: leave it out.
	d := &document{composer: &composer{paper: p, metrics: m}, Estimate: e}
	d.layOut()
	return d.finish()
}

// maxPasses is how often the layout is tried until the list of contents agrees
// with it: once without, once with; more when the list makes the cover longer.
const maxPasses = 5

// layOut sets all parts in order.
func (d *document) layOut() {
	d.turn()
	d.cover()
	d.options()
	d.lines()
	d.terms()
	d.cautions()
	d.acceptance()
	d.missingLetters()
}

// finish adds what needs the number of sheets, and describes the file.
func (d *document) finish() (*composer, properties) {
	d.furniture()
	return d.composer, properties{
		title:   brief(d.title()),
		author:  brief(d.line(d.Yard.Name)),
		subject: brief(d.subject()),
		created: d.CreatedAt,
	}
}

// document is an estimate being laid out.
type document struct {
	*composer
	Estimate
	// known is where sections stood when the layout was last tried.
	known []place
}

// maxProperty keeps the file's own title and author to what a window can show.
const maxProperty = 120

func brief(t printable) printable {
	if runes := []rune(t); len(runes) > maxProperty {
		return printable(runes[:maxProperty-1]) + "…"
	}
	return t
}

// title is what the document is and for which boat.
func (d *document) title() printable {
	if name := d.line(d.Boat.Name); name != "" {
		return "Estimate for " + name
	}
	return "Estimate"
}

// subject names number and revision, or says that it is a draft.
func (d *document) subject() printable {
	if d.Draft {
		return "Draft, not an offer"
	}
	return d.reference()
}

// reference is the yard's number of the estimate with its revision.
func (d *document) reference() printable {
	t := printable("Estimate")
	if n := d.line(d.Number); n != "" {
		t += " " + n
	}
	if d.Revision > 0 {
		t += printable(fmt.Sprintf(", revision %d", d.Revision))
	}
	return t
}
