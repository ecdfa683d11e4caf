package pdf

import (
	"bytes"
	"fmt"
	"slices"
	"time"

	"codeberg.org/go-fonts/liberation/liberationsansbold"
	"codeberg.org/go-fonts/liberation/liberationsansregular"
	"github.com/jung-kurt/gofpdf"
)

// properties are what a file says about itself.
type properties struct {
	title, author, subject printable
	// created is also the date of the last change: the file never changes.
	created  time.Time
	compress bool
}

// blank opens a document of the given paper with both faces, and no sheet yet.
func blank(p paper) *gofpdf.Fpdf {
	doc := gofpdf.NewCustom(&gofpdf.InitType{
		OrientationStr: "P",
		UnitStr:        "pt",
		Size:           gofpdf.SizeType{Wd: points(p.wide), Ht: points(p.tall)},
	})
	// Without the order of the catalogue the same document comes out in several
	// ways, since the library walks maps.
	doc.SetCatalogSort(true)
	doc.SetAutoPageBreak(false, 0)
	doc.SetMargins(0, 0, 0)
	doc.SetCellMargin(0)
	// The library pads tables in the very bytes it is given, so two documents
	// written at once must not share them.
	doc.AddUTF8FontFromBytes(family, "", slices.Clone(liberationsansregular.TTF))
	doc.AddUTF8FontFromBytes(family, "B", slices.Clone(liberationsansbold.TTF))
	return doc
}

// describe writes the file's properties.
func describe(doc *gofpdf.Fpdf, props properties) {
	doc.SetCompression(props.compress)
	doc.SetTitle(string(props.title), true)
	doc.SetAuthor(string(props.author), true)
	doc.SetSubject(string(props.subject), true)
	doc.SetCreator("Ribband", true)
	doc.SetProducer("Ribband", true)
	at := fileDate(props.created)
	doc.SetCreationDate(at)
	doc.SetModificationDate(at)
}

// fileDate keeps a date to what the file format can write. The library takes the
// clock for the zero time, and a year beyond four digits would not be a date.
func fileDate(t time.Time) time.Time {
	t = t.UTC()
	if t.Year() < 1 || t.Year() > 9999 || t.IsZero() {
		return time.Unix(0, 0).UTC()
	}
	return t
}

func points(l length) float64 { return float64(l) / 1000 }

// drawSheets draws laid-out sheets.
func drawSheets(doc *gofpdf.Fpdf, sheets []*sheet) {
	for _, s := range sheets {
		doc.AddPage()
		for _, f := range s.fills {
			doc.SetFillColor(f.colour.r, f.colour.g, f.colour.b)
			doc.Rect(points(f.x), points(f.y), points(f.w), points(f.h), "F")
		}
		for _, l := range s.strokes {
			doc.SetDrawColor(l.colour.r, l.colour.g, l.colour.b)
			doc.SetLineWidth(points(l.width))
			doc.Line(points(l.x1), points(l.y1), points(l.x2), points(l.y2))
		}
		for _, w := range s.words {
			doc.SetFont(family, w.weight(), points(w.size))
			doc.SetTextColor(w.colour.r, w.colour.g, w.colour.b)
			doc.Text(points(w.x), points(w.y), string(w.text))
		}
		for _, b := range s.bookmarks {
			doc.Bookmark(string(b.title), b.level, points(b.y))
		}
	}
}

// output closes the document and returns its bytes.
func output(doc *gofpdf.Fpdf) ([]byte, error) {
	var b bytes.Buffer
	if err := doc.Output(&b); err != nil {
		return nil, fmt.Errorf("write the PDF: %w", err)
	}
	return withLanguage(b.Bytes())
}

// language of all documents, and the wish to see the title in the window's head.
const language = "/Lang (en-GB)\n/ViewerPreferences <</DisplayDocTitle true>>\n"

// withLanguage adds the language to the document's catalogue, for which the
// library has no call. The catalogue is the last object of the file, so only the
// place of the table behind it moves.
func withLanguage(file []byte) ([]byte, error) {
	catalogue := []byte("/Type /Catalog\n")
	at := bytes.LastIndex(file, catalogue)
	start := []byte("startxref\n")
	tail := bytes.LastIndex(file, start)
	if at < 0 || tail < at {
		return nil, fmt.Errorf("write the PDF: it has no catalogue")
	}
	var place int
	if _, err := fmt.Sscanf(string(file[tail+len(start):]), "%d", &place); err != nil || place < at {
		return nil, fmt.Errorf("write the PDF: its table of objects is not behind its catalogue")
	}
	at += len(catalogue)
	out := make([]byte, 0, len(file)+len(language)+2)
	out = append(out, file[:at]...)
	out = append(out, language...)
	out = append(out, file[at:tail]...)
	out = append(out, fmt.Sprintf("startxref\n%d\n%%%%EOF\n", place+len(language))...)
	return out, nil
}
