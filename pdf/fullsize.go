package pdf

import (
	"fmt"
	"math"
	"time"

	"ribband/takeoff/mould"
)

// SheetSize is the paper of a full-size drawing.
type SheetSize string

// The papers of ISO 216 that yards print on.
const (
	SheetA4 SheetSize = "a4"
	SheetA3 SheetSize = "a3"
)

// sheetSizes are the short and the long side, mm.
var sheetSizes = map[SheetSize][2]float64{SheetA4: {210, 297}, SheetA3: {297, 420}}

// FullSize is one frame to be printed in true size on as many sheets as it needs.
type FullSize struct {
	Boat, Date, Revision, Note string
	Mould                      mould.Mould
	// Paper is A4 unless it is A3. Whether it lies upright or across is chosen so that the fewest sheets are needed.
	Paper SheetSize
	// CreatedAt is the file's own date.
	CreatedAt time.Time
	// form is there where it is the form of a frame: its base line stands for the baseline, its line for the faying face.
	form *FullSizeForm
}

// WriteFullSize lays the frame out and returns it as a PDF file: first a sheet with the plan of all sheets, a square to
// measure and what to heed, then sheets that overlap, with crosses at the same places on neighbouring ones. Lengths on paper
// are true to two hundredths of a point, 0.007 mm, as far as the printer keeps to the file. The same FullSize always gives
// the same bytes. A *mould.NoSectionError where there is no shape.
func WriteFullSize(f FullSize) ([]byte, error) { return writeFullSize(f, true) }

func writeFullSize(f FullSize, compress bool) (file []byte, err error) {
	defer func() {
		if fault := recover(); fault != nil {
			file, err = nil, fmt.Errorf("write the PDF of a frame: %v", fault)
		}
	}()
	if len(f.Mould.Faying) < 2 {
		return nil, &mould.NoSectionError{Member: f.Mould.Frame.Member()}
	}
	t := fewest(f)
	p := paper{wide: onPaper(t.wide), tall: onPaper(t.tall)}
	p.left, p.right, p.top, p.bottom = onPaper(firstEdge), p.wide-onPaper(firstEdge), onPaper(firstEdge), p.tall-onPaper(firstEdge)
	p.body = p.left
	d := &fullSize{composer: &composer{paper: p, metrics: newMetrics(blank(p))}, FullSize: f, tiling: t}
	d.first()
	for i := range t.tiles {
		d.tile(i)
	}
	describe(d.doc, properties{title: brief(d.title()), author: "Ribband", subject: brief(d.line(d.seen())), created: f.CreatedAt, compress: compress})
	drawSheets(d.doc, d.sheets)
	return output(d.doc)
}

// fullSize is a frame being laid out.
type fullSize struct {
	*composer
	FullSize
	tiling
}

func (d *fullSize) title() printable {
	if d.form != nil {
		return d.line(d.form.title())
	}
	t := d.line(d.Mould.Name() + ", full size")
	if boat := d.line(d.Boat); boat != "" {
		t += ", of " + boat
	}
	return t
}

// onPaper is so many millimetres on paper. The library writes hundredths of a point, 0.0035 mm.
func onPaper(mm float64) length { return length(math.Round(mm * 72_000 / 25.4)) }

// place on a sheet, mm from its upper left corner.
type spot struct{ x, y float64 }

// stroke draws a straight line on the sheet at hand.
func (d *fullSize) stroke(a, b spot, width length, c rgb) {
	s := d.sheet()
	s.strokes = append(s.strokes, strokeMark{onPaper(a.x), onPaper(a.y), onPaper(b.x), onPaper(b.y), width, c})
}

// words are one line whose baseline starts at a place; anchored by its end where it ends there.
func (d *fullSize) words(at spot, t printable, s style, ends bool) {
	x := onPaper(at.x)
	if ends {
		x -= d.width(t, s)
	}
	sh := d.sheet()
	sh.words = append(sh.words, wordMark{x: x, y: onPaper(at.y), text: t, style: s})
}
