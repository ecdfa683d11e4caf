package drawing

import (
	"fmt"
	"math"
	"strconv"

	"ribband/takeoff/draw"
	"ribband/takeoff/notation"
)

// CutSheets is how sheets, wide boards and lengths off a roll are cut into rectangles: each kind of layout with its
// pieces in their places, the grain from left to right.
type CutSheets struct {
	Sheet    Sheet
	Notation notation.Notation
	// Stuff says what is cut: "Pattern ply".
	Stuff string
	// Kerf between pieces, mm.
	Kerf    float64
	Layouts []CutSheet
}

// CutSheet is sheets cut alike.
type CutSheet struct {
	// Name says which of them, Size what is taken from the stack.
	Name, Size string
	// Width across the grain and Length along it, and what is trimmed off its edges, and off its ends too unless it is Rolled; mm.
	Width, Length, Trim float64
	Rolled              bool
	Pieces              []CutRectangle
	// Steps are the cuts in words, in the order they are made.
	Steps []string
}

// CutRectangle is one rectangle in its place, X across the grain from one edge, Y along it from one end, mm. Number is that of
// what Label names, the same wherever it lies.
type CutRectangle struct {
	Number              int
	Label               string
	X, Y, Width, Length float64
	// Turned lies across the grain; of a Paired one two are cut out.
	Turned, Paired bool
	// Within are the two outlines of a Paired one where they are known; otherwise nil.
	Within *Outlines
}

// Outlines of two pieces that are cut out of one rectangle, each point along its length and across it from a corner, mm.
type Outlines [2][][2]float64

// on the sheet, the rectangle Turned by a quarter or not: X across the grain and Y along it from its corner.
func (p CutRectangle) on(q [2]float64) (x, y float64) {
	if p.Turned {
		return q[0], p.Length - q[1]
	}
	return q[1], q[0]
}

// Draw is all layouts on one sheet of paper, all to one scale.
func (c CutSheets) Draw() Drawing {
	k := c.Sheet.look()
	list := &draw.List{Width: k.width, Title: "Cutting plan of " + or(c.Stuff, "sheets") + " for " + or(c.Sheet.Boat, "a list")}
	f := foot{subject: "Layouts of " + or(c.Stuff, "sheets"), units: unitsLine(c.Notation), notation: c.Notation}
	if len(c.Layouts) == 0 {
		return empty(list, c.Sheet, k, f, "Nothing is cut; there is nothing to draw.")
	}
	v := c.view(list, k)
	y := v.margin
	for _, s := range c.Layouts {
		y = v.sheet(s, y)
	}
	f.key, f.notes = v.key(), c.remarks()
	list.Desc = fmt.Sprintf("%s to scale, the grain from left to right, with every piece in its place. Every piece stands in the table of the same name.",
		plural(len(c.Layouts), "layout", "layouts"))
	list.Height = math.Ceil(f.put(list, c.Sheet, k, y+line(k.text)))
	return Drawing{list, c.table(c.Layouts)}
}

// Layout is the i-th layout alone, without foot, for a page that says the rest.
func (c CutSheets) Layout(i int) Drawing {
	k, s := c.Sheet.look(), c.Layouts[i]
	list := &draw.List{Width: k.width, Title: s.Name + ", cut"}
	v := c.view(list, k)
	v.bare = true
	list.Height = math.Ceil(v.sheet(s, 0.4*k.text))
	list.Desc = fmt.Sprintf("%s with %s in their places, to scale, the grain from left to right; the cuts beside it say the same in words.", s.Name, plural(len(s.Pieces), "rectangle", "rectangles"))
	return Drawing{list, c.table([]CutSheet{s})}
}

func (c CutSheets) remarks() []string {
	return []string{
		fmt.Sprintf("%s goes at each cut. Figures in the rectangles are the numbers of the table.", AsRead(c.Notation, c.Kerf)),
		"The grain runs from left to right.", SawCaution,
	}
}

// table lists the rectangles, those alike on one kind of sheet together.
func (c CutSheets) table(of []CutSheet) Table {
	t := Table{
		Caption: "Pieces of every sheet, widths across the grain",
		Head:    []string{"Sheets", "Size", "Number", "For", "How many on each", "Width", "Length", "Lies"},
	}
	for _, s := range of {
		counts, order := map[CutRectangle]int{}, []CutRectangle{}
		for _, p := range s.Pieces {
			p.X, p.Y = 0, 0
			if counts[p]++; counts[p] == 1 {
				order = append(order, p)
			}
		}
		for _, p := range order {
			t.Rows = append(t.Rows, []string{s.Name, s.Size, strconv.Itoa(p.Number), p.Label, strconv.Itoa(counts[p]),
				AsRead(c.Notation, p.Width), AsRead(c.Notation, p.Length), p.lies()})
		}
	}
	return t
}

func (p CutRectangle) lies() string {
	out := "along the grain"
	if p.Turned {
		out = "across the grain"
	}
	if p.Paired {
		out += ", two in it"
	}
	return out
}
