package drawing_test

import (
	"ribband/takeoff/drawing"
	"ribband/takeoff/notation"
)

// cutSheets is two sheets and a length off a roll, made up: pieces along and across the grain, one of them two laid into each
// other, and edges that are trimmed.
func cutSheets(width float64) drawing.CutSheets {
	return drawing.CutSheets{
		Sheet: drawing.Sheet{Boat: "A list", Width: width}, Notation: notation.FeetInchesEighths, Stuff: "pattern ply", Kerf: 3.175,
		Layouts: []drawing.CutSheet{
			{Name: "ply 4-0-0 x 8-0-0, sheets 1 and 2", Size: "4-0-0 wide, 8-0-0 long", Width: 1219.2, Length: 2438.4, Trim: 6, Pieces: []drawing.CutRectangle{
				{Number: 1, Label: "frame 21, both sides, laid into each other", X: 6, Y: 6, Width: 541, Length: 1943, Paired: true},
				{Number: 2, Label: "frame 12 port", X: 550, Y: 6, Width: 403, Length: 1817},
				{Number: 5, Label: "frame 20, both sides", X: 957, Y: 6, Width: 250, Length: 1200, Paired: true, Within: twoBands(1200, 250)},
				{Number: 6, Label: "frame 2, both sides", X: 910, Y: 1953, Width: 300, Length: 450, Turned: true, Paired: true, Within: twoBands(300, 450)},
				{Number: 3, Label: "floor 12", X: 6, Y: 1953, Width: 900, Length: 300, Turned: true},
			}, Steps: []string{"Rip at 1-9-5.", "Crosscut at 6-4-7."}},
			{Name: "cloth", Size: "3-3-3 wide off the roll", Width: 1000, Length: 1500, Rolled: true, Pieces: []drawing.CutRectangle{{Number: 4, Label: "frame 12 port", Width: 150, Length: 1500}}},
		},
	}
}

// twoBands are a wedge and the same turned end for end, in a rectangle of so much length and width.
func twoBands(length, width float64) *drawing.Outlines {
	return &drawing.Outlines{
		{{0, 0}, {length, 0}, {length, width / 4}, {0, 0.7 * width}},
		{{length, width}, {0, width}, {0, 0.75 * width}, {length, 0.3 * width}},
	}
}
