package pdf

// length is a distance on paper in thousandths of a point, 1/72000 inch; on a
// page x grows to the right from the left edge, y downwards from the top edge.
type length int

// pt is one point.
const pt length = 1000

// paper is a sheet and its margins. All text stands between left and right,
// the running text between top and bottom.
type paper struct {
	wide, tall               length
	left, right, top, bottom length
	// body is where running text begins; left of it stand the margin words.
	body length
}

const (
	marginLeft   = 54 * pt
	marginRight  = 50 * pt
	marginColumn = 100 * pt // words in the margin, as in a day book
	marginGap    = 16 * pt
	edge         = 34 * pt // head and foot of the page stand this far in
)

func paperFor(size PageSize) paper {
	p := paper{wide: 595280, tall: 841890} // ISO 216 A4
	if size == Letter {
		p.wide, p.tall = 612000, 792000
	}
	p.left, p.right = marginLeft, p.wide-marginRight
	p.top, p.bottom = 72*pt, p.tall-84*pt
	p.body = p.left + marginColumn + marginGap
	return p
}

// sheet is one laid-out page: marks in the order they are drawn.
type sheet struct {
	words     []wordMark
	strokes   []strokeMark
	fills     []fillMark
	bookmarks []bookmark
}

// wordMark is a line of text with its baseline's left end at x, y.
type wordMark struct {
	x, y length
	text printable
	style
}

// strokeMark is a straight line.
type strokeMark struct {
	x1, y1, x2, y2 length
	width          length
	colour         rgb
}

// fillMark is a filled rectangle, drawn before everything else.
type fillMark struct {
	x, y, w, h length
	colour     rgb
}

// bookmark is an entry of the reader's list of contents.
type bookmark struct {
	title printable
	level int
	y     length
}

const (
	hairline = 400 * pt / 1000
	strong   = 1000 * pt / 1000
)
